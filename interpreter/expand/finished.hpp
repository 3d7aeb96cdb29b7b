#pragma once
// A made bulk with what a finish adds to it: the lines of the shade's own bowl, as shares of the
// finished whole. The bulk keeps its own ratios and the batch grows.

#include <string>
#include <vector>

#include "grammar/finding.hpp"
#include "grammar/names.hpp"
#include "interpreter/expand/marks.hpp"
#include "interpreter/formulary/formulary.hpp"

namespace levigate {

struct FinishedLine {
    IngredientId what = no_ingredient;
    Share share;     ///< of the finished whole
    Share added;     ///< what of it the finish adds
    Span span;       ///< the line that gave the amount
    Span name_span;  ///< the name there
    bool estimated = false;
    bool addition = false;
};

struct Finished {
    std::vector<FinishedLine> lines;  ///< the bulk's, then additions that the bulk doesn't hold
    Share bulk;                       ///< what of the finished whole is bulk
};

/// Scratch space of finish(): keep one and hand it in again and again.
struct FinishScratch {
    struct Size {
        Exact fixed, bulks;  ///< fixed + bulks × (what of the finished whole is bulk)
        enum class State : std::uint8_t { unseen, open, done } state = State::unseen;
    };
    Marks<std::uint32_t> places;  ///< by ingredient: its line in the bulk
    std::vector<Size> sizes;      ///< by addition
};

/// Fills `out` from a solved bulk. No finishing: as made. False where it can't be; the reason is
/// in `findings`, save where it was said before. `shade` and `where` name the shade.
bool finish(const Formulary& formulary, const Names& names, const Formula& bulk,
            const Finishing* finishing, const std::string& shade, Span where,
            FinishScratch& scratch, Finished& out, Findings& findings);

}  // namespace levigate
