// Which texts look alike. The outside check is ICU itself, which reckons skeletons (UTS 39,
// section 4) and restriction levels (section 5.2) by code of its own.
#define U_SHOW_CPLUSPLUS_API 0
#include <unicode/uchar.h>
#include <unicode/uscript.h>
#include <unicode/uspoof.h>
#include <unicode/utf8.h>

#include "interpreter/lookalike/lookalike.hpp"

#include <random>
#include <vector>

#include <catch2/catch.hpp>

using namespace levigate::lookalike;

namespace {

std::string utf8(UChar32 sign) {
    char out[8];
    int32_t length = 0;
    U8_APPEND_UNSAFE(out, length, sign);
    return std::string(out, static_cast<std::size_t>(length));
}

std::string by_icu(const std::string& text) {
    static UErrorCode opened = U_ZERO_ERROR;
    static const USpoofChecker* const checker = uspoof_open(&opened);
    UErrorCode error = U_ZERO_ERROR;
    std::string out(40 * text.size() + 100, '\0');
    const int32_t length =
        uspoof_getSkeletonUTF8(checker, 0, text.data(), static_cast<int32_t>(text.size()),
                               out.data(), static_cast<int32_t>(out.size()), &error);
    REQUIRE(U_SUCCESS(opened));
    REQUIRE(U_SUCCESS(error));
    out.resize(static_cast<std::size_t>(length));
    return out;
}

bool mixed_by_icu(const std::string& word) {
    static UErrorCode error = U_ZERO_ERROR;
    static USpoofChecker* const checker = [] {
        USpoofChecker* made = uspoof_open(&error);
        uspoof_setChecks(made, USPOOF_RESTRICTION_LEVEL, &error);
        uspoof_setRestrictionLevel(made, USPOOF_HIGHLY_RESTRICTIVE);
        return made;
    }();
    const int32_t found =
        uspoof_check2UTF8(checker, word.data(), static_cast<int32_t>(word.size()), nullptr, &error);
    REQUIRE(U_SUCCESS(error));
    return found != 0;
}

bool is_sign(UChar32 sign) { return !U_IS_SURROGATE(sign) && u_isdefined(sign); }

/// Letters of one script each; those that several scripts share are ICU's to tell.
std::vector<UChar32> letters(std::initializer_list<UScriptCode> scripts) {
    std::vector<UChar32> out;
    for (UChar32 sign = 'A'; sign < 0x2000; ++sign) {
        UErrorCode error = U_ZERO_ERROR;
        UScriptCode extended[8];
        if (!u_isalpha(sign) || sign == 0x3BC) continue;
        if (uscript_getScriptExtensions(sign, extended, 8, &error) != 1) continue;
        for (const UScriptCode script : scripts)
            if (extended[0] == script) out.push_back(sign);
    }
    return out;
}

}  // namespace

TEST_CASE("every sign of Unicode has the skeleton that ICU gives it") {
    std::size_t signs = 0, differ = 0;
    for (UChar32 sign = 1; sign < 0x110000; ++sign) {
        if (!is_sign(sign)) continue;
        ++signs;
        const std::string text = utf8(sign);
        if (skeleton(text) == by_icu(text)) continue;
        if (++differ < 10) UNSCOPED_INFO("U+" << std::hex << sign << " " << text);
    }
    CHECK(signs > 200'000);
    CHECK(differ == 0);
}

TEST_CASE("so have texts of several signs, in plain ASCII and beyond") {
    std::mt19937 random(20261125);
    const UChar32 last[] = {0x7E, 0x7E, 0x24F, 0x52F, 0x1FFF, 0x1FBFF};
    for (int round = 0; round < 20'000; ++round) {
        std::string text;
        const UChar32 most = last[random() % 6];
        for (unsigned i = 0, length = 1 + random() % 12; i < length;) {
            const auto sign = static_cast<UChar32>(0x20 + random() % (most - 0x20 + 1));
            if (!is_sign(sign)) continue;
            text += utf8(sign);
            ++i;
        }
        INFO(text);
        REQUIRE(skeleton(text) == by_icu(text));
        REQUIRE((skeleton_hash(text) == skeleton_hash(skeleton(text))) ==
                (skeleton(text) == skeleton(skeleton(text))));
    }
}

TEST_CASE("a text that is no UTF-8 has a skeleton too") {
    CHECK(skeleton("a\xFFz") == "a\xFFz");
    CHECK_FALSE(look_alike("a\xFFz", "a\xFEz"));
    CHECK_FALSE(mixed_word("a\xFFz"));
}

TEST_CASE("what looks alike, and what doesn't") {
    CHECK(look_alike("Rose I", "Rose l"));
    CHECK(look_alike("Rose 1", "Rose l"));
    CHECK(look_alike("Mica", "\u041C\u0456\u0441\u0430"));  // all but in Cyrillic
    CHECK(look_alike("clam", "clarn"));
    CHECK_FALSE(look_alike("Red 1", "Red 10"));
    CHECK_FALSE(look_alike("Red 6", "Red 7"));
    CHECK_FALSE(look_alike("Rose", "Rose"));
    CHECK_FALSE(look_alike("Ros\u00E9", "Rose"));
    const Difference one = difference("Rose I", "Rose l");
    CHECK(one.in_a == "I (U+0049, Latin)");
    CHECK(one.in_b == "l (U+006C, Latin)");
    CHECK(difference("Rose 1", "Rose ").in_b == "nothing");
}

TEST_CASE("a word of two scripts is told, where they aren't written together") {
    const auto mixed = mixed_word("soft m\u0456ca base");
    REQUIRE(mixed);
    CHECK(mixed->word == "m\u0456ca");
    CHECK(mixed->first == "Latin");
    CHECK(mixed->second == "Cyrillic");
    for (const char* fine :
         {"\u03B2-carotene", "10 \u03BCm mica", "10 \u00B5m mica", "Ros\u00E9", "Pre\u0301",
          "\u041C\u0438\u043A\u0430 A", "Lip\u7D05", "\u53E3\u7D05 \u30EB\u30FC\u30B8\u30E5", "",
          "CI 77491", "Caf\u00E9 \u2764\uFE0F"}) {
        INFO(fine);
        CHECK_FALSE(mixed_word(fine));
    }
}

TEST_CASE("words of Latin, Greek, Cyrillic and others are mixed where ICU finds them so") {
    std::mt19937 random(4);
    const std::vector<std::vector<UChar32>> groups = {letters({USCRIPT_LATIN}),
                                                      letters({USCRIPT_LATIN, USCRIPT_GREEK}),
                                                      letters({USCRIPT_LATIN, USCRIPT_CYRILLIC}),
                                                      letters({USCRIPT_CYRILLIC}),
                                                      letters({USCRIPT_ARMENIAN, USCRIPT_LATIN}),
                                                      letters({USCRIPT_CHEROKEE, USCRIPT_LATIN}),
                                                      letters({USCRIPT_HEBREW, USCRIPT_THAI}),
                                                      letters({USCRIPT_GEORGIAN})};
    std::size_t mixed = 0;
    for (int round = 0; round < 4'000; ++round) {
        const auto& group = groups[random() % groups.size()];
        REQUIRE_FALSE(group.empty());
        std::string word;
        for (unsigned i = 0, length = 1 + random() % 6; i < length; ++i)
            word += utf8(group[random() % group.size()]);
        INFO(word);
        REQUIRE(mixed_word(word).has_value() == mixed_by_icu(word));
        mixed += mixed_word(word).has_value();
    }
    CHECK(mixed > 500);
    CHECK(mixed < 3'500);
}
