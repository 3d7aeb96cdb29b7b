#pragma once
// What is in a bowl, line by line. A powder that was poured by itself, and that the formula has
// only inside a blend, opens that blend: its parts are then lines of their own.

#include <unordered_map>

#include "interpreter/rescue/rescue.hpp"

namespace levigate {

class BowlLines {
public:
    /// The lines of the shade's own bowl that hold anything, as its formula has them. Blends are
    /// opened for what `order` names. `wide`: also for a pour that has a line of its own, and is
    /// part of a blend besides.
    BowlLines(const Formulary& formulary, const RescueOrder& order, bool wide);

    /// True where a pour has a line of its own and is part of a blend besides, which is not open.
    bool could_open() const { return could_open_; }
    const std::vector<OpenedBlend>& opened() const { return opened_; }

    void pour(const Pour& pour);
    /// What there is to be added. What is named and not in the shade helps nobody, and says so.
    void limit(const Pour& pour, Findings& findings);
    /// What isn't in the shade can't be taken out again. `title` names the shade.
    void say_foreign(const std::string& title, Findings& findings) const;

    std::vector<RescueLine> lines;
    Mass in_bowl;

private:
    /// Of each line, how much there is in something: a share by line.
    using Spread = std::vector<Share>;

    std::size_t at(IngredientId what) const;
    const Mix* mix_of(IngredientId what) const;
    bool holds(IngredientId outer, IngredientId what) const;
    std::size_t outermost(IngredientId what) const;
    void open_for(IngredientId what, bool wide);
    void open(std::size_t line, IngredientId part);
    void add_line(IngredientId what, const Share& wanted, std::size_t& where);
    std::optional<Spread> spread_of(IngredientId what);
    std::optional<Spread> spread_of(const Formula& formula);
    const Formula& bulk() const;

    const Formulary& formulary_;
    const RescueOrder& order_;
    std::vector<OpenedBlend> opened_;
    std::vector<const Pour*> foreign_;
    std::unordered_map<IngredientId, std::optional<Spread>> spreads_;
    bool could_open_ = false;
};

}  // namespace levigate
