#pragma once
// What each quantity that stands in a run's files comes to, seen by itself: for who compares two
// states of a file, where `1/2 %` and `0.5 %` are the same and `2 drops` are what a drop is.

#include <optional>
#include <string>
#include <vector>

#include "grammar/names.hpp"
#include "grammar/source.hpp"
#include "grammar/span.hpp"
#include "interpreter/measure/quantity.hpp"
#include "interpreter/resolve/load.hpp"

namespace levigate {

struct Meaning {
    /// Nothing where it hangs on a hole, or can't be told.
    std::optional<Quantity> value;
    /// Of a quantity: the name of its measure, as the block that defines it writes it.
    std::string measure;
    /// Of a quantity in an ingredient line whose words hold measure and name: where they part.
    Span measure_span, name_span;
};

struct Meanings {
    std::vector<std::vector<Meaning>> files;  ///< by file, by ExprId
    std::vector<std::string> containers;      ///< what the tag of a count stands for, less one
};

Meanings meanings_of(const Sources& sources, Names& names, const std::vector<LoadedFile>& files);

}  // namespace levigate
