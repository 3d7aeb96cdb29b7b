#include "interpreter/share/digest.hpp"

#include <nettle/sha2.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <iterator>
#include <utility>

#include "grammar/names.hpp"

namespace levigate {

namespace {

constexpr std::string_view kind = "sha256 ";

/// What mail and chat programs put in place of a sign, and the sign.
constexpr std::pair<std::string_view, char> turned[] = {
    {"\u201C", '"'}, {"\u201D", '"'}, {"\u201E", '"'},   // curly quotes
    {"\u2013", '-'}, {"\u2014", '-'}, {"\u2212", '-'}};  // dashes, the minus sign

std::string turned_back(std::string_view line) {
    std::string out;
    while (!line.empty()) {
        const auto* sign = std::find_if(std::begin(turned), std::end(turned), [&](const auto& one) {
            return line.starts_with(one.first);
        });
        const bool found = sign != std::end(turned);
        out += found ? sign->second : line.front();
        line.remove_prefix(found ? sign->first.size() : 1);
    }
    return out;
}

/// A line as it counts; empty where it doesn't.
std::string counted_line(std::string_view line) {
    std::string out = tidy_name(turned_back(line));
    while (out.starts_with('>')) out = tidy_name(out.substr(1));
    if (out.starts_with("digest " + std::string(kind))) out.clear();
    return out;
}

}  // namespace

std::string edition_digest(std::string_view text) {
    if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
    sha256_ctx state;
    sha256_init(&state);
    while (!text.empty()) {
        const std::size_t end = std::min(text.find_first_of("\r\n"), text.size());
        std::string line = counted_line(text.substr(0, end));
        text.remove_prefix(std::min(text.size(), end + 1));
        if (line.empty()) continue;
        line += '\n';
        sha256_update(&state, line.size(), reinterpret_cast<const std::uint8_t*>(line.data()));
    }
    std::array<std::uint8_t, SHA256_DIGEST_SIZE> bytes{};
    sha256_digest(&state, bytes.size(), bytes.data());
    std::string out(kind);
    for (const std::uint8_t byte : bytes)
        for (const int shift : {4, 0}) out += "0123456789abcdef"[(byte >> shift) & 15];
    return out;
}

}  // namespace levigate
