// The guard behind the canonical form: the new text is read again, and says what the old one said.

#include "grammar/lines.hpp"
#include "grammar/tidy_parts.hpp"

namespace levigate {

namespace {

/// Without the quotes around it.
std::string_view inside(std::string_view written) {
    const std::uint32_t quote = written.empty() ? 0 : quote_at(written, 0);
    if (quote == 0) return written;
    written.remove_prefix(quote);
    written.remove_suffix(written.ends_with('"') ? 1 : 3);
    return written;
}

/// FNV-1a in 64 bits: two trees need never stand in memory together. It guards against slips of
/// ours, not against people.
struct Sum {
    std::uint64_t value = 14695981039346656037u;

    void add(std::string_view bytes) {
        for (const char byte : bytes)
            value = (value ^ static_cast<unsigned char>(byte)) * 1099511628211u;
        add(bytes.size());
    }
    void add(std::size_t number) {
        for (int i = 0; i < 8; ++i, number >>= 8) value = (value ^ (number & 255)) * 1099511628211u;
    }
};

struct Meaning {
    std::string_view text;
    const tree::File& file;
    Sum sum{};

    std::string_view at(Span span) const { return text.substr(span.begin, span.end - span.begin); }

    /// However it is spelt.
    void add(const Atom& atom) {
        using enum Atom::Part;
        sum.add(static_cast<std::size_t>(atom.part));
        sum.add(atom.flag);
        sum.add(std::size_t{atom.name});
        std::string folded;
        if (atom.part == path) sum.add(inside(at(atom.span)));
        if (atom.part == number) sum.add(number_text(at(atom.span)));
        if (atom.part == literal) sum.add(single_blanks(at(atom.span)));
        if (atom.part != measure) return;
        fold_name(inside(at(atom.span)), folded);
        sum.add(folded);
    }
    template <typename T>
    void add_all(const std::vector<T>& all) {
        sum.add(all.size());
        for (const T& one : all)
            for (const Atom& atom : atoms_of(text, file, one)) add(atom);
    }
};

}  // namespace

std::uint64_t meaning_of(std::string_view text, const Outcome<tree::File>& read) {
    Meaning meaning{text, read.value};
    meaning.add_all(read.value.blocks);
    meaning.add_all(read.value.lines);
    for (const tree::Comment& comment : read.value.comments) {
        const std::uint32_t end = trim_end(text, comment.span.begin, comment.span.end);
        meaning.sum.add(text.substr(comment.span.begin, end - comment.span.begin));
    }
    for (const Finding& finding : read.findings) meaning.sum.add(row_of(finding.code).name);
    return meaning.sum.value;
}

}  // namespace levigate
