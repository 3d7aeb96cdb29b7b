#pragma once
// How far the grams of a sheet may lie from what it says, by the ends of the figures that made
// them.

#include "interpreter/expand/blueprint.hpp"
#include "interpreter/expand/sheet.hpp"
#include "interpreter/formulary/ends.hpp"

namespace levigate {

/// What a sheet was made from.
struct EndsFrom {
    const Formula& bulk;
    const Finishing* finishing;  ///< none: as made
    const Finished& finished;
    const BatchSize* size;        ///< none under --onto
    std::optional<Volume> there;  ///< the bulk, under --onto, where it is a volume
};

/// Of a sheet whose bowls are made. The sheet says what the stated figures themselves come to; what
/// the ends come to, all at their worst, is here.
SheetEnds sheet_ends(FigureEnds& figures, const Formulary& formulary, const EndsFrom& from,
                     const Sheet& sheet);

}  // namespace levigate
