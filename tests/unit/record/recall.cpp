// Where a lot went: through bowls, and from record to record. What is due was followed by hand.
#include <catch2/catch.hpp>

#include "interpreter/compile.hpp"
#include "interpreter/record/recall.hpp"

using namespace levigate;
using Strings = std::vector<std::string>;

namespace {

constexpr const char* page = "material base\nmaterial clay\nmaterial mica\nmaterial lake\n"
                             "container tube\n holds 5 g\n"
                             "blend Dust\n 1 part mica\n 1 part lake\n"
                             "blend Fog\n 1 part Dust\n 1 part clay\n"
                             "shade Pear\n 80 % base\n 20 % Fog\n batch full 2 tubes\n"
                             "shade Sloe\n 80 % base\n 20 % Dust\n batch full 2 tubes\n"
                             "shelf\n have 40 g mica, lot L-204\n have 9 g lake, lot L-204\n";

std::string record(const std::string& code, const std::string& shade, const Strings& lines) {
    std::string out = "record 2026-11-25 full of " + shade + "\n  code " + code + "\n";
    for (const std::string& line : lines) out += "  " + line + "\n";
    return out + "  by Ines\n  formula 5f1d07c2a94e63b8\n";
}

struct Found {
    Strings batches, others, shelf;
};

Found find(const std::string& records, const std::string& what) {
    Compiled compiled = compile(memory_world({{"a.shade", page}}), "a.shade");
    REQUIRE_FALSE(any_error(compiled.findings));
    const auto read = read_records(compiled, "records.shade", records);
    REQUIRE_FALSE(any_error(read.findings));
    const Recall recall = levigate::recall(compiled.formulary, read.value, recall_order(what));
    Found out{{}, recall.others, recall.shelf};
    for (const Recalled& one : recall.batches)
        out.batches.push_back(read.value[one.record].code + (one.itself ? " itself" : ""));
    return out;
}

}  // namespace

TEST_CASE("a lot goes through the bowls of a record into its batch", "[recall]") {
    // The mica is in the dust, the dust in the fog, the fog in the shade.
    const std::string text =
        record("1", "Pear",
               {"weighed 1 g mica, lot L-204, in Dust", "weighed 1 g Dust, in Fog",
                "weighed 2 g Fog", "weighed 8 g base, lot B-1"}) +
        record("2", "Sloe", {"weighed 8 g base, lot B-2", "weighed 2 g Dust"});
    CHECK(find(text, "lot L-204").batches == Strings{"1"});
    CHECK(find(text, "lot l-204").batches == Strings{"1"});
    CHECK(find(text, "mica lot L-204").batches == Strings{"1"});
    CHECK(find(text, "clay, lot L-204").batches.empty());
    CHECK(find(text, "lot B-2").batches == Strings{"2"});
    CHECK(find(text, "lot L-205").batches.empty());
    CHECK(find(text, "mica lot L-204").shelf == Strings{"40 g mica, lot L-204"});
    CHECK(find(text, "lot L-204").shelf.size() == 2);
}

TEST_CASE("what was made of it carries it on by its own lot", "[recall]") {
    // Of the dust of record 1, 3 g were kept as W-1; record 2 is of it, and its leftover, called by
    // the batch's number, went into record 3. Record 4 used another dust.
    const std::string text =
        record("1", "Pear",
               {"weighed 4 g mica, lot L-204, in Dust", "weighed 1 g Dust, in Fog",
                "weighed 2 g Fog", "made 3 g Dust, lot W-1"}) +
        record("2", "Sloe", {"weighed 2 g Dust, lot W-1", "weighed 8 g base, lot B-1"}) +
        record("3", "Pear", {"weighed 5 g Sloe, lot 2", "weighed 5 g base"}) +
        record("4", "Sloe", {"weighed 2 g Dust, lot W-2", "weighed 8 g base, lot B-1"});
    const Found found = find(text, "lot L-204");
    CHECK(found.batches == Strings{"1", "2", "3"});
    CHECK(found.others == Strings{"3 g Dust, lot W-1, made on 2026-11-25 (batch 1)"});
    CHECK(find(text, "lot B-1").batches == Strings{"2", "3", "4"});
    CHECK(find(text, "lot W-1").batches == Strings{"2", "3"});
    CHECK(find(text, "2").batches == Strings{"2 itself", "3"});
    CHECK(find(text, "4").batches == Strings{"4 itself"});
    CHECK(find(text, "W-2").batches == Strings{"4"});  // no batch: then it is a lot
    CHECK(find(text, "9").batches.empty());
}

TEST_CASE("a blend that came from elsewhere holds nothing of a bowl beside it", "[recall]") {
    // The dust that was made is W-1; the one that went in is an older one.
    const std::string text =
        record("1", "Sloe",
               {"weighed 4 g mica, lot L-204, in Dust", "weighed 2 g Dust, lot W-0",
                "weighed 8 g base", "made 4 g Dust, lot W-1"});
    const Found found = find(text, "lot L-204");
    CHECK(found.batches.empty());
    CHECK(found.others == Strings{"4 g Dust, lot W-1, made on 2026-11-25 (batch 1)"});
    // Of a blend that no line pours out, all may have gone into the shade.
    const std::string whole = record("1", "Sloe", {"weighed 4 g mica, lot L-204, in Dust"});
    CHECK(find(whole, "lot L-204").batches == Strings{"1"});
}

TEST_CASE("batches that hold each other are followed once", "[recall]") {
    const std::string text =
        record("1", "Sloe", {"weighed 4 g Pear, lot 2", "weighed 4 g base, lot B-1"}) +
        record("2", "Pear", {"weighed 4 g Sloe, lot 1"});
    CHECK(find(text, "lot B-1").batches == Strings{"1", "2"});
    CHECK(find(text, "1").batches == Strings{"1 itself", "2"});
}
