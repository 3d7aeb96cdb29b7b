// Documents as text and as Markdown, and the sheet as a document.
#include <catch2/catch.hpp>

#include "interpreter/render/check_report.hpp"
#include "interpreter/render/overview.hpp"
#include "interpreter/render/sheet_document.hpp"
#include "interpreter/render/text.hpp"
#include "tests/unit/render/made.hpp"

using namespace levigate;
using Catch::Matchers::Contains;

namespace {

std::string text(const document::Document& document) {
    std::string out;
    append_text(out, document);
    return out;
}

std::string markdown(const document::Document& document) {
    std::string out;
    append_markdown(out, document);
    return out;
}

std::string sheet_text(const Made& made) {
    Cautions cautions(made.formulary);
    return text(sheet_document(made.formulary, made.sheet, cautions));
}

std::vector<ShadeOverview> overview_of(const Formulary& formulary,
                                       const std::vector<Sheet>& sheets) {
    Overviews overviews(formulary);
    for (const Sheet& sheet : sheets) overviews.add(sheet);
    return overviews.take();
}

}  // namespace

TEST_CASE("columns stand under each other whatever the letters", "[text]") {
    document::Table table;
    table.columns = {{"n", document::Align::right}, {"name", document::Align::left}, {"x"}};
    table.rows = {{"1", "紅花", "a"}, {"10", "café", "b"}, {"", "short row"}};
    table.foot = {"11", "sum", ""};
    CHECK(text({table}) == "   n  name       x\n"
                           "  --  ---------  -\n"
                           "   1  紅花       a\n"
                           "  10  café       b\n"
                           "      short row\n"
                           "  --  ---------  -\n"
                           "  11  sum\n\n");
}

TEST_CASE("prose is broken at blanks and keeps every word", "[text]") {
    std::string words;
    for (int i = 0; i < 60; ++i) words += "word" + std::to_string(i) + " ";
    std::string out = text({document::List{true, {words, std::string(300, 'x')}}});
    std::size_t begin = 0;
    for (std::size_t end; (end = out.find('\n', begin)) != std::string::npos; begin = end + 1)
        if (out.find('x', begin) > end) CHECK(end - begin <= 96);
    for (int i = 0; i < 60; ++i) CHECK_THAT(out, Contains("word" + std::to_string(i)));
    CHECK_THAT(out, Contains("\n     word"));  // hangs under "  1. "
    CHECK_THAT(out, Contains(std::string(300, 'x')));
}

// CommonMark 0.30, section 2.4: a backslash before ASCII punctuation makes it text. Pipes:
// GitHub's table extension. What opens a line: sections 4.2, 4.3, 5.1 and 5.2.
TEST_CASE("names stay text in Markdown", "[markdown]") {
    CHECK(markdown_escaped("FD&C Blue #1", false) == "FD\\&C Blue #1");
    CHECK(markdown_escaped("a*b_c`d[e]<f>|~$", false) == "a\\*b\\_c\\`d\\[e\\]\\<f\\>\\|\\~\\$");
    CHECK(markdown_escaped("back\\slash", false) == "back\\\\slash");
    CHECK(markdown_escaped("# x", true) == "\\# x");
    CHECK(markdown_escaped("- x", true) == "\\- x");
    CHECK(markdown_escaped("12. x", true) == "12\\. x");
    CHECK(markdown_escaped("    x", true) == "x");
    CHECK(markdown_escaped("1.5 g", false) == "1.5 g");
    CHECK(markdown_escaped("http://x", false) == "http\\://x");
    CHECK(markdown_escaped("www.x", false) == "www\\.x");
    CHECK(markdown_escaped("WWW.x", false) == "WWW\\.x");
    CHECK(markdown_escaped("w.x ww.y", false) == "w.x ww.y");
    CHECK(markdown_escaped("a@b", false) == "a\\@b");
    CHECK(markdown_escaped("x #", true) == "x \\#");  // would close a heading, section 4.2
    CHECK(markdown_escaped("#1 x", false) == "#1 x");
    CHECK(markdown_escaped("a\x1B", false) == "a\\\\u{1B}");
    document::Table table;
    table.columns = {{"a"}, {"b", document::Align::right}};
    table.rows = {{"x|y", "1"}};
    CHECK(markdown({table}) == "| a | b |\n| --- | ---: |\n| x\\|y | 1 |\n\n");
}

TEST_CASE("the sheet for the bench", "[sheet]") {
    std::string out = sheet_text(damson());
    CHECK_THAT(out, Contains("Damson · matte · trial · 6.00 g\n"));
    CHECK_THAT(out, Contains("Bowl 1: Windfall mica, 0.64 g asked for"));
    CHECK_THAT(out, Contains("Bowl 2: Damson, 6.00 g asked for"));
    CHECK(out.find("Bowl 1") < out.find("Bowl 2"));
    // the running reading is the sum of what was weighed so far: 2.36, +0.64, +0.05, +2.36, +0.59
    CHECK_THAT(out, Contains("2.36  soft base                        39.37            2.36\n"));
    CHECK_THAT(out, Contains("0.64  Windfall mica (bowl 1)           10.67            3.00\n"));
    CHECK_THAT(out, Contains("0.05  black iron oxide                  0.76            3.05\n"));
    CHECK_THAT(out, Contains("2.36  kaolin                           39.37            5.41\n"));
    CHECK_THAT(out, Contains("0.59  light thinner                     9.84            6.00\n"));
    CHECK_THAT(out, Contains("6.00  in the bowl                     100.00\n"));
    CHECK_THAT(out, Contains("  1. Work the clay in first.\n  2. Then thin.\n"));
}

TEST_CASE("what is not exact is said to be so", "[sheet]") {
    Made made = damson();
    CHECK_THAT(sheet_text(made), !Contains("estimate"));
    made.sheet.bowls[1].lines[4].estimated = true;
    CHECK_THAT(sheet_text(made), Contains("light thinner (estimate: from a volume)"));
    made.sheet.estimated = true;
    CHECK_THAT(sheet_text(made), Contains("The total is an estimate"));
}

TEST_CASE("a small share never looks like nothing", "[sheet]") {
    Made made = damson();
    made.sheet.bowls[0].lines[2].share = share(Exact(4, 100000));
    CHECK_THAT(sheet_text(made), Contains("0.0040"));
}

TEST_CASE("onto: the bulk that is there starts the reading", "[sheet]") {
    Made made = damson();
    made.sheet.bowls.erase(made.sheet.bowls.begin());
    Bowl& bowl = made.sheet.bowls[0];
    bowl.lines.erase(bowl.lines.begin(), bowl.lines.begin() + 3);
    bowl.steps = 295;                        // 2.36 + 0.59
    made.sheet.onto = grams(Exact(64, 21));  // 3.05 on the balance
    std::string out = sheet_text(made);
    CHECK_THAT(out, Contains("Bowl 1: additions to 3.05 g of Damson"));
    CHECK_THAT(out, Contains("(there)  Damson, the bulk           50.79            3.05"));
    CHECK_THAT(out, Contains("2.36  kaolin                     39.37            5.41"));
    CHECK_THAT(out, Contains("0.59  light thinner               9.84            6.00"));
    CHECK_THAT(out, Contains("2.95  added"));
}

TEST_CASE("findings of a sheet stand on it", "[sheet]") {
    Made made = damson();
    made.sheet.findings = {
        {Code::weigh_nothing, "Red iron oxide rounds to nothing.", Span{}}};
    CHECK_THAT(sheet_text(made),
               Contains("error: Red iron oxide rounds to nothing. (weigh-nothing)"));
}

TEST_CASE("cautions ride at the bowl where the material is", "[cautions]") {
    Made made = damson();
    Cautions cautions(made.formulary);
    auto first = cautions.of(made.sheet.bowls[0]);
    REQUIRE(first.size() == 1);
    CHECK_THAT(first[0], Contains("copper mica, red 7 lake, red iron oxide") && Contains("mask"));
    auto last = cautions.of(made.sheet.bowls[1]);
    REQUIRE(last.size() == 2);
    // a blend of powders is a powder too; the base is none
    CHECK_THAT(last[0], Contains("(Windfall mica, black iron oxide, kaolin)"));
    CHECK_THAT(last[1], Contains("Flammable (light thinner)") && Contains("flash point"));
    Bowl quiet;
    quiet.lines = {Made::line(made.base, 6, 600)};
    CHECK(cautions.of(quiet).empty());
    CHECK_THAT(text(sheets_closing()), Contains("unknown") && Contains("safety sheet"));
}

TEST_CASE("a made bulk holds powder wet, but its thinner still burns", "[cautions]") {
    Made made = damson();
    IngredientId bulk = made.mix("Damson", Ingredient::Kind::shade, {made.blend, made.thinner});
    IngredientId loop = made.mix("loop", Ingredient::Kind::blend, {bulk});
    made.formulary.mixes.back().formula.parts[0].what = loop;  // of itself: must end
    Cautions cautions(made.formulary);
    Bowl bowl;
    bowl.lines = {Made::line(bulk, 6, 600), Made::line(loop, 0, 0)};
    auto said = cautions.of(bowl);
    REQUIRE(said.size() == 1);
    CHECK_THAT(said[0], Contains("Flammable (Damson)"));
}

TEST_CASE("the overview counts roles by the rule of as much", "[overview]") {
    Made made = damson();
    auto shades = overview_of(made.formulary, {made.sheet});
    REQUIRE(shades.size() == 1);
    REQUIRE(shades[0].rows.size() == 1);
    const OverviewRow& row = shades[0].rows[0];
    CHECK(row.finish == "matte");
    REQUIRE(row.totals.size() == 1);
    CHECK(row.totals[0].grams == "6.00");
    REQUIRE(row.roles.size() == 4);
    CHECK(row.roles[0].role == "base");
    CHECK(as_fraction(row.roles[0].share) == Exact(248, 630));
    CHECK(row.roles[1].role == "mica");  // the blend whole, for it has the role itself
    CHECK(as_fraction(row.roles[1].share) == Exact(16, 150));
    Exact sum;
    for (const RoleTotal& role : row.roles) sum += as_fraction(role.share);
    CHECK(sum == Exact(1));

    // without a role of its own it is counted by what is inside it
    made.formulary.ingredients[made.blend].role = no_name;
    made.formulary.mixes[0].roles = {{2, share(Exact(2, 3))}};
    const auto inside = overview_of(made.formulary, {made.sheet});
    CHECK(as_fraction(inside[0].rows[0].roles[1].share) == Exact(32, 450));
    CHECK_THAT(text(overview_document(shades)),
               Contains("as written  matte       6.00  base 39.37"));
}

TEST_CASE("a shade without a sheet is told from its formula", "[overview]") {
    Made made = damson();
    Formula& formula = made.formulary.shades[0].versions[0].formula;
    formula.parts.resize(1);
    formula.parts[0].what = made.base;
    formula.shares = {share(1)};
    made.formulary.shades.push_back(made.formulary.shades[0]);
    made.formulary.shades[1].own = false;  // of another file: not told
    auto shades = overview_of(made.formulary, {});
    REQUIRE(shades.size() == 1);
    CHECK_THAT(text(overview_document(shades)), Contains("base 100 %"));
    formula.shares.clear();
    CHECK_THAT(text(overview_document(overview_of(made.formulary, {}))), Contains("can't be made"));
}

TEST_CASE("check says what became of each expectation", "[check]") {
    Made made = damson();
    Expectation expect;
    expect.wording = "the base at most 2 %";
    expect.span = {0, 17, 30};
    made.formulary.shades[0].expects = {expect};
    made.formulary.shades.push_back(made.formulary.shades[0]);  // inherited: one line, two shades
    auto told = [&](const Findings& findings, const Verdicts& verdicts) {
        CheckReport report =
            check_report("orchard.shade", made.sources, made.formulary, findings, verdicts);
        REQUIRE(report.expects.size() == 1);
        return text(check_document(report));
    };
    const auto holds = Verdict::holds, fails = Verdict::fails, unknown = Verdict::unknown;
    CHECK_THAT(told({}, {{holds}, {holds}}),
               Contains("orchard.shade: nothing wrong.") &&
                   Contains("orchard.shade:2  the base at most 2 %  holds"));
    CHECK_THAT(told({{Code::expect_failed, "No.", {0, 20, 25}}}, {{holds}, {fails}}),
               Contains("1 error") && Contains("does not hold"));
    CHECK_THAT(told({}, {{fails}, {unknown}}), Contains("does not hold"));
    CHECK_THAT(told({}, {{holds}, {unknown}}), Contains("can't be told"));
    CHECK_THAT(told({}, {{}, {holds}}), Contains("can't be told"));  // the first wasn't looked at
    // An error elsewhere is none of its business.
    CHECK_THAT(told({{Code::name_unknown, "No.", {0, 0, 5}}}, {{holds}, {holds}}),
               Contains("1 error") && Contains("holds"));
}
