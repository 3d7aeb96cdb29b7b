#pragma once
// The grammar of whole lines: one rule for each heading and each form of a block's line, with the
// words that begin it. An example of each stands in words.cpp, and is shown where a line is wrong.

#include "grammar/rules.hpp"

namespace levigate::rules {

struct stray : failure {};
struct need_end : seq<gap, eof> {};  // nothing more is due on the line

// ---- Headings ----------------------------------------------------------------------------------

struct like_word : LEVIGATE_WORD("like") {};
struct equals_sign : one<'='> {};
struct need_block_name : seq<blanks, name<>> {};
struct need_name_or_like : seq<blanks, name<like_word>> {};
struct need_like_name : seq<blanks, name<>> {};
struct like : seq<blanks, like_word, need_like_name> {};
struct need_version : seq<blanks, quantity> {};
struct used_path : seq<quoted> {};
struct need_used : seq<blanks, sor<used_path, name<>>> {};
struct need_unit_name : seq<blanks, name<equals_sign>> {};
struct need_equals : seq<gap, equals_sign> {};
struct need_value : seq<gap, sum> {};
struct region_name : seq<word> {};
struct date : seq<rep<4, digit>, rep_min_max<1, 2, one<'-'>, rep<2, digit>>, word_end> {};
struct need_rate_name : seq<blanks, name<equals_sign>> {};
struct need_rate_date : seq<comma, date> {};
struct need_region : seq<blanks, region_name> {};
struct need_listed : seq<name<>> {};

template <typename Word, typename... Behind>
struct line : seq<Word, Behind..., need_end> {};

struct language_heading : line<LEVIGATE_WORD("language"), need_version> {};
struct market_heading : line<LEVIGATE_WORD("market"), blanks, list<need_listed, comma>> {};
struct use_heading : line<LEVIGATE_WORD("use"), need_used> {};
struct unit_heading : line<LEVIGATE_WORD("unit"), need_unit_name, need_equals, need_value> {};
struct rate_heading
    : line<LEVIGATE_WORD("rate"), need_rate_name, need_equals, need_value, need_rate_date> {};
struct material_heading : line<LEVIGATE_WORD("material"), need_block_name> {};
struct blend_heading : line<LEVIGATE_WORD("blend"), need_name_or_like, opt<like>> {};
struct shade_heading : line<LEVIGATE_WORD("shade"), need_name_or_like, opt<like>> {};
struct variant_heading : line<LEVIGATE_WORD("variant"), need_block_name> {};
struct finish_heading : line<LEVIGATE_WORD("finish"), need_block_name> {};
struct family_heading : line<LEVIGATE_WORD("family"), need_block_name> {};
struct container_heading : line<LEVIGATE_WORD("container"), need_block_name> {};
struct balance_heading : line<LEVIGATE_WORD("balance"), need_block_name> {};
struct shelf_heading : line<LEVIGATE_WORD("shelf"), opt<blanks, name<>>> {};
struct region_heading : line<LEVIGATE_WORD("region"), need_region> {};
struct rule_heading : line<LEVIGATE_WORD("rule"), need_region, need_block_name> {};
struct plan_heading : line<LEVIGATE_WORD("plan"), need_block_name> {};
struct edition_heading : line<LEVIGATE_WORD("edition"), need_block_name> {};

// ---- Ingredients and edits ---------------------------------------------------------------------

struct ingredient_line : seq<ingredient, need_end> {};
struct need_changed : seq<blanks, ingredient> {};
struct set_line : line<LEVIGATE_WORD("set"), need_changed> {};
struct add_line : line<LEVIGATE_WORD("add"), need_changed> {};
struct need_gone : seq<blanks, name<>> {};
struct without_line : line<LEVIGATE_WORD("without"), need_gone> {};
struct for_word : LEVIGATE_WORD("for") {};
struct need_old : seq<blanks, name<for_word>> {};
struct need_for : seq<blanks, for_word> {};
struct need_new : seq<blanks, name<>> {};
struct swap_line : line<LEVIGATE_WORD("swap"), need_old, need_for, need_new> {};
struct by_word : LEVIGATE_WORD("by") {};
struct need_scaled : seq<blanks, ref<by_word>> {};
struct need_by : seq<blanks, by_word> {};
struct need_factor : seq<blanks, sum> {};
struct scale_line : line<LEVIGATE_WORD("scale"), need_scaled, need_by, need_factor> {};
struct rebalance_line : line<LEVIGATE_WORD("rebalance")> {};
struct inherited : sor<LEVIGATE_WORD("steps"), LEVIGATE_WORD("notes"), LEVIGATE_WORD("expects"),
                       LEVIGATE_WORD("batches"), LEVIGATE_WORD("finishes"),
                       LEVIGATE_WORD("variants"), LEVIGATE_WORD("dilutions")> {};
struct need_inherited : seq<blanks, inherited> {};
struct fresh_line : line<LEVIGATE_WORD("fresh"), need_inherited> {};
struct need_diluted : seq<blanks, name<to_word>> {};
struct need_diluted_to : seq<blanks, to_word> {};
struct need_dilution : seq<blanks, sum> {};
struct need_dilution_in : seq<blanks, in_word> {};
struct need_dilution_base : seq<blanks, name<>> {};
struct dilute_line : line<LEVIGATE_WORD("dilute"), need_diluted, need_diluted_to, need_dilution,
                          need_dilution_in, need_dilution_base> {};

// ---- A shade's properties ----------------------------------------------------------------------

template <typename Stop = never>
struct value : sor<seq<at<quantity_ahead>, sum>, name<Stop>> {};  // 18 %, copper mica, {tone}
struct let_hole : seq<hole> {};
struct need_let_hole : seq<blanks, let_hole> {};
struct need_any_value : seq<gap, value<>> {};
struct let_line : line<LEVIGATE_WORD("let"), need_let_hole, need_equals, need_any_value> {};
struct name_list : list<need_listed, comma> {};
struct variants_line : line<LEVIGATE_WORD("variants"), blanks, name_list> {};
struct finishes_line : line<LEVIGATE_WORD("finishes"), blanks, name_list> {};
struct maybe_the : opt<LEVIGATE_WORD("the"), blanks> {};
struct sum_of_weights : seq<maybe_the, LEVIGATE_WORD("sum"), blanks, LEVIGATE_WORD("of"), blanks,
                            maybe_the, LEVIGATE_WORD("weights")> {};
struct need_batch_name : seq<blanks, name<sor<quantity_ahead, sum_of_weights>>> {};
struct need_batch_size : seq<blanks, sor<sum_of_weights, sum>> {};
struct overage : seq<LEVIGATE_WORD("overage"), need_factor> {};
struct holdback : seq<LEVIGATE_WORD("holdback"), need_factor> {};
struct need_batch_option : sor<overage, holdback> {};
struct batch_options : star<comma, need_batch_option> {};
struct batch_line : line<LEVIGATE_WORD("batch"), need_batch_name, need_batch_size, batch_options> {
};
struct weigh_on_line : line<seq<LEVIGATE_WORD("weigh"), blanks, LEVIGATE_WORD("on")>, need_gone> {};

struct market_line : line<LEVIGATE_WORD("market"), blanks, name_list> {};

struct at_most : seq<LEVIGATE_WORD("at"), blanks, LEVIGATE_WORD("most")> {};
struct at_least : seq<LEVIGATE_WORD("at"), blanks, LEVIGATE_WORD("least")> {};
struct under : LEVIGATE_WORD("under") {};
struct over : LEVIGATE_WORD("over") {};
struct is : LEVIGATE_WORD("is") {};
struct between_word : LEVIGATE_WORD("between") {};
struct and_word : LEVIGATE_WORD("and") {};
struct compare : sor<at_most, at_least, under, over, is> {};
struct compare_ahead : sor<percent_ahead, seq<sor<compare, between_word>, blanks, quantity_ahead>> {
};
template <>
struct name_lacks<compare_ahead> : compare_ahead {};
struct density_word : LEVIGATE_WORD("density") {};
struct whole_words : seq<LEVIGATE_WORD("the"), blanks, LEVIGATE_WORD("whole")> {};
struct cost_word : LEVIGATE_WORD("cost") {};
struct need_cost_container : seq<blanks, name<compare_ahead>> {};
struct cost_per : seq<cost_word, blanks, per_word, need_cost_container> {};
template <typename Word>
struct alone : seq<Word, at<blanks, compare_ahead>> {};
struct measured_ref : seq<ref<compare_ahead>> {};
struct measured
    : sor<alone<density_word>, alone<whole_words>, alone<cost_word>, cost_per, measured_ref> {};
struct need_measured : seq<blanks, measured> {};
struct need_and : seq<blanks, and_word> {};
struct between_bounds : seq<between_word, need_factor, need_and, need_factor> {};
struct one_bound : seq<compare, need_factor> {};
struct need_bound : seq<blanks, sor<between_bounds, one_bound>> {};
struct expect_line : line<LEVIGATE_WORD("expect"), need_measured, need_bound> {};

struct text_words : plus<not_one<'{', '\n', '\r'>> {};
struct text_value : seq<at<quantity_ahead>, sum> {};
struct need_text_hole : seq<gap, sor<text_value, quoted, hole_name>> {};
struct text_hole : seq<one<'{'>, need_text_hole, need_hole_close> {};
struct text : plus<sor<text_hole, text_words>> {};
struct need_text : seq<blanks, text> {};
struct step_line : line<LEVIGATE_WORD("step"), need_text> {};
struct note_line : line<LEVIGATE_WORD("note"), need_text> {};
/// A family's `name`: quotes hold what a bare name can't, and holes as well.
struct pattern_words : plus<not_at<open_quote>, not_one<'{', '\n', '\r'>> {};
struct pattern_held : plus<sor<text_hole, pattern_words>> {};
struct need_pattern_held : seq<pattern_held> {};
struct pattern_quoted : seq<open_quote, need_pattern_held, need_close_quote> {};
struct need_pattern : seq<blanks, plus<sor<pattern_held, pattern_quoted>>> {};
struct pattern_line : line<LEVIGATE_WORD("name"), need_pattern> {};
struct source_line : line<LEVIGATE_WORD("source"), need_text> {};

struct swatch_in : seq<blanks, in_word, need_gone> {};
struct swatch_at : seq<blanks, LEVIGATE_WORD("at"), need_factor, opt<swatch_in>> {};
struct need_lab : seq<blanks, LEVIGATE_WORD("lab")> {};
struct lab_number : seq<opt<minus_sign>, number> {};
struct need_lab_number : seq<blanks, lab_number> {};
struct swatch_line : line<LEVIGATE_WORD("swatch"), need_lab, need_lab_number, need_lab_number,
                          need_lab_number, opt<swatch_at>> {};

// ---- Materials ---------------------------------------------------------------------------------

struct role_line : line<LEVIGATE_WORD("role"), need_gone> {};
/// Suppliers' sheets part names by `(and)`: Mica (and) Silica.
struct and_sign : seq<one<'('>, TAO_PEGTL_ISTRING("and"), one<')'>> {};
struct and_in_brackets : seq<and_sign, word_end> {};
struct bad_and : failure {};
struct and_inside : seq<at<star<not_at<and_sign>, word_part>, and_sign>, raise<bad_and>> {};
struct part_end : seq<gap, sor<eof, one<','>, and_in_brackets>> {};
struct share_word : sor<LEVIGATE_WORD("percent"), LEVIGATE_WORD("ppm")> {};
struct worded_share : seq<number, gap, share_word> {};
struct label_share : sor<in_quantity, percent_quantity, worded_share> {};
struct label_range : seq<label_share, opt<blanks, to_word, blanks, label_share>> {};
/// The number at the end of `Red 7` belongs to the name; a third and 3 parts don't look like that.
struct pointed : seq<star<digit>, one<'.'>, digits> {};
struct no_share_word
    : sor<LEVIGATE_WORD("pct"), seq<LEVIGATE_WORD("per"), blanks, LEVIGATE_WORD("cent")>,
          LEVIGATE_WORD("ppb"), LEVIGATE_WORD("part"), LEVIGATE_WORD("parts")> {};
struct no_share : sor<seq<sor<fraction, mixed, vulgar, pointed>, part_end>,
                      seq<number_text, gap, no_share_word, part_end>> {};
struct bad_share : failure {};
struct bare_share : seq<at<no_share>, raise<bad_share>> {};
/// A comma within a name: 1,2-Hexanediol, N,N-Dimethylglycine.
struct locant : sor<digits, seq<alpha>> {};
struct locants : seq<list<locant, one<','>>, one<'-'>> {};
struct bad_locants : failure {};
struct locants_ahead : seq<at<digits, one<','>, locants>, raise<bad_locants>> {};
struct no_locants : sor<not_at<one<','>, locants>, raise<bad_locants>> {};
struct part_stop
    : sor<locants_ahead, bare_share, and_in_brackets, and_inside, seq<label_range, part_end>> {};
template <>
struct name_lacks<part_stop> : part_stop {};
struct need_label_part : seq<name<part_stop>, opt<blanks, sor<bare_share, label_range>>> {};
struct between_parts : sor<seq<no_locants, comma>, seq<gap, and_in_brackets, gap>> {};
struct label_parts : list<need_label_part, between_parts> {};
struct label_line : line<LEVIGATE_WORD("label"), blanks, label_parts> {};
struct strength : seq<LEVIGATE_WORD("strength"), need_factor> {};
struct need_strength_or_index : sor<strength, name<>> {};
struct colourant_line
    : line<LEVIGATE_WORD("colourant"), blanks, need_listed, star<comma, need_strength_or_index>> {};
struct contains_line : line<LEVIGATE_WORD("contains"), blanks, label_parts> {};
template <typename Word>
struct quantity_line : line<Word, need_factor> {};
/// `0.9 g/mL ± 2 %`. A sum may not go on with `+-` here, as it may elsewhere.
struct no_ends_ahead : not_at<gap, ends_sign> {};
struct figure : seq<product, star<no_ends_ahead, sor<added, subtracted>>> {};
struct need_figure : seq<blanks, figure> {};
struct need_ends : seq<gap, sum> {};
struct ends : seq<gap, ends_sign, need_ends> {};
template <typename Word>
struct figure_line : line<Word, need_figure, opt<ends>> {};
struct density_line : figure_line<LEVIGATE_WORD("density")> {};
struct bulk_line : figure_line<LEVIGATE_WORD("bulk")> {};
struct price_line : quantity_line<LEVIGATE_WORD("price")> {};
struct hazard_line : line<LEVIGATE_WORD("hazard"), blanks, name_list> {};
struct also_called_line
    : line<seq<LEVIGATE_WORD("also"), blanks, LEVIGATE_WORD("called")>, blanks, name_list> {};

// ---- Families, containers, balances, rules, plans ----------------------------------------------

struct from_line : line<LEVIGATE_WORD("from"), need_gone> {};
struct over_word : LEVIGATE_WORD("over") {};
struct need_over : seq<blanks, over_word> {};
struct need_varied : seq<value<>> {};
struct vary_line
    : line<LEVIGATE_WORD("vary"), need_let_hole, need_over, blanks, list<need_varied, comma>> {};
struct need_first : seq<blanks, name<and_word>> {};
struct need_last : seq<blanks, name<in_word>> {};
struct need_in : seq<blanks, in_word> {};
struct step_count : seq<quantity> {};
struct need_steps : seq<blanks, step_count> {};
struct between_line
    : line<LEVIGATE_WORD("between"), need_first, need_and, need_last, need_in, need_steps> {};
struct bar : seq<gap, one<'|'>, gap> {};
struct need_column : seq<sor<hole, bare_name<never>>> {};
struct columns_line : line<LEVIGATE_WORD("columns"), blanks, list<need_column, bar>> {};
struct need_cell : seq<value<>> {};
struct row_line : line<LEVIGATE_WORD("row"), blanks, list<need_cell, bar>> {};
struct holds_line : figure_line<LEVIGATE_WORD("holds")> {};
/// `in NAME` ends a lot, everywhere: a number that holds the word stands in quotes.
struct bad_lot : failure {};
struct no_in_behind : sor<not_at<blanks, in_word>, raise<bad_lot>> {};
struct lot_word : LEVIGATE_WORD("lot") {};
struct lot_ahead : seq<lot_word, blanks, any> {};
struct lot_end : sor<in_word, lot_ahead> {};
/// `lot A lot B`
struct two_lots : failure {};
struct no_lot_behind : sor<not_at<blanks, lot_ahead>, raise<two_lots>> {};
struct need_have_lot : seq<blanks, name<lot_end>> {};
struct have_lot : seq<lot_word, need_have_lot, no_in_behind, no_lot_behind> {};
struct need_best_date : seq<blanks, date> {};
struct best_before : seq<LEVIGATE_WORD("best"), blanks, LEVIGATE_WORD("before"), need_best_date> {};
struct need_have_option : sor<have_lot, best_before> {};
/// As in an ingredient line, save that a count of containers is what is there itself.
struct had_closed : seq<sor<line_negative, closed_quantity>, closed_tail> {};
struct had_open : seq<open_quantity, open_tail> {};
struct need_had : seq<blanks, sor<had_closed, had_open>> {};
struct have_line : line<LEVIGATE_WORD("have"), need_had, star<comma, need_have_option>> {};
struct reads_line : figure_line<LEVIGATE_WORD("reads")> {};
struct up_to_line : quantity_line<seq<LEVIGATE_WORD("up"), blanks, LEVIGATE_WORD("to")>> {};
struct least_line : quantity_line<LEVIGATE_WORD("least")> {};
struct error_line : quantity_line<LEVIGATE_WORD("error")> {};
struct repeatability_line : quantity_line<LEVIGATE_WORD("repeatability")> {};
struct covers_line : line<LEVIGATE_WORD("covers"), blanks, name_list> {};
struct lips_yes : LEVIGATE_WORD("yes") {};
struct lips_no : LEVIGATE_WORD("no") {};
struct lips_at_most : seq<at_most, need_factor> {};
struct lips_ask : LEVIGATE_WORD("ask") {};
struct lips_stop : LEVIGATE_WORD("stop") {};
struct lips_filler : LEVIGATE_WORD("filler") {};
struct need_lips
    : seq<blanks, sor<lips_yes, lips_no, lips_at_most, lips_ask, lips_stop, lips_filler>> {};
struct lips_line : line<LEVIGATE_WORD("lips"), need_lips> {};
struct counts_line : line<LEVIGATE_WORD("counts"), need_gone> {};
struct certified_line : line<LEVIGATE_WORD("certified"), need_gone> {};
struct held_in_line : line<in_word, blanks, label_parts> {};
struct except_line : line<LEVIGATE_WORD("except"), blanks, name_list> {};
struct ask_of_line
    : line<seq<LEVIGATE_WORD("ask"), blanks, LEVIGATE_WORD("of")>, blanks, name_list> {};
struct above : seq<LEVIGATE_WORD("above"), need_factor> {};
struct need_above : seq<blanks, above> {};
struct named_line : line<LEVIGATE_WORD("named"), need_above> {};
struct condition_line : line<LEVIGATE_WORD("condition"), need_text> {};
struct unconfirmed_line : line<LEVIGATE_WORD("unconfirmed"), need_text> {};

struct title_line : line<LEVIGATE_WORD("title"), need_text> {};
struct by_name_or_number
    : seq<by_word, blanks, sor<LEVIGATE_WORD("name"), LEVIGATE_WORD("number")>> {};
struct need_by_what : seq<blanks, by_name_or_number> {};
struct colourants_line : line<LEVIGATE_WORD("colourants"), need_by_what> {};
struct range_line : line<LEVIGATE_WORD("range"), need_text> {};
struct below : seq<LEVIGATE_WORD("below"), need_factor> {};
struct below_or_at_most : sor<below, seq<at_most, need_factor>> {};
struct need_below : seq<blanks, below_or_at_most> {};
struct minor_line : line<LEVIGATE_WORD("minor"), need_below> {};
struct from : seq<LEVIGATE_WORD("from"), need_factor> {};
struct grams_word : LEVIGATE_WORD("grams") {};
struct grams_alone : seq<grams_word> {};
struct need_grams : seq<blanks, sor<grams_alone, seq<LEVIGATE_WORD("ounces"), blanks,
                                                     LEVIGATE_WORD("and"), blanks, grams_word>>> {};
struct need_contents : seq<blanks, sor<seq<in_word, need_grams, opt<blanks, from>>, from>> {};
struct contents_line : line<LEVIGATE_WORD("contents"), need_contents> {};

struct need_day : seq<blanks, date> {};
struct on_line : line<LEVIGATE_WORD("on"), need_day> {};

struct of_word : LEVIGATE_WORD("of") {};
struct need_of : seq<blanks, of_word> {};
struct made_shade : seq<name<>> {};
struct made_under : seq<name<>> {};
struct need_made_shade : seq<blanks, made_shade> {};
struct need_made_under : seq<gap, made_under> {};
/// Behind a bare number: a measure that may hold `of` itself, `of`, and the shade; resolving parts
/// them.
struct no_sign_here : sor<not_at<sor<plus_sign, minus_sign>, blanks>, raise<bad_sign>> {};
struct made_measure : seq<word, star<blanks, not_at<of_word>, no_sign_here, word>> {};
struct need_of_ahead : seq<no_sign_behind, blanks, at<of_word>> {};
struct made_words : seq<made_measure, need_of_ahead, word, star<blanks, word>> {};
struct made_in_quotes : seq<blanks, quoted> {};
struct made_open
    : seq<open_number, no_sign_behind, gap, not_at<of_word>, made_words, opt<made_in_quotes>> {};
struct made_number : seq<at<number, blanks, of_word>, bare_number> {};  // resolving refuses it
struct made_closed
    : seq<sor<closed_quantity, made_number>, no_sign_behind, need_of, need_made_shade> {};
struct made_batch : seq<name<of_word>> {};
struct made_of_batch : seq<made_batch, need_of, need_made_shade> {};
struct made_quantity : seq<at<quantity_ahead>, sor<made_closed, made_open>> {};
struct need_made : seq<blanks, sor<made_quantity, made_of_batch>> {};
struct made_slash : seq<gap, one<'/'>> {};
struct make_line : line<LEVIGATE_WORD("make"), need_made, opt<made_slash, need_made_under>,
                        opt<made_slash, need_made_under>> {};

// ---- Editions ----------------------------------------------------------------------------------

struct within : seq<LEVIGATE_WORD("within"), need_factor> {};
struct sealed_line : line<LEVIGATE_WORD("sealed"), opt<blanks, within>> {};
struct need_edition_number : seq<blanks, quantity> {};
struct number_line : line<LEVIGATE_WORD("number"), need_edition_number> {};
struct need_date : seq<blanks, name<>> {};
struct date_line : line<LEVIGATE_WORD("date"), need_date> {};
struct shades_line : line<LEVIGATE_WORD("shades"), blanks, name_list> {};
struct need_digest : seq<blanks, name<>> {};
struct digest_line : line<LEVIGATE_WORD("digest"), need_digest> {};
// ---- What was poured ---------------------------------------------------------------------------

// Behind the number the words hold a measure and a name, as in an ingredient's line.
struct lot_name : seq<name<lot_end>> {};
struct need_lot : seq<blanks, lot_name> {};
struct pour_lot : seq<lot_word, need_lot> {};
struct pour_bowl : seq<name<lot_ahead>> {};
struct need_bowl : seq<blanks, pour_bowl> {};
struct pour_in : seq<in_word, need_bowl> {};
struct in_quotes_ahead : seq<in_word, blanks, open_quote> {};
/// A name may hold `in` itself, so that resolving parts `frost mica in Fog mica`.
struct pour_words
    : seq<not_at<digit>, word, star<blanks, not_at<sor<lot_ahead, in_quotes_ahead>>, word>> {};
struct pour_in_quotes : seq<quoted> {};
struct pour_amount
    : seq<open_number, no_sign_behind, gap, pour_words, opt<blanks, pour_in_quotes>> {};
struct pour_details : star<blanks, sor<pour_lot, pour_in>> {};
struct need_pour : seq<gap, sor<line_negative, pour_amount>, pour_details> {};
struct pours
    : seq<need_pour, star<comma, sor<seq<sor<pour_lot, pour_in>, pour_details>, need_pour>>> {};

struct record_date : seq<word> {};
struct need_record_date : seq<blanks, record_date> {};
struct record_heading : line<LEVIGATE_WORD("record"), need_record_date, need_made,
                             opt<made_slash, need_made_under>, opt<made_slash, need_made_under>> {};
struct planned_line : line<LEVIGATE_WORD("planned"), blanks, pours> {};
struct weighed_line : line<LEVIGATE_WORD("weighed"), blanks, pours> {};
struct by_line : line<by_word, need_gone> {};
struct code_line : line<LEVIGATE_WORD("code"), need_gone> {};
struct filled_line : quantity_line<LEVIGATE_WORD("filled")> {};
struct deviation_line : line<LEVIGATE_WORD("deviation"), need_text> {};
struct said_line : line<LEVIGATE_WORD("said"), need_text> {};
struct made_line : line<LEVIGATE_WORD("made"), blanks, pours> {};
struct reading_line : line<LEVIGATE_WORD("reading"), need_text> {};
struct commit_line : line<LEVIGATE_WORD("commit"), need_gone> {};
struct formula_line : line<LEVIGATE_WORD("formula"), need_gone> {};

}  // namespace levigate::rules
