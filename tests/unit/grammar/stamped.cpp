// Records with stamps: whatever lines a merge puts between each other, each record is found whole.
#include <catch2/catch.hpp>

#include <random>
#include <set>

#include "grammar/read.hpp"
#include "grammar/stamped.hpp"

using namespace levigate;
using State = StampedRecord::State;
using Lines = std::vector<std::string>;

namespace {

std::string record(const std::string& lot) {
    return "record 2026-11-25 trial of Pear\n    planned     8.00 g soft base\n"
           "    weighed     8 g soft base, lot " +
           lot + "\n    by          Ines\n    formula     5f1d07c2a94e63b8\n";
}

Lines lines_of(const std::string& text) {
    Lines out;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = text.find('\n', at);
        out.push_back(text.substr(at, end - at + 1));
        at = end + 1;
    }
    return out;
}

std::string text_of(const Lines& lines) {
    std::string out;
    for (const std::string& line : lines) out += line;
    return out;
}

std::vector<State> states(const std::string& text) {
    std::vector<State> out;
    for (const StampedRecord& one : arrange(text, 0).records) out.push_back(one.state);
    return out;
}

/// The first of an empty file, whose six lines are its heading, four more, and its end.
Lines first() { return lines_of(stamped(record("A"), "", "")); }

struct StampedText {
    tree::File file;
    std::vector<std::string> codes;
};
StampedText read_text(const std::string& text) {
    Sources sources;
    Names names;
    auto read =
        levigate::read(sources, sources.add({"records.shade", text, false}), names, Reads::records);
    StampedText out{std::move(read.value), {}};
    for (const Finding& one : read.findings) out.codes.emplace_back(row_of(one.code).name);
    return out;
}

}  // namespace

TEST_CASE("each line of a record has its stamp, and the end its number of lines", "[stamped]") {
    const Lines lines = first();
    REQUIRE(lines.size() == 6);
    const std::string stamp = lines[0].substr(lines[0].find('['), 8);
    CHECK(lines[0] == "record 2026-11-25 trial of Pear " + stamp + "\n");
    for (std::size_t i = 1; i < lines.size(); ++i)
        CHECK(lines[i].starts_with("    " + stamp + " "));
    CHECK(lines[5].find("end         6 lines, ") != std::string::npos);
    CHECK(states(text_of(lines)) == std::vector{State::whole});
}

TEST_CASE("the same batch twice in one file, or on two branches, has two stamps", "[stamped]") {
    std::set<std::string> stamps;
    std::string text = stamped(record("A"), "", "");
    text += "\n" + stamped(record("A"), text, "");
    for (const StampedRecord& one : arrange(text, 0).records) stamps.emplace(one.stamp);
    const std::string other = stamped(record("A"), "", "refs/heads/other");
    stamps.emplace(arrange(other, 0).records.at(0).stamp);
    CHECK(stamps.size() == 3);
}

TEST_CASE("two records in any order of their lines are both whole", "[stamped]") {
    std::mt19937_64 random(20261130);
    for (int round = 0; round < 500; ++round) {
        const Lines one = first(), two = lines_of(stamped(record("B"), "", ""));
        Lines mixed;
        std::size_t i = 0, k = 0;
        while (i < one.size() || k < two.size()) {
            const bool take = k == two.size() || (i < one.size() && random() % 2 == 0);
            mixed.push_back(take ? one[i++] : two[k++]);
            if (random() % 8 == 0) mixed.push_back("\n");
            if (random() % 16 == 0) mixed.push_back("=======\n");
        }
        INFO(text_of(mixed));
        CHECK(states(text_of(mixed)) == std::vector{State::whole, State::whole});
        const StampedText read = read_text(text_of(mixed));
        REQUIRE(read.file.blocks.size() == 2);
        CHECK(read.file.blocks[0].count == 4);
        CHECK(read.file.blocks[1].count == 4);
    }
}

TEST_CASE("what is not as it was written has its state", "[stamped]") {
    const auto without = [](std::size_t line) {
        Lines lines = first();
        lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(line));
        return text_of(lines);
    };
    CHECK(states(without(0)) == std::vector{State::headless});
    for (const std::size_t line : {1u, 2u, 3u, 4u})
        CHECK(states(without(line)) == std::vector{State::cut});
    CHECK(states(without(5)) == std::vector{State::unfinished});
    Lines lines = first();
    std::swap(lines[1], lines[2]);
    CHECK(states(text_of(lines)) == std::vector{State::altered});
    lines = first();
    lines.insert(lines.begin() + 3, "    note        The lot was B.\n");  // by hand, and no stamp
    CHECK(states(text_of(lines)) == std::vector{State::altered});
    CHECK(read_text(text_of(lines)).file.blocks.at(0).count == 5);
    lines = first();
    for (std::size_t i = 0; i < 6; ++i) lines.push_back(first()[i]);
    CHECK(states(text_of(lines)) == std::vector{State::whole, State::repeated});
    // Blanks at the ends, other line ends, and another indentation change nothing.
    for (std::string& line : lines) line = "\t" + line.substr(0, line.size() - 1) + "  \r\n";
    CHECK(states(text_of(lines)) == std::vector{State::whole, State::repeated});
}

TEST_CASE("each record follows those that nothing follows", "[stamped]") {
    const std::string base = stamped(record("A"), "", "");
    const std::string mine = stamped(record("B"), base, ""),
                      theirs = stamped(record("C"), base, "");
    const std::string both = base + "\n" + mine + "\n" + theirs;
    const std::string all = both + "\n" + stamped(record("D"), both, "");
    const RecordLines lines = arrange(all, 0);
    REQUIRE(lines.records.size() == 4);
    const auto& of = lines.records;
    CHECK(of[1].after == std::vector{of[0].stamp});
    CHECK(of[2].after == std::vector{of[0].stamp});
    CHECK(of[3].after == std::vector{of[1].stamp, of[2].stamp});
    CHECK(findings_of(lines).empty());
    // Any that is taken out whole is missed, save the last.
    for (const std::string& one : {base, mine, theirs}) {
        std::string rest = all;
        rest.erase(rest.find(one), one.size());
        const Findings said = findings_of(arrange(rest, 0));
        REQUIRE(said.size() == 1);
        CHECK(said[0].code == Code::record_gone);
        const std::string stamp(arrange(one, 0).records[0].stamp);
        CHECK(findings_of(arrange("# gone " + stamp + ": twice\n" + rest, 0)).empty());
    }
}

TEST_CASE("a line of a later version is skipped in a whole record, and a slip elsewhere",
          "[stamped]") {
    const std::string later =
        stamped(record("A") + "    warmth      34 °C\n    filled      47 ~ tubes\n", "", "");
    const StampedText read = read_text(later);
    CHECK(read.codes == std::vector<std::string>{"record-later", "record-later"});
    REQUIRE(read.file.blocks.size() == 1);
    CHECK(read.file.blocks[0].count == 4);
    std::string changed = later;
    changed.replace(changed.find("8 g soft"), 1, "9");
    const StampedText slip = read_text(changed);
    REQUIRE(slip.codes.size() == 3);
    CHECK(slip.codes[0] == "record-altered");
    CHECK(slip.codes[1] != "record-later");
}
