#include "tests/verbs/pages.hpp"

#include <cctype>
#include <vector>

#include <fmt/format.h>

#include "tests/support/text.hpp"

namespace levigate::testing {
namespace {

using Words = std::vector<std::string>;

std::string material(Random& random, const std::string& name, const std::string& role) {
    std::string out = fmt::format("material {}\n    role        {}\n", name, role);
    static const Words labels{"Mica", "Castor Oil", "Mica 60 %, Silica 40 %", "Mica",
                              "Beeswax 30 % to 40 %, Castor Oil"};
    if (role == "base" && random.chance(70))
        out += "    label       Castor Oil\n";
    else if (random.chance(3))
        out += "    label       Mica 70 %, Silica 40 %\n";
    else if (random.chance(85))
        out += "    label       " + random.pick(labels) + "\n";
    if (role != "base") out += "    contains    aluminium 2 %\n";
    if (random.chance(50))
        out += fmt::format("    price       {} {} per 30 g\n", random.between(1, 30),
                           random.chance(85) ? "USD" : "EUR");
    if (random.chance(90)) out += fmt::format("    density     0.{} g/mL\n", random.between(7, 9));
    return out;
}

/// One line of a shade.
std::string batch(Random& random, int number) {
    static const Words sizes{"6 g",
                             "2 g",
                             "12 small jars",
                             "48 slim tubes, overage 5 %",
                             "20 mL",
                             "3 lip pans",
                             "30 g, holdback 1 g"};
    return fmt::format("    batch       {}  {}\n", number == 0 ? "trial" : "full",
                       random.pick(sizes));
}

std::string shade(Random& random, const std::string& name, const Words& materials) {
    std::string out = fmt::format("shade {}\n", name);
    const bool weights = random.chance(30);
    const std::string& first = materials.front();
    out += weights ? fmt::format("    4.9{} g     {}\n", random.between(0, 9), first)
                   : fmt::format("    rest        {}\n", first);
    for (std::size_t i = 1; i < materials.size(); ++i) {
        if (i > 1 && !random.chance(75)) continue;  // its mica is there for the variant
        out += weights ? fmt::format("    0.{} g     {}\n", random.between(1, 99), materials[i])
                       : fmt::format("    {} %     {}\n", random.between(1, 12), materials[i]);
    }
    static const Words finishes{"satin, matte", "matte", "satin", "velvet"};
    if (random.chance(50)) out += "    finishes    " + random.pick(finishes) + "\n";
    if (random.chance(40)) out += "    variants    sheer\n";
    for (int i = 0; i < random.between(1, 2); ++i) out += batch(random, i);
    static const Words expects{"the lake at most 13 %", "cost under 40 USD",
                               "density at most 1 g/mL",
                               "cost per slim tube under 2 USD"};
    if (random.chance(30)) out += "    expect      " + random.pick(expects) + "\n";
    if (random.chance(20))
        out += "    market      " + std::string(random.chance(50) ? "EU\n" : "US\n");
    return out;
}

}  // namespace

std::string made_page(Random& random) {
    std::string out;
    if (random.chance(30)) out += random.chance(50) ? "market US, EU\n" : "market EU\n";
    out += "use lip materials\n";
    out += material(random, "soft base", "base");
    out += material(random, "fog mica", "mica");
    out += material(random, "plum lake", "lake");
    if (random.chance(60))
        out += "blend Windfall mica\n    3 parts     fog mica\n    1 part      plum lake\n";
    const bool blend = out.find("blend") != std::string::npos;
    Words names{"soft base", "fog mica", "plum lake"};
    if (random.chance(40)) names.push_back("red iron oxide");
    if (blend) names[1] = "Windfall mica";
    if (random.chance(30)) out += "balance bench\n    reads       0.1 g\n";
    if (random.chance(10)) out += "balance pocket\n    reads       0.001 g\n    up to       20 g\n";
    out += shade(random, "Quince", names);
    if (random.chance(50)) out += shade(random, "Damson", names);
    out += "variant sheer\n    scale       the mica by 1/2\n";
    out += "finish velvet\n    add         1/5 × as much fog mica as the base\n";
    if (random.chance(40)) {
        out += "plan Autumn\n    make        trial of Quince\n";
        if (random.chance(50)) out += "    make        12 g of Quince / matte\n";
        if (random.chance(40))
            out += "shelf\n    have        3 g plum lake, lot 7, best before 2027-01\n";
    }
    return out;
}

std::string mutated(std::string page, Random& random) {
    for (int slips = random.between(1, 3); slips > 0; --slips) {
        std::vector<std::string> lines = split_lines(page);
        if (lines.size() < 2) return page;
        const auto any = [&] {
            return static_cast<std::size_t>(random.between(0, static_cast<int>(lines.size()) - 1));
        };
        const std::size_t at = any();
        switch (random.between(0, 4)) {
            case 0: lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(at)); break;
            case 1: {
                const std::string again = lines[any()];
                lines.insert(lines.begin() + static_cast<std::ptrdiff_t>(at), again);
                break;
            }
            case 2: std::swap(lines[at], lines[any()]); break;
            case 3: {
                std::string& line = lines[at];
                const std::size_t digit = line.find_first_of("0123456789");
                if (digit != std::string::npos)
                    line[digit] = static_cast<char>('0' + random.between(0, 9));
                break;
            }
            default: {
                std::string& line = lines[at];
                const std::size_t blank = line.find_last_of(' ');
                const std::string& other = lines[any()];
                const std::size_t end = other.find_last_of(' ');
                if (blank != std::string::npos && end != std::string::npos)
                    line = line.substr(0, blank) + other.substr(end);
            }
        }
        page.clear();
        for (const std::string& line : lines) page += line + "\n";
    }
    return page;
}

}  // namespace levigate::testing
