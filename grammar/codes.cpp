#include "grammar/codes.hpp"

#include <array>
#include <cstddef>

namespace levigate {
namespace {

/// Of an enumerator's name the code: `name_unknown` becomes `name-unknown`.
template <std::size_t n>
consteval std::array<char, n> with_dashes(const char (&name)[n]) {
    std::array<char, n> out{};
    for (std::size_t i = 0; i < n; ++i) out[i] = name[i] == '_' ? '-' : name[i];
    return out;
}

#define LEVIGATE_ROW(name, severity) constexpr auto text_of_##name = with_dashes(#name);
LEVIGATE_CODES(LEVIGATE_ROW)
#undef LEVIGATE_ROW

constexpr CodeRow rows[] = {
#define LEVIGATE_ROW(name, severity)                                                               \
    {{text_of_##name.data(), text_of_##name.size() - 1}, Severity::severity},
    LEVIGATE_CODES(LEVIGATE_ROW)
#undef LEVIGATE_ROW
};

}  // namespace

const CodeRow& row_of(Code code) { return rows[static_cast<std::size_t>(code)]; }

std::span<const CodeRow> code_rows() { return rows; }

}  // namespace levigate
