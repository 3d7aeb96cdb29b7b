#pragma once
// What the fuzzed parts share. libFuzzer keeps the input when one of these stops the program.

#include <cstdlib>
#include <iostream>
#include <string>
#include <string_view>

namespace levigate::testing {

/// More is only slower: what grows with a file's length is tests/hostile's to find.
inline constexpr std::size_t most_bytes = 1u << 14;

inline std::string as_text(const unsigned char* data, std::size_t size) {
    return std::string(reinterpret_cast<const char*>(data), size);
}

inline void demand(bool holds, std::string_view what) {
    if (holds) return;
    std::cerr << "this doesn't hold: " << what << "\n";
    std::abort();
}

}  // namespace levigate::testing
