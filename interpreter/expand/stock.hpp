#pragma once
// Dilutions to keep: over all sheets of a run, how strong a dilution of a material lets all its
// small lines be weighed, and how much of it to prepare.

#include <string>
#include <vector>

#include "interpreter/expand/sheet.hpp"
#include "interpreter/expand/weighable.hpp"

namespace levigate {

/// A small line, by the sheet and the bowl that it stands in.
struct StockUse {
    ShadeId shade = nothing;
    std::uint32_t version = 0;
    FinishingId finishing = nothing;
    std::uint32_t batch = nothing;
    IngredientId mix = no_ingredient;  ///< the blend in whose bowl it stands; none: the shade's own
};

/// One dilution: 1 in `parts` of `of`, the rest `in`.
struct StockDilution {
    IngredientId of = no_ingredient, in = no_ingredient;
    std::int64_t parts = 0;
    Reading reading;               ///< the balance that it is prepared on
    Exact weigh, with;             ///< of the one and of the other, in its steps
    std::vector<StockUse> serves;  ///< in the order of the sheets
    std::vector<StockUse> leaves;  ///< whose bowls hold too little of `in`
};

/// A small line that none of the dilutions serves.
struct StockLeft {
    IngredientId of = no_ingredient;
    StockUse where;
};

struct Stocks {
    std::vector<StockDilution> dilutions;  ///< in the order in which they were first met
    std::vector<StockLeft> left;
};

/// Takes note of each sheet's remedies, and settles the dilutions once all were seen. Keeps a few
/// numbers for each small line, and nothing where there is none.
class StockDilutions {
public:
    void add(const Formulary& formulary, const Sheet& sheet);
    bool empty() const { return wants_.empty(); }
    /// The dilutions that serve something. They hold together: all their lines can be written into
    /// the formulas that they serve, at once.
    Stocks settle() const;

private:
    struct Use {
        StockUse where;
        Mass need, diluent;  ///< what the bowl holds of both at the least
    };
    /// One material in one diluent, on balances of one step.
    struct Want {
        IngredientId of = no_ingredient, in = no_ingredient;
        Reading reading;
        Mass least;  ///< the strictest of the sheets
        std::vector<Use> uses;
    };
    class Settler;
    Want& want(IngredientId of, IngredientId in, const Reading& reading);

    std::vector<Want> wants_;
    std::vector<StockLeft> left_;  ///< lines that have no diluent
};

/// The line to write where the small line stands: `dilute red 7 lake to 10 % in soft base`.
std::string dilute_line(const Formulary& formulary, const StockDilution& stock);

/// "Quince / matte, trial", "Quince, trial: Windfall mica".
std::string use_words(const Formulary& formulary, const StockUse& use);

}  // namespace levigate
