// Pages: what is text stays text, and what stands where.
#include <catch2/catch.hpp>

#include "interpreter/render/html.hpp"
#include "interpreter/render/html_card.hpp"
#include "interpreter/render/side_by_side.hpp"
#include "tests/unit/render/made.hpp"

using namespace levigate;
using namespace levigate::document;
using Catch::Matchers::Contains;

namespace {

std::string html(const Document& document, int deeper = 0) {
    std::string out;
    append_html(out, document, deeper);
    return out;
}

std::size_t times(const std::string& text, std::string_view piece) {
    std::size_t count = 0;
    for (std::size_t at = text.find(piece); at != std::string::npos;
         at = text.find(piece, at + piece.size()))
        ++count;
    return count;
}

std::string page_of(const Made& made, const std::vector<Sheet>& sheets) {
    BenchPage page(made.formulary);
    for (const Sheet& sheet : sheets) page.append(sheet);
    return page.page("orchard");
}

}  // namespace

// HTML Living Standard, 13.1.2.3 and 13.1.2.4: what may not stand in a quoted attribute or in text.
TEST_CASE("text becomes no markup", "[html]") {
    CHECK(html_escaped("soft base") == "soft base");
    CHECK(html_escaped("<b title='x'>&amp;\"</b>") ==
          "&lt;b title=&#39;x&#39;&gt;&amp;amp;&quot;&lt;/b&gt;");
    CHECK(html_escaped("a\x1B[31m") == "a\\u{1B}[31m");
    CHECK(html_escaped("\xFF") == "\\xFF");
    CHECK(html_escaped("\u202Egnp") == "\\u{202E}gnp");  // turns the writing round
}

TEST_CASE("a document as a piece of a page", "[html]") {
    CHECK(html({Heading{1, "A & B"}}) == "<h1>A &amp; B</h1>\n");
    CHECK(html({Heading{5, "deep"}}, 3) == "<h6>deep</h6>\n");
    CHECK(html({Paragraph{"x < y"}}) == "<p>x &lt; y</p>\n");
    CHECK(html({Caution{"<dust>"}}) ==
          "<p class=\"caution\"><strong>Caution.</strong> &lt;dust&gt;</p>\n");
    CHECK(html({List{true, {"one", "<two>"}}}) ==
          "<ol>\n<li>one</li>\n<li>&lt;two&gt;</li>\n</ol>\n");
    Table table;
    table.columns = {{"g", Align::right}, {"what"}};
    table.rows = {{"1.00", "<i>"}, {"2.00"}};
    table.foot = {"3.00", "sum"};
    CHECK(html({table}) == "<table>\n<thead>\n"
                           "<tr><th scope=\"col\" class=\"right\">g</th><th scope=\"col\">what</th>"
                           "</tr>\n</thead>\n<tbody>\n"
                           "<tr><td class=\"right\">1.00</td><td>&lt;i&gt;</td></tr>\n"
                           "<tr><td class=\"right\">2.00</td><td></td></tr>\n</tbody>\n<tfoot>\n"
                           "<tr><td class=\"right\">3.00</td><td>sum</td></tr>\n</tfoot>\n"
                           "</table>\n");
}

TEST_CASE("a page without ticks brings no script", "[html]") {
    const std::string plain = html_page({"A <b>", "<p>x</p>\n", false});
    CHECK_THAT(plain, Contains("<title>A &lt;b&gt;</title>"));
    CHECK_THAT(plain, Contains("default-src 'none'"));
    CHECK_THAT(plain, !Contains("<script"));
    CHECK_THAT(plain, !Contains("script-src"));
    const std::string ticking = html_page({"A", "<p>x</p>\n", true});
    CHECK_THAT(ticking, Contains("script-src 'sha256-"));
    CHECK(times(ticking, "<script>") == 1);
    CHECK(times(ticking, "</script>") == 1);  // the script itself holds none
    CHECK(times(ticking, "</style>") == 1);
    // The key is what begins `printf '<p>x</p>\n' | sha256sum`, coreutils 9.1.
    CHECK_THAT(ticking, Contains("data-key=\"4e29150f4b637511\""));
}

TEST_CASE("texts side by side", "[card]") {
    CHECK(side_by_side({"Stir."}) == "Stir.");
    CHECK(side_by_side({"Stir 0.03 g (0.30 g of dye).", "Stir 1.1 g (11.00 g of dye)."}) ==
          "Stir 0.03 | 1.1 g (0.30 | 11.00 g of dye).");
    CHECK(side_by_side({"Stir.", "Stir."}) == "Stir.");
    CHECK(side_by_side({"Work mica 1.08 g in.", "Work mica 38.10 g in."}) ==
          "Work mica 1.08 | 38.10 g in.");
    CHECK(side_by_side({"a 1", "a 2", "a 1"}) == "a 1 | 2 | 1");
    CHECK_FALSE(side_by_side({"a b", "a"}).has_value());
}

TEST_CASE("a card tells what to weigh, and what the balance then shows", "[card]") {
    const Made made = damson();
    const std::string page = page_of(made, {made.sheet});
    CHECK_THAT(page, Contains("<title>Damson · matte: bench page</title>"));
    CHECK(times(page, "type=\"checkbox\"") == 8);
    // 0.43 + 0.16 + 0.05 = 0.64; 2.36 + 0.64 + 0.05 + 2.36 + 0.59 = 6.00
    for (const char* reading : {"0.43", "0.59", "0.64", "2.36", "3.00", "3.05", "5.41", "6.00"})
        CHECK_THAT(page, Contains(std::string("shows </span><b>") + reading + "</b>"));
    CHECK_THAT(page, Contains("<b>0.16</b> g"));
    CHECK_THAT(page, Contains("· from bowl 1"));
    CHECK(times(page, "Fine powder") == 2);
    CHECK(times(page, "Flammable (light thinner)") == 1);
    CHECK_THAT(page, Contains("<li>Work the clay in first.</li>"));
    CHECK_THAT(page, Contains("its hazard is unknown here"));
    CHECK_THAT(page, !Contains("side by side</label>"));
}

TEST_CASE("words of a step that differ are each batch's own", "[card]") {
    Made made = damson();
    Sheet other = made.sheet;
    made.sheet.bowls.back().steps_text = {"Melt <wax> 0.55 g (0.10 g of dye).", "Stir it."};
    other.bowls.back().steps_text = {"Melt <wax> 17.43 g (3.20 g of dye).", "Stir it very long."};
    const std::string page = page_of(made, {made.sheet, other});
    CHECK_THAT(page, Contains("<li>Melt &lt;wax&gt; <span class=\"in-1\">0.55</span>"
                              "<span class=\"beside\"> | </span>"
                              "<span class=\"in-2\">17.43</span> g (<span class=\"in-1\">0.10"));
    CHECK_THAT(page, Contains("<li class=\"in-1\">trial: Stir it.</li>\n"
                              "<li class=\"in-2\">trial: Stir it very long.</li>"));
    CHECK(times(page, "class=\"order beside\"") == 1);
    const std::string alone = page_of(made, {other});
    CHECK_THAT(alone, Contains("<li>Melt &lt;wax&gt; 17.43 g (3.20 g of dye).</li>"));
    CHECK(times(alone, "class=\"beside\"") == 0);
}

TEST_CASE("what only one batch is warned of is shown with it alone", "[card]") {
    Made made = damson();
    Sheet large = made.sheet;
    const Finding both{Code::weigh_least, "Of both.", Span{}};
    const Finding small{Code::weigh_least, "Of the small one.", Span{}};
    made.sheet.findings = {both, small};
    large.findings = {both};
    const std::string page = page_of(made, {made.sheet, large, large});
    CHECK_THAT(page, Contains("<div class=\"looks\">"));
    CHECK_THAT(page, Contains("<li>warning: Of both."));
    CHECK_THAT(page, Contains("<li class=\"not-2 not-3\">warning: Of the small one."));
    // The style hides these with the second batch, and with the third.
    CHECK_THAT(page, Contains(".card:has(.pick-2:checked) :is(.in-1, .in-3, .not-2, .beside)"));
    CHECK_THAT(page, Contains(".card:has(.pick-3:checked) :is(.in-1, .in-2, .not-3, .beside)"));
    // Where another batch has nothing to look at, the heading goes too.
    made.sheet.findings = {small};
    large.findings = {};
    CHECK_THAT(page_of(made, {large, made.sheet}), Contains("<div class=\"looks not-1\">"));
    CHECK_THAT(page_of(made, {made.sheet}), Contains("<li>warning: Of the small one."));
}

TEST_CASE("a note is said once on a page, and so is the closing line", "[card]") {
    Made made = damson();
    made.sheet.notes = {"Fill warm.", "Cool it slowly."};
    Sheet bulk = made.sheet;
    bulk.finishing = nothing;
    bulk.notes = {"Fill warm.", "Cool it fast."};
    const std::string page = page_of(made, {made.sheet, bulk});
    REQUIRE(times(page, "<article") == 2);
    for (const char* once : {"Note: Fill warm.", "Note: Cool it slowly.", "Note: Cool it fast.",
                             "its hazard is unknown here"})
        CHECK(times(page, once) == 1);
}

TEST_CASE("batches of a product share a card, up to three; others don't", "[card]") {
    const Made made = damson();
    const auto cards = [&](std::size_t batches) {
        return times(page_of(made, std::vector<Sheet>(batches, made.sheet)), "<article");
    };
    CHECK(cards(1) == 1);
    CHECK(cards(3) == 1);
    CHECK(cards(4) == 2);
    CHECK(cards(6) == 2);
    Sheet bulk = made.sheet;
    bulk.finishing = nothing;
    CHECK(times(page_of(made, {made.sheet, bulk}), "<article") == 2);
    Sheet shorter = made.sheet;
    shorter.bowls.back().lines.pop_back();  // nothing to stand beside
    CHECK(times(page_of(made, {made.sheet, shorter}), "<article") == 2);
    CHECK_THAT(page_of(made, {}), Contains("There is nothing to weigh."));
}

TEST_CASE("findings stand on one's own page alone", "[card]") {
    Made made = damson();
    made.sheet.findings = {{Code::weigh_least, "Too little <here>.", Span{}, "Make more."}};
    CHECK_THAT(page_of(made, {made.sheet}),
               Contains("<h3>To look at before weighing</h3>") &&
                   Contains("warning: Too little &lt;here&gt;. (weigh-least) Make more."));
}

TEST_CASE("no name, word or finding of a file becomes markup", "[card]") {
    Made made = damson();
    const std::string evil = "</b><x onclick='y' a=\"b\">&lt;";
    for (Ingredient& ingredient : made.formulary.ingredients) ingredient.name += evil;
    Shade& shade = made.formulary.shades[0];
    shade.name += evil;
    shade.versions[0].variant = "sheer" + evil;
    shade.batches[0].name += evil;
    Swatch swatch;
    swatch.in = made.base;
    shade.swatches = made.formulary.materials[0].swatches = {swatch};
    made.formulary.finishes[0].name += evil;
    made.sheet.reading.balance = "bench" + evil;
    made.sheet.bowls[0].steps_text = made.sheet.bowls[1].notes = made.sheet.notes = {"a" + evil};
    made.sheet.findings = {{Code::weigh_least, "b" + evil, Span{}, evil}};
    Sheet other = made.sheet;
    other.bowls[0].steps_text = {"a b c " + evil};
    BenchPage page(made.formulary);
    for (const Sheet& sheet : {made.sheet, other}) page.append(sheet);
    const std::string text = page.page("orchard" + evil);
    CHECK(times(text, evil) == 0);
    CHECK(times(text, "<x") == 0);
    CHECK(times(text, "onclick='y'") == 0);
    CHECK(times(text, html_escaped(evil)) > 40);
}

// As the Markdown page of an edition has it. A maker's own file, which no `share` has written,
// is no edition yet.
TEST_CASE("the page of an edition says which it is, and that local rules go before it", "[card]") {
    Made made = damson();
    Edition edition;
    edition.title = "Autumn <reds>";
    edition.number = 3;
    edition.date = "2026-10-01";
    made.formulary.edition = edition;
    const auto law = Contains("<p>The law where you make, give or sell this goes before this page");
    const std::string mine = page_of(made, {made.sheet});
    CHECK_THAT(mine, Contains("<h1>Bench page: orchard</h1>") && !law && !Contains("Edition 3"));
    made.formulary.edition->unaltered = true;
    const std::string theirs = page_of(made, {made.sheet});
    CHECK_THAT(theirs, Contains("<title>Autumn &lt;reds&gt;: bench page</title>"));
    CHECK_THAT(theirs, Contains("<h1>Bench page: Autumn &lt;reds&gt;</h1>\n"
                                "<p>Edition 3, 2026-10-01.</p>\n"));
    CHECK_THAT(theirs, law && Contains("its hazard is unknown here"));
    CHECK_THAT(theirs, !Contains("as it went out"));
    CHECK_THAT(page_of(made, {}), law && Contains("<p>Edition 3, 2026-10-01.</p>"));
    made.formulary.edition->unaltered = false;
    CHECK_THAT(page_of(made, {made.sheet}),
               law && Contains("<p>This is not the edition as it went out: something in it was "
                               "changed.</p>"));
    made.formulary.edition->date.clear();
    made.formulary.edition->number = 0;
    CHECK_THAT(page_of(made, {made.sheet}), law && !Contains("Edition 3"));
}
