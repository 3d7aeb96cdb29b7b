#pragma once
// What stands on the box: for each product and each region that it is sold in the ingredient list,
// the net contents, and what the list rests on. Made from the data as they are; no legal advice.

#include <deque>
#include <map>
#include <string>
#include <vector>

#include "interpreter/rules/contents.hpp"
#include "interpreter/rules/declaration.hpp"
#include "interpreter/rules/range.hpp"

namespace levigate {

struct BoxLabels {
    std::vector<BoxLabel> labels;
    Findings findings;  ///< why a list is refused, or a region unknown
};

struct LabelOrder {
    std::vector<Called> markets;  ///< in place of those that shades and the file name
    bool range = false;           ///< one list for all shades of one variant and finish
    Sym batch = no_name;          ///< net contents of this batch alone
    bool refusals_only = false;   ///< no label is made: why one can't be is all that is asked
};

/// Gathers products, then makes their labels.
class Labeller {
public:
    Labeller(const Formulary& formulary, const Names& names, LabelOrder order);
    void add(const Product& product);
    BoxLabels make();
private:
    using Products = std::vector<Product>;

    std::vector<Called> markets_of(const Shade& shade, bool& named) const;
    bool any_label(const Product& product) const;
    void make_group(const Products& products);
    void make_in(const Called& market, const Products& products);
    void make_range(Declarer& declarer, const Products& products, std::vector<RangeMember> members);
    void put(const Region& region, const Products& products, Declaration declaration,
             std::string warning);
    void add_contents(const Products& products, BoxLabel& out) const;
    void add_conditions(const Declaration& declaration, BoxLabel& out) const;
    Declarer* declarer_of(const Called& market, const Shade& shade);

    const Formulary& formulary_;
    const Names& names_;
    const LabelOrder order_;
    std::vector<Products> groups_;
    std::map<std::pair<Sym, Sym>, std::size_t> seats_;  ///< of a range, by variant and finish
    std::map<Sym, Declarer> declarers_;
    bool own_label_ = false;  ///< some material of a person's own has one
    BoxLabels out_;
};

/// "Ingredients: Ricinus Communis Seed Oil, Cera Alba, Red 7 Lake. May contain: Carmine"
std::string list_text(const Region& region, const std::vector<Listed>& list);

}  // namespace levigate
