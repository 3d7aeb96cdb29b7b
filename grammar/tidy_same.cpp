// The guard behind the canonical form: the new text is read again, and says what the old one said.

#include <algorithm>

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

struct Side {
    std::string_view text;
    const Outcome<tree::File>& read;

    std::string_view at(Span span) const { return text.substr(span.begin, span.end - span.begin); }
    std::string comment(const tree::Comment& comment) const {
        return std::string(
            text.substr(comment.span.begin,
                        trim_end(text, comment.span.begin, comment.span.end) - comment.span.begin));
    }
    /// What tells an atom from another of its part, however it is spelt.
    std::string meaning(const Atom& atom) const {
        using enum Atom::Part;
        std::string out;
        switch (atom.part) {
            case flag:
            case minus:
            case name:
            case hole: break;  // told by flag and name
            case path: return std::string(inside(at(atom.span)));
            case number: return number_text(at(atom.span));
            case measure: fold_name(inside(at(atom.span)), out); break;
            case literal: return single_blanks(at(atom.span));
        }
        return out;
    }
};

bool same(const Side& a, const Atoms& left, const Side& b, const Atoms& right) {
    return std::ranges::equal(left, right, [&](const Atom& x, const Atom& y) {
        return x.part == y.part && x.flag == y.flag && x.name == y.name &&
               a.meaning(x) == b.meaning(y);
    });
}

template <typename T>
bool same(const Side& a, const std::vector<T>& left, const Side& b, const std::vector<T>& right) {
    return std::ranges::equal(left, right, [&](const T& x, const T& y) {
        return same(a, atoms_of(a.text, a.read.value, x), b, atoms_of(b.text, b.read.value, y));
    });
}

}  // namespace

bool same_meaning(std::string_view before, const Outcome<tree::File>& old_file,
                  std::string_view after, const Outcome<tree::File>& new_file) {
    const Side a{before, old_file}, b{after, new_file};
    const tree::File &old_tree = old_file.value, &new_tree = new_file.value;
    return std::ranges::equal(old_file.findings, new_file.findings, {}, &Finding::code,
                              &Finding::code) &&
           std::ranges::equal(old_tree.comments, new_tree.comments,
                              [&](const tree::Comment& x, const tree::Comment& y) {
                                  return a.comment(x) == b.comment(y);
                              }) &&
           same(a, old_tree.blocks, b, new_tree.blocks) &&
           same(a, old_tree.lines, b, new_tree.lines);
}

}  // namespace levigate
