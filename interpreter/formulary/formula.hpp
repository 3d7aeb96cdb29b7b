#pragma once
// A formula: what goes into a bowl and how much of it, before and after it is solved.

#include <cstdint>
#include <variant>
#include <vector>

#include "grammar/names.hpp"
#include "grammar/span.hpp"
#include "interpreter/formulary/origin.hpp"
#include "interpreter/measure/quantities.hpp"

namespace levigate {

/// Index in Formulary::ingredients: a material, a blend, or a shade's bulk that stands as one.
using IngredientId = std::uint32_t;
inline constexpr IngredientId no_ingredient = 0xFFFFFFFFu;

/// What `as much … as` and `enough … to bring` look at.
struct Ref {
    enum class Kind : std::uint8_t { ingredient, role, bulk } kind = Kind::ingredient;
    IngredientId ingredient = no_ingredient;
    Sym role = no_name;
    Span span;
};

/// A weight in a formula: only its proportion to the other weights counts there.
struct Weight {
    Mass mass;  ///< grams, or parts counted as grams: the two never stand together
    bool parts = false;
};
struct Rest {};
struct AsMuch {
    Exact factor = 1;  ///< not negative
    Ref ref;
};
struct Enough {
    Ref ref;
    Share share;  ///< what REF comes to in the whole
};

using PartAmount = std::variant<Share, Weight, Rest, AsMuch, Enough>;

/// One ingredient line, all edits applied and all holes filled.
struct Part {
    IngredientId what = no_ingredient;
    PartAmount amount;
    OriginId origin = no_origin;
    Span span;               ///< the line that last gave the amount
    Span name_span;          ///< the ingredient's name there
    bool estimated = false;  ///< came from a volume
    bool ambiguous = false;  ///< several blocks have the name that is written here
};

/// How the unknown of a formula was found; `why` tells it.
struct Solving {
    enum class By : std::uint8_t { shares, rest, weights } by = By::shares;
    Share left;        ///< what the shares leave (to `rest`, or to all weights together)
    Mass all_weights;  ///< grams or parts, `enough` and relative lines among them
    Mass enough;       ///< what `enough` came to, in the same weights
};

struct Formula {
    std::vector<Part> parts;
    std::vector<Share> shares;  ///< of the whole, one a part; empty where it could not be solved
    Solving solving;
    /// A name stands in it, at some depth, that several blocks have (said at these). It is solved
    /// as if the first were meant, so that other slips are found, and nothing is made of it.
    bool ambiguous = false;

    bool solved() const { return !parts.empty() && shares.size() == parts.size(); }
};

/// What a finish adds: a share of the finished whole, or as much as something in the bulk.
struct Addition {
    IngredientId what = no_ingredient;
    std::variant<Share, AsMuch> amount;
    OriginId origin = no_origin;
    Span span;
    Span name_span;
    bool estimated = false;
};

}  // namespace levigate
