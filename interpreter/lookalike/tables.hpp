#pragma once
// What the build takes from ICU (generate/generate.cpp writes it). For lookalike.cpp alone.

#include <cstdint>
#include <span>
#include <string_view>

namespace levigate::lookalike {

/// A sign, and the bytes of `prototypes()` that stand for it.
struct Lookalike {
    char32_t sign;
    std::uint32_t offset;
    std::uint32_t size;
};

struct ScriptRange {
    char32_t first, last;
    std::uint32_t script;  ///< in `script_names()`
};

std::span<const Lookalike> lookalikes();  ///< in the order of the signs
std::string_view prototypes();
std::span<const ScriptRange> scripts();  ///< in order, of letters only
std::span<const std::string_view> script_names();

}  // namespace levigate::lookalike
