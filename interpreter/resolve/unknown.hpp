#pragma once
// Names that nothing has, and what a maker is told to write. Nobody outside the room includes this.

#include <initializer_list>
#include <string>
#include <vector>

#include "interpreter/resolve/context.hpp"

namespace levigate::resolving {

/// Names of the tables that are likely meant by `written`, the likeliest first, as they are written
/// where they are defined.
std::vector<std::string> near_names(Context& context, std::initializer_list<const Table*> tables,
                                    Sym written);
/// Of ingredients: materials, their other names, blends and shades.
std::vector<std::string> near_ingredient(Context& context, Sym written);
/// A name that nothing of the kind has that is due where it is written.
struct Unknown {
    Code code;
    std::string_view due;  ///< "shade"; empty: an ingredient
    Name name;
    std::initializer_list<const Table*> tables;  ///< in which a near one is sought
    std::uint32_t holders;                       ///< headings: one of them may have lost it
    std::string advice;                          ///< what to do if nothing is near
    bool members = false;                        ///< a member of a family would do
};
/// Says what else has the name, or which names are near.
void report_unknown(Context& context, const Unknown& unknown);
/// Members of families are there last of all: what was said before of their names is said again.
void tell_members(Context& context);

/// Tells in what the solver found what to write: an amount per her batch, another size of an edit.
void name_cure(Context& context, const Recipe& recipe, Finding& finding);

}  // namespace levigate::resolving
