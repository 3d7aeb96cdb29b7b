#pragma once
// What is said of a measure that nobody knows and of a number without one, and what was probably
// meant. Private to the room.

#include <string>
#include <string_view>

#include "interpreter/resolve/context.hpp"

namespace levigate::resolving {

/// `m` and `t` alone: each is short for several measures.
bool read_in_two_ways(std::string_view folded);
Finding two_readings(const Context& context, Span letter, std::string_view advice);
/// Says of a measure that nobody knows what was probably meant.
void report_measure(Context& context, Span words);
/// Words that are meant for no measure: a multiple, a time at the bench, a thousand, or a
/// temperature as it is written elsewhere. True where it was said. (measure_meant.cpp)
bool report_measure_meant(Context& context, Span words);
/// The known measures that are nearly written so, the likeliest first. (measures.cpp)
std::vector<std::string> near_measure(Context& context, std::string_view written);
/// The line of a block that holds the span; null where none does.
const tree::Line* line_at(const Context& context, Span span);

enum class Bare : std::uint8_t { amount, behind_per, stock };
/// Says that no measure begins the words of a quantity: another word for one, or none at all where
/// the words are a name.
void report_no_measure(Context& context, const tree::Expr& expr, Bare where);

/// Expressions of kinds that don't go together where it is plain what was meant: `48 tubes + 5 %`,
/// `80 mL × 1.04 g/mL`. (expression_slips.cpp)
std::optional<Finding> meant_otherwise(Context& context, std::uint32_t file, tree::ExprId id, Op op,
                                       const Quantity& left, const Quantity& right);
/// What an expression of two sides comes to; nothing, said, if they don't go together.
/// (evaluate.cpp)
std::optional<Quantity> join_values(Context& context, std::uint32_t file, tree::ExprId id,
                                    const Quantity& left, const Quantity& right);
/// The example of a finding with her own figure in the place of ours: `0.9 g/mL`. (evaluate.cpp)
void in_her_figure(const Context& context, Finding& finding);
/// Says of a product with two finishes, `Quince / dull / satin`, that one is too many; false where
/// there is one at most. (plans.cpp)
bool two_finishes(Context& context, const tree::Make& make);

/// A name that nothing has, with more in front or behind than a name that is there: `82 % by weight
/// soft base`, `82 % soft base (white)`. True where it was said.
bool report_more_than_name(Context& context, const Name& name);

}  // namespace levigate::resolving
