#pragma once
// Names, compared without regard to case, to the number and kind of blanks, or to how an accent
// is encoded. Each distinct name gets a small number once, and is compared by it from then on.

#include <cstdint>
#include <deque>
#include <string>
#include <string_view>
#include <unordered_map>

#include "grammar/isolates.hpp"
#include "grammar/span.hpp"

namespace levigate {

using Sym = std::uint32_t;
inline constexpr Sym no_name = 0;

/// The form in which names are compared: case folded, blanks single, curly apostrophes straight.
void fold_name(std::string_view text, std::string& out);
/// The form in which a name is shown: as written, blanks single, apostrophes straight.
std::string tidy_name(std::string_view text);

class Names {
public:
    Names();
    Sym intern(std::string_view as_written);
    /// `no_name` where nobody has used it.
    Sym find(std::string_view as_written) const;
    Sym intern_folded(std::string_view folded);
    Sym find_folded(std::string_view folded) const;
    /// The folded text.
    std::string_view folded(Sym sym) const { return texts_[sym]; }
    std::size_t size() const { return texts_.size(); }
    /// Those in letters from right to left, as they were written.
    const Isolates& right_to_left() const { return isolates_; }

private:
    std::deque<std::string> texts_;
    std::unordered_map<std::string_view, Sym> index_;
    std::string scratch_;
    Isolates isolates_;
};

/// A name as it stands in a file. Where `hole` is set, `sym` is the name of the hole.
struct Name {
    Sym sym = no_name;
    Span span;
    bool hole = false;

    explicit operator bool() const { return sym != no_name; }
};

}  // namespace levigate
