#pragma once
// How far a figure may lie from what is stated: `density 0.9 g/mL ± 2 %`. Ends are the worst that
// can come of the ends that are stated, each figure off by itself, and exact. A figure without `±`
// counts as known outright. They say nothing of how likely anything between them is.

#include <optional>
#include <utility>
#include <vector>

#include "interpreter/formulary/formulary.hpp"

namespace levigate {

/// A figure that lies between two; the same twice where it is known outright.
struct Ends {
    Exact least, most;

    bool open() const { return !(least == most); }
    static Ends around(const Exact& figure, const Exact& by) { return {figure - by, figure + by}; }
    static Ends at(const Exact& figure) { return {figure, figure}; }
};

// Of figures that are not below nothing; a divisor is above it.
inline Ends operator+(const Ends& a, const Ends& b) { return {a.least + b.least, a.most + b.most}; }
inline Ends operator*(const Ends& a, const Ends& b) { return {a.least * b.least, a.most * b.most}; }
inline Ends operator/(const Ends& a, const Ends& b) { return {a.least / b.most, a.most / b.least}; }

/// One for each line; nothing where some of them can't be told.
using ShareEnds = std::optional<std::vector<Ends>>;

/// Reckons with ends, each ingredient and each mix once.
class FigureEnds {
public:
    explicit FigureEnds(const Formulary& formulary) : formulary_(formulary) {}

    /// g/mL, by the rule of density_of(). Nothing where a density lacks, or where it can't be told.
    const std::optional<Ends>& density(IngredientId what, bool spooned);
    /// What of the whole each line of a solved formula is. Lines from volumes vary with the density
    /// that made grams of them, and those vary that take what is left. Nothing where a line goes by
    /// others (`as much`, `enough`) or where shares alone must come to 100 %: then other ends would
    /// be another formula.
    ShareEnds shares(const Formula& formula);
    const ShareEnds& shares(MixId mix);
    /// By how much the grams of a line from a volume may be multiplied.
    std::optional<Ends> poured(IngredientId what);
    /// g/mL of a mix of so much of each, 1 being all; by densities of the stuff itself. The shares
    /// may lie anywhere between their ends, as long as they come to 1.
    std::optional<Ends> of_mix(const std::vector<std::pair<IngredientId, Ends>>& lines,
                               bool spooned = false);

private:
    struct Known {
        bool open = false;  ///< being reckoned: a ring, which was said
        std::optional<std::optional<Ends>> ends;
    };
    std::optional<Ends> reckon(IngredientId what, bool spooned);
    void know_inside(IngredientId what);

    const Formulary& formulary_;
    bool walking_ = false;
    std::vector<Known> known_[2];  ///< by IngredientId; [1] spooned
    std::vector<std::optional<ShareEnds>> mixes_;
};

}  // namespace levigate
