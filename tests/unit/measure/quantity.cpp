// Quantities of a file: the table of what goes together, tags, refusals, temperatures.
#include "interpreter/measure/quantity.hpp"

#include <catch2/catch.hpp>

#include <map>
#include <set>
#include <tuple>

using namespace levigate;
using Why = Refusal::Why;

namespace {

Quantity made(const std::variant<Quantity, Refusal>& out) {
    REQUIRE(std::holds_alternative<Quantity>(out));
    return std::get<Quantity>(out);
}

Why refused(const std::variant<Quantity, Refusal>& out) {
    REQUIRE(std::holds_alternative<Refusal>(out));
    return std::get<Refusal>(out).why;
}

constexpr Kind K(std::size_t i) { return static_cast<Kind>(i); }

// × and ÷ written out by hand from the design (LANGUAGE, "Amounts"), for every pair that is legal
// beyond the rules for plain numbers, which the test adds.
using TwoKinds = std::pair<Kind, Kind>;
const std::map<TwoKinds, Kind> products = {
    {{Kind::share, Kind::share}, Kind::share},
    {{Kind::share, Kind::mass}, Kind::mass},
    {{Kind::volume, Kind::density}, Kind::mass},
    {{Kind::mass, Kind::volume_per_mass}, Kind::volume},
    {{Kind::density, Kind::volume_per_mass}, Kind::number},
    {{Kind::mass, Kind::money_per_mass}, Kind::money},
    {{Kind::volume, Kind::money_per_volume}, Kind::money},
    {{Kind::count, Kind::money_per_count}, Kind::money},
    {{Kind::density, Kind::money_per_mass}, Kind::money_per_volume},
    {{Kind::volume_per_mass, Kind::money_per_volume}, Kind::money_per_mass},
};
const std::map<TwoKinds, Kind> quotients = {
    {{Kind::mass, Kind::mass}, Kind::share},
    {{Kind::mass, Kind::share}, Kind::mass},
    {{Kind::mass, Kind::volume}, Kind::density},
    {{Kind::mass, Kind::density}, Kind::volume},
    {{Kind::volume, Kind::mass}, Kind::volume_per_mass},
    {{Kind::volume, Kind::volume_per_mass}, Kind::mass},
    {{Kind::number, Kind::density}, Kind::volume_per_mass},
    {{Kind::number, Kind::volume_per_mass}, Kind::density},
    {{Kind::money, Kind::mass}, Kind::money_per_mass},
    {{Kind::money, Kind::volume}, Kind::money_per_volume},
    {{Kind::money, Kind::count}, Kind::money_per_count},
    {{Kind::money, Kind::money_per_mass}, Kind::mass},
    {{Kind::money, Kind::money_per_volume}, Kind::volume},
    {{Kind::money, Kind::money_per_count}, Kind::count},
    {{Kind::money_per_mass, Kind::volume_per_mass}, Kind::money_per_volume},
    {{Kind::money_per_mass, Kind::money_per_volume}, Kind::volume_per_mass},
    {{Kind::money_per_volume, Kind::density}, Kind::money_per_mass},
    {{Kind::money_per_volume, Kind::money_per_mass}, Kind::density},
};

std::optional<Kind> expected_product(Kind left, Kind right) {
    if (left == Kind::temperature_point || right == Kind::temperature_point) return std::nullopt;
    if (left == Kind::number) return right;
    if (right == Kind::number) return left;
    if (auto at = products.find({left, right}); at != products.end()) return at->second;
    if (auto at = products.find({right, left}); at != products.end()) return at->second;
    return std::nullopt;
}

std::optional<Kind> expected_quotient(Kind left, Kind right) {
    if (left == Kind::temperature_point || right == Kind::temperature_point) return std::nullopt;
    if (right == Kind::number) return left;
    if (auto at = quotients.find({left, right}); at != quotients.end()) return at->second;
    if (left == right) return Kind::number;
    return std::nullopt;
}

std::optional<Kind> expected_sum(Op op, Kind left, Kind right) {
    bool point = left == Kind::temperature_point, other = right == Kind::temperature_point;
    bool step = left == Kind::temperature_step, change = right == Kind::temperature_step;
    if (point && change) return Kind::temperature_point;
    if (op == Op::add && step && other) return Kind::temperature_point;
    if (op == Op::subtract && point && other) return Kind::temperature_step;
    if (point || other || left != right) return std::nullopt;
    return left;
}

const std::map<TwoKinds, Kind> rates = {
    {{Kind::mass, Kind::mass}, Kind::share},
    {{Kind::mass, Kind::volume}, Kind::density},
    {{Kind::volume, Kind::mass}, Kind::volume_per_mass},
    {{Kind::money, Kind::mass}, Kind::money_per_mass},
    {{Kind::money, Kind::volume}, Kind::money_per_volume},
    {{Kind::money, Kind::count}, Kind::money_per_count},
};

std::optional<Kind> expected(Op op, Kind left, Kind right) {
    if (op == Op::multiply) return expected_product(left, right);
    if (op == Op::divide) return expected_quotient(left, right);
    if (op != Op::per) return expected_sum(op, left, right);
    auto at = rates.find({left, right});
    return at == rates.end() ? std::nullopt : std::optional(at->second);
}

}  // namespace

TEST_CASE("every cell of the table, against one written by hand", "[quantity]") {
    for (std::size_t op = 0; op < op_count; ++op)
        for (std::size_t l = 0; l < kind_count; ++l)
            for (std::size_t r = 0; r < kind_count; ++r) {
                INFO("operation " << op << ": " << kind_words(K(l)) << ", " << kind_words(K(r)));
                CHECK(result_kind(static_cast<Op>(op), K(l), K(r)) ==
                      expected(static_cast<Op>(op), K(l), K(r)));
            }
}

TEST_CASE("the values follow the kinds", "[quantity]") {
    Quantity third{Kind::number, Exact(1, 3)}, nine{Kind::mass, 9}, fifty{Kind::mass, 50};
    Quantity share{Kind::share, Exact(18, 100)};
    CHECK(made(combine(Op::multiply, share, fifty)).value == 9);
    auto part = made(combine(Op::per, nine, fifty));
    CHECK((part.kind == Kind::share && part.value == Exact(18, 100)));
    CHECK(made(combine(Op::add, nine, fifty)).value == 59);
    CHECK(made(combine(Op::subtract, nine, fifty)).value == -41);
    CHECK(made(combine(Op::multiply, third, nine)).value == 3);
    auto twice = made(combine(Op::divide, share, share));
    CHECK((twice.kind == Kind::number && twice.value == 1));
}

TEST_CASE("a refusal says why and of what", "[quantity]") {
    Quantity number{Kind::number, 1}, share{Kind::share, 1}, volume{Kind::volume, 1};
    auto out = combine(Op::add, number, share);
    REQUIRE(std::holds_alternative<Refusal>(out));
    auto refusal = std::get<Refusal>(out);
    CHECK(refusal.why == Why::kinds);
    CHECK((refusal.op == Op::add && refusal.left == Kind::number && refusal.right == Kind::share));
    CHECK(refused(combine(Op::multiply, share, volume)) == Why::kinds);
    CHECK(refused(combine(Op::divide, volume, {Kind::number, 0})) == Why::by_zero);
    CHECK(refused(combine(Op::per, volume, {Kind::mass, 0})) == Why::by_zero);
    // Kinds that don't go together are the first thing wrong.
    CHECK(refused(combine(Op::divide, share, {Kind::volume, 0})) == Why::kinds);
}

TEST_CASE("what is unknown stays unknown and is of its kind", "[quantity]") {
    Quantity unknown{Kind::mass, Exact(1, 0)}, mass{Kind::mass, 2};
    auto sum = made(combine(Op::add, unknown, mass));
    CHECK((sum.kind == Kind::mass && sum.value.by_zero()));
    CHECK(made(combine(Op::divide, mass, unknown)).value.by_zero());
    CHECK(refused(combine(Op::add, unknown, {Kind::share, 1})) == Why::kinds);
}

TEST_CASE("two currencies don't mix", "[quantity]") {
    Quantity a{Kind::money, 10, 1}, b{Kind::money, 4, 2}, any{Kind::money, 1, 0};
    Quantity mass{Kind::mass, 5};
    CHECK(refused(combine(Op::add, a, b)) == Why::currencies);
    CHECK(refused(combine(Op::subtract, a, b)) == Why::currencies);
    CHECK(refused(combine(Op::divide, a, b)) == Why::currencies);
    CHECK(made(combine(Op::add, a, any)).tag == 1);
    CHECK(made(combine(Op::add, any, b)).tag == 2);
    auto ratio = made(combine(Op::divide, a, a));
    CHECK((ratio.kind == Kind::number && ratio.tag == 0));

    auto price = made(combine(Op::per, a, mass));
    CHECK((price.kind == Kind::money_per_mass && price.tag == 1 && price.value == 2));
    auto cost = made(combine(Op::multiply, mass, price));
    CHECK((cost.kind == Kind::money && cost.tag == 1 && cost.value == 10));
    CHECK(refused(combine(Op::divide, b, price)) == Why::currencies);
}

TEST_CASE("counts of two containers don't mix", "[quantity]") {
    Quantity tubes{Kind::count, 48, 7}, jars{Kind::count, 2, 8}, cost{Kind::money, 96, 3};
    CHECK(refused(combine(Op::add, tubes, jars)) == Why::containers);
    CHECK(refused(combine(Op::divide, tubes, jars)) == Why::containers);
    CHECK(made(combine(Op::add, tubes, tubes)).tag == 7);
    CHECK(made(combine(Op::multiply, {Kind::number, 2}, tubes)).tag == 7);
    auto each = made(combine(Op::per, cost, tubes));
    CHECK((each.kind == Kind::money_per_count && each.tag == 3 && each.value == 2));
}

TEST_CASE("temperatures convert exactly", "[quantity][temperature]") {
    // check_values.md, end of section 1 (GNU units).
    struct Row {
        Exact fahrenheit, celsius;
    };
    const Row rows[] = {{Exact(986, 10), 37},
                        {212, 100},
                        {-40, -40},
                        {167, 75},
                        {176, 80},
                        {185, 85},
                        {68, 20},
                        {77, 25},
                        {Exact(1436, 10), 62}};
    for (const auto& row : rows) {
        INFO(row.fahrenheit.exactly());
        CHECK(celsius_from_fahrenheit(row.fahrenheit) == row.celsius);
        CHECK(fahrenheit_from_celsius(row.celsius) == row.fahrenheit);
    }
    CHECK(celsius_from_fahrenheit(160).decimal(4) == "71.1111");
    CHECK(celsius_from_fahrenheit(0).decimal(4) == "-17.7778");
}

TEST_CASE("every kind has words of its own", "[quantity]") {
    std::set<std::string_view> seen;
    for (std::size_t i = 0; i < kind_count; ++i) seen.insert(kind_words(K(i)));
    CHECK(seen.size() == kind_count);
    CHECK(kind_words(Kind::mass) == "a weight");
    CHECK(kind_words(Kind::temperature_point) == "a temperature reading");
}
