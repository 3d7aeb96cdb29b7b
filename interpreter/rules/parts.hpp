#pragma once
// A material as an ingredient list sees it: its parts, how much each is, and which colour index
// numbers stand for which part.

#include <vector>

#include "grammar/names.hpp"
#include "interpreter/formulary/formulary.hpp"

namespace levigate {

struct MaterialPart {
    Called name;
    Sym plain = no_name;  ///< what it is, whatever its grain and what stands behind it in brackets
    std::optional<Extent> share;  ///< of the material; none where the label gives too few shares
    std::vector<Called> indices;  ///< the numbers of what colours in it
};

struct MaterialParts {
    std::vector<MaterialPart> parts;  ///< in the order of the `label` line; empty without one
    std::vector<Called> loose;        ///< numbers that can't be told to belong to a part
    std::optional<Extent> sum;        ///< of the shares, where all parts have one

    std::vector<Called> numbers() const;  ///< all of them
};

bool covers(const Rule& rule, Sym name);

/// `part` is how the rule's label calls it: "red 7", "D&C Red No. 7", "red 7 calcium lake".
bool labelled(const Names& names, const Rule& rule, Sym part);

/// The same without a number's "No.": "D&C Red 7 Calcium Lake" goes on with "Red 7".
bool goes_by_label(const Names& names, const Rule& rule, Sym part);
bool is_lake(const Names& names, Sym part);  ///< its name ends in `Lake`

/// A part without a share takes what the others leave, if it is the only such one. A colour index
/// number belongs to the part that is written by it, or that a rule of any region calls by its
/// `label` (with `Lake` behind it too), or to the only part. Of a part whose name ends in `(nano)`
/// it is `NUMBER (nano)`: a rule that says nothing of nano grains doesn't speak of it.
MaterialParts parts_of(const Formulary& formulary, const Names& names, const Material& material);

}  // namespace levigate
