// Names in letters from right to left, as they are shown and read again.

#include <vector>

#include <catch2/catch.hpp>

#include "grammar/isolates.hpp"
#include "grammar/names.hpp"
#include "grammar/source.hpp"

using namespace levigate;

namespace {

const std::string fsi = "\u2068", pdi = "\u2069";

Isolates known(const std::vector<std::string>& names) {
    Isolates out;
    for (const std::string& name : names) out.add(name);
    return out;
}

std::string dropped(std::string text) {
    drop_isolates(text);
    return text;
}

}  // namespace

// UnicodeData.txt 15.0, field 4: R and AL, and what stands near them and is neither.
TEST_CASE("which letters are written from right to left", "[isolates]") {
    for (const char* text : {"\u05D0", "\u0627", "\u0710", "\u0780", "\u07CA", "\u0800", "\u0840",
                             "\uFB1D", "\uFE8D", "\U00010800", "\U0001E900", "soft \u05D0"}) {
        INFO(text);
        CHECK(right_to_left(text));
    }
    // A vowel sign (NSM), Arabic digits (AN, EN), Latin with an accent, Thai, Han, a picture.
    for (const char* text : {"", "soft base", "\u05B0", "\u0660", "\u06F0", "\u00E9", "\u0E01",
                             "\u7C89", "\U0001F484", "\xD7", "\xFF\xFE"}) {
        INFO(text);
        CHECK_FALSE(right_to_left(text));
    }
}

TEST_CASE("a name is isolated as a whole, and only where it is a word", "[isolates]") {
    const Isolates names = known({"אדום", "אדום 3", "ירוק", "red אדום", "soft base"});
    CHECK(names.in_sentence("12 g אדום 3.") == "12 g " + fsi + "אדום 3" + pdi + ".");
    CHECK(names.in_sentence("אדום 30 g") == fsi + "אדום" + pdi + " 30 g");
    CHECK(names.in_sentence("אדומים and xאדום") == "אדומים and xאדום");
    CHECK(names.in_sentence("`red אדום`") == "`" + fsi + "red אדום" + pdi + "`");
    CHECK(names.in_sentence("אדום / ירוק") == fsi + "אדום" + pdi + " / " + fsi + "ירוק" + pdi);
    CHECK(names.in_sentence("soft base 3 g") == "soft base 3 g");
    CHECK(known({}).in_sentence("אדום 3 g") == "אדום 3 g");  // a maker's own sentence
}

TEST_CASE("a word that is quoted, and a cell, keep to themselves without being known",
          "[isolates]") {
    const Isolates none;
    CHECK(none.in_sentence("Nothing is called `אדום 3`.") ==
          "Nothing is called `" + fsi + "אדום 3" + pdi + "`.");
    CHECK(none.in_sentence("צה\"ל ו\"כו") == "צה\"ל ו\"כו");  // gershayim are no quotes
    CHECK(none.in_cell("note אדום") == fsi + "note אדום" + pdi);
    CHECK(none.in_cell("12.00") == "12.00");
    const Isolates names = known({"אדום"});
    CHECK(names.in_cell("אדום") == fsi + "אדום" + pdi);
    CHECK(names.in_cell("כמה אדום") == fsi + "כמה " + fsi + "אדום" + pdi + pdi);
}

TEST_CASE("isolates are no wider than nothing", "[isolates]") {
    CHECK(display_width(fsi + "אדום" + pdi) == 4);
    CHECK(display_width(fsi + pdi) == 0);
}

TEST_CASE("a pair around a name is dropped as it is read, without moving anything", "[isolates]") {
    const std::string blank = "\u205F";  // three bytes too, and one code point
    CHECK(dropped("8 %  " + fsi + "אדום 3" + pdi) == "8 %  " + blank + "אדום 3" + blank);
    CHECK(dropped("{" + fsi + "red" + pdi + "}") == "{" + blank + "red" + blank + "}");
    CHECK(dropped("\"" + fsi + "4 % א" + pdi + "\"") == "\"" + blank + "4 % א" + blank + "\"");
    CHECK(dropped(fsi + "\"4 % א\"" + pdi) == blank + "\"4 % א\"" + blank);
    CHECK(dropped(fsi + "א 4 %" + pdi) == blank + "א 4 %" + blank);  // as families name members
    for (const std::string& kept : std::vector<std::string>{
             fsi + "אדום", "אדום" + pdi, pdi + "אדום" + fsi, "אד" + fsi + "ום" + pdi,
             fsi + "אד" + pdi + "ום", fsi + "אדום\n" + pdi, fsi + pdi, fsi + "8 %" + pdi,
             fsi + "8 % אדום" + pdi, fsi + fsi + "אדום" + pdi, fsi + "א, ב" + pdi,
             "\u2067אדום" + pdi, "\u202Eאדום\u202C"}) {
        INFO(kept);
        CHECK(dropped(kept).find(kept.find(fsi) == std::string::npos ? kept : fsi) !=
              std::string::npos);
    }
}

TEST_CASE("the file's own bytes are kept beside what is read", "[isolates]") {
    Sources sources;
    const std::string text = "material " + fsi + "אדום" + pdi + "\n";
    const SourceId isolated = sources.add({"a.shade", text, false});
    const SourceId plain = sources.add({"b.shade", "material אדום\n", false});
    CHECK(sources[isolated].bytes() == text);
    CHECK(sources[isolated].text.size() == text.size());
    CHECK(sources[plain].original.empty());
    CHECK(sources[plain].bytes() == "material אדום\n");
}

TEST_CASE("names are known as they were written", "[isolates]") {
    Names names;
    const Sym sym = names.intern("Red   אדום");
    names.intern("soft base");
    CHECK(names.find(fsi + "red אדום" + pdi) == sym);
    CHECK(names.right_to_left().in_sentence("2 g Red אדום") == "2 g " + fsi + "Red אדום" + pdi);
    CHECK(tidy_name(fsi + "אדום" + pdi + " " + fsi + "ירוק" + pdi) == "אדום ירוק");
}
