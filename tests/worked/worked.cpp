// Worked examples from outside, each written as a shade file: enlarging and reducing formulas,
// percentage, ratio strength, specific gravity, alligation, thinning to weigh. cases.csv names the
// source of each, and whether its figures were confirmed or computed.
//
// expected_g is what follows exactly from the example's inputs, and must be met exactly.
// published_g is what the source prints; it may be rounded there, by at most tolerance_g.

#include <catch2/catch.hpp>

#include <filesystem>
#include <set>

#include "interpreter/compile.hpp"
#include "interpreter/expand/expand.hpp"
#include "tests/facts/csv.hpp"
#include "tests/support/text.hpp"

using namespace levigate;
using namespace levigate::testing;

namespace {

const std::string folder = std::string(LEVIGATE_ROOT) + "/tests/worked/";

const std::vector<CsvRow>& rows() {
    static const auto table =
        read_csv(levigate::testing::read_file(folder + "cases.csv").value_or(""));
    return table;
}

void tell(const Findings& findings) {
    for (const Finding& finding : findings)
        UNSCOPED_INFO(std::string(row_of(finding.code).name) << ": " << finding.message);
}

/// The one sheet that the row speaks of.
std::optional<Sheet> sheet_of(Compiled& compiled, const CsvRow& row) {
    tell(compiled.findings);
    if (any_error(compiled.findings)) return std::nullopt;
    Choice choice;
    choice.shade = row.at("shade");
    if (!row.at("batch").empty()) choice.batch = row.at("batch");
    if (!row.at("make").empty()) {
        const auto size = read_size(compiled, row.at("make"), "--make");
        tell(size.findings);
        if (!size.value) return std::nullopt;
        choice.make = *size.value;
    }
    const Sheets sheets = expand(compiled.formulary, compiled.names, choice);
    tell(sheets.findings);
    if (any_error(sheets.findings) || sheets.sheets.size() != 1) return std::nullopt;
    tell(sheets.sheets[0].findings);
    if (any_error(sheets.sheets[0].findings)) return std::nullopt;  // an `expect` that fails, too
    return sheets.sheets[0];
}

std::optional<Exact> compared(const Compiled& compiled, const Sheet& sheet, const CsvRow& row) {
    if (row.at("compare") == "total") return in_grams(sheet.total);
    if (row.at("compare") == "material")
        for (const MaterialLine& line : sheet.materials)
            if (compiled.formulary.name(line.what) == row.at("name")) return in_grams(line.exact);
    if (row.at("compare") == "line")
        for (const SheetLine& line : sheet.bowls.back().lines)
            if (compiled.formulary.name(line.what) == row.at("name")) return in_grams(line.exact);
    return std::nullopt;
}

}  // namespace

TEST_CASE("worked examples come out exactly") {
    for (const CsvRow& row : rows()) {
        INFO(row.at("id") << ", " << row.at("file") << ", from " << row.at("source") << " ("
                          << row.at("status") << ")");
        Compiled compiled = compile(disk_world(), folder + row.at("file"));
        const auto sheet = sheet_of(compiled, row);
        REQUIRE(sheet.has_value());
        const auto came = compared(compiled, *sheet, row);
        REQUIRE(came.has_value());
        CHECK(came->fraction() == row.at("expected_g"));
    }
}

TEST_CASE("what the sources print agrees, within their rounding") {
    int published = 0;
    for (const CsvRow& row : rows()) {
        if (row.at("published_g").empty()) continue;
        INFO(row.at("id") << ", from " << row.at("source"));
        const auto expected = read_number(row.at("expected_g"));
        const auto printed = read_number(row.at("published_g"));
        const auto tolerance = read_number(row.at("tolerance_g"));
        REQUIRE((expected && printed && tolerance));
        CHECK((*expected - *printed).abs() <= *tolerance);
        ++published;
    }
    CHECK(published >= 40);
}

TEST_CASE("every example is there, and names its source") {
    std::set<std::string> files;
    for (const CsvRow& row : rows()) {
        INFO(row.at("id"));
        files.insert(row.at("file"));
        CHECK_FALSE(row.at("source").empty());
        CHECK_FALSE(row.at("status").empty());
    }
    std::set<std::string> there;
    for (const auto& entry : std::filesystem::directory_iterator(folder))
        if (entry.path().extension() == ".shade") there.insert(entry.path().filename().string());
    CHECK(files == there);
    CHECK(files.size() >= 20);
}
