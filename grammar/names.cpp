#include "grammar/names.hpp"

#include <utf8proc.h>

#include <cstdlib>

namespace levigate {

namespace {

/// Length of the blank that begins at `at`, or 0. Blanks as in lexical.hpp.
std::size_t blank_length(std::string_view text, std::size_t at) {
    const auto byte = [&](std::size_t i) {
        return i < text.size() ? static_cast<unsigned char>(text[i]) : 0u;
    };
    const unsigned char first = byte(at);
    if (first == ' ' || first == '\t' || first == '\n' || first == '\r') return 1;
    if (first == 0xC2 && byte(at + 1) == 0xA0) return 2;
    if (first == 0xE1 && byte(at + 1) == 0x9A && byte(at + 2) == 0x80) return 3;
    if (first == 0xE2 && byte(at + 1) == 0x80)
        return (byte(at + 2) >= 0x80 && byte(at + 2) <= 0x8A) || byte(at + 2) == 0xAF ||
                       byte(at + 2) == 0xA8 || byte(at + 2) == 0xA9
                   ? 3
                   : 0;
    if (first == 0xE2 && byte(at + 1) == 0x81)  // and isolates around a name
        return byte(at + 2) == 0x9F || byte(at + 2) == 0xA8 || byte(at + 2) == 0xA9 ? 3 : 0;
    if (first == 0xE3 && byte(at + 1) == 0x80 && byte(at + 2) == 0x80) return 3;
    return 0;
}

/// Blanks single, none at the ends, curly apostrophes straight; letters as they are.
bool collapse(std::string_view text, std::string& out, bool lower) {
    bool far = false;
    bool due = false;
    out.clear();
    for (std::size_t i = 0; i < text.size();) {
        if (const std::size_t blank = blank_length(text, i)) {
            due = !out.empty();
            i += blank;
            continue;
        }
        if (due) out += ' ';
        due = false;
        const auto byte = static_cast<unsigned char>(text[i]);
        if (byte == 0xE2 && text.substr(i, 3) == "\u2019") {
            out += '\'';
            i += 3;
            continue;
        }
        if (byte >= 0x80) far = true;
        out += lower && byte >= 'A' && byte <= 'Z' ? static_cast<char>(byte + 32) : text[i];
        ++i;
    }
    return far;
}

}  // namespace

void fold_name(std::string_view text, std::string& out) {
    if (!collapse(text, out, true)) return;
    // Beyond ASCII: fold case, and let an accent be one sign however it was typed. The micro sign
    // and the Greek letter fold to one.
    utf8proc_uint8_t* folded = nullptr;
    const auto length = utf8proc_map(
        reinterpret_cast<const utf8proc_uint8_t*>(out.data()),
        static_cast<utf8proc_ssize_t>(out.size()), &folded,
        static_cast<utf8proc_option_t>(UTF8PROC_STABLE | UTF8PROC_COMPOSE | UTF8PROC_CASEFOLD));
    if (length >= 0)
        out.assign(reinterpret_cast<const char*>(folded), static_cast<std::size_t>(length));
    std::free(folded);
}

std::string tidy_name(std::string_view text) {
    std::string out;
    collapse(text, out, false);
    return out;
}

Names::Names() { texts_.emplace_back(); }

Sym Names::intern(std::string_view as_written) {
    fold_name(as_written, scratch_);
    if (levigate::right_to_left(scratch_)) isolates_.add(tidy_name(as_written));
    return intern_folded(scratch_);
}

Sym Names::find(std::string_view as_written) const {
    std::string folded;
    fold_name(as_written, folded);
    return find_folded(folded);
}

Sym Names::intern_folded(std::string_view folded) {
    if (folded.empty()) return no_name;
    const auto found = index_.find(folded);
    if (found != index_.end()) return found->second;
    texts_.emplace_back(folded);
    const Sym sym = static_cast<Sym>(texts_.size() - 1);
    index_.emplace(texts_.back(), sym);
    return sym;
}

Sym Names::find_folded(std::string_view folded) const {
    const auto found = index_.find(folded);
    return found == index_.end() ? no_name : found->second;
}

}  // namespace levigate
