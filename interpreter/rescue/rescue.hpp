#pragma once
// Too much went into the bowl: what to add so that it holds its formula again, or how near to it
// one can come, and what is then off.

#include <optional>
#include <string>
#include <vector>

#include "grammar/finding.hpp"
#include "grammar/names.hpp"
#include "interpreter/expand/sheet.hpp"
#include "interpreter/formulary/records.hpp"
#include "interpreter/rescue/steps.hpp"

namespace levigate {

/// What was asked for. `product` is a sheet of the shade: its lines and its balance are taken, and
/// where a batch was `sized`, its total as well.
struct RescueOrder {
    Sheet product;
    bool sized = false;
    std::vector<std::vector<Pour>> poured;  ///< as it happened
    std::vector<Pour> there;                ///< so much of these can be added; of others any
    std::optional<Mass> room;               ///< the bowl holds so much
    std::vector<Called> markets;            ///< in place of those of the file; empty: these
};

struct RescueLine {
    IngredientId what = no_ingredient;
    Share wanted;
    Mass poured;
    Mass add;                   ///< exactly; where nothing restores the formula, as weighed
    Exact steps;                ///< what to weigh, in steps of the balance
    std::optional<Mass> there;  ///< so much could be added
    Share then;                 ///< what it then is of the total, with `add`
    Share weighed;              ///< the same, as it is weighed
    Exact off;                  ///< how far that is from what is wanted: a share of it, signed
};

/// A blend that is counted and added part by part, and for which of its parts.
struct OpenedBlend {
    IngredientId blend = no_ingredient;
    IngredientId part = no_ingredient;
};

/// A pour of the chain, and what had come of it by then.
struct RescuePour {
    std::vector<Pour> pours;
    Mass in_bowl;
    Mass least;  ///< the formula can be restored from this total on
};

struct RescueExpect {
    std::string wording;
    Verdict verdict = Verdict::unknown;
    std::string said;  ///< why it fails, or can't be told
};

struct RescueFill {
    std::string container;
    Exact count;  ///< whole ones
    Mass over;    ///< what is left then
};

struct Rescue {
    Sheet additions;  ///< bowls for what is to be added; the last is the shade's own
    bool restored = false;
    bool any_size = false;             ///< bowls of other sizes would do as well, but for steps
    std::optional<Compared> compared;  ///< the totals that were compared, if not all
    std::vector<OpenedBlend> opened;
    Mass in_bowl, total;  ///< with each line's `add`
    Mass whole;           ///< the total as it is weighed
    Exact there, foot;    ///< the same in steps: as the balance reads it, and what is added to that
    std::optional<Mass> planned, room;
    Exact off;  ///< the largest deviation, as it is weighed: a share of a line's share
    std::vector<RescueLine> lines;
    std::vector<RescuePour> chain;
    std::vector<RescueExpect> expects;
    std::vector<RescueFill> fills;
};

/// Nothing where it can't be done: the findings say why.
Outcome<std::optional<Rescue>> rescue(const Formulary& formulary, const Names& names,
                                      const RescueOrder& order);

}  // namespace levigate
