// The currencies.
#include "interpreter/measure/iso4217.hpp"

#include <catch2/catch.hpp>

#include <string>

using namespace levigate;

TEST_CASE("currencies in either case", "[iso4217]") {
    for (const char* code : {"USD", "EUR", "GBP", "JPY", "AED", "ZWG"}) {
        INFO(code);
        CHECK(currency_code(currency_tag(code)) == code);
    }
    CHECK(currency_tag("usd") == currency_tag("USD"));
    CHECK(currency_tag("Eur") == currency_tag("EUR"));
    CHECK(currency_tag("USD") != currency_tag("EUR"));
}

TEST_CASE("what is no currency", "[iso4217]") {
    for (const char* code : {"", "US", "USDD", "ABC", "ZZZ", "AAA", "XAU", "U D", "€"}) {
        INFO(code);
        CHECK(currency_tag(code) == 0);
    }
    CHECK(currency_code(0).empty());
    CHECK(currency_code(100'000).empty());
}

TEST_CASE("every tag leads to a code and back, in the order of the alphabet", "[iso4217]") {
    std::string before;
    std::uint32_t tag = 1;
    for (; !currency_code(tag).empty(); ++tag) {
        std::string code(currency_code(tag));
        INFO(code);
        CHECK(code.size() == 3);
        CHECK(before < code);
        CHECK(currency_tag(code) == tag);
        before = code;
    }
    CHECK(tag > 150);
}
