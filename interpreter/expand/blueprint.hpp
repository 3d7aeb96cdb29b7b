#pragma once
// One shade under one variant and one finish, drawn once and then made in every batch: which bowls
// there are, in the order of making, and what share of the finished whole each of their lines is.

#include <vector>

#include "interpreter/expand/finished.hpp"
#include "interpreter/expand/marks.hpp"
#include "interpreter/formulary/formulary.hpp"

namespace levigate {

struct BlueprintLine {
    IngredientId what = no_ingredient;
    Share inside;                  ///< of its own bowl
    Share share;                   ///< of the finished whole
    std::uint32_t bowl = nothing;  ///< where it is a mix: its bowl, an index in `bowls`
    Span span;                     ///< the line that gave the amount
    Span name_span;                ///< the name there
    bool estimated = false;
    bool addition = false;
};

struct BlueprintBowl {
    IngredientId mix = no_ingredient;  ///< none: the shade's own
    Share need;                        ///< of the finished whole
    std::uint32_t first = 0, count = 0;
    bool dilution = false;  ///< made large enough to be weighed
};

struct BlueprintMaterial {
    IngredientId what = no_ingredient;
    Share share;
};

struct Blueprint {
    std::vector<BlueprintLine> lines;  ///< bowl after bowl
    std::vector<BlueprintBowl> bowls;  ///< deepest blend first, ties by first use; last its own
    std::vector<BlueprintMaterial> materials;  ///< largest first, ties in the order of the lines
    bool exact = true;                         ///< false where a number grew beyond the digit cap
};

/// Draws blueprints. Keeps its scratch space, so that drawing the next costs no allocation.
class Draughtsman {
public:
    explicit Draughtsman(const Formulary& formulary) : formulary_(formulary) {}

    /// Every mix in `lines` is solved. `contents`: also fill materials and content().
    void draw(const std::vector<FinishedLine>& lines, bool contents, Blueprint& out);

    /// The bowls as they are weighed, with what `dilute` lines say of it; `lines` are the shade's
    /// own as they are weighed. Leaves materials and content() as they are.
    void draw_weighed(const std::vector<FinishedLine>& lines, Blueprint& out);

    /// Share of the finished whole that was drawn last: of a material or a mix, at any depth.
    Share content(IngredientId what) const {
        const Share* found = contents_.find(what);
        return found ? *found : Share();
    }

private:
    struct Place {
        std::uint32_t depth = 0;  ///< the longest way from the shade's own bowl
        std::uint32_t rank = 0;   ///< order of first use
        std::uint32_t bowl = nothing;
        Share need;
    };
    struct Frame {
        MixId mix;
        std::uint32_t next = 0;
    };

    MixId mix_at(IngredientId what) const;
    const Formula& formula_of(MixId mix) const;
    void start();
    void meet(IngredientId what, bool contents);
    void walk(const std::vector<FinishedLine>& lines, bool contents);
    void spread(const std::vector<FinishedLine>& lines);
    void order_bowls(Blueprint& out);
    void write_lines(const std::vector<FinishedLine>& lines, Blueprint& out);
    void list_materials(const std::vector<FinishedLine>& lines, Blueprint& out);

    const Formulary& formulary_;
    bool weighed_ = false;
    Marks<Place> places_;    ///< by MixId: every mix that is reached
    Marks<Share> contents_;  ///< by IngredientId
    std::vector<Frame> open_;
    std::vector<MixId> closed_;  ///< mixes, each after those inside it
    std::vector<MixId> making_;
    std::vector<IngredientId> raw_;  ///< materials in the order in which they are met
};

}  // namespace levigate
