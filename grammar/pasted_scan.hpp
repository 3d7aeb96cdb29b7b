#pragma once
// Numbers, units and amounts as people write them: `82,5 %`, `ca. 5 wt.-%`, `q.s. ad 100`.
// Private to the room.

#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "grammar/pasted_amount.hpp"

namespace levigate {

bool digit_at(std::string_view text, std::size_t at);
bool letter_at(std::string_view text, std::size_t at);
/// Length of the first of `words` that begins the text at `at`, in any case, as whole words; 0.
/// They are written in small letters.
std::size_t word_length(std::string_view text, std::size_t at,
                        std::initializer_list<std::string_view> words);

/// As it is written here, and where it ends there.
struct Scanned {
    std::string text;
    std::size_t end = 0;
};
/// `82,5`, `1.000,5`, `1/2`, `½`: with a point. Nothing of what may be a thousand or not.
std::optional<Scanned> scan_number(std::string_view text, std::size_t at);
std::optional<Scanned> scan_unit(std::string_view text, std::size_t at);

struct ScannedAmount {
    PastedAmount::How how = PastedAmount::How::turned;
    std::vector<std::string> amounts;
    std::string word;
    std::size_t end = 0;
};
std::optional<ScannedAmount> scan_amount(std::string_view text, std::size_t at);
/// `q.s.`, `qsp 100 %`, `ad 100`, `to make 100 %`, `balance`: the end of it, 0 where it is none.
std::size_t scan_rest(std::string_view text, std::size_t at);

}  // namespace levigate
