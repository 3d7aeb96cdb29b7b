#pragma once
// Which name was meant, where one was misspelt or not written in full.

#include <compare>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

namespace levigate {

/// Damerau's distance between two texts in code points: insert, drop, change, swap neighbours.
std::size_t distance(std::string_view a, std::string_view b);
/// True where `written` is so near to `meant` that a slip is likely: within a third of its length.
bool is_near(std::string_view written, std::string_view meant);

/// Why a name may be the one that was meant. What comes first here is offered first: whole words
/// and beginnings that fit go before letters that nearly do.
enum class Likeness : std::uint8_t {
    same_look,   ///< the eye can't tell the two apart
    words,       ///< all words that were written are in it: `red 7` in `red 7 lake`
    beginning,   ///< each word begins one of its words, in order: `emb` begins `ember mica`
    letters,     ///< a slip in a letter or two
    more_words,  ///< all its words were written, with others: `soft base wax`
    near_words,  ///< each word is nearly one of its words: `embre` in `ember mica`
};
struct Fit {
    Likeness how;
    std::size_t apart;  ///< letters that are missing or wrong; 100 more where the head is missing
    auto operator<=>(const Fit&) const = default;
};

/// How a name fits what was written, both folded; nothing where it doesn't. Another number is
/// another thing: `red 6` is no slip for `red 27`, nor is `red 2` the beginning of it.
std::optional<Fit> fit(std::string_view written, std::string_view meant);

/// Keeps the names that fit best of those that are offered.
class Nearest {
public:
    /// `written` is folded, and outlives this.
    explicit Nearest(std::string_view written) : written_(written) {}
    void offer(std::string_view folded, std::size_t id);
    void offer(const Fit& found, std::size_t id);
    /// The ids of names that fit in the best way that any does, the likeliest first. Of letters
    /// that nearly fit, only the nearest. Of two that fit as well, the smaller id goes first.
    std::vector<std::size_t> best(std::size_t most = 3) const;

private:
    struct Offered {
        Fit fit;
        std::size_t id;
        auto operator<=>(const Offered&) const = default;
    };
    std::string_view written_;
    std::vector<Offered> offered_{};
};

}  // namespace levigate
