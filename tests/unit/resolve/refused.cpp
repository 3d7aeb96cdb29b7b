// Each pair of kinds that an operation refuses gets a remedy, and each remedy is an expression
// that checks: it is put in the place of what was refused, and evaluated.

#include <catch2/catch.hpp>

#include "interpreter/compile.hpp"
#include "interpreter/measure/dimension.hpp"

using namespace levigate;

namespace {

const char* example(Kind kind) {
    switch (kind) {
        case Kind::number: return "4";
        case Kind::share: return "5 %";
        case Kind::mass: return "7 g";
        case Kind::volume: return "3 mL";
        case Kind::count: return "2 jars";
        case Kind::money: return "8 USD";
        case Kind::density: return "(9 g/mL)";
        case Kind::volume_per_mass: return "(2 mL per 5 g)";
        case Kind::money_per_mass: return "(3 USD per 2 g)";
        case Kind::money_per_volume: return "(3 USD per 2 mL)";
        case Kind::money_per_count: return "(3 USD per jar)";
        case Kind::temperature_step: return "6 kelvin";
        case Kind::temperature_point: return "20 °C";
    }
    return "";
}

const char* sign(Op op) {
    switch (op) {
        case Op::add: return "+";
        case Op::subtract: return "-";
        case Op::multiply: return "×";
        case Op::divide: return "/";
        case Op::per: return "per";
    }
    return "";
}

/// What a step says of an expression: any kind of quantity may stand in its braces.
Findings findings_of(const std::string& expression) {
    const std::string text = "material soft base\ncontainer jar\n    holds 10 g\nshade Quince\n"
                             "    rest soft base\n    batch trial 6 g\n    step Look at {" +
                             expression + "}.\n";
    return compile(memory_world({{"a.shade", text}}), "a.shade").findings;
}

}  // namespace

TEST_CASE("each refused pair of kinds has a remedy that checks") {
    std::size_t refused = 0, allowed = 0;
    for (std::size_t op = 0; op < op_count; ++op) {
        for (std::size_t left = 0; left < kind_count; ++left) {
            for (std::size_t right = 0; right < kind_count; ++right) {
                const auto o = static_cast<Op>(op);
                const auto a = static_cast<Kind>(left), b = static_cast<Kind>(right);
                const std::string text = std::string(example(a)) + " " + sign(o) + " " + example(b);
                const Findings found = findings_of("(" + text + ")");
                INFO(text);
                if (result_kind(o, a, b)) {
                    CHECK(found.empty());
                    ++allowed;
                    continue;
                }
                ++refused;
                REQUIRE(found.size() == 1);
                CHECK(found[0].code == Code::quantity_kind);
                REQUIRE(found[0].advice.empty());
                const std::string& instead = remedy(found[0]);
                INFO("remedy " << instead);
                CHECK(findings_of(instead).empty());
            }
        }
    }
    CHECK(refused > 500);
    CHECK(allowed > 50);
}

TEST_CASE("two currencies and two containers don't mix") {
    CHECK(findings_of("(2 USD + 3 EUR)").size() == 1);
    CHECK(findings_of("(2 USD + 3 USD)").empty());
    CHECK(findings_of("(2 jars + 3 parts)").size() == 1);
}
