#pragma once
// Every kind of finding: its code, how grave it is, and by its name the page that explains it
// (interpreter/explain/NAME.md, NAME with `-` for `_`). This is the one list; a test holds the
// pages against it.

#include <cstdint>
#include <span>
#include <string_view>

namespace levigate {

enum class Severity : std::uint8_t { error, warning, advice };

// clang-format off
#define LEVIGATE_CODES(row) \
    row(amount_negative, error) \
    row(amount_nothing, warning) \
    row(balance_choice, error) \
    row(balance_step, error) \
    row(balance_unchosen, advice) \
    row(balance_unknown, error) \
    row(batch_near_sum, advice) \
    row(batch_nothing, error) \
    row(batch_twice, error) \
    row(batch_unknown, error) \
    row(batch_unweighed, error) \
    row(blend_loop, error) \
    row(block_empty, error) \
    row(block_twice, error) \
    row(block_unnamed, advice) \
    row(bulk_missing, advice) \
    row(changed_since, advice) \
    row(choice_none, error) \
    row(choice_several, error) \
    row(colourant_unnumbered, warning) \
    row(comma_decimal, error) \
    row(comma_trailing, error) \
    row(command_line, error) \
    row(container_empty, error) \
    row(container_unknown, error) \
    row(content_unstated, warning) \
    row(date_wrong, error) \
    row(density_missing, error) \
    row(dilute_base, error) \
    row(dilute_missing, error) \
    row(dilute_short, error) \
    row(dilute_strength, error) \
    row(edit_missing, error) \
    row(edit_plain_line, error) \
    row(edit_present, error) \
    row(edit_twice, error) \
    row(edition_altered, warning) \
    row(edition_malformed, error) \
    row(ends_nothing, error) \
    row(enough_impossible, error) \
    row(enough_misplaced, error) \
    row(expect_bounds, error) \
    row(expect_failed, error) \
    row(expect_unknown, warning) \
    row(family_malformed, error) \
    row(family_name_twice, error) \
    row(file_names_alike, advice) \
    row(file_unreadable, error) \
    row(file_unwritable, error) \
    row(finish_over, error) \
    row(filled_doubtful, warning) \
    row(filled_over, error) \
    row(finish_unknown, error) \
    row(finish_weight, error) \
    row(formula_empty, error) \
    row(formula_too_long, error) \
    row(hole_kind, error) \
    row(hole_unknown, error) \
    row(hole_unused, warning) \
    row(label_missing, error) \
    row(label_shares, error) \
    row(label_undecided, error) \
    row(language_newer, error) \
    row(let_clash, error) \
    row(let_loop, error) \
    row(library_hidden, advice) \
    row(like_loop, error) \
    row(line_malformed, error) \
    row(line_misplaced, error) \
    row(line_twice, error) \
    row(line_unknown, error) \
    row(line_without_heading, error) \
    row(lips_ask, warning) \
    row(lips_assess, error) \
    row(lips_condition, advice) \
    row(lips_limit, error) \
    row(lips_not_allowed, error) \
    row(lips_unknown, error) \
    row(lot_over, warning) \
    row(lot_past, warning) \
    row(lot_twice, error) \
    row(lot_uncertified, advice) \
    row(market_unknown, error) \
    row(measure_expect, warning) \
    row(measure_limit, warning) \
    row(measure_nothing, error) \
    row(name_lookalike, warning) \
    row(name_twice, error) \
    row(name_unknown, error) \
    row(nesting_too_deep, error) \
    row(number_by_zero, error) \
    row(number_malformed, error) \
    row(number_too_long, error) \
    row(page_unknown, error) \
    row(parts_beside_grams, error) \
    row(pour_foreign, error) \
    row(price_missing, warning) \
    row(quantity_bare, error) \
    row(quantity_kind, error) \
    row(quote_open, error) \
    row(rebalance_misplaced, error) \
    row(record_altered, warning) \
    row(record_code, warning) \
    row(record_cut, error) \
    row(record_day, error) \
    row(record_gone, error) \
    row(record_joined, error) \
    row(record_later, advice) \
    row(record_shade, warning) \
    row(record_twice, advice) \
    row(record_unfinished, warning) \
    row(reference_gone, warning) \
    row(reference_unknown, error) \
    row(relative_loop, error) \
    row(rescue_nothing, error) \
    row(rescue_room, error) \
    row(rest_beside_weights, error) \
    row(rest_twice, error) \
    row(role_empty, error) \
    row(rule_contradiction, error) \
    row(rule_empty, error) \
    row(rule_replaced, advice) \
    row(rule_unconfirmed, warning) \
    row(scale_rest, error) \
    row(sealed_open, error) \
    row(shade_unexplained, error) \
    row(shade_unknown, error) \
    row(shade_without_batch, advice) \
    row(share_differs, error) \
    row(share_impossible, error) \
    row(share_label, error) \
    row(share_leaks, error) \
    row(share_narrow, error) \
    row(share_private, error) \
    row(share_rests, error) \
    row(share_stays, advice) \
    row(share_told, advice) \
    row(share_undecided, warning) \
    row(share_words, warning) \
    row(shelf_mix, error) \
    row(swap_present, error) \
    row(text_hidden_character, error) \
    row(text_line_too_long, error) \
    row(text_merge_marker, error) \
    row(text_not_utf8, error) \
    row(tidy_changed, error) \
    row(too_many_files, error) \
    row(too_many_findings, error) \
    row(too_many_sheets, error) \
    row(total_off, error) \
    row(total_over, error) \
    row(unit_loop, error) \
    row(unit_refused, error) \
    row(unit_unknown, error) \
    row(use_loop, error) \
    row(use_missing, error) \
    row(use_outside, error) \
    row(variant_unknown, error) \
    row(weigh_capacity, warning) \
    row(weigh_least, warning) \
    row(weigh_nothing, error)
// clang-format on

enum class Code : std::uint8_t {
#define LEVIGATE_ROW(name, severity) name,
    LEVIGATE_CODES(LEVIGATE_ROW)
#undef LEVIGATE_ROW
};

struct CodeRow {
    std::string_view name;  ///< as people and programs read it: `name-unknown`
    Severity severity;
};

/// The row of a code.
const CodeRow& row_of(Code code);
/// All rows, in the order of the codes.
std::span<const CodeRow> code_rows();

}  // namespace levigate
