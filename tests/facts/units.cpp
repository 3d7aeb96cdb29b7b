// Every measure of the library against its factor in units.csv, each with its source there, and
// against Debian's general-purpose `units` program (GNU units 2.22, definitions from NIST and
// national law) at run time. The two don't know of each other.

#include <catch2/catch.hpp>

#include <cmath>
#include <cstdlib>
#include <iostream>
#include <set>

#include "interpreter/compile.hpp"
#include "interpreter/expand/expand.hpp"
#include "tests/facts/csv.hpp"
#include "tests/support/process.hpp"
#include "tests/support/text.hpp"

using namespace levigate;
using namespace levigate::testing;

namespace {

const std::string root = LEVIGATE_ROOT;

const std::vector<CsvRow>& rows() {
    static const auto table =
        read_csv(levigate::testing::read_file(root + "/tests/facts/units.csv").value_or(""));
    return table;
}

Exact factor(const CsvRow& row) { return read_number(row.at("factor")).value_or(Exact(-1)); }

/// The first own bowl of a page with one shade, as exact grams line by line; nothing on an error.
std::vector<Exact> made(const std::string& page) {
    const Compiled compiled = compile(memory_world({{"a.shade", page}}), "a.shade");
    for (const Finding& finding : compiled.findings)
        UNSCOPED_INFO(std::string(row_of(finding.code).name) << ": " << finding.message);
    std::vector<Exact> grams;
    const Sheets sheets = expand(compiled.formulary, compiled.names, Choice{});
    if (any_error(compiled.findings) || sheets.sheets.size() != 1) return grams;
    for (const SheetLine& line : sheets.sheets[0].bowls.back().lines)
        grams.push_back(in_grams(line.exact));
    return grams;
}

// At 1 g/mL a millilitre is a gram, so that one page serves for both kinds.
const std::string water = "material water\n    density 1 g/mL\n\nmaterial wax\n\n";

std::set<std::string> measures_of_library() {
    std::set<std::string> names;
    const auto text = levigate::testing::read_file(root + "/stdlib/measures.shade").value_or("");
    for (const std::string& line : split_lines(text)) {
        if (!line.starts_with("unit ")) continue;
        const std::size_t equals = line.find(" = ");
        REQUIRE(equals != std::string::npos);
        CHECK(names.insert(line.substr(5, equals - 5)).second);  // none twice
    }
    return names;
}

}  // namespace

TEST_CASE("the table and the library hold the same measures") {
    std::set<std::string> listed;
    for (const CsvRow& row : rows()) {
        INFO(row.at("measure"));
        CHECK(listed.insert(row.at("measure")).second);
        CHECK_FALSE(row.at("source").empty());
        CHECK((row.at("base") == "g" || row.at("base") == "mL"));
        CHECK(row.at("gnu_units_query").empty() != row.at("reason").empty());
    }
    CHECK(listed.size() >= 50);
    CHECK(listed == measures_of_library());
}

TEST_CASE("a batch of so many of a measure comes to exactly its factor") {
    for (const CsvRow& row : rows()) {
        INFO(row.at("measure"));
        const auto grams = made(water + "shade Probe\n    100 %  water\n    batch made  40 " +
                                row.at("measure") + "\n");
        REQUIRE(grams.size() == 1);
        CHECK(grams[0] == 40 * factor(row));
    }
}

TEST_CASE("one of a measure in a formula weighs exactly its factor") {
    for (const CsvRow& row : rows()) {
        INFO(row.at("measure"));
        const auto grams = made(water + "shade Probe\n    1 " + row.at("measure") +
                                "  water\n    1 g  wax\n    batch made  100 g\n");
        REQUIRE(grams.size() == 2);
        CHECK(grams[0] / grams[1] == factor(row));
    }
}

TEST_CASE("the units program agrees") {
    int asked = 0;
    std::map<std::string, int> left_out;
    for (const CsvRow& row : rows()) {
        const std::string& query = row.at("gnu_units_query");
        if (query.empty()) {
            ++left_out[row.at("reason")];
            continue;
        }
        const std::string base = row.at("base") == "g" ? "g" : "ml";
        const auto outcome =
            run({{"/usr/bin/units", "-t", "--digits", "17", query, base}, {}, {}, ""});
        INFO(row.at("measure") << ": units " << query << " " << base << " says " << outcome.out
                               << outcome.err);
        REQUIRE(outcome.status == 0);
        const long double due = std::strtold(outcome.out.c_str(), nullptr);
        const long double ours = std::strtold(row.at("factor").c_str(), nullptr);
        CHECK(due > 0);
        CHECK(std::fabs(static_cast<double>(ours / due - 1)) < 1e-12);
        ++asked;
    }
    std::cout << asked << " measures asked of units\n";
    for (const auto& [reason, count] : left_out)
        std::cout << count << " left out: " << reason << "\n";
    CHECK(asked >= 80);
}
