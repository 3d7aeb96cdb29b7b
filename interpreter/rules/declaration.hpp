#pragma once
// The ingredient list of one product in one region, from the shares of the finished whole:
// 21 CFR 701.3, Regulation (EC) 1223/2009, Article 19(1)(g); a `region` block says which way.
//
// A material counts by the parts that its label names, and one name from several materials is one
// ingredient. Where the label leaves shares open, an ingredient's share is a span from least to
// most. A list whose order such a span leaves open is refused; so is one that would lack a name.

#include <optional>
#include <string>
#include <vector>

#include "grammar/finding.hpp"
#include "interpreter/expand/product.hpp"
#include "interpreter/rules/book.hpp"
#include "interpreter/rules/box.hpp"

namespace levigate {

struct Declaration {
    std::vector<Listed> list;            ///< in the order of the ingredient list
    std::vector<std::uint32_t> rules;    ///< that it rests on, each once: Formulary::rules
    std::vector<std::string> undecided;  ///< what can't be told from the data
    bool lost = false;                   ///< no list, since a line can't be read: said already
    Findings refused;                    ///< why there is no list; then `list` is not to be shown
};

/// Whether the region lets an ingredient of so little stand in any order.
bool in_minor_group(const Region& region, const Share& size);

/// Whether it can be told which of two ingredients comes first, or needs not be.
bool order_known(const Region& region, const Listed& a, const Listed& b);

/// Writes the ingredient lists of one region. Reckons each material once.
class Declarer {
public:
    Declarer(const Formulary& formulary, const Names& names, const Region& region);
    Declaration declare(const Product& product);
    const Region& region() const { return region_; }

private:
    /// A part of a material under the name that the region's list gives it.
    struct Entry {
        Called name;
        bool colours = false;
        Share least, most;  ///< of the material
        std::uint32_t rule = nothing;
    };
    struct Known {
        std::vector<Entry> entries;         ///< none: the material has no label
        std::optional<Share> off;  ///< what the label's shares come to, where that is too little
        bool over = false;         ///< they come to too much: said where the label is read
        std::vector<Called> homeless;       ///< numbers that colour, and no part tells which
    };

    /// A substance that must be named above a share.
    struct NamedSum {
        std::uint32_t rule = nothing;
        Share least, most;  ///< of the finished whole
        std::vector<IngredientId> from;
    };

    const Known& known(IngredientId material);
    Known reckon(const Material& material) const;
    bool of_unknown_colour(const MaterialPart& part) const;
    void enter(const MaterialPart& part, const Share& least, const Share& most, Known& out) const;
    std::uint32_t rule_of(const std::vector<std::uint32_t>& rules, Sym what) const;
    Called listing_name(const Rule& rule, const MaterialPart& part) const;
    Called name_by(const Rule& rule, const MaterialPart& part, const Called* index) const;
    void add_up(const Product& product, Declaration& out);
    std::vector<NamedSum> sum_named(const Product& product, Declaration& out);
    void add_named(const Product& product, Declaration& out);
    void ask_about(IngredientId material, const Claims& claims, Declaration& out) const;
    void refuse_material(IngredientId material, Declaration& out);
    void refuse_unknown(const Product& product, Declaration& out);
    void refuse_open(const Product& product, Declaration& out) const;
    void put_in_order(Declaration& out) const;

    const Formulary& formulary_;
    const Names& names_;
    const Region& region_;
    RuleBook book_;
    std::vector<std::uint32_t> colour_, filler_;  ///< rules of the region, by what they speak of
    std::vector<std::string> to_be_named_;
    std::vector<std::optional<Known>> known_;  ///< by IngredientId
};

}  // namespace levigate
