#pragma once
// The inside of solve.hpp: what its sources share. Nobody else includes this.

#include <string>
#include <utility>
#include <vector>

#include "grammar/finding.hpp"
#include "grammar/names.hpp"
#include "interpreter/formulary/formulary.hpp"

namespace levigate::solving {

inline constexpr std::uint32_t no_line = 0xFFFFFFFFu;

/// A line's size as far as it is known: fixed + times × x, for the formula's one unknown x.
struct Affine {
    Exact fixed, times;
};

struct Task {
    const Formulary& formulary;
    const Names& names;
    Formula& formula;
    const std::string& whose;
    Span where;
    Findings findings = {};
    std::vector<Affine> lines = {};
    /// The first line of each sort, if there is one.
    std::uint32_t share = no_line, weight = no_line, rest = no_line, enough = no_line,
                  relative = no_line;

    const std::string& name(std::uint32_t line) const {
        return formulary.name(formula.parts[line].what);
    }
    Finding& report(Code code, Span span, std::string message, std::string advice = {}) {
        findings.push_back({code, std::move(message), span, std::move(advice)});
        return findings.back();
    }
};

/// Notes the sorts of the lines and reports lines that can't stand beside each other.
void sort_lines(Task& task);

/// Works out the lines that refer to others, after those that they refer to. False where one
/// can't be; that is said then, unless a damaged material may be the cause.
bool settle_relative(Task& task);

/// Finds the weight of the `enough` line and fills shares and solving. False where there is none.
bool settle_enough(Task& task);

/// How much of `wanted` is in each part's ingredient, at any depth: 1 where it is that itself.
std::vector<Share> content_by_part(const Formulary& formulary, const Formula& formula,
                                   IngredientId wanted);

/// The first mix at any depth that has `wanted` as a line; no_ingredient where none has.
IngredientId holder_of(const Formulary& formulary, const Formula& formula, IngredientId wanted);

}  // namespace levigate::solving
