// Days of the calendar.
#include "interpreter/measure/date.hpp"

#include <catch2/catch.hpp>

using namespace levigate;

TEST_CASE("days that there are, and days that there aren't", "[date]") {
    CHECK(read_date("2026-10-01") == Date{2026, 10, 1});
    CHECK(read_date("2027-03") == Date{2027, 3, 0});
    // Leap years by the Gregorian rule: 2000 and 2024 are, 1900 and 2026 aren't.
    for (const char* good : {"2024-02-29", "2000-02-29", "2026-12-31", "2026-04-30"})
        CHECK(read_date(good).has_value());
    for (const char* bad : {"2026-02-29", "1900-02-29", "2026-04-31", "2026-13-01", "2026-00-10",
                            "2026-10-00", "2026-1-1", "26-10-01", "2026/10/01", "2026-10-1x", ""})
        CHECK_FALSE(read_date(bad).has_value());
}

TEST_CASE("a month ends with its last day, and days are in order", "[date]") {
    CHECK(last_day({2027, 2, 0}) == Date{2027, 2, 28});
    CHECK(last_day({2028, 2, 0}) == Date{2028, 2, 29});
    CHECK(last_day({2027, 2, 5}) == Date{2027, 2, 5});
    CHECK(Date{2026, 12, 31} < Date{2027, 1, 1});
    CHECK(Date{2027, 3, 9} < Date{2027, 3, 10});
}
