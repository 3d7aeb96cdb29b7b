// Exact numbers as text.
#include "interpreter/measure/exact.hpp"

#include <catch2/catch.hpp>

using levigate::Exact;

static std::string scaled(const Exact& x, std::int64_t scale, int places) {
    std::string out = "=";
    x.append_scaled(out, scale, places);
    return out;
}

TEST_CASE("fractions", "[exact][text]") {
    CHECK(Exact(32, 75).fraction() == "32/75");
    CHECK(Exact(6).fraction() == "6");
    CHECK(Exact(-1, 2).fraction() == "-1/2");
    CHECK(Exact().fraction() == "0");
}

TEST_CASE("fixed places", "[exact][text]") {
    CHECK(Exact(71, 10).fixed(2) == "7.10");
    CHECK(Exact(7).fixed(0) == "7");
    CHECK(Exact(5, 2).fixed(0) == "3");
    CHECK(Exact(1, 8).fixed(2) == "0.13");
    CHECK(Exact(-1, 8).fixed(2) == "-0.13");
    CHECK(Exact(-1, 1000).fixed(2) == "0.00");
    CHECK(Exact(999, 1000).fixed(2) == "1.00");
    CHECK(Exact(1, 3).fixed(25) == "0." + std::string(25, '3'));
    CHECK(Exact(2, 3).fixed(18) == "0." + std::string(17, '6') + "7");
    CHECK(Exact(1'000'000'000'000'000'000).fixed(3) == "1000000000000000000.000");
    CHECK((Exact(1'000'000'000'000'000'000) * 1000 + Exact(1, 200)).fixed(2) ==
          "1000000000000000000000.01");
    CHECK(Exact(3).fixed(-1) == "3");
}

TEST_CASE("at most so many places", "[exact][text]") {
    CHECK(Exact(64, 9).decimal(4) == "7.1111");
    CHECK(Exact(6).decimal(4) == "6");
    CHECK(Exact(1, 2).decimal(4) == "0.5");
    CHECK(Exact(600).decimal(2) == "600");
    CHECK(Exact(100, 1).decimal(0) == "100");
    CHECK(Exact(1, 100000).decimal(4) == "0");
    CHECK(Exact(-1, 100000).decimal(4) == "0");
    CHECK(Exact(199999, 100000).decimal(4) == "2");
    CHECK(Exact(-3, 2).decimal(4) == "-1.5");
}

TEST_CASE("scaled, as percentages are written", "[exact][text]") {
    CHECK(scaled(Exact(32, 75), 100, 4) == "=42.6667");
    CHECK(scaled(Exact(18, 100), 100, 4) == "=18");
    CHECK(scaled(Exact(1, 400), 1'000'000, 2) == "=2500");
    CHECK(scaled(Exact(1, 8), -100, 1) == "=-12.5");
    CHECK(scaled(Exact(1, 3), 9'000'000'000'000'000'000, 0) == "=3000000000000000000");
    CHECK(scaled(Exact(1, 3), 9'000'000'000'000'000'000, 2) == "=3000000000000000000");
}

TEST_CASE("the shortest form that loses nothing", "[exact][text]") {
    CHECK(Exact(1, 8).exactly() == "0.125");
    CHECK(Exact(18).exactly() == "18");
    CHECK(Exact(-7, 2).exactly() == "-3.5");
    CHECK(Exact(1, 3).exactly() == "1/3");
    CHECK(Exact(-1, 3).exactly() == "-1/3");
    CHECK(Exact(7, 3).exactly() == "2 1/3");
    CHECK(Exact(-7, 3).exactly() == "-2 1/3");
    CHECK(Exact(1, 4096).exactly() == "0.000244140625");  // 12 places
    CHECK(Exact(1, 8192).exactly() == "1/8192");          // would need 13
}

TEST_CASE("how many places a finite decimal needs", "[exact][text]") {
    int places = -1;
    CHECK((Exact(3, 8).finite_decimal(places) && places == 3));
    CHECK((Exact(7, 50).finite_decimal(places) && places == 2));
    CHECK((Exact(7).finite_decimal(places) && places == 0));
    CHECK_FALSE(Exact(1, 3).finite_decimal(places));
    CHECK_FALSE(Exact(1, 12).finite_decimal(places));
    Exact tiny = Exact(1, 1'000'000'000'000'000'000) / 1000;
    CHECK((tiny.finite_decimal(places) && places == 21));
    CHECK_FALSE((tiny / 3).finite_decimal(places));
    CHECK_FALSE(Exact(1, 0).finite_decimal(places));
}
