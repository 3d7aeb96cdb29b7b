#pragma once
// A text beside the files that were compiled: from the command line, or a file of records. Its
// words mean what the files say. Nobody outside the room includes this.

#include "interpreter/formulary/records.hpp"
#include "interpreter/resolve/context.hpp"

namespace levigate::resolving {

/// The text joins the files as one more, so that its measures are found like theirs; what its names
/// mean stands in a formulary that is there already.
struct Joined {
    Joined(const Sources& sources, Names& names, std::vector<LoadedFile> compiled,
           const Formulary& formulary, tree::File file, Findings& findings)
        : files(std::move(compiled)),
          there(formulary), context{sources, names, files, tables, findings} {
        files.push_back({std::move(file), false, false});
        const std::size_t before = findings.size();
        fill_scope(context);
        add_containers_and_balances(context);
        findings.resize(before);  // said when the files were compiled
        context.said.clear();
        ingredients.insert(formulary.called.begin(), formulary.called.end());
        for (IngredientId id = 0; id < formulary.ingredients.size(); ++id)
            if (const Sym sym = formulary.ingredients[id].sym; sym != no_name)
                ingredients[sym] = id;
        for (const Dilution& one : formulary.dilutions)  // they have no name of their own
            ingredients.emplace(names.intern(formulary.name(one.self)), one.self);
        for (ShadeId id = 0; id < formulary.shades.size(); ++id)
            shades.emplace(formulary.shades[id].sym, id);
    }
    std::uint32_t last() const { return static_cast<std::uint32_t>(files.size() - 1); }
    const tree::File& file() const { return files.back().tree; }
    IngredientId ingredient(Sym sym) const {
        const auto found = ingredients.find(sym);
        return found == ingredients.end() ? no_ingredient : found->second;
    }
    ShadeId shade(Sym sym) const {
        const auto found = shades.find(sym);
        return found == shades.end() ? nothing : found->second;
    }

    std::vector<LoadedFile> files;
    const Formulary& there;
    std::unordered_map<Sym, IngredientId> ingredients;
    std::unordered_map<Sym, ShadeId> shades;
    Formulary tables;
    Context context;
};

/// A pour with its names looked up. `strict`: a name that nothing has is an error. Nothing where
/// its weight can't be told; said.
std::optional<Pour> resolve_pour(Joined& joined, const tree::Pour& pour, bool strict);

}  // namespace levigate::resolving
