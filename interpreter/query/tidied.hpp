#pragma once
// A file in canonical form, with the measures at hand that tell where a name begins.

#include <optional>
#include <string>

#include "grammar/source.hpp"
#include "grammar/tidy.hpp"
#include "interpreter/world.hpp"

namespace levigate {

struct TidiedFile {
    Sources sources;  ///< what the findings point into; the file is the first
    Tidied tidied;
    std::optional<Unreadable> unreadable;  ///< the rest is empty then

    const std::string& before() const { return sources[0].bytes(); }
};

/// Measures are those of the library, the file and all that it uses; what can't be used is no
/// matter here. A file of a later version of the language stays as it is.
TidiedFile tidied(const World& world, const std::string& path);

}  // namespace levigate
