#pragma once
// `expect` lines, held against a finished mix and against what a batch comes to.

#include <string>
#include <vector>

#include "interpreter/expand/blueprint.hpp"
#include "interpreter/expand/densities.hpp"
#include "interpreter/expand/sheet.hpp"
#include "interpreter/formulary/formulary.hpp"

namespace levigate {

/// What is in a finished mix, by which its expectations are judged.
struct Judged {
    const Formulary& formulary;
    const Names& names;
    const Shade& shade;
    const std::vector<FinishedLine>& lines;
    const Draughtsman& drawn;  ///< has drawn these lines, contents and all
    Densities& densities;
};

/// In how many sheets an expectation was seen to hold, and whether it failed in any.
struct Tally {
    std::size_t held = 0;
    bool failed = false;
};
using Tallies = std::vector<Tally>;  ///< one for each of a shade's expectations

/// Expectations are judged on what a shade names, so that `weigh` and `check` say the same: where
/// it names finishes, the bulk as made is not held against them. Variants and batches that it
/// doesn't name can't be chosen.
bool is_judged(const Shade& shade, FinishingId finishing);

/// Shares of names and roles, and the density: the same in every batch. What a thing costs is
/// judged in judge_cost.hpp.
Findings judge_mix(const Judged& judged, const std::string& title, Tallies& tallies);

/// The mass of one batch that the shade names.
void judge_batch(const Shade& shade, const Mass& whole, const std::string& title, Tallies& tallies,
                 Findings& findings);

/// "The lake comes to 9 % in Quince, and at most 8 % is expected."; empty where it holds of such a
/// value, or where that can't be told.
std::string missed_words(const Expectation& expect, Kind kind, const Exact& value,
                         const std::string& what, const std::string& title);

/// It holds if it was seen to hold in every sheet that the shade names.
std::vector<Verdict> verdicts(const Shade& shade, const Tallies& tallies);

bool expects_of_batch(const Shade& shade);
bool expects_of_mix(const Shade& shade);

/// "soft base has no density", and in sentences what to do about it.
std::string lacking_words(const Formulary& formulary, const std::vector<IngredientId>& lacking);
std::string density_advice(const Formulary& formulary, const std::vector<IngredientId>& lacking);

}  // namespace levigate
