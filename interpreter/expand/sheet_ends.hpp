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

/// What is the same in all batches of a shade under one variant and finish.
struct MixEnds {
    std::optional<Ends> density;                          ///< g/mL; under --onto of the bulk
    std::vector<std::vector<std::optional<Ends>>> lines;  ///< of the whole; a list for each bowl
};

/// `sheet`: one whose bowls are made, of any batch.
MixEnds mix_ends(FigureEnds& figures, const Formulary& formulary, const EndsFrom& from,
                 const Sheet& sheet);

/// Of a sheet whose bowls are made. The sheet says what the stated figures themselves come to; what
/// the ends come to, all at their worst, is here.
SheetEnds sheet_ends(const Formulary& formulary, const EndsFrom& from, const MixEnds& mix,
                     const Sheet& sheet);

}  // namespace levigate
