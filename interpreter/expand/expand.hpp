#pragma once
// Formulary to sheets: which sheets come out, what is in each, and what the balance reads.

#include <functional>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "interpreter/expand/product.hpp"
#include "interpreter/expand/sheet.hpp"
#include "interpreter/formulary/formulary.hpp"

namespace levigate {

/// What was asked for. An unnamed choice means: every shade, as written, as made, each batch.
struct Choice {
    std::optional<std::string> family, shade, variant, finish, batch;
    ShadeId only = nothing;         ///< this shade, whichever file it stands in
    std::optional<BatchSize> make;  ///< in place of the batches
    /// Additions to this much of the made bulk, a volume by its density; needs a finish.
    std::optional<std::variant<Mass, Volume>> onto;
    std::optional<Reading> reading;   ///< overrides every balance
    Strictness strict;                ///< asked of every balance, of `reading` too
    bool all = false;                 ///< every variant and finish that a shade names
    bool words = true;                ///< fill steps and notes
    bool dilutions = true;            ///< weigh as `dilute` lines say, else as formulas have it
    bool materials = true;            ///< list raw materials
    bool expectations = true;         ///< judge `expect` lines on each sheet
    bool density = false;             ///< reckon each product's density
    std::optional<std::size_t> most;  ///< sheets, where the limit of a run is too many
};

struct Sheets {
    std::vector<Sheet> sheets;
    Findings findings;  ///< what stopped a sheet, or concerns no one sheet
};

Sheets expand(const Formulary& formulary, const Names& names, const Choice& choice);

/// What is done with each sheet as it comes. The next is made in its place, so that a catalogue
/// never stands in memory: what shall stay is copied or moved out.
using TakeSheet = std::function<void(Sheet& sheet)>;

/// The same, sheet by sheet in the same order; returns the findings.
Findings expand_each(const Formulary& formulary, const Names& names, const Choice& choice,
                     const TakeSheet& take);

/// The same, each with the blueprint that it was made by.
struct Blueprint;
using TakeDrawn = std::function<void(Sheet& sheet, const Blueprint& blueprint)>;
Findings expand_drawn(const Formulary& formulary, const Names& names, const Choice& choice,
                      const TakeDrawn& take);

/// Every product of the choice, one after the other: shades, variants and finishes, without
/// batches. The findings are those of sheets that can't be made.
using TakeProduct = std::function<void(const Product& product)>;
Findings each_product(const Formulary& formulary, const Names& names, const Choice& choice,
                      const TakeProduct& take);

struct Checked {
    Findings findings;
    Verdicts verdicts;
};

/// `check`: every `expect` of FILE's shades, for every variant, finish and batch that it names,
/// and everything that stops a sheet. A shade without a batch is judged on its shares.
/// With `take` every product is handed out on the way.
Checked check_all(const Formulary& formulary, const Names& names, const Choice& choice,
                  const TakeProduct& take = {});

/// True of what is said of the balance alone: of lines that it weighs badly or not at all, and of
/// bowls that are too heavy for it.
bool about_weighing(Code code);

}  // namespace levigate
