#include "tests/dilute/made.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>

#include "tests/properties/random.hpp"

namespace levigate::testing {

namespace {

constexpr int strengths[] = {2, 4, 5, 10, 20, 25, 50};

/// Hundredths of a percent as they are written.
std::string percent(int hundredths) {
    return fmt::format("{}.{:02} %", hundredths / 100, hundredths % 100);
}

struct Page {
    Random& random;
    std::string text{};

    void line(const std::string& words) { text += "    " + words + "\n"; }

    /// Lines of a little, and how they are weighed. `oil`: hundredths of a percent of the second
    /// base, which its dilutions must not use up.
    void smalls(int oil) {
        for (const char* name : {"red lake", "blue lake", "vanilla flavour"}) {
            const int size = 5 * random.between(1, 8);
            line(percent(size) + "  " + name);
            if (!random.chance(75)) continue;
            const int strength = strengths[random.between(0, 6)];
            // What a finish adds, and what Damson sets, takes some more.
            constexpr int most_set = 11, added = 300;
            const int base = std::max(size, most_set) * (100 - strength) / strength + added;
            const bool in_oil = base < oil && random.chance(50);
            if (in_oil) oil -= base;
            if (!in_oil && base > 1500) continue;
            line(fmt::format("dilute  {} to {} % in {}", name, strength,
                             in_oil ? "castor oil" : "soft base"));
        }
    }

    void blend() {
        text += "blend tint\n";
        line(fmt::format("{} parts  soft base", random.between(8, 12)));
        line("1 part  red lake");
        if (random.chance(50))
            line(fmt::format("dilute red lake to {} % in soft base", random.between(20, 60)));
    }

    void shades() {
        text += "shade Quince\n";
        line("rest  soft base");
        const int oil = 100 * random.between(5, 15);
        line(percent(oil) + "  castor oil");
        smalls(oil);
        const bool tinted = random.chance(60);
        if (tinted) {
            line(percent(10 * random.between(1, 30)) + "  tint");
            if (random.chance(50)) line("dilute tint to 20 % in soft base");
        }
        line("variants  sheer, plain");
        line("finishes  satin, deep");
        line(fmt::format("batch  trial {} g", random.between(1, 40)));
        line(fmt::format("batch  full {} g, overage 5 %", random.between(100, 3000)));
        text += "shade Damson like Quince\n";
        if (random.chance(30)) line("fresh  dilutions");
        line("set  0.11 %  blue lake");
        if (random.chance(50)) line("dilute  blue lake to 5 % in soft base");
        text += "variant sheer\n";
        line("scale  red lake by 1/2");
        line("swap  blue lake for green lake");
        text += "variant plain\n";
        line("without  vanilla flavour");
        if (random.chance(50)) line("dilute  red lake to 25 % in soft base");
    }

    void balance() {
        constexpr const char* balances[] = {"", "reads 0.01 g", "reads 0.001 g\n    least 0.02 g",
                                            "reads 0.1 g\n    least 0.67 g", "reads 0.02 g"};
        const std::string chosen = balances[random.between(0, 4)];
        if (!chosen.empty()) text += "balance bench\n    " + chosen + "\n";
    }
};

}  // namespace

std::string random_page(std::uint64_t seed) {
    Random random(seed);
    Page page{random};
    for (const char* name : {"soft base", "castor oil", "red lake", "blue lake", "green lake",
                             "vanilla flavour", "wax"})
        page.text += fmt::format("material {}\n", name);
    page.balance();
    page.blend();
    page.shades();
    page.text += "finish satin\n    add 2 % wax\nfinish deep\n    add 0.05 % red lake\n"
                 "    add half as much wax as castor oil\n";
    return page.text;
}

std::string without_dilutions(const std::string& page) {
    std::istringstream lines(page);
    std::string out;
    for (std::string line; std::getline(lines, line);)
        if (line.find("dilut") == std::string::npos) out += line + '\n';
    return out;
}

Compiled compiled(const std::string& page) {
    return compile(memory_world({{"a.shade", page}}), "a.shade");
}

Sheets all_sheets(const Compiled& compiled) {
    Choice choice;
    choice.all = true;
    return expand(compiled.formulary, compiled.names, choice);
}

std::map<std::string, Exact> flattened(const Compiled& compiled, const Sheet& sheet) {
    std::map<std::string, Exact> out;
    for (const Bowl& bowl : sheet.bowls)
        for (const SheetLine& line : bowl.lines)
            if (compiled.formulary.ingredients[line.what].kind == Ingredient::Kind::material)
                out[compiled.formulary.name(line.what)] += in_grams(line.exact);
    return out;
}

}  // namespace levigate::testing
