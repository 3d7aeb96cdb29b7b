// How little a balance weighs well, and how less is weighed all the same, against worked examples
// of pharmacy and the table of USP <41>: weighing.csv (the source of each row stands in it, and
// whether its answer was confirmed there or computed by us) and usp41.csv (2000 times 0.41 steps,
// reckoned from the rule of the chapter: twice the standard deviation is at most 0.10 % of the
// least weight).

#include <catch2/catch.hpp>

#include "interpreter/expand/weighable.hpp"
#include "tests/facts/csv.hpp"
#include "tests/support/text.hpp"

using namespace levigate;
using namespace levigate::testing;

namespace {

std::vector<CsvRow> table(const std::string& name) {
    const std::string path = std::string(LEVIGATE_ROOT) + "/tests/facts/" + name;
    return read_csv(levigate::testing::read_file(path).value_or(""));
}

Exact number(const CsvRow& row, const std::string& column) {
    const std::string& text = row.at(column);
    if (text.starts_with("-")) return -read_number(text.substr(1)).value();
    return read_number(text).value();
}

/// The tables' milligrams.
Mass mg(const CsvRow& row, const std::string& column) {
    return grams(number(row, column) / Exact(1000));
}

Share error_in(const CsvRow& row) { return percent(number(row, "error_percent")); }

Mass milligram() { return grams(Exact(1, 1000)); }

int count(const std::vector<CsvRow>& rows, const std::string& kind) {
    int out = 0;
    for (const CsvRow& row : rows) out += row.at("kind") == kind;
    return out;
}

}  // namespace

TEST_CASE("least weights and errors of pharmacy") {
    const auto rows = table("weighing.csv");
    REQUIRE(count(rows, "least") == 7);
    REQUIRE(count(rows, "error") == 6);
    REQUIRE(count(rows, "off") == 2);
    for (const CsvRow& row : rows) {
        INFO(row.at("id") << ", " << row.at("source"));
        const std::string& kind = row.at("kind");
        if (kind == "least") {
            const Mass least = least_by_error(mg(row, "sensitivity_mg"), error_in(row));
            CHECK(in_grams(least) == in_grams(mg(row, "least_mg")));
        }
        // the least weight at the error that an amount has is that amount
        if (kind == "error")
            CHECK(in_grams(least_by_error(mg(row, "sensitivity_mg"), error_in(row))) ==
                  in_grams(mg(row, "amount_mg")));
        if (kind == "off")
            CHECK(off_by(mg(row, "amount_mg"), mg(row, "wanted_mg")) == as_fraction(error_in(row)));
    }
}

TEST_CASE("aliquots of pharmacy") {
    const auto rows = table("weighing.csv");
    REQUIRE(count(rows, "aliquot") == 8);
    REQUIRE(count(rows, "aliquot chosen") == 2);
    REQUIRE(count(rows, "held") == 1);
    for (const CsvRow& row : rows) {
        INFO(row.at("id") << ", " << row.at("source"));
        const std::string& kind = row.at("kind");
        if (!kind.starts_with("aliquot") && kind != "held") continue;
        const Aliquot told{0, mg(row, "weigh_mg"), mg(row, "with_mg"), mg(row, "take_mg")};
        CHECK(in_grams(told.held()) == in_grams(mg(row, "held_mg")));
        if (kind == "held") continue;
        const Mass need = mg(row, "need_mg"), least = mg(row, "least_mg");
        CHECK(in_grams(aliquot_diluent(need, told.weigh, told.take)) == in_grams(told.with));
        if (kind == "aliquot chosen") continue;  // the source takes a larger factor or aliquot
        CHECK(aliquot_factor(need, least) == number(row, "factor"));
        const auto made = aliquot(need, {milligram(), least});
        REQUIRE(made);
        CHECK(made->factor == number(row, "factor"));
        CHECK(in_grams(made->weigh) == in_grams(told.weigh));
        CHECK(in_grams(made->with) == in_grams(told.with));
        CHECK(in_grams(made->take) == in_grams(told.take));
        CHECK(in_grams(made->held()) == in_grams(need));
    }
}

TEST_CASE("least weights by USP <41>") {
    const auto rows = table("usp41.csv");
    REQUIRE(rows.size() == 12);
    for (const CsvRow& row : rows) {
        INFO(row.at("step_g"));
        const Mass step = grams(number(row, "step_g"));
        const Mass floor = grams(number(row, "floor_g")), least = grams(number(row, "least_g"));
        CHECK(in_grams(least_by_usp41(step, {})) == in_grams(least));
        CHECK(in_grams(least_by_usp41(step, floor)) == in_grams(least));
        CHECK(in_grams(least_by_usp41(step, grams(in_grams(floor) / 2))) == in_grams(least));
        // 2 × standard deviation ÷ least weight is 0.10 %, whatever the deviation is
        const Mass worse = grams(in_grams(floor) * 3);
        CHECK(2 * in_grams(worse) / in_grams(least_by_usp41(step, worse)) == Exact(1, 1000));
    }
}
