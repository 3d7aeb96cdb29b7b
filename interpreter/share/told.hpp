#pragma once
// What members can conclude of sealed blends, as the maker is told it.

#include <vector>

#include "interpreter/share/concluded.hpp"
#include "interpreter/share/index.hpp"

namespace levigate::sharing {

/// An earlier edition, compiled; by `--since`.
using Editions = std::vector<const Compiled*>;

/// For each sealed blend what members can tell (`share-told`), and an error where that is narrower
/// than its maker asks (`share-narrow`). `index` is of the source.
Findings told_to_members(const Compiled& source, const Index& index,
                         const std::vector<Seal>& seals, const Editions& since,
                         const GoesOut& out);

}  // namespace levigate::sharing
