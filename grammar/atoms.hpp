#pragma once
// What a line is made of beside the words of the language, in one flat list: names, numbers,
// measures, literal text, and the choices that the tree holds as flags. Private to the room.

#include <vector>

#include "grammar/tree.hpp"

namespace levigate {

struct Atom {
    enum class Part : std::uint8_t { flag, name, path, hole, minus, number, measure, literal };
    Part part = Part::flag;
    Span span{};           ///< in the text, with the quotes of a name and the braces of a hole
    std::size_t flag = 0;  ///< a choice, a count, a kind of expression: tells lines apart
    Sym name = no_name;    ///< of a name or hole
};
using Atoms = std::vector<Atom>;

/// In the order of the tree's fields: two lines that say the same have the same list, but for
/// where it stands and how it is spelt.
Atoms atoms_of(std::string_view text, const tree::File& file, const tree::Line& line);
Atoms atoms_of(std::string_view text, const tree::File& file, const tree::Block& block);

/// The words of an open quantity, which hold a name as well; nowhere where none is open.
Span open_words(const tree::File& file, const tree::Body& body);

}  // namespace levigate
