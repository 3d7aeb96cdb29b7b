// Which letters are written from right to left, against ICU's own tables.
#define U_SHOW_CPLUSPLUS_API 0
#include <unicode/uchar.h>
#include <unicode/utf8.h>

#include "grammar/isolates.hpp"

#include <catch2/catch.hpp>

TEST_CASE("every letter of Unicode has the direction that ICU gives it") {
    std::size_t letters = 0, differ = 0;
    for (UChar32 letter = 1; letter < 0x110000; ++letter) {
        if (!u_isdefined(letter) || U_IS_SURROGATE(letter)) continue;
        char bytes[8];
        int32_t length = 0;
        U8_APPEND_UNSAFE(bytes, length, letter);
        const UCharDirection direction = u_charDirection(letter);
        const bool due = direction == U_RIGHT_TO_LEFT || direction == U_RIGHT_TO_LEFT_ARABIC;
        letters += due;
        const std::string_view text(bytes, static_cast<std::size_t>(length));
        if (levigate::right_to_left(text) == due) continue;
        if (++differ < 10) UNSCOPED_INFO("U+" << std::hex << letter);
    }
    CHECK(letters > 2'900);
    CHECK(differ == 0);
}
