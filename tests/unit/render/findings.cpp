// Findings for people: the caret stands under what it means, whatever stands before it.
#include "interpreter/render/findings.hpp"

#include <catch2/catch.hpp>

using namespace levigate;

namespace {

/// A source with one line, and the span of `marked` in it.
struct Marked {
    Sources sources;
    Span span;
    Marked(std::string line, std::string_view marked) {
        auto begin = static_cast<std::uint32_t>(line.find(marked));
        span = {0, begin, begin + static_cast<std::uint32_t>(marked.size())};
        sources.add({"a.shade", std::move(line), false});
    }
};

Finding about(Span span) {
    return {.code = Code::name_unknown, .message = "Nothing is called that.", .span = span};
}

}  // namespace

TEST_CASE("a finding in full", "[findings]") {
    Marked m("shade A\n    8 parts   copper mika\n", "copper mika");
    Finding finding = about(m.span);
    finding.fixes = {possible_fix(m.span, "copper mica")};
    finding.here = "not known here";
    finding.notes = {{{0, 6, 7}, "in this shade"}};
    CHECK(findings_text(m.sources, {finding}, {}) ==
          "a.shade:2:15: error: Nothing is called that. (name-unknown)\n"
          "    2 |     8 parts   copper mika\n"
          "      |               ^^^^^^^^^^^ not known here\n"
          "  and a.shade:1:7\n"
          "    1 | shade A\n"
          "      |       - in this shade\n"
          "  write instead: copper mica\n"
          "\n"
          "1 error\n");
}

TEST_CASE("advice is printed as it is, an example as one", "[findings]") {
    Finding finding = about(Span{});
    finding.advice = "Name one of them.";
    CHECK(findings_text(Sources(), {finding}, {}) ==
          "levigate: error: Nothing is called that. (name-unknown)\n"
          "  Name one of them.\n\n1 error\n");
    show_example(finding, "8 %");
    CHECK(findings_text(Sources(), {finding}, {}) ==
          "levigate: error: Nothing is called that. (name-unknown)\n"
          "  as in: 8 %\n\n1 error\n");
}

TEST_CASE("brief is one line each, without a count", "[findings]") {
    Marked m("  x", "x");
    Finding warning = about(m.span);
    warning.severity = Severity::warning;
    warning.example = "y";
    CHECK(findings_text(m.sources, {about(m.span), warning}, {true, false}) ==
          "a.shade:1:3: error: Nothing is called that. (name-unknown)\n");
    warning.message = "Another.";
    CHECK(findings_text(m.sources, {warning}, {true, false}) ==
          "a.shade:1:3: warning: Another. (name-unknown)\n");
}

TEST_CASE("what no file wrote has no line", "[findings]") {
    CHECK(findings_text(Sources(), {about(Span{})}, {}) ==
          "levigate: error: Nothing is called that. (name-unknown)\n\n1 error\n");
}

TEST_CASE("the caret counts columns of the terminal", "[findings][excerpt]") {
    auto before = [](std::string line) {
        Marked m(std::move(line), "XX");
        Excerpt e = excerpt(m.sources, m.span);
        CHECK(e.marked == 2);
        return e.before;
    };
    CHECK(before("    XX") == 4);
    CHECK(before("\t\tXX") == 2);  // a tab is shown as one blank
    CHECK(before("75 °C XX") == 6);
    CHECK(before("cafe\u0301 XX") == 5);  // an accent of its own takes no column
    CHECK(before("紅花 XX") == 5);        // wide letters take two
    CHECK(before("👩‍🔬 XX") == 3);
    CHECK(before("\x1B[2J XX") == 10);  // "\u{1B}[2J ": shown, not obeyed
    CHECK(before("\xFF XX") == 5);      // "\xFF "
    Marked wide("a 紅花 b", "紅花");
    CHECK(excerpt(wide.sources, wide.span).marked == 4);
}

TEST_CASE("a point between letters gets one caret", "[findings][excerpt]") {
    Sources sources;
    sources.add({"a.shade", "18 %\nx", false});
    Excerpt end = excerpt(sources, {0, 4, 4});
    CHECK(end.text == "18 %");
    CHECK(end.before == 4);
    CHECK(end.marked == 1);
    Excerpt over = excerpt(sources, {0, 3, 6});  // goes on in the next line: this one's end
    CHECK(over.marked == 1);
}

TEST_CASE("a long line is cut around the place", "[findings][excerpt]") {
    for (std::size_t left : {0u, 10u, 90u, 5000u, 300000u})
        for (std::size_t right : {0u, 10u, 90u, 5000u}) {
            Marked m(std::string(left, 'a') + "XYZ" + std::string(right, 'b'), "XYZ");
            Excerpt e = excerpt(m.sources, m.span);
            CAPTURE(left, right, e.text);
            CHECK(display_width(e.text) <= 100);
            CHECK(e.marked == 3);
            // the letters that the caret stands under are the marked ones; `…` is three bytes wide
            std::size_t cut = e.text.starts_with("…") ? 2 : 0;
            CHECK(e.text.substr(e.before + cut, 3) == "XYZ");
            CHECK(e.text.starts_with("…") == (left > 97 || left + 3 + right > 100) * (left > 37));
        }
    Marked whole(std::string(5000, 'x'), std::string(5000, 'x'));
    CHECK(display_width(excerpt(whole.sources, whole.span).text) <= 100);
    Marked wide("紅" + std::string(200, 'a'), "a");
    CHECK(excerpt(wide.sources, {0, 100, 103}).text.starts_with("…"));
}

TEST_CASE("no byte of a file reaches a terminal as a command", "[findings]") {
    Marked m("x \x1B]0;evil\x07\u202E y", "y");
    m.sources.add({"b\x1B[31m.shade", "x", false});
    Finding finding = about(m.span);
    finding.message = "There is a \x1B here.";
    finding.fixes = {possible_fix(m.span, "\x1B[1m")};
    finding.here = "\x07";
    finding.notes = {{{1, 0, 1}, "\x9B"}};
    for (bool brief : {true, false}) {
        std::string text = findings_text(m.sources, {finding}, {brief, false});
        for (char c : text) CHECK((c == '\n' || static_cast<unsigned char>(c) >= ' '));
        CHECK(text.find("\u202E") == std::string::npos);
        CHECK(text.find("There is a \\u{1B} here.") != std::string::npos);
    }
}

TEST_CASE("colour only where it is wanted", "[findings]") {
    Marked m("x", "x");
    std::string plain = findings_text(m.sources, {about(m.span)}, {false, false});
    std::string coloured = findings_text(m.sources, {about(m.span)}, {false, true});
    CHECK(plain.find('\x1B') == std::string::npos);
    CHECK(coloured.find("\x1B[1;31m") != std::string::npos);
    std::string stripped;
    for (std::size_t i = 0; i < coloured.size(); ++i) {
        if (coloured[i] == '\x1B')
            i = coloured.find('m', i);
        else
            stripped += coloured[i];
    }
    CHECK(stripped == plain);
}

TEST_CASE("the count", "[findings]") {
    Marked m("x", "x");
    Finding error = about(m.span), warning = error, advice = error;
    warning.severity = Severity::warning;
    advice.severity = Severity::advice;
    CHECK(count_words({}).empty());
    CHECK(count_words({error}) == "1 error");
    CHECK(count_words({error, error, warning}) == "2 errors, 1 warning");
    CHECK(count_words({advice, advice}) == "2 pieces of advice");
    CHECK(findings_text(m.sources, {}, {}).empty());
    CHECK(each_once({error, error}).size() == 1);
    Finding other = error;
    other.message = "Something else.";
    CHECK(each_once({error, other}).size() == 2);
}
