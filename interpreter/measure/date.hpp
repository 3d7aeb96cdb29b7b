#pragma once
// Days as files write them (ISO 8601): 2026-10-01, or 2027-03 for a whole month. No clock anywhere.

#include <compare>
#include <optional>
#include <string>
#include <string_view>

namespace levigate {

struct Date {
    int year = 0, month = 0;
    int day = 0;  ///< 0: the whole month
    auto operator<=>(const Date&) const = default;
};

/// Nothing where the calendar has no such day, or the text is no date.
std::optional<Date> read_date(std::string_view text);
/// As it is written: 2026-10-01, 2027-03.
std::string date_words(const Date& date);
/// The day itself, or the last of its month.
Date last_day(const Date& date);

}  // namespace levigate
