// Numbers as people write them.
#include "interpreter/measure/exact.hpp"

#include <catch2/catch.hpp>


using levigate::Exact;
using levigate::read_number;

namespace {

struct NumberRead {
    const char* text;
    std::int64_t num, den;
};

constexpr NumberRead numbers_read[] = {
    {"18", 18, 1},
    {"0.18", 18, 100},
    {".5", 1, 2},
    {"0", 0, 1},
    {"007", 7, 1},
    {"010", 10, 1},
    {"1.250", 5, 4},
    {"0.0", 0, 1},
    {"1/3", 1, 3},
    {"10/4", 5, 2},
    {"2 1/2", 5, 2},
    {"2  1/2", 5, 2},
    {"½", 1, 2},
    {"2½", 5, 2},
    {"2 ½", 5, 2},
    {"1⁄2", 1, 2},
    {"2 1⁄2", 5, 2},
    {"2\t1/2", 5, 2},
    {"0 1/2", 1, 2},
    {"0/5", 0, 1},
    {"2\u00A01/2", 5, 2},
    {"2\u2009½", 5, 2},
    {"2\u202F½", 5, 2},
    {"2\u3000½", 5, 2},
    {"2\u2007½", 5, 2},
    {"2\u205F½", 5, 2},
    {"2\u1680½", 5, 2},
    {"2\u2000½", 5, 2},
    // The vulgar fractions, by their names in the Unicode Standard.
    {"\u00BC", 1, 4},
    {"\u00BD", 1, 2},
    {"\u00BE", 3, 4},
    {"\u2150", 1, 7},
    {"\u2151", 1, 9},
    {"\u2152", 1, 10},
    {"\u2153", 1, 3},
    {"\u2154", 2, 3},
    {"\u2155", 1, 5},
    {"\u2156", 2, 5},
    {"\u2157", 3, 5},
    {"\u2158", 4, 5},
    {"\u2159", 1, 6},
    {"\u215A", 5, 6},
    {"\u215B", 1, 8},
    {"\u215C", 3, 8},
    {"\u215D", 5, 8},
    {"\u215E", 7, 8},
};

constexpr const char* texts_refused[] = {
    "",     " ",      "-1",   "+1",    "1e3",   "1,5",  "1.",     ".",    "1.2.3", " 1",
    "1 ",   "1/",     "/2",   "1/2/3", "1 2",   "1 /2", "1/ 2",   "½½",   "½ 1",   "1.5 1/2",
    "1.5½", "2 1/2 ", "1/½",  "abc",   "1a",    "0x10", "\u215F", "1½/2", "1/-2",  "½/2",
    "\xC2", "2\xC2",  "1\n½", "1 .5",  "1/2.5", "٣",    "\u2189", "2 1",  "2 ",    "1'000",
};

}  // namespace

TEST_CASE("the ways to write a number", "[read_number]") {
    for (const auto& row : numbers_read) {
        INFO(row.text);
        auto read = read_number(row.text);
        REQUIRE(read.has_value());
        CHECK(*read == Exact(row.num, row.den));
    }
}

TEST_CASE("what is no number", "[read_number]") {
    for (const char* text : texts_refused) {
        INFO('[' << text << ']');
        CHECK_FALSE(read_number(text).has_value());
    }
}

TEST_CASE("a denominator of nothing is read as such", "[read_number]") {
    for (const char* text : {"1/0", "0/0", "2 1/0", "1⁄000"}) {
        INFO(text);
        REQUIRE(read_number(text).has_value());
        CHECK(read_number(text)->by_zero());
    }
}

TEST_CASE("long numbers are exact up to the cap", "[read_number]") {
    std::string nines(1000, '9');
    CHECK(read_number("9223372036854775807")->fraction() == "9223372036854775807");
    CHECK(read_number("9223372036854775808")->fraction() == "9223372036854775808");
    CHECK(read_number("999999999999999999")->fraction() == "999999999999999999");
    CHECK(read_number(nines)->fraction() == nines);
    CHECK(read_number(nines + "9")->capped());
    CHECK(read_number("1/" + nines)->fraction() == "1/" + nines);
    CHECK(read_number("1/" + nines + "9")->capped());
    CHECK(read_number("0." + std::string(1001, '0') + "1")->capped());
    CHECK(read_number("0.123456789012345678901")->fraction() ==
          "123456789012345678901/1000000000000000000000");
}

TEST_CASE("a hundred million digits take no time to speak of", "[read_number]") {
    std::string zeros(100'000'000, '0');
    // Quadratic work would take days, and so run into the time that CTest allows.
    auto read = read_number("1." + zeros);
    REQUIRE(read.has_value());
    CHECK(*read == 1);
    zeros.back() = '7';
    CHECK(*read_number(zeros) == 7);
    zeros.front() = '1';
    CHECK(read_number(zeros)->capped());
    CHECK_FALSE(read_number(zeros + "x").has_value());
}

TEST_CASE("a number in its one written form keeps its sort") {
    using levigate::canonical_number;
    CHECK(canonical_number("8.50") == "8.5");
    CHECK(canonical_number(".5") == "0.5");
    CHECK(canonical_number("4.00") == "4");
    CHECK(canonical_number("007") == "7");
    CHECK(canonical_number("½") == "1/2");
    CHECK(canonical_number("2½") == "2 1/2");
    CHECK(canonical_number("2  1⁄2") == "2 1/2");
    CHECK(canonical_number("0 1/2") == "1/2");
    CHECK(canonical_number("2/4") == "2/4");
    CHECK(canonical_number("1.") == "");
}
