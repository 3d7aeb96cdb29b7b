#pragma once
// Which rules of one region speak of a material, and how much of it each of them means.

#include <optional>
#include <vector>

#include "grammar/names.hpp"
#include "interpreter/rules/parts.hpp"

namespace levigate {

struct Claim {
    std::uint32_t rule = 0;    ///< index in Formulary::rules
    Share part;                ///< of the material, at most; never more than all of it
    Share least;               ///< … and at least, where its label or `contains` gives a range
    bool cautious = false;     ///< more may be counted than should: the material doesn't say
    bool by_strength = false;  ///< … namely its `strength`

    bool ranged() const { return least < part; }
};

struct Claims {
    std::vector<Claim> rules;
    std::vector<Called> unknown;     ///< colour index numbers that no rule of the region covers
    std::vector<Called> unnumbered;  ///< parts that a rule calls a colourant, without a number
    std::vector<std::uint32_t> unstated;  ///< rules that ask such a material what it contains
};

/// The rules of one region. Reckons each material once.
class RuleBook {
public:
    RuleBook(const Formulary& formulary, const Names& names, Sym region);
    /// False where nothing at all is known of the region.
    bool known() const { return !rules_.empty(); }
    const Claims& of(IngredientId material);

private:
    bool filler(const Rule& rule) const;
    std::vector<Called> unnumbered(const MaterialParts& parts) const;
    Claims claims_of(const Ingredient& ingredient, const Material& material) const;
    std::optional<Claim> claim(std::uint32_t rule, const Ingredient& ingredient,
                               const Material& material, const MaterialParts& parts) const;

    const Formulary& formulary_;
    const Names& names_;
    Sym composite_;                     ///< the word by which a rule covers coated pigments
    std::vector<Called> fillers_;       ///< what some region lets pass as an ordinary ingredient
    std::vector<std::uint32_t> rules_;  ///< indices in Formulary::rules
    std::vector<std::optional<Claims>> known_;  ///< by IngredientId
};

}  // namespace levigate
