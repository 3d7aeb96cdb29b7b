// From byte offsets to what a person sees.
#include "grammar/source.hpp"

#include <catch2/catch.hpp>

using namespace levigate;

static Sources one(std::string text) {
    Sources sources;
    sources.add({"a.shade", std::move(text), false});
    return sources;
}

static std::string at(const Sources& sources, std::uint32_t offset) {
    Position position = sources.position({0, offset, offset});
    return std::to_string(position.line) + ":" + std::to_string(position.column);
}

TEST_CASE("a line ends with LF, CR LF or CR alone", "[source]") {
    Sources sources = one("a\nb\r\nc\rd\n");
    CHECK(at(sources, 0) == "1:1");
    CHECK(at(sources, 1) == "1:2");  // the line end still belongs to its line
    CHECK(at(sources, 2) == "2:1");
    CHECK(at(sources, 4) == "2:3");  // between CR and LF
    CHECK(at(sources, 5) == "3:1");
    CHECK(at(sources, 7) == "4:1");
    CHECK(at(sources, 9) == "5:1");
    CHECK(at(sources, 99) == "5:1");
    CHECK(sources.line({0, 2, 3}) == "b");
    CHECK(sources.line({0, 5, 6}) == "c");
    CHECK(sources.line({0, 9, 9}).empty());
    CHECK(sources.line_begin({0, 6, 6}) == 5);
}

TEST_CASE("a column counts code points", "[source]") {
    Sources sources = one("é 👍 x\xFFy");
    CHECK(at(sources, 3) == "1:3");   // é takes two bytes
    CHECK(at(sources, 8) == "1:5");   // the thumb four
    CHECK(at(sources, 10) == "1:7");  // a broken byte counts as one
    CHECK(sources.end_position({0, 3, 7}).column == 4);
    CHECK(sources.text({0, 3, 7}) == "👍");
}

TEST_CASE("a byte-order mark belongs to no line", "[source]") {
    Sources sources = one("\xEF\xBB\xBFshade A\nx");
    CHECK(at(sources, 3) == "1:1");
    CHECK(at(sources, 0) == "1:1");
    CHECK(sources.line({0, 3, 4}) == "shade A");
}

TEST_CASE("a place that is nowhere asks for nothing", "[source]") {
    Sources sources = one("a");
    CHECK(sources.text(Span{}).empty());
    CHECK(sources.line(Span{}).empty());
    CHECK(sources.position(Span{}).line == 1);
    CHECK(sources.text({0, 5, 9}).empty());
}

// East Asian wide letters: UAX #11; pictures, skin tones, joiners and flags: UTS #51.
TEST_CASE("columns of a terminal", "[source][width]") {
    CHECK(display_width("abc") == 3);
    CHECK(display_width("75 °C") == 5);
    CHECK(display_width("e\u0301") == 1);
    CHECK(display_width("紅花") == 4);
    CHECK(display_width("👍") == 2);
    CHECK(display_width("👍🏽") == 2);
    CHECK(display_width("👩‍🔬") == 2);
    CHECK(display_width("🇫🇷") == 2);
    CHECK(display_width("🇫🇷🇩🇪") == 4);
    CHECK(display_width("❤\uFE0F") == 2);
    CHECK(display_width("") == 0);
}

TEST_CASE("nothing of a file steers a terminal", "[source][shown]") {
    CHECK(shown("plain") == "plain");
    CHECK(shown("é 紅 👍") == "é 紅 👍");
    CHECK(shown("a\x1B[31mb") == "a\\u{1B}[31mb");
    CHECK(shown("\x7F") == "\\u{7F}");
    CHECK(shown("\u009B") == "\\u{9B}");
    CHECK(shown("a\tb") == "a b");
    CHECK(shown("a\nb") == "a\\u{A}b");
    CHECK(shown("\u202Ex\u2066\u200F\u061C") == "\\u{202E}x\\u{2066}\\u{200F}\\u{61C}");
    CHECK(shown("\xFFz\xC3") == "\\xFFz\\xC3");
    CHECK(shown("\u200B\u00AD\u2060\u3164") == "\\u{200B}\\u{AD}\\u{2060}\\u{3164}");
    CHECK(shown("\U000E0041") == "\\u{E0041}");  // a letter of a tag, drawn by nobody
    // Joiners and selectors stay where they shape a picture or a script that joins, ...
    for (const char* fine : {"\u2764\uFE0F\u200D\U0001F525", "1\uFE0F\u20E3", "\u0645\u200C\u0647",
                             "\U0001F469\U0001F3FD\u200D\U0001F52C"})
        CHECK(shown(fine) == fine);
    // ... and are written out where they only hide.
    CHECK(shown("mi\u200Dca\uFE0F") == "mi\\u{200D}ca\\u{FE0F}");
    CHECK(shown("\u2764\uFE0F\uFE0E") == "\u2764\uFE0F\\u{FE0E}");
    CHECK(shown(std::string_view("\0", 1)) == "\\u{0}");
    CHECK(shown("\xED\xA0\x80") == "\\xED\\xA0\\x80");  // half a surrogate pair is no letter
}
