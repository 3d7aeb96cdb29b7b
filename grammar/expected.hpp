#pragma once
// What was due where a line stopped making sense. One entry for each `need_…` rule: it is raised
// on every failure of that rule, so these rules are made for their place and shared by nobody who
// would go on without them. A missing entry is a rule that merely fails.

#include "grammar/forms.hpp"

namespace levigate::rules {

struct expected {
    template <typename Rule>
    static constexpr const char* message = nullptr;
};

#define LEVIGATE_EXPECTED(rule, text)                                                              \
    template <>                                                                                    \
    inline constexpr const char* expected::message<rule> = text

// A message that begins with `!` is a whole one; the others follow "here is due: ".
LEVIGATE_EXPECTED(bad_comma, "!comma");
LEVIGATE_EXPECTED(bad_point, "!number");
LEVIGATE_EXPECTED(bad_sign, "!brackets");
LEVIGATE_EXPECTED(bad_negative, "!negative");
LEVIGATE_EXPECTED(bad_share, "!share");
LEVIGATE_EXPECTED(bad_lot, "!lot");
LEVIGATE_EXPECTED(two_lots, "!lots");
LEVIGATE_EXPECTED(bad_locants, "!locants");
LEVIGATE_EXPECTED(bad_and, "!and");
LEVIGATE_EXPECTED(need_close_quote, "!quote");
LEVIGATE_EXPECTED(need_end, "!end");

LEVIGATE_EXPECTED(need_hole_name, "the name of a hole, as in {depth}");
LEVIGATE_EXPECTED(need_hole_close, "the } that closes the hole");
LEVIGATE_EXPECTED(need_sum, "a quantity behind the bracket");
LEVIGATE_EXPECTED(need_bracket_close, "the ) that closes the bracket");
LEVIGATE_EXPECTED(need_operand, "a quantity");
LEVIGATE_EXPECTED(need_measure_or_operand, "a quantity or a measure");
LEVIGATE_EXPECTED(need_product, "a quantity");
LEVIGATE_EXPECTED(need_as_much_name, "the name of what is to be weighed");
LEVIGATE_EXPECTED(need_as, "`as` and the name to go by");
LEVIGATE_EXPECTED(need_ref, "the name to go by, or `the` and a role");
LEVIGATE_EXPECTED(need_enough_name, "the name of what is to be weighed");
LEVIGATE_EXPECTED(need_to_bring, "`to bring`");
LEVIGATE_EXPECTED(need_brought, "the name, or `the` and a role, that is to come to a share");
LEVIGATE_EXPECTED(need_brought_to, "`to` and a share");
LEVIGATE_EXPECTED(need_share, "a share, as in 5 %");
LEVIGATE_EXPECTED(need_open_base, "a weight, as in `per 10 g`");
LEVIGATE_EXPECTED(need_ingredient, "the name of an ingredient");

LEVIGATE_EXPECTED(need_block_name, "a name");
LEVIGATE_EXPECTED(need_name_or_like, "a name");
LEVIGATE_EXPECTED(need_like_name, "the name that it is like");
LEVIGATE_EXPECTED(need_version, "the number of the language, 1");
LEVIGATE_EXPECTED(need_used, "a page of the library, or a file's path in double quotes");
LEVIGATE_EXPECTED(need_unit_name, "the measure's name");
LEVIGATE_EXPECTED(need_equals, "`=` and what it stands for");
LEVIGATE_EXPECTED(need_value, "what one of it comes to");
LEVIGATE_EXPECTED(need_rate_name, "the three letters of a currency");
LEVIGATE_EXPECTED(need_rate_date, "a comma and the day of the rate, as in `, 2026-10-01`");
LEVIGATE_EXPECTED(need_region, "a region in one word, such as US");

LEVIGATE_EXPECTED(need_changed, "an amount and a name");
LEVIGATE_EXPECTED(need_gone, "a name");
LEVIGATE_EXPECTED(need_old, "the name that is to go");
LEVIGATE_EXPECTED(need_for, "`for` and the name that takes its place");
LEVIGATE_EXPECTED(need_new, "the name that takes its place");
LEVIGATE_EXPECTED(need_scaled, "a name, or `the` and a role");
LEVIGATE_EXPECTED(need_by, "`by` and a factor");
LEVIGATE_EXPECTED(need_factor, "a quantity");
LEVIGATE_EXPECTED(need_figure, "a quantity");
LEVIGATE_EXPECTED(need_ends, "how much more or less it may be, as in `± 2 %`");
LEVIGATE_EXPECTED(need_inherited,
                  "`steps`, `notes`, `expects`, `batches`, `finishes`, `variants` or `dilutions`");
LEVIGATE_EXPECTED(need_diluted, "the name of what is to be diluted");
LEVIGATE_EXPECTED(need_diluted_to, "`to` and a share, as in `to 10 %`");
LEVIGATE_EXPECTED(need_dilution, "a share, as in 10 %");
LEVIGATE_EXPECTED(need_dilution_in, "`in` and the name of what it is diluted in");
LEVIGATE_EXPECTED(need_dilution_base, "the name of what it is diluted in");
LEVIGATE_EXPECTED(need_let_hole, "a hole, as in {depth}");
LEVIGATE_EXPECTED(need_any_value, "a quantity or a name");
LEVIGATE_EXPECTED(need_listed, "a name");
LEVIGATE_EXPECTED(need_batch_name, "the batch's name, and then its size");
LEVIGATE_EXPECTED(need_batch_size, "the batch's size");
LEVIGATE_EXPECTED(need_batch_option, "`overage` or `holdback`");
LEVIGATE_EXPECTED(need_measured,
                  "what is expected: a name, `the` and a role, density or the whole");
LEVIGATE_EXPECTED(need_cost_container, "a container's name");
LEVIGATE_EXPECTED(need_bound, "`at most`, `at least`, `under`, `over`, `is` or `between`, "
                              "and a quantity");
LEVIGATE_EXPECTED(need_and, "`and`");
LEVIGATE_EXPECTED(need_text, "some words");
LEVIGATE_EXPECTED(need_pattern, "some words");
LEVIGATE_EXPECTED(need_pattern_held, "!empty");
LEVIGATE_EXPECTED(need_text_hole, "a name or a quantity inside the braces");
LEVIGATE_EXPECTED(need_lab, "`Lab` and three numbers");
LEVIGATE_EXPECTED(need_lab_number, "three numbers behind Lab");
LEVIGATE_EXPECTED(need_label_part, "a name for the ingredient list");
LEVIGATE_EXPECTED(need_strength_or_index, "`strength` and a share, or another number");
LEVIGATE_EXPECTED(need_over, "`over` and the values");
LEVIGATE_EXPECTED(need_varied, "a value");
LEVIGATE_EXPECTED(need_first, "the name of the first shade");
LEVIGATE_EXPECTED(need_last, "the name of the last shade");
LEVIGATE_EXPECTED(need_in, "`in` and the number of steps");
LEVIGATE_EXPECTED(need_steps, "how many steps, as in `5 steps`");
LEVIGATE_EXPECTED(need_column, "`name` or a hole");
LEVIGATE_EXPECTED(need_cell, "a value");
LEVIGATE_EXPECTED(need_lips, "`yes`, `no`, `ask`, `stop`, `filler`, or `at most` and a share");
LEVIGATE_EXPECTED(need_above, "`above` and a share");
LEVIGATE_EXPECTED(need_by_what, "`by name` or `by number`");
LEVIGATE_EXPECTED(need_below, "`below` or `at most`, and a share");
LEVIGATE_EXPECTED(need_grams, "`grams`, or `ounces and grams`");
LEVIGATE_EXPECTED(need_contents, "`in grams`, `in ounces and grams`, or `from` and a weight");
LEVIGATE_EXPECTED(need_had,
                  "an amount and a name, as in 120 g copper mica, or a count of containers");
LEVIGATE_EXPECTED(need_have_lot, "the lot, as it stands on the pack");
LEVIGATE_EXPECTED(need_best_date, "a month or a day, as in 2027-03 or 2027-03-31");
LEVIGATE_EXPECTED(need_have_option, "`lot`, or `best before` and a date");
LEVIGATE_EXPECTED(need_day, "a day, as in 2026-12-01");
LEVIGATE_EXPECTED(need_made, "a batch's name or a quantity");
LEVIGATE_EXPECTED(need_of, "`of` and a shade");
LEVIGATE_EXPECTED(need_of_ahead, "`of` and a shade");
LEVIGATE_EXPECTED(need_made_shade, "a shade's name");
LEVIGATE_EXPECTED(need_made_under, "a variant's or a finish's name");
LEVIGATE_EXPECTED(need_edition_number, "a whole number, as in 3");
LEVIGATE_EXPECTED(need_date, "a day, as in 2026-10-01");
LEVIGATE_EXPECTED(need_digest, "what `share` wrote there");
LEVIGATE_EXPECTED(need_record_date, "the day, as in 2026-11-25");
LEVIGATE_EXPECTED(need_pour, "an amount and a name, as in `6.2 g soft base`");
LEVIGATE_EXPECTED(need_lot, "the number of the lot");
LEVIGATE_EXPECTED(need_bowl, "the name of the blend that it went into");

#undef LEVIGATE_EXPECTED

template <typename Rule>
struct control : tao::pegtl::must_if<expected, tao::pegtl::normal, false>::control<Rule> {};

}  // namespace levigate::rules
