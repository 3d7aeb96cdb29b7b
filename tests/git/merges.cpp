// Two people edit one file, and real git merges. What must come of it is known from the edits
// themselves: an amount that one of them wrote stands in the merged file.
#include <catch2/catch.hpp>

#include <map>
#include <random>
#include <set>

#include "tests/git/repository.hpp"

using namespace levigate::testing;

namespace {

/// A page whose every line can be edited by itself; lines are known by their number.
struct Page {
    std::vector<std::string> lines;
    std::vector<std::size_t> amounts;  ///< lines that hold an amount, or a batch

    std::string text() const {
        std::string out;
        for (const std::string& line : lines) out += line + '\n';
        return out;
    }
};

const std::vector<std::string> ingredients{"copper mica", "silver mica", "red oxide", "brown oxide",
                                           "kaolin",      "silk",        "clove oil", "starch"};

std::string amount(int permille, const std::string& name) {
    return "    " + std::to_string(permille / 10) + "." + std::to_string(permille % 10) +
           " %       " + name;
}

/// Three shades of eight lines, each of one to twenty permille.
Page make_page(std::mt19937_64& random) {
    Page page;
    page.lines.push_back("material soft base");
    for (const std::string& name : ingredients) page.lines.push_back("material " + name);
    for (const char* shade : {"Quince", "Damson", "Sloe"}) {
        page.lines.insert(page.lines.end(), {"", std::string("shade ") + shade});
        page.lines.push_back("    rest        soft base");
        for (const std::string& name : ingredients) {
            page.amounts.push_back(page.lines.size());
            page.lines.push_back(amount(1 + static_cast<int>(random() % 20), name));
        }
        page.amounts.push_back(page.lines.size());
        page.lines.push_back("    batch       trial  100 g");
    }
    return page;
}

/// Another amount than the line has, never one that the other person writes: theirs are odd.
void edit(Page& page, std::size_t line, std::mt19937_64& random, int whose) {
    const std::string& old = page.lines[line];
    if (old.starts_with("    batch")) {
        page.lines[line] =
            "    batch       trial  " + std::to_string(202 + 2 * (random() % 50) + whose) + " g";
        return;
    }
    page.lines[line] =
        amount(30 + 2 * static_cast<int>(random() % 20) + whose, old.substr(old.rfind('%') + 8));
}

/// "Quince,red oxide" → percent, by the tool's own sheets of one text.
std::map<std::string, std::string> shares(const GitFolder& folder) {
    const Outcome sheets = folder.levigate({"weigh", "page.shade", "--as", "csv"});
    REQUIRE(sheets.status == 0);
    std::map<std::string, std::string> out;
    for (const std::string& row : split_lines(sheets.out)) {
        std::vector<std::string> cells(1);
        for (const char c : row) c == ',' ? void(cells.emplace_back()) : cells.back().push_back(c);
        out[cells[0] + "," + cells[5]] = cells[7];
    }
    return out;
}

struct Merged {
    bool clean = false;
    std::string text;
};

/// The common state is committed as `main`; both edits branch off, and theirs is merged into mine.
Merged merge(const GitFolder& folder, const Page& base, const Page& mine, const Page& theirs) {
    folder.git({"checkout", "-q", "--orphan", "base"}, true);
    folder.write("page.shade", base.text());
    folder.commit("base");
    folder.git({"branch", "-f", "theirs"});
    folder.write("page.shade", mine.text());
    folder.commit("mine");
    folder.git({"checkout", "-q", "theirs"});
    folder.write("page.shade", theirs.text());
    folder.commit("theirs");
    folder.git({"checkout", "-q", "base"});
    const Outcome outcome = folder.git({"merge", "-q", "theirs", "-m", "both"}, true);
    Merged out{outcome.status == 0, folder.read("page.shade")};
    if (!out.clean) folder.git({"merge", "--abort"});
    folder.git({"checkout", "-q", "--detach"});
    folder.git({"branch", "-D", "base", "theirs"});
    return out;
}

bool near_any(std::size_t line, const std::set<std::size_t>& others) {
    for (const std::size_t other : others)
        if (line + 1 >= other && line <= other + 1) return true;
    return false;
}

}  // namespace

TEST_CASE("edits of two people to different lines merge, and mean both") {
    const std::uint64_t seed = std::random_device{}();
    std::mt19937_64 random(seed);
    INFO("seed " << seed);
    GitFolder folder;
    for (int i = 0; i < 200; ++i) {
        const Page base = make_page(random);
        Page mine = base, theirs = base, both = base;
        std::set<std::size_t> my_lines, their_lines;
        for (int k = 0; k < 3; ++k) my_lines.insert(base.amounts[random() % base.amounts.size()]);
        for (int k = 0; k < 3 || their_lines.empty(); ++k) {
            const std::size_t line = base.amounts[random() % base.amounts.size()];
            if (!near_any(line, my_lines)) their_lines.insert(line);
        }
        for (const std::size_t line : my_lines) {
            edit(mine, line, random, 0);
            both.lines[line] = mine.lines[line];
        }
        for (const std::size_t line : their_lines) {
            edit(theirs, line, random, 1);
            both.lines[line] = theirs.lines[line];
        }
        const Merged merged = merge(folder, base, mine, theirs);
        INFO(merged.text);
        REQUIRE(merged.clean);
        // Every tenth is weighed: each edited line's share is what its editor wrote.
        REQUIRE(merged.text == both.text());
        if (i % 10 != 0) continue;
        folder.write("page.shade", merged.text);
        const auto came = shares(folder);
        for (const char* shade : {"Quince", "Damson", "Sloe"}) {
            std::size_t line = 0;
            while (both.lines[line] != std::string("shade ") + shade) ++line;
            for (std::size_t k = 0; k < ingredients.size(); ++k) {
                std::string due = both.lines[line + 2 + k].substr(4);
                due = due.substr(0, due.find(' '));
                if (due.ends_with(".0")) due.resize(due.size() - 2);
                REQUIRE(came.at(std::string(shade) + "," + ingredients[k]) == due);
            }
        }
    }
}

TEST_CASE("edits of one line conflict, and a half-merged file is refused") {
    const std::uint64_t seed = std::random_device{}();
    std::mt19937_64 random(seed);
    INFO("seed " << seed);
    GitFolder folder;
    for (int i = 0; i < 50; ++i) {
        const Page base = make_page(random);
        Page mine = base, theirs = base;
        const std::size_t line = base.amounts[random() % base.amounts.size()];
        edit(mine, line, random, 0);
        edit(theirs, line, random, 1);
        const Merged merged = merge(folder, base, mine, theirs);
        REQUIRE(!merged.clean);
        folder.write("half.shade", merged.text);
        const Outcome check = folder.levigate({"check", "half.shade"});
        INFO(check.err);
        REQUIRE(check.status == 1);
        REQUIRE(check.err.find("text-merge-marker") != std::string::npos);
        std::filesystem::remove(folder.path("half.shade"));
    }
}

TEST_CASE("neighbouring lines conflict by git's own rule, as the reference says") {
    std::mt19937_64 random(1);
    GitFolder folder;
    const Page base = make_page(random);
    for (const std::size_t apart : {1u, 2u}) {
        Page mine = base, theirs = base;
        edit(mine, base.amounts[1], random, 0);
        edit(theirs, base.amounts[1 + apart], random, 1);
        CHECK(merge(folder, base, mine, theirs).clean == (apart == 2));
    }
}
