#pragma once
// `expect` lines, held against a finished mix and against what a batch comes to.

#include <string>
#include <vector>

#include "interpreter/expand/blueprint.hpp"
#include "interpreter/expand/densities.hpp"
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

/// Shares of names and roles, and the density: the same in every batch. What a thing costs is not
/// judged here.
Findings judge_mix(const Judged& judged, const std::string& title);

/// The mass of one batch.
void judge_batch(const Shade& shade, const Mass& whole, const std::string& title,
                 Findings& findings);
bool expects_of_batch(const Shade& shade);
bool expects_of_mix(const Shade& shade);

/// "soft base has no density" and its remedy, for whoever needs one and lacks it.
std::string lacking_words(const Formulary& formulary, const std::vector<IngredientId>& lacking);
std::string density_remedy(const Formulary& formulary, const std::vector<IngredientId>& lacking);

}  // namespace levigate
