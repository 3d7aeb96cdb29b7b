#pragma once
// Names in letters that are written from right to left. In a line that is laid out from left to
// right such a name takes the numbers beside it along, so that an amount is seen in another
// column. Between U+2068 and U+2069 it keeps to itself (Unicode Standard Annex 9, isolates).

#include <functional>
#include <set>
#include <string>
#include <string_view>

namespace levigate {

/// Whether it holds a letter of bidi class R or AL (Hebrew, Arabic, Syriac, Thaana, NKo, Adlam …).
bool right_to_left(std::string_view text);

/// Makes each matched pair U+2068 … U+2069 around a name two blanks of the same length, so that
/// places stay what they are. An unmatched one, or one within a word, stays for the reader to find.
/// Returns the text as it was; nothing where it is still the same.
std::string drop_isolates(std::string& text);
/// The original without the pairs that were dropped from it: `text` is what they left.
std::string without_isolates(std::string_view text, std::string_view original);

/// The names that are isolated wherever a person reads them.
class Isolates {
public:
    /// As it is shown. A name without such letters isn't kept.
    void add(std::string_view name);
    void add(const Isolates& others);
    bool empty() const { return names_.empty(); }

    /// A sentence with each name in it isolated, and what stands in quotes of ours.
    std::string in_sentence(std::string_view text) const;
    /// A cell of a table. What isn't a name keeps to its cell as well.
    std::string in_cell(std::string_view text) const;
    /// Each name between two texts of the caller's, as tags of a page.
    std::string between(std::string_view text, std::string_view open, std::string_view close) const;
    /// The same names as a page writes them.
    template <typename Escape>
    Isolates escaped(Escape escape) const {
        Isolates out;
        for (const std::string& name : names_) out.names_.insert(escape(name));
        return out;
    }

private:
    /// The longest name that `text` begins with, as its length; 0 for none.
    std::size_t name_at(std::string_view text) const;

    std::set<std::string, std::less<>> names_;
};

}  // namespace levigate
