// What is said of lines that are too small: on the sheet, on the bench page, and to programs.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "interpreter/render/html_card.hpp"
#include "interpreter/render/json.hpp"
#include "interpreter/render/remedies.hpp"
#include "interpreter/render/sheet_document.hpp"
#include "interpreter/render/text.hpp"
#include "tests/unit/render/made.hpp"

using namespace levigate;
using Catch::Matchers::Contains;

namespace {

/// Wherever the lines were broken.
std::string in_one_line(const std::string& text) {
    std::string out;
    for (const char sign : text) {
        const char one = sign == '\n' ? ' ' : sign;
        if (one != ' ' || out.empty() || out.back() != ' ') out += one;
    }
    return out;
}

std::string sheet_with_ways(const Made& made) {
    Cautions cautions(made.formulary);
    std::string out;
    append_text(out, sheet_document(made.formulary, made.sheet, cautions));
    return in_one_line(out);
}

/// The oxide of the blend, 4/75 g, is to be 0.2 g. 4 times as much is 0.21 g (16/75), and of
/// 0.21 × 0.2 ÷ (4/75) = 0.7875 g of the mixture 0.2 g hold it: 0.58 g of the mica are in it.
/// Then 0.2 − 4/75 = 0.1467 g of mica less are weighed: 0.43 − 0.15.
Made too_small() {
    Made made = damson();
    made.sheet.reading.error = percent(5);
    Remedy& remedy = made.sheet.remedies.emplace_back();
    remedy.bowl = 0;
    remedy.line = 2;
    remedy.diluent = 0;
    remedy.least = grams(Exact(1, 5));
    remedy.batch = grams(Exact(45, 2));  // 6 × 0.2 ÷ (4/75)
    remedy.aliquot = AliquotRemedy{4, 21, 58, 20, 15, 28};
    return made;
}

}  // namespace

TEST_CASE("ways to weigh a small line stand under its bowl", "[remedies]") {
    Made made = too_small();
    const std::string text = sheet_with_ways(made);
    CHECK_THAT(text, Contains("It weighs well from 0.2 g on: 0.01 g is 5 % of that."));
    CHECK_THAT(text, Contains("off by, %"));
    CHECK_THAT(text, Contains(" -6.25 "));  // 0.05 for 4/75
    CHECK_THAT(text, Contains("Too little to weigh well, which begins at 0.2 g here:"));
    CHECK_THAT(text, Contains("red iron oxide: make 22.50 g or more; or weigh 0.21 g of it with "
                              "0.58 g of copper mica, mix well, and take 0.20 g of that; then "
                              "weigh 0.28 g of copper mica in place of 0.43 g. 0.59 g of the "
                              "mixture are left over."));
    CHECK(text.find("Too little to weigh well") < text.find("Bowl 2"));
    made.sheet.remedies[0].aliquot->others = true;
    CHECK_THAT(sheet_with_ways(made),
               Contains("then weigh 0.15 g less of copper mica; where the lines above are weighed "
                        "this way too, copper mica reads 0.28 g in all"));
    // of a blend that is made on the sheet, the bowl gives 0.58 − 0.15 g too little
    made.sheet.remedies[0].aliquot->others = false;
    made.sheet.bowls[0].mix = made.copper;
    CHECK_THAT(sheet_with_ways(made),
               Contains("left over; make 0.43 g more of copper mica for it."));
    made.sheet.bowls[0].mix = made.blend;
    made.sheet.remedies[0].aliquot.reset();
    made.sheet.remedies[0].batch.reset();
    made.sheet.remedies[0].why_not = NoAliquot::too_little;
    CHECK_THAT(sheet_with_ways(made), Contains("of copper mica there isn't enough"));
    made.sheet.remedies.clear();
    made.sheet.reading.error.reset();
    CHECK_THAT(sheet_with_ways(made), !Contains("off by") && !Contains("Too little"));
}

TEST_CASE("they stand on the bench page, as text", "[card]") {
    Made made = too_small();
    made.formulary.ingredients[made.copper].name = "<b>";
    BenchPage page(made.formulary);
    page.append(made.sheet);
    const std::string text = page.page("orchard");
    CHECK_THAT(text, Contains("<div class=\"ways\">"));
    CHECK_THAT(text, Contains("take 0.20 g of that; then weigh 0.28 g of &lt;b&gt; in place"));
    CHECK(text.find("class=\"ways\"") < text.find("Bowl 2"));
}

TEST_CASE("rounding errors and ways for programs", "[json]") {
    const Made made = too_small();
    SheetsJson json(made.formulary, made.sources);
    std::string out;
    json.open(out);
    json.append(made.sheet, out);
    json.close({}, out);
    const auto all = nlohmann::json::parse(out);
    const auto& line = all["sheets"][0]["bowls"][0]["lines"][2];
    CHECK(line["rounding"] == "-6.25");
    CHECK(line["remedies"]["least"] == "0.20");
    CHECK(line["remedies"]["batch"] == "22.50");
    CHECK(line["remedies"]["aliquot"]["take"] == "0.20");
    CHECK(line["remedies"]["aliquot"]["of"] == "copper mica");
    CHECK_FALSE(all["sheets"][0]["bowls"][0]["lines"][0].contains("remedies"));
    // 0.43 g of 32/75: (0.43 − 0.42667) ÷ 0.42667 = 0.78125 %
    CHECK(all["sheets"][0]["bowls"][0]["lines"][0]["rounding"] == "0.7813");
    // 1 in 4 of the mica takes 0.21 g, and 0.42667 − 3 × 0.05333 = 0.26667 g of it are left
    REQUIRE(all["dilutions"].size() == 1);
    CHECK(all["dilutions"][0]["line"] == "dilute red iron oxide to 25 % in copper mica");
    CHECK(all["dilutions"][0]["prepare"] == "0.80");
    CHECK(all["dilutions"][0]["serves"][0]["bowl"] == "Windfall mica");
}

TEST_CASE("dilutions to prepare, for all sheets of a run", "[remedies]") {
    const Made made = too_small();
    StockDilutions stocks;
    Cautions cautions(made.formulary);
    CHECK(stocks_document(made.formulary, stocks, cautions).empty());
    for (int n = 0; n < 9; ++n) stocks.add(made.formulary, made.sheet);
    std::string out;
    append_text(out, stocks_document(made.formulary, stocks, cautions));
    // nine times 0.21 g are 1.89 g: 0.48 g and three times as much
    CHECK_THAT(in_one_line(out),
               Contains("dilute red iron oxide to 25 % in copper mica. Prepare 1.92 g: 0.48 g of "
                        "red iron oxide with 1.44 g of copper mica, mixed well. For Damson / "
                        "matte, trial: Windfall mica;") &&
                   Contains("Fine powder (red iron oxide, copper mica)") &&
                   Contains("and 3 more."));
}
