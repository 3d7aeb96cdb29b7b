#include "grammar/misspelt.hpp"

#include <string>
#include <variant>

#include "grammar/forms_table.hpp"
#include "grammar/lines.hpp"
#include "grammar/near.hpp"

namespace levigate {
namespace {

/// Lines of these take any words, so that reading one proves nothing about how it was meant.
bool takes_any_words(const tree::Body& body) {
    return std::holds_alternative<tree::Text>(body) ||
           std::holds_alternative<tree::NameList>(body) ||
           std::holds_alternative<tree::Reference>(body) ||
           std::holds_alternative<tree::LabelLine>(body) ||
           std::holds_alternative<tree::Columns>(body) ||
           std::holds_alternative<tree::Without>(body);
}

}  // namespace

bool reads_as_guessed(std::string_view text, const LineKind& kind, std::uint32_t end,
                      Names& names) {
    const std::string line =
        std::string(kind.guess) + std::string(text.substr(kind.word_end, end - kind.word_end));
    tree::File scratch;
    Draft draft{names, scratch, line, line.data()};
    if (kind.near_heading) {
        tree::Block block;
        return !read_heading(kind.heading, line.data(), line.data() + line.size(), draft, block);
    }
    tree::Body body;
    return !read_form(kind.form, line.data(), line.data() + line.size(), draft, body) &&
           !takes_any_words(body);
}

bool surely_meant(std::string_view text, const LineKind& kind, std::uint32_t end, Names& names) {
    constexpr std::size_t too_short = 4;  // `lit` may be `let` or `set`
    std::string written;
    fold_name(text.substr(kind.begin, kind.word_end - kind.begin), written);
    if (written.size() < too_short || distance(written, kind.guess) > 1) return false;
    // `shad e Quince` and `materials oft base`: a blank may have slipped, and then a name is
    // another.
    const std::uint32_t next = skip_blanks(text, kind.word_end, end);
    const bool lost = kind.guess.substr(0, kind.guess.size() - 1) == written;
    if (lost && next < end && (text[next] | 0x20) == kind.guess.back()) return false;
    if (written.starts_with(kind.guess)) return false;
    return reads_as_guessed(text, kind, end, names);
}

}  // namespace levigate
