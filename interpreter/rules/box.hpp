#pragma once
// What stands on the box, as plain values: what the rules make and render writes.

#include <optional>
#include <string>
#include <vector>

#include "grammar/finding.hpp"
#include "interpreter/formulary/formulary.hpp"

namespace levigate {

struct Listed {
    enum class Group : std::uint8_t {
        main,         ///< by falling weight
        minor,        ///< so little that any order is allowed; by falling weight all the same
        colourant,    ///< behind the others
        may_contain,  ///< a colourant that only some shades of a range hold
        named,        ///< inside another ingredient, and so much that it must be named too
    } group = Group::main;
    Called name;
    Share least, most;  ///< of the finished whole; the same where the data tell it
    std::vector<IngredientId> from;

    bool colours() const { return group == Group::colourant || group == Group::may_contain; }
};

struct NetContent {
    std::string batch, container;
    std::optional<Mass> mass;      ///< none: not known, since a density is lacking
    std::optional<Volume> volume;  ///< only of a container that holds a volume
    std::string shade;             ///< in a range: whose
    std::string text;              ///< "Net Wt 0.12 oz (3.5 g)"
    bool needed = true;            ///< the region wants it stated on so large a pack
};

struct BoxLabel {
    std::string title;                ///< "Quince / matte"; of a range "Quince and Damson / matte"
    std::vector<std::string> shades;  ///< more than one for a range
    std::string variant, finish;      ///< empty: as written, as made
    const Region* region = nullptr;
    std::vector<Listed> list;
    std::string text;  ///< "Ingredients: …", as it is printed
    std::vector<NetContent> contents;
    std::vector<std::string> conditions;  ///< of the region and of the rules that the list rests on
    std::vector<std::size_t> unconfirmed;  ///< those of the conditions that say what was not read
    std::vector<std::string> warnings;     ///< what can't be decided from the data
    Findings findings;                     ///< what the region's rules say against the product
};

}  // namespace levigate
