#pragma once
// Where blocks stand: from what the formulary knows back to the words of the files.

#include <compare>
#include <cstdint>
#include <map>
#include <string>
#include <unordered_map>
#include <utility>
#include <vector>

#include "grammar/tree.hpp"
#include "interpreter/compile.hpp"

namespace levigate::sharing {

/// A block of one of the files.
struct Place {
    std::uint32_t file = nothing;
    std::uint32_t block = nothing;

    explicit operator bool() const { return file != nothing; }
    auto operator<=>(const Place&) const = default;
};

class Index {
public:
    explicit Index(const Compiled& compiled);

    /// The block whose heading has its name there.
    Place at(Span name) const;
    /// A person's block goes before the library's.
    Place find(Heading heading, Sym name) const;
    /// A material by any of its names, a blend, else a shade that stands as an ingredient.
    IngredientId ingredient(Sym name) const;

    const tree::File& file(Place place) const { return compiled_.files[place.file].tree; }
    const tree::Block& block(Place place) const { return file(place).blocks[place.block]; }
    bool library(Place place) const { return compiled_.files[place.file].library; }
    std::vector<const tree::Line*> lines(Place place) const;
    /// From the first that it is like to itself.
    std::vector<Place> chain(Place place) const;
    /// The words of its measures, those of the heading among them.
    std::vector<Span> measures(Place place) const;
    /// The line that holds the place; none where no line does.
    const tree::Line* line_at(Span span) const;

private:
    const Compiled& compiled_;
    std::map<std::pair<SourceId, std::uint32_t>, Place> places_;
    std::map<std::pair<Heading, Sym>, Place> named_;
    std::unordered_map<Sym, IngredientId> ingredients_;
};

/// The names that a line speaks of, but for shades: of ingredients, and holes.
std::vector<Name> names_in(const tree::Line& line);

}  // namespace levigate::sharing
