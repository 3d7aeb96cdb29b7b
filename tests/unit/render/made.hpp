#pragma once
// A sheet made by hand, without reading or expanding anything: Damson / matte, 6 g, of the design
// page (invented data). The figures are worked out on paper: the bulk is 77.5 % base, 21 % mica
// blend, 1.5 % oxide; clay as the base, thinner a quarter of it, so 6 g hold 6 / 1.96875 = 64/21 g
// of bulk, and so on down.

#include "grammar/source.hpp"
#include "interpreter/expand/sheet.hpp"

namespace levigate {

struct Made {
    Formulary formulary;
    Sources sources;
    Sheet sheet;
    IngredientId base = 0, copper = 0, lake = 0, iron = 0, blend = 0, black = 0, clay = 0,
                 thinner = 0;

    IngredientId material(std::string name, Sym role, bool powder, bool flammable) {
        auto id = static_cast<IngredientId>(formulary.ingredients.size());
        Material made;
        made.self = id;
        made.powder = powder;
        made.flammable = flammable;
        Ingredient ingredient;
        ingredient.name = std::move(name);
        ingredient.role = role;
        ingredient.index = static_cast<std::uint32_t>(formulary.materials.size());
        formulary.materials.push_back(made);
        formulary.ingredients.push_back(ingredient);
        return id;
    }

    IngredientId mix(std::string name, Ingredient::Kind kind, std::vector<IngredientId> parts) {
        auto id = static_cast<IngredientId>(formulary.ingredients.size());
        Mix made;
        made.self = id;
        for (IngredientId what : parts) {
            Part part;
            part.what = what;
            made.formula.parts.push_back(part);
        }
        Ingredient ingredient;
        ingredient.kind = kind;
        ingredient.name = std::move(name);
        ingredient.index = static_cast<std::uint32_t>(formulary.mixes.size());
        formulary.mixes.push_back(made);
        formulary.ingredients.push_back(ingredient);
        return id;
    }

    static SheetLine line(IngredientId what, Exact exact, int steps) {
        SheetLine made;
        made.what = what;
        made.exact = grams(exact);
        made.share = share(exact / 6);
        made.steps = steps;
        return made;
    }
};

inline Made damson() {
    Made made;
    Formulary& f = made.formulary;
    made.sources.add({"orchard.shade", "shade Damson\n    21 %   Windfal mica\n", false});
    f.role_names = {"", "base", "mica", "clay"};
    made.base = made.material("soft base", 1, false, false);
    made.copper = made.material("copper mica", 2, true, false);
    made.lake = made.material("red 7 lake", no_name, true, false);
    made.iron = made.material("red iron oxide", no_name, true, false);
    made.black = made.material("black iron oxide", no_name, true, false);
    made.clay = made.material("kaolin", 3, true, false);
    made.thinner = made.material("light thinner", no_name, false, true);
    made.blend =
        made.mix("Windfall mica", Ingredient::Kind::blend, {made.copper, made.lake, made.iron});
    f.ingredients[made.blend].role = 2;

    Shade shade;
    shade.name = "Damson";
    shade.own = true;
    shade.versions.resize(1);
    shade.batches.resize(1);
    shade.batches[0].name = "trial";
    f.shades.push_back(shade);
    f.finishes.resize(1);
    f.finishes[0].name = "matte";
    f.finishings.resize(1);
    f.finishings[0].finish = 0;

    Sheet& sheet = made.sheet;
    sheet.shade = sheet.finishing = sheet.batch = 0;
    sheet.total = grams(6);
    sheet.foot = 600;
    Bowl first, last;
    first.mix = made.blend;
    first.asked = first.steps = 64;
    first.lines = {Made::line(made.copper, Exact(32, 75), 43),
                   Made::line(made.lake, Exact(4, 25), 16), Made::line(made.iron, Exact(4, 75), 5)};
    last.steps = 600;
    last.lines = {
        Made::line(made.base, Exact(248, 105), 236), Made::line(made.blend, Exact(16, 25), 64),
        Made::line(made.black, Exact(8, 175), 5), Made::line(made.clay, Exact(248, 105), 236),
        Made::line(made.thinner, Exact(62, 105), 59)};
    last.steps_text = {"Work the clay in first.", "Then thin."};
    sheet.bowls = {first, last};
    MaterialLine base;
    base.what = made.base;
    base.exact = grams(Exact(248, 105));
    base.share = share(Exact(248, 630));
    sheet.materials = {base};
    return made;
}

}  // namespace levigate
