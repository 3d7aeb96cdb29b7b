#pragma once
// The grammar of names, quantities and amounts. One rule a line where it fits, an example behind
// it, no actions in it (actions.hpp), and each `need_…` has its message in expected.hpp.

#include <tao/pegtl/contrib/analyze_traits.hpp>

#include "grammar/lexical.hpp"

namespace levigate::rules {

// ---- Holes and names ---------------------------------------------------------------------------

struct hole_name : seq<word, star<blanks, word>> {};
struct hole_close : seq<gap, one<'}'>> {};
struct need_hole_name : seq<gap, hole_name> {};
struct need_hole_close : seq<hole_close> {};
struct hole : seq<one<'{'>, need_hole_name, need_hole_close> {};  // {depth}

struct close_quote : seq<open_quote> {};
struct need_close_quote : seq<close_quote> {};
struct quoted_name : seq<quoted_text> {};
struct quoted : seq<open_quote, quoted_name, need_close_quote> {};  // "Salt for Two"

struct never : failure {};
/// Where a name lacks: the word that its line waits for stands in its place. It is itself a name's
/// first word where nothing follows it, or where it comes once more: `swap For Two for Rose`.
template <typename Stop>
struct name_lacks : seq<Stop, at<blanks, any>, not_at<until<seq<blanks, Stop>>>> {};
/// Words up to where `Stop` could begin.
template <typename Stop>
struct bare_name : seq<not_at<name_lacks<Stop>>, word, star<blanks, not_at<Stop>, word>> {};
template <typename Stop = never>
struct name : sor<hole, quoted, bare_name<Stop>> {};

// ---- Quantities --------------------------------------------------------------------------------

struct per_word : LEVIGATE_WORD("per") {};
struct in_word : LEVIGATE_WORD("in") {};
/// Words that end a measure's name.
struct measure_stop
    : sor<per_word, in_word, LEVIGATE_WORD("and"), LEVIGATE_WORD("at"), LEVIGATE_WORD("to"),
          LEVIGATE_WORD("by"), LEVIGATE_WORD("over"), LEVIGATE_WORD("as"), LEVIGATE_WORD("overage"),
          LEVIGATE_WORD("holdback")> {};
struct measure_first : sor<alpha, utf8::one<0xB0>, far_letter> {};
struct hyphen_inside : seq<one<'-'>, at<alpha>> {};
struct measure_next : sor<alnum, one<'\'', '.'>, hyphen_inside, utf8::one<0xB0>, far_letter> {};
struct measure_word : seq<not_at<measure_stop>, measure_first, star<measure_next>> {};
struct measure_words : seq<measure_word, star<blanks, measure_word>> {};
struct measure : sor<percent_sign, measure_words> {};  // %, small scoops, °C
struct quoted_measure : quoted_text {};
struct measure_in_quotes : seq<open_quote, quoted_measure, need_close_quote> {};

struct quantity : seq<number, opt<gap, sor<measure, measure_in_quotes>>> {};  // 0.15 mL
struct lone_measure : seq<sor<measure_words, measure_in_quotes>> {};          // the mL of g/mL
struct hole_operand : seq<hole> {};

struct sum;
struct need_sum : seq<sum> {};
struct need_bracket_close : seq<gap, one<')'>> {};
struct bracket : seq<one<'('>, gap, need_sum, need_bracket_close> {};  // (2 × 3 % + {depth})
struct positive : sor<bracket, hole_operand, quantity> {};
struct negative : seq<minus_sign, gap, positive> {};
struct operand : sor<negative, positive> {};
struct need_operand : seq<gap, operand> {};
struct need_measure_or_operand : seq<gap, sor<lone_measure, operand>> {};

struct times : seq<gap, times_sign, need_operand> {};
struct divided : seq<gap, divide_sign, need_measure_or_operand> {};
struct per : seq<blanks, per_word, need_measure_or_operand> {};
struct in_many : seq<blanks, in_word, blanks, at<number>, operand> {};
struct product : seq<operand, star<sor<times, divided, per, in_many>>> {};
struct need_product : seq<gap, product> {};
struct added : seq<gap, plus_sign, need_product> {};
struct subtracted : seq<gap, minus_sign, need_product> {};
struct sum : seq<product, star<sor<added, subtracted>>> {};

/// Where a quantity could begin: tells a batch's name from its size.
struct quantity_ahead
    : seq<opt<minus_sign, gap>, sor<digit, vulgar, one<'{'>, seq<one<'.'>, digit>,
                                    seq<one<'('>, gap, sor<digit, vulgar, one<'{', '('>>>>> {};
struct need_quantity : seq<sum> {};
template <>
struct name_lacks<quantity_ahead> : quantity_ahead {};  // a number begins no batch's name

// ---- What an amount refers to ------------------------------------------------------------------

struct the : seq<LEVIGATE_WORD("the"), blanks> {};
template <typename Stop = never>
struct ref : sor<seq<the, name<Stop>>, name<Stop>> {};  // soft base, the mica, the bulk

// ---- Amounts of an ingredient line -------------------------------------------------------------

struct rest : LEVIGATE_WORD("rest") {};

struct half : LEVIGATE_WORD("half") {};
struct twice : LEVIGATE_WORD("twice") {};
struct quarter : seq<LEVIGATE_WORD("a"), blanks, LEVIGATE_WORD("quarter")> {};
struct third : seq<LEVIGATE_WORD("a"), blanks, LEVIGATE_WORD("third")> {};
struct three_quarters : seq<LEVIGATE_WORD("three"), blanks, LEVIGATE_WORD("quarters")> {};
struct said_factor : sor<half, twice, quarter, third, three_quarters> {};
struct as_word : LEVIGATE_WORD("as") {};
struct as_much_words : seq<as_word, blanks, LEVIGATE_WORD("much")> {};
struct factor_times : seq<operand, gap, times_sign> {};
struct as_much_ahead : sor<as_much_words, seq<said_factor, blanks, as_much_words>,
                           seq<factor_times, gap, as_much_words>> {};
struct need_as_much_name : seq<blanks, name<as_word>> {};
struct need_as : seq<blanks, as_word> {};
struct need_ref : seq<blanks, ref<>> {};
struct as_much : seq<at<as_much_ahead>, opt<sor<seq<said_factor, blanks>, seq<factor_times, gap>>>,
                     as_much_words, need_as_much_name, need_as, need_ref> {};

struct enough_word : LEVIGATE_WORD("enough") {};
struct to_bring : seq<LEVIGATE_WORD("to"), blanks, LEVIGATE_WORD("bring")> {};
struct to_word : LEVIGATE_WORD("to") {};
struct need_enough_name : seq<blanks, name<to_bring>> {};
struct need_to_bring : seq<blanks, to_bring> {};
struct percent_ahead : seq<number_text, gap, percent_sign> {};
struct brought_stop : sor<to_word, percent_ahead> {};
template <>
struct name_lacks<brought_stop> : sor<name_lacks<to_word>, percent_ahead> {};
struct need_brought : seq<blanks, ref<brought_stop>> {};
struct need_brought_to : seq<blanks, to_word> {};
struct need_share : seq<blanks, sum> {};
struct enough
    : seq<enough_word, need_enough_name, need_to_bring, need_brought, need_brought_to, need_share> {
};  // enough water to bring the dye to 5 %

// An amount is QUANTITY, or QUANTITY per QUANTITY. A quantity is closed where the reader sees its
// end: (…), {hole}, 18 %, 1 in 1000, 2 "cup of joe". A bare number with words behind it is open:
// its words hold the measure and, where the name follows, the name too; resolving parts them.

struct per_ahead : seq<per_word, sor<blanks, one<'{'>, number_text>> {};
struct sign_behind : seq<gap, sor<times_sign, divide_sign, utf8::one<0x2212, 0x2013>,
                                  seq<plus_sign, blanks>, seq<one<'-'>, blanks>>> {};
struct bad_sign : failure {};
struct no_sign_behind : sor<not_at<sign_behind>, raise<bad_sign>> {};
/// 2 g + 3 % vanilla: a sum without brackets. A name may hold a `+`, but no `%`.
struct sum_ahead
    : seq<sor<plus_sign, minus_sign, times_sign>, blanks, number_text, gap, percent_sign> {};
struct no_sum_ahead : sor<not_at<sum_ahead>, raise<bad_sign>> {};
struct open_words
    : seq<not_at<digit>, no_sum_ahead, word, star<blanks, not_at<per_ahead>, no_sum_ahead, word>> {
};
struct open_first : seq<open_words> {};   // `drops` before `per`, or `small scoops copper mica`
struct open_second : seq<open_words> {};  // `g vanilla flavour`
struct percent_quantity : seq<number, gap, percent_sign> {};
struct number_in_many : seq<number> {};
struct in_ahead : seq<number, blanks, in_word, blanks, number> {};
struct in_quantity : seq<at<in_ahead>, number_in_many, blanks, in_word, blanks, number_in_many> {};
struct open_number : seq<number> {};
struct open_quantity : seq<open_number, gap, open_first> {};
struct bare_number : seq<number> {};
struct bad_negative : failure {};
struct line_negative : seq<minus_sign, gap, at<sor<number, one<'(', '{'>>>, raise<bad_negative>> {};

/// 2 "cup of joe" soft base: quotes hold a measure where a name stands behind them.
struct quoted_ahead : seq<number, gap, open_quote, quoted_text, open_quote, blanks, any> {};
struct quoted_quantity : seq<at<quoted_ahead>, quantity> {};
struct closed_quantity
    : sor<bracket, hole_operand, percent_quantity, in_quantity, quoted_quantity> {};

struct per_mark : seq<blanks, at<per_ahead>, per_word> {};
struct per_closed : seq<per_mark, gap, sor<line_negative, closed_quantity>> {};
struct open_base : sor<seq<open_number, gap, open_second>, open_second> {};
struct need_open_base : seq<gap, open_base> {};
struct per_open : seq<per_mark, need_open_base> {};

struct need_ingredient : seq<gap, name<>> {};
struct closed_tail : seq<no_sign_behind, need_ingredient> {};
struct closed_name : seq<blanks, sor<hole, quoted>> {};
struct open_tail : seq<no_sign_behind, opt<closed_name>> {};
struct per_tail : sor<seq<per_closed, closed_tail>, seq<per_open, open_tail>> {};
/// Behind a closed quantity a name may begin with `per` (5 % per cent): only an amount tells.
struct per_amount_ahead
    : seq<blanks, per_word, gap, sor<number_text, one<'{', '('>, seq<minus_sign, gap, digit>>> {};
struct closed_line : seq<sor<line_negative, closed_quantity>,
                         sor<seq<at<per_amount_ahead>, per_tail>, closed_tail>> {};
struct open_line : seq<open_quantity, sor<per_tail, open_tail>> {};
struct bare_line : seq<bare_number, no_sign_behind, need_ingredient> {};
struct rest_line : seq<rest, need_ingredient> {};

struct ingredient : sor<as_much, rest_line, enough, closed_line, open_line, bare_line> {};

}  // namespace levigate::rules

namespace tao::pegtl {
template <typename Name>
struct analyze_traits<Name, levigate::rules::far_letter> : analyze_any_traits<> {};
}  // namespace tao::pegtl
