#pragma once
// A place in a source text: which source, and a half-open range of byte offsets in it.
// Lines and columns are computed from it only when something is shown (source.hpp).

#include <cstdint>

namespace levigate {

/// Index of a source text in a `Sources` table.
using SourceId = std::uint32_t;
inline constexpr SourceId no_source = 0xFFFFFFFFu;

struct Span {
    SourceId source = no_source;
    std::uint32_t begin = 0;
    std::uint32_t end = 0;

    /// False for values that no file wrote (the command line, a computed line).
    explicit operator bool() const { return source != no_source; }
    bool operator==(const Span&) const = default;
};

/// The smallest span that holds both; the second alone where the first is nowhere.
inline Span cover(Span a, Span b) {
    if (!a || (b && a.source != b.source)) return b;
    if (!b) return a;
    return {a.source, a.begin < b.begin ? a.begin : b.begin, a.end > b.end ? a.end : b.end};
}

}  // namespace levigate
