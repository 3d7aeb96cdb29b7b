#pragma once
// A sheet in spoons and drops, for who has no balance: whole counts of the measures at hand, what
// they come to, and how far that is off.

#include <optional>
#include <string>
#include <vector>

#include "grammar/names.hpp"
#include "interpreter/expand/blueprint.hpp"
#include "interpreter/expand/product.hpp"
#include "interpreter/expand/sheet.hpp"
#include "interpreter/formulary/ends.hpp"
#include "interpreter/formulary/solve.hpp"
#include "interpreter/formulary/spoons.hpp"

namespace levigate {

/// Whole counts of `sizes`, which fall and are above 0: as many of each as the volume holds, and of
/// the smallest the nearest count, a half up. Where smaller ones come to a larger one, or to more,
/// that is taken in their place. So it is never off by more than half of the smallest, and more of
/// a volume never gives less.
std::vector<Exact> counts_of(const std::vector<Exact>& sizes, const Exact& volume);

struct MeasuredLine {
    std::vector<Exact> counts;     ///< one for each of the spoons; empty: not known
    std::optional<Ends> comes_to;  ///< grams; open where the density has ends
    Exact grams;                   ///< what it comes to by the stated density
    std::optional<Exact> off;  ///< (what it comes to − what is due) ÷ what is due; of a blend due
                               ///< is its part of the bowl as it is measured, if that is known
};

struct MeasuredBowl {
    Exact asked;         ///< grams that the bowls using it take of it (blends)
    Exact grams;         ///< of the lines that are known
    bool known = false;  ///< all its lines are
    std::vector<MeasuredLine> lines;
};

struct MeasuredSheet {
    std::vector<MeasuredBowl> bowls;  ///< as those of the sheet
};

/// Measures sheets by one set of spoons.
class Measurer {
public:
    Measurer(const Formulary& formulary, const Names& names, const Spoons& spoons)
        : formulary_(formulary), names_(names), spoons_(spoons), figures_(formulary) {}

    /// Each line's volume is its exact mass over its bulk where it has one, else over its density,
    /// as in a formula. What is a powder is not counted in drops. A blend's bowl gives no less than
    /// the bowls that use it take: its lines are measured for the least target, from what they take
    /// upward in hundredths of it, at which that is so. What can't be measured goes to the sheet's
    /// findings, and so do expectations that hold of the formula and not of what is measured.
    MeasuredSheet measure(Sheet& sheet, const Blueprint& blueprint);

private:
    struct Kind {
        bool seen = false, dry = false;
        DensityAnswer density;
        std::optional<Ends> times;  ///< by how much the grams of a volume may be multiplied
    };
    struct Line {
        std::vector<std::size_t> with;  ///< indices in spoons_ that it can be measured by
        std::vector<Exact> sizes;       ///< of these, in grams
        bool known = false;
    };
    const Kind& kind_of(IngredientId what);
    enum class Dry : std::uint8_t { unknown, no, yes };
    bool is_dry(IngredientId what);
    bool find_dry(IngredientId what) const;
    Line line_of(IngredientId what);
    Exact measure_lines(const std::vector<Line>& lines, const std::vector<Exact>& due,
                        MeasuredBowl& out) const;
    void measure_bowl(const std::vector<Line>& lines, const Bowl& bowl, MeasuredBowl& out) const;
    MeasuredSheet reckon(const Sheet& sheet);
    /// A line of a bowl, by their numbers.
    struct At {
        std::size_t bowl = 0, line = 0;
    };
    void judge_line(Sheet& sheet, const Blueprint& blueprint, At at, const MeasuredLine& measured,
                    const std::string& title);
    /// What to do about a line that less than half of the smallest measure would hold.
    std::string enlarged(const Sheet& sheet, const Blueprint& blueprint, At at,
                         const Spoon& smallest);
    void judge_expects(Sheet& sheet, const MeasuredSheet& measured, const std::string& title);

    const Formulary& formulary_;
    const Names& names_;
    const Spoons& spoons_;
    FigureEnds figures_;
    std::vector<Kind> kinds_;
    std::vector<Dry> dry_;  ///< by IngredientId
};

/// "2 × 1/4 tsp + 1/8 tsp", "3 drops", "nothing"; "not known" where there are no counts.
std::string spoon_words(const Spoons& spoons, const std::vector<Exact>& counts);
/// One of it: "1/4 tsp", "drop".
std::string spoon_name(const Spoon& spoon);

/// What is really in the bowl: the share of each of the sheet's materials by what is measured, for
/// rules about lips. Nothing where some line isn't known.
std::optional<Product> measured_product(const Formulary& formulary, const Sheet& sheet,
                                        const MeasuredSheet& measured);

/// Fills the steps and notes as fill_words() does, with measures in place of grams.
void fill_measured_words(const Formulary& formulary, const Spoons& spoons,
                         const MeasuredSheet& measured, Sheet& sheet);

}  // namespace levigate
