#pragma once
// Small formularies built by hand, as resolving would leave them.

#include <string>
#include <utility>
#include <vector>

#include "interpreter/formulary/formulary.hpp"
#include "interpreter/formulary/solve.hpp"

namespace levigate::by_hand {

/// An amount and what it is of. Spans are given out one by one, so that each line has its own.
struct Line {
    IngredientId what = no_ingredient;
    PartAmount amount;
};

inline PartAmount pct(const Exact& x) { return percent(x); }
inline PartAmount g(const Exact& x) { return Weight{grams(x), false}; }
inline PartAmount parts(const Exact& x) { return Weight{grams(x), true}; }
inline PartAmount rest() { return Rest{}; }
inline Ref ref(IngredientId what) { return {Ref::Kind::ingredient, what, no_name, {}}; }
inline Ref the(Sym role) { return {Ref::Kind::role, no_ingredient, role, {}}; }
inline Ref the_bulk() { return {Ref::Kind::bulk, no_ingredient, no_name, {}}; }

struct Hand {
    Formulary all;
    Names names;
    Findings findings;  ///< of the blends and shades that were built
    std::uint32_t next_span = 0;

    Span span() {
        next_span += 10;
        return {0, next_span, next_span + 5};
    }

    Sym role(const std::string& name) { return name.empty() ? no_name : names.intern(name); }

    IngredientId material(const std::string& name, const std::string& role_name = {},
                          std::optional<Exact> density = {}) {
        auto id = static_cast<IngredientId>(all.ingredients.size());
        Ingredient entry;
        entry.name = name;
        entry.sym = names.intern(name);
        entry.role = role(role_name);
        if (density) entry.density = grams_per_millilitre(*density);
        entry.index = static_cast<std::uint32_t>(all.materials.size());
        entry.span = span();
        all.ingredients.push_back(entry);
        all.materials.emplace_back().self = id;
        return id;
    }

    Formula formula(const std::vector<Line>& lines) {
        Formula out;
        for (const Line& line : lines) {
            Part part;
            part.what = line.what;
            part.amount = line.amount;
            part.span = span();
            part.name_span = part.span;
            out.parts.push_back(part);
        }
        return out;
    }

    Formula solved(const std::string& whose, const std::vector<Line>& lines) {
        Formula out = formula(lines);
        for (Finding& finding : solve(all, names, out, whose, span()))
            findings.push_back(std::move(finding));
        return out;
    }

    IngredientId blend(const std::string& name, const std::vector<Line>& lines,
                       const std::string& role_name = {}) {
        auto id = static_cast<IngredientId>(all.ingredients.size());
        Mix mix;
        mix.self = id;
        mix.formula = solved(name, lines);
        mix.roles = roles_of(all, mix.formula);
        Ingredient entry;
        entry.kind = Ingredient::Kind::blend;
        entry.name = name;
        entry.sym = names.intern(name);
        entry.role = role(role_name);
        entry.index = static_cast<std::uint32_t>(all.mixes.size());
        entry.span = span();
        all.ingredients.push_back(entry);
        all.mixes.push_back(std::move(mix));
        return id;
    }

    ShadeId shade(const std::string& name, const std::vector<Line>& lines) {
        auto id = static_cast<ShadeId>(all.shades.size());
        Shade out;
        out.name = name;
        out.sym = names.intern(name);
        out.span = span();
        out.own = true;
        Version& written = out.versions.emplace_back();
        written.formula = solved(name, lines);
        written.broken = !written.formula.solved();
        all.shades.push_back(std::move(out));
        return id;
    }

    void variant(ShadeId shade, const std::string& name, const std::vector<Line>& lines) {
        Version version;
        version.variant = name;
        version.sym = names.intern(name);
        version.formula = solved(name, lines);
        version.broken = !version.formula.solved();
        all.shades[shade].versions.push_back(std::move(version));
    }

    using Adding = std::variant<Share, AsMuch>;
    FinishingId finish(const std::string& name,
                       const std::vector<std::pair<IngredientId, Adding>>& adds) {
        Finish finish;
        finish.name = name;
        finish.sym = names.intern(name);
        Finishing finishing;
        finishing.finish = static_cast<FinishId>(all.finishes.size());
        for (const auto& [what, amount] : adds) {
            Addition addition;
            addition.what = what;
            addition.amount = amount;
            addition.span = span();
            finishing.additions.push_back(addition);
        }
        all.finishes.push_back(finish);
        all.finishings.push_back(finishing);
        return static_cast<FinishingId>(all.finishings.size() - 1);
    }

    void takes(ShadeId shade, FinishingId finishing) {
        Sym sym = all.finishes[all.finishings[finishing].finish].sym;
        all.shades[shade].finishes.push_back({sym, finishing});
    }

    BatchSize size(std::variant<Mass, Volume, ContainerCount> amount) {
        BatchSize out;
        out.amount = amount;
        out.span = span();
        return out;
    }

    Batch& batch(ShadeId shade, const std::string& name,
                 std::variant<Mass, Volume, ContainerCount> amount) {
        all.shades[shade].batches.push_back({name, names.intern(name), size(amount)});
        return all.shades[shade].batches.back();
    }

    BalanceId balance(const std::string& name, const Exact& step, int places) {
        Balance out;
        out.name = name;
        out.sym = names.intern(name);
        out.step = grams(step);
        out.places = places;
        out.span = span();
        all.balances.push_back(out);
        return static_cast<BalanceId>(all.balances.size() - 1);
    }

    TextId text(const std::vector<TextPiece>& pieces) {
        all.texts.push_back({pieces, span(), false});
        return static_cast<TextId>(all.texts.size() - 1);
    }
};

/// The shares as percentages, as fractions: "14 1/2" reads "29/2".
inline std::vector<std::string> percents(const Formula& formula) {
    std::vector<std::string> out;
    for (const Share& size : formula.shares) out.push_back(in_percent(size).fraction());
    return out;
}

inline std::vector<std::string> codes(const Findings& findings) {
    std::vector<std::string> out;
    for (const Finding& finding : findings) out.emplace_back(row_of(finding.code).name);
    return out;
}

}  // namespace levigate::by_hand
