#include "interpreter/measure/date.hpp"

#include <array>
#include <charconv>

namespace levigate {
namespace {

/// By the Gregorian calendar.
int days_in(int year, int month) {
    constexpr std::array days = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    const bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
    return days[static_cast<std::size_t>(month - 1)] + (month == 2 && leap ? 1 : 0);
}

std::optional<int> number(std::string_view digits) {
    int value = 0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    if (error != std::errc() || end != digits.data() + digits.size()) return std::nullopt;
    return value;
}

}  // namespace

std::optional<Date> read_date(std::string_view text) {
    if ((text.size() != 7 && text.size() != 10) || text[4] != '-') return std::nullopt;
    const auto year = number(text.substr(0, 4)), month = number(text.substr(5, 2));
    if (!year || !month || *month < 1 || *month > 12) return std::nullopt;
    if (text.size() == 7) return Date{*year, *month, 0};
    const auto day = number(text.substr(8));
    if (text[7] != '-' || !day || *day < 1 || *day > days_in(*year, *month)) return std::nullopt;
    return Date{*year, *month, *day};
}

std::string date_words(const Date& date) {
    const auto padded = [](int number, std::size_t width) {
        std::string text = std::to_string(number);
        return std::string(width > text.size() ? width - text.size() : 0, '0') + text;
    };
    std::string out = padded(date.year, 4) + "-" + padded(date.month, 2);
    return date.day == 0 ? out : out + "-" + padded(date.day, 2);
}

Date last_day(const Date& date) {
    if (date.day != 0) return date;
    return {date.year, date.month, days_in(date.year, date.month)};
}

}  // namespace levigate
