#pragma once
// What is sold: a shade under one variant and one finish, whatever the batch, down to its raw
// materials. Rules about lips and ingredient lists look at this.

#include <optional>
#include <vector>

#include "interpreter/formulary/formulary.hpp"

namespace levigate {

struct ProductMaterial {
    IngredientId what = no_ingredient;
    Share share;  ///< of the finished whole
    Span span;    ///< its name in the line, of the shade or of a blend, that brings it first
};

struct Product {
    ShadeId shade = nothing;
    std::uint32_t version = 0;               ///< index in Shade::versions
    FinishingId finishing = nothing;         ///< `nothing`: the bulk as made
    std::vector<ProductMaterial> materials;  ///< largest first, ties in the order of the lines
    std::optional<Density> density;          ///< where it was asked for and can be told
    std::vector<IngredientId> lacking;       ///< where it can't: what has no density
};

/// "Quince / sheer / matte"
std::string title_of(const Formulary& formulary, const Product& product);

}  // namespace levigate
