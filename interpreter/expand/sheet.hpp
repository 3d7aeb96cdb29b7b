#pragma once
// The sheet: what one batch of one shade asks of the balance. Exact amounts, and what the balance
// should read, counted in its steps so that nothing is rounded twice.

#include <optional>
#include <string>
#include <vector>

#include "grammar/finding.hpp"
#include "interpreter/expand/remedy.hpp"
#include "interpreter/formulary/ends.hpp"
#include "interpreter/formulary/formulary.hpp"

namespace levigate {

/// The balance a sheet is rounded for.
struct Reading {
    Mass step = grams(Exact(1, 100));
    int places = 2;
    std::optional<Mass> up_to, least;
    std::string balance;                     ///< empty where none is named
    std::optional<Share> error = {};         ///< of what is weighed, that is good enough
    std::optional<Mass> repeatability = {};  ///< standard deviation of ten weighings
    bool usp41 = false;                      ///< judged by USP <41> as well
    Mass reads_by = {};  ///< how much more or less it may read: `reads 0.01 g ± 0.02 g`

    /// True where it says from which weight on it weighs well.
    bool judges() const { return least || error || usp41; }
};

/// What the command line asks of any balance.
struct Strictness {
    std::optional<Share> error;  ///< in place of the balance's own
    bool usp41 = false;
};

struct SheetLine {
    IngredientId what = no_ingredient;
    Share share;             ///< of the finished whole
    Mass exact;              ///< before rounding
    Exact steps;             ///< what to weigh, in steps of the balance
    bool estimated = false;  ///< came from a volume
    bool addition = false;   ///< a finish adds it, or more of it
};

struct Bowl {
    IngredientId mix = no_ingredient;  ///< the blend; none for the shade's own bowl
    Exact asked;                       ///< steps that the bowls using it weigh of it (blends)
    Exact steps;                       ///< the foot: the sum of the lines' steps
    std::vector<SheetLine> lines;
    std::vector<std::string> steps_text, notes;  ///< holes filled
};

struct MaterialLine {
    IngredientId what = no_ingredient;
    Share share;
    Mass exact;
    Exact steps;
};

/// What became of an `expect` line in all the sheets that are named for it.
enum class Verdict : std::uint8_t { holds, fails, unknown };
/// By ShadeId, and for each of a shade's expectations. A shade that was not looked at has none.
using Verdicts = std::vector<std::vector<Verdict>>;

/// How far the grams of a sheet may lie from what it says, where figures are stated with `±`. What
/// can't be told is nothing.
struct SheetEnds {
    std::optional<Ends> total;                            ///< grams
    std::vector<std::vector<std::optional<Ends>>> lines;  ///< grams; a list for each bowl
    std::optional<Ends> pieces;  ///< how many of `container` a batch by weight fills
    ContainerId container = nothing;
};

struct Sheet {
    ShadeId shade = nothing;
    std::uint32_t version = 0;        ///< index in Shade::versions
    FinishingId finishing = nothing;  ///< `nothing`: the bulk as made
    std::uint32_t batch = nothing;    ///< index in Shade::batches; `nothing` under --make
    Reading reading;
    Mass total;                           ///< exact, of the finished product
    bool estimated = false;               ///< the total came from a volume
    Exact foot;                           ///< steps in the shade's own bowl
    std::optional<Mass> onto;             ///< the bulk that is there, under --onto
    std::vector<Bowl> bowls;              ///< in the order of making; the last is the shade's own
    std::vector<MaterialLine> materials;  ///< largest first
    std::vector<std::string> notes;
    Findings findings;
    Remedies remedies;              ///< for the lines that are too small to be weighed well
    std::optional<SheetEnds> ends;  ///< only where some figure has ends
};

}  // namespace levigate
