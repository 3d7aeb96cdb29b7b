#pragma once
// What reading and writing stamps have in common. Private to the room.

#include <cstdint>
#include <string_view>

namespace levigate {

// Digits and small letters without those that are taken for digits (D. Crockford's base 32).
inline constexpr std::string_view stamp_letters = "0123456789abcdefghjkmnpqrstvwxyz";
inline constexpr std::uint32_t stamp_size = 6;
inline constexpr std::size_t digest_size = 16;

/// FNV-1a (G. Fowler, L. C. Noll, K.-P. Vo): it finds slips, and guards against no forger.
class StampDigest {
public:
    void take(std::string_view text) {
        for (const char c : text) step(static_cast<unsigned char>(c));
        step(0x1F);
    }
    std::uint64_t value() const { return value_; }

private:
    void step(unsigned char byte) { value_ = (value_ ^ byte) * 1099511628211u; }
    std::uint64_t value_ = 14695981039346656037u;
};

inline bool is_stamp(std::string_view text) {
    return text.size() == stamp_size &&
           text.find_first_not_of(stamp_letters) == std::string_view::npos;
}

inline bool is_stamp_blank(char c) { return c == ' ' || c == '\t'; }

inline std::string_view stamp_trimmed(std::string_view text) {
    while (!text.empty() && is_stamp_blank(text.front())) text.remove_prefix(1);
    while (!text.empty() && is_stamp_blank(text.back())) text.remove_suffix(1);
    return text;
}

inline bool begins_with_word(std::string_view text, std::string_view word) {
    return text.starts_with(word) &&
           (text.size() == word.size() || is_stamp_blank(text[word.size()]));
}

}  // namespace levigate
