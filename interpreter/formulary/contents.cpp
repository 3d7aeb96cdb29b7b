// What is inside: by role and by name, all the way down. A mix that many others use is looked at
// once, so the work is linear in the lines, however often blends stand within blends.

#include <algorithm>
#include <optional>

#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/solve.hpp"
#include "interpreter/formulary/solving.hpp"

namespace levigate {

std::vector<RoleShare> roles_of(const Formulary& formulary, const Formula& formula) {
    std::vector<RoleShare> found;
    if (!formula.solved()) return found;
    for (std::size_t i = 0; i < formula.parts.size(); ++i) {
        IngredientId what = formula.parts[i].what;
        const Share& size = formula.shares[i];
        if (size == Share()) continue;
        Sym own = formulary.ingredients[what].role;
        if (own != no_name) found.push_back({own, size});
        if (const Mix* mix = mix_of(formulary, what))
            for (const RoleShare& inside : mix->roles)
                if (inside.role != own) found.push_back({inside.role, size * inside.share});
    }
    std::stable_sort(found.begin(), found.end(),
                     [](const RoleShare& a, const RoleShare& b) { return a.role < b.role; });
    std::size_t kept = 0;
    for (std::size_t i = 0; i < found.size(); ++i) {
        if (kept > 0 && found[kept - 1].role == found[i].role)
            found[kept - 1].share += found[i].share;
        else
            found[kept++] = found[i];
    }
    found.resize(kept);
    return found;
}

Share role_in(const Formulary& formulary, IngredientId ingredient, Sym role) {
    if (formulary.ingredients[ingredient].role == role) return share(1);
    if (const Mix* mix = mix_of(formulary, ingredient))
        for (const RoleShare& inside : mix->roles)
            if (inside.role == role) return inside.share;
    return Share();
}

namespace solving {
namespace {

/// Walks mixes depth first without recursion. `state` is 0 unseen, 1 open, 2 done.
struct Walk {
    struct Frame {
        MixId mix;
        std::size_t next = 0;
    };
    const Formulary& formulary;
    std::vector<std::uint8_t> state;
    std::vector<Frame> open;

    explicit Walk(const Formulary& all) : formulary(all), state(all.mixes.size(), 0) {}

    void enter(IngredientId ingredient) {
        const Ingredient& entry = formulary.ingredients[ingredient];
        if (entry.kind == Ingredient::Kind::material || entry.index >= state.size()) return;
        if (state[entry.index] != 0) return;
        state[entry.index] = 1;
        open.push_back({entry.index});
    }
};

}  // namespace

std::vector<Share> content_by_part(const Formulary& formulary, const Formula& formula,
                                   IngredientId wanted) {
    Walk walk(formulary);
    std::vector<Share> inside(formulary.mixes.size());
    auto content = [&](IngredientId what) {
        if (what == wanted) return share(1);
        const Ingredient& entry = formulary.ingredients[what];
        bool mix = entry.kind != Ingredient::Kind::material && entry.index < inside.size();
        return mix ? inside[entry.index] : Share();
    };
    std::vector<Share> out;
    out.reserve(formula.parts.size());
    for (const Part& part : formula.parts) {
        if (part.what != wanted) walk.enter(part.what);
        while (!walk.open.empty()) {
            Walk::Frame& top = walk.open.back();
            const Formula& deeper = formulary.mixes[top.mix].formula;
            if (deeper.solved() && top.next < deeper.parts.size()) {
                IngredientId what = deeper.parts[top.next++].what;
                if (what != wanted) walk.enter(what);
                continue;
            }
            Share sum;
            if (deeper.solved())
                for (std::size_t i = 0; i < deeper.parts.size(); ++i)
                    sum += deeper.shares[i] * content(deeper.parts[i].what);
            inside[top.mix] = sum;
            walk.state[top.mix] = 2;
            walk.open.pop_back();
        }
        out.push_back(content(part.what));
    }
    return out;
}

IngredientId holder_of(const Formulary& formulary, const Formula& formula, IngredientId wanted) {
    Walk walk(formulary);
    for (const Part& part : formula.parts) {
        walk.enter(part.what);
        while (!walk.open.empty()) {
            Walk::Frame& top = walk.open.back();
            const Mix& mix = formulary.mixes[top.mix];
            if (top.next >= mix.formula.parts.size()) {
                walk.open.pop_back();
                continue;
            }
            IngredientId what = mix.formula.parts[top.next++].what;
            if (what == wanted) return mix.self;
            if (what < formulary.ingredients.size()) walk.enter(what);
        }
    }
    return no_ingredient;
}

}  // namespace solving

Share content_of(const Formulary& formulary, const Formula& formula, IngredientId wanted) {
    Share sum;
    if (!formula.solved()) return sum;
    std::vector<Share> inside = solving::content_by_part(formulary, formula, wanted);
    for (std::size_t i = 0; i < inside.size(); ++i) sum += formula.shares[i] * inside[i];
    return sum;
}

}  // namespace levigate
