#pragma once
// The smallest rules: blanks, letters, words, numbers, signs. Everything that is forgiven as
// pasted (no-break blanks, curly apostrophes, ½, ×, dashes for a minus) is forgiven here.
// Private to the room: only grammar/ sees PEGTL.

#include <utf8proc.h>

#include <tao/pegtl.hpp>

namespace levigate::rules {

using namespace tao::pegtl;

// ---- Blanks ------------------------------------------------------------------------------------

struct ascii_blank : one<' ', '\t'> {};
struct wide_blank : sor<utf8::one<0xA0, 0x1680, 0x2028, 0x2029, 0x202F, 0x205F, 0x3000>,
                        utf8::range<0x2000, 0x200A>> {};
struct blank_sign : sor<ascii_blank, wide_blank> {};
struct gap : star<blank_sign> {};     // blanks that may be there: `18%`
struct blanks : plus<blank_sign> {};  // blanks that must: between words

// ---- Letters and words -------------------------------------------------------------------------

/// One letter, mark or digit of any script beyond ASCII, or a joiner inside such a word.
struct far_letter {
    using rule_t = far_letter;
    using subs_t = empty_list;
    template <typename Input>
    static bool match(Input& in) {
        const auto peeked = internal::peek_utf8::peek(in);
        if (!peeked || peeked.data < 0x80) return false;
        if (!is_letter(static_cast<utf8proc_int32_t>(peeked.data))) return false;
        in.bump_in_this_line(peeked.size);
        return true;
    }
    static bool is_letter(utf8proc_int32_t code) {
        if (code == 0x200C || code == 0x200D || code == 0x2019) return true;
        switch (utf8proc_category(code)) {
            case UTF8PROC_CATEGORY_LU:
            case UTF8PROC_CATEGORY_LL:
            case UTF8PROC_CATEGORY_LT:
            case UTF8PROC_CATEGORY_LM:
            case UTF8PROC_CATEGORY_LO:
            case UTF8PROC_CATEGORY_MN:
            case UTF8PROC_CATEGORY_MC:
            case UTF8PROC_CATEGORY_ND: return true;
            default: return false;
        }
    }
};

struct near_sign : one<'-', '\'', '.', '/', '&', '+', '(', ')', '#'> {};
struct colon_in_number : seq<digit, one<':'>, at<digit>> {};  // CI 15850:1
struct word_sign : sor<alnum, near_sign, far_letter> {};
struct word_part : sor<colon_in_number, word_sign> {};
struct word_end : not_at<word_part> {};
struct lone_slash : seq<one<'/'>, word_end> {};  // ` / ` parts a shade from its finish
struct word : seq<not_at<lone_slash>, plus<word_part>> {};

/// A word of the language, whole and in any case.
#define LEVIGATE_WORD(text) seq<TAO_PEGTL_ISTRING(text), word_end>

// ---- Signs -------------------------------------------------------------------------------------

struct minus_sign : sor<one<'-'>, utf8::one<0x2212, 0x2013, 0x2014>> {};
struct plus_sign : one<'+'> {};
struct ends_sign  // ±, and +- or +/- as pasted
    : sor<utf8::one<0xB1>, seq<plus_sign, opt<one<'/'>>, minus_sign>> {};
struct times_sign : sor<one<'*'>, utf8::one<0xD7>> {};
struct divide_sign : sor<one<'/'>, utf8::one<0xF7>> {};
struct percent_sign : one<'%'> {};
struct open_quote : sor<one<'"'>, utf8::one<0x201C, 0x201D, 0x201E>> {};
struct quoted_text : star<not_at<open_quote>, utf8::not_one<'\n', '\r'>> {};

/// Between the items of a list. A line that ends in a comma goes on in the next.
struct line_end : sor<string<'\r', '\n'>, one<'\n', '\r'>> {};
struct to_line_end : star<not_one<'\n', '\r'>> {};
struct comment_behind : seq<blank_sign, one<'#'>, at<sor<blank_sign, line_end, eof>>, to_line_end> {
};
struct comment_line : seq<one<'#'>, to_line_end> {};
struct bullet_sign
    : sor<one<'-', '*', '>'>,
          utf8::one<0x2022, 0x2013, 0x2014, 0xB7, 0x25AA, 0x25CF, 0x25E6, 0x2023, 0x2043>> {};
struct bullet : seq<bullet_sign, sor<blanks, at<line_end>>> {};
struct next_line : seq<line_end, gap, star<bullet>, opt<comment_line>> {};
struct comma : seq<gap, one<','>, star<sor<comment_behind, blank_sign, next_line>>> {};

// ---- Numbers -----------------------------------------------------------------------------------

struct digits : plus<digit> {};
struct vulgar : sor<utf8::one<0xBC, 0xBD, 0xBE, 0x2189>, utf8::range<0x2150, 0x215E>> {};
struct fraction : seq<digits, sor<one<'/'>, utf8::one<0x2044>>, digits> {};
struct mixed : seq<digits, sor<seq<gap, vulgar>, seq<blanks, fraction>>> {};
struct decimal : sor<seq<digits, opt<one<'.'>, digits>>, seq<one<'.'>, digits>> {};
struct number_text : sor<fraction, mixed, vulgar, decimal> {};

struct decimal_comma : seq<one<','>, digit> {};      // an error with its own words
struct second_point : seq<one<'.', '/'>, digit> {};  // 1.2.3, 1/2/3
struct bad_comma : failure {};
struct bad_point : failure {};
struct no_decimal_comma : sor<not_at<decimal_comma>, raise<bad_comma>> {};
struct no_second_point : sor<not_at<second_point>, raise<bad_point>> {};
struct number : seq<number_text, no_decimal_comma, no_second_point> {};

}  // namespace levigate::rules
