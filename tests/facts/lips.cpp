// The library's rules about lips against tables of facts: lips-us.csv and lips-eu.csv, read from
// ../shared/facts/lip_colourants_us.csv and lip_colourants_eu.csv (the sources of each row stand in
// their last columns: 21 CFR 73, 74, 82; the Commission's CosIng export of Annex IV of 2026-09-09).
// What was looked for again, found or not, stands in lips-confirmations.csv.

#include <catch2/catch.hpp>

#include <set>

#include <fmt/format.h>

#include "interpreter/compile.hpp"
#include "interpreter/rules/lips.hpp"
#include "tests/facts/csv.hpp"
#include "tests/support/text.hpp"

using namespace levigate;
using namespace levigate::testing;

namespace {

Compiled compile_page(const std::string& page) {
    return compile(memory_world({{"a.shade", page}}), "a.shade", Library::with_rules);
}

const Compiled& library() {
    static const Compiled compiled = compile_page("material soft base\n");
    return compiled;
}

std::vector<CsvRow> rows(const std::string& region) {
    const std::string path = std::string(LEVIGATE_ROOT) + "/tests/facts/lips-" + region + ".csv";
    return read_csv(levigate::testing::read_file(path).value_or(""));
}

const Rule* rule_of(const std::string& region, const std::string& what) {
    const Sym sym = library().names.find(what);
    for (const Rule& rule : library().formulary.rules)
        for (const Called& covered : rule.covers)
            if (rule.region.name == region && sym != no_name && covered.sym == sym) return &rule;
    return nullptr;
}

/// A rule's verdict as the tables write it.
std::string verdict_of(const Rule& rule) {
    switch (rule.lips) {
        case Rule::Lips::yes: return "yes";
        case Rule::Lips::no: return "no";
        case Rule::Lips::at_most: return "limit";
        case Rule::Lips::ask: return "ask";
        case Rule::Lips::stop: return "stop";
        case Rule::Lips::filler: return "filler";
        case Rule::Lips::silent: return rule.named_above ? "named" : "silent";
    }
    return {};
}

/// What a row is looked up by. Two colours share CI 42090 in the US, so that one goes by its name,
/// and some rows name several things at once.
std::vector<std::string> keys_of(const CsvRow& row) {
    const std::string& name = row.at("name");
    if (name.starts_with("D&C Blue No. 4")) return {"Blue 4"};
    std::vector<std::string> keys;
    std::string numbers = row.at("number");
    for (std::size_t at; !numbers.empty(); numbers.erase(0, at == numbers.npos ? at : at + 2)) {
        at = numbers.find("; ");
        keys.push_back(numbers.substr(0, at));
        if (at == numbers.npos) break;
    }
    if (!keys.empty()) return keys;
    if (name == "Riboflavin / Lactoflavin") return {"Riboflavin", "Lactoflavin"};
    if (name.starts_with("Paprika extract")) return {"Capsanthin"};
    if (name.find("stearates") != name.npos) return {"Zinc Stearate"};
    return {name};
}

void compare(const std::string& region, const std::string& table) {
    const auto facts = rows(table);
    REQUIRE(facts.size() > 100);
    for (const CsvRow& row : facts) {
        // Lakes as a class: 82.51, 82.1051, 82.2051. Each lake goes by its dye's rule.
        if (row.at("verdict") == "general") continue;
        for (const std::string& key : keys_of(row)) {
            INFO(region << " " << key << ", row " << row.at("row") << ", " << row.at("reference"));
            const Rule* rule = rule_of(region, key);
            REQUIRE(rule);
            CHECK(verdict_of(*rule) == row.at("verdict"));
            const auto& limit = rule->limit ? rule->limit : rule->named_above;
            if (row.at("limit").empty())
                CHECK_FALSE(rule->limit);
            else if (const auto number = read_number(row.at("limit")); limit)
                CHECK(as_fraction(*limit) * 100 == number.value_or(Exact(-1)));
            else
                CHECK(limit.has_value());
            if (region == "US") CHECK(rule->certified == (row.at("certified") == "yes"));
            CHECK_FALSE(rule->source.empty());
        }
    }
}

/// Findings of one code about a shade that holds `amount` of a material of this number.
std::size_t findings_of(std::string_view code, const Rule& rule, const Exact& share) {
    const std::string& what = rule.covers.front().name;
    const std::string text = fmt::format(
        "material soft base\nmaterial colour\n    {}\nshade Quince\n    rest soft base\n"
        "    ({} × 100 %) colour\n",
        what.starts_with("CI ") ? "colourant " + what + ", strength 100 %"
                                : "contains \"" + what + "\" 100 %",
        share.fraction());
    const Compiled compiled = compile_page(text);
    for (const Finding& finding : compiled.findings) INFO(finding.message);
    REQUIRE_FALSE(any_error(compiled.findings));
    LipJudge judge(compiled.formulary, compiled.names,
                   {{rule.region.name, compiled.names.find(rule.region.name)}});
    Choice choice;
    choice.all = true;
    std::size_t products = 0;
    each_product(compiled.formulary, compiled.names, choice, [&](const Product& product) {
        ++products;
        judge.add(product);
    });
    CHECK(products == 1);
    std::size_t count = 0;
    for (const Finding& finding : judge.findings())
        count += row_of(finding.code).name == code ? 1 : 0;
    return count;
}

}  // namespace

TEST_CASE("the US rules are those of the table") { compare("US", "us"); }
TEST_CASE("the EU rules are those of the table") { compare("EU", "eu"); }

TEST_CASE("nothing of the law stands in a rule without its source, and no number in two") {
    std::set<std::pair<std::string, Sym>> covered;
    for (const Rule& rule : library().formulary.rules) {
        INFO(rule.region.name << " " << rule.name);
        CHECK_FALSE(rule.source.empty());
        CHECK_FALSE(rule.covers.empty());
        if (rule.lips == Rule::Lips::silent) continue;
        for (const Called& what : rule.covers)
            CHECK(covered.insert({rule.region.name, what.sym}).second);
    }
    CHECK(library().findings.empty());
    CHECK(library().formulary.rules.size() > 250);
    CHECK(library().formulary.regions.size() == 2);
}

// A row whose status was not read in a text of the law says so: the last column of the table is the
// first word of the source's own remark (memory, parent-memory, secondary).
TEST_CASE("what rests on memory is carried as unconfirmed, or was confirmed since") {
    std::string confirmed = levigate::testing::read_file(std::string(LEVIGATE_ROOT) +
                                                         "/tests/facts/lips-confirmations.csv")
                                .value_or("");
    std::size_t open = 0;
    for (const CsvRow& row : rows("us")) {
        if (row.at("confirmed") != "memory" || row.at("verdict") == "general") continue;
        const Rule* rule = rule_of("US", keys_of(row).front());
        REQUIRE(rule);
        INFO(row.at("name"));
        const bool looked_up = confirmed.find(row.at("name")) != std::string::npos;
        CHECK((!rule->unconfirmed.empty() || looked_up));
        open += rule->unconfirmed.empty() ? 0 : 1;
    }
    CHECK(open > 10);
}

// Each numeric limit of both regions: exactly at it nothing is said, one part in a million over it
// is an error.
TEST_CASE("limits bind above, and not at, what they say") {
    std::size_t limits = 0;
    for (const Rule& rule : library().formulary.rules) {
        if (!rule.limit) continue;
        ++limits;
        INFO(rule.region.name << " " << rule.name);
        const Exact at = as_fraction(*rule.limit);
        CHECK(findings_of("lips-limit", rule, at) == 0);
        CHECK(findings_of("lips-limit", rule, at * Exact(1000001, 1000000)) == 1);
    }
    // US: Orange 5, Red 33, Red 36. EU: 12085, 15630, 45350, 45396, 77266 nano, 77820, and those of
    // Annex III that the facts name.
    CHECK(limits >= 3 + 6);
}
