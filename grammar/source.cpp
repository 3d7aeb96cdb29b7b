#include "grammar/source.hpp"

#include <algorithm>

#include <fmt/format.h>
#include <utf8proc.h>

#include "grammar/hidden.hpp"

namespace levigate {
namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

/// The code point at the head of `text` and the bytes it takes; -1 and 1 for a broken byte.
struct CodePoint {
    utf8proc_int32_t value = -1;
    std::size_t bytes = 1;
};

CodePoint first_of(std::string_view text) {
    CodePoint point;
    auto taken = utf8proc_iterate(reinterpret_cast<const utf8proc_uint8_t*>(text.data()),
                                  static_cast<utf8proc_ssize_t>(text.size()), &point.value);
    if (taken < 1) return {};
    point.bytes = static_cast<std::size_t>(taken);
    return point;
}

bool plain_ascii(std::string_view text) {
    return std::all_of(text.begin(), text.end(), [](char c) { return c >= ' ' && c < '\x7F'; });
}

bool is_flag_half(utf8proc_int32_t c) { return c >= 0x1F1E6 && c <= 0x1F1FF; }
bool is_skin_tone(utf8proc_int32_t c) { return c >= 0x1F3FB && c <= 0x1F3FF; }

}  // namespace

SourceId Sources::add(Source source) {
    source.original = drop_isolates(source.text);
    sources_.push_back(std::move(source));
    starts_.emplace_back();
    return static_cast<SourceId>(sources_.size() - 1);
}

std::string_view Sources::text(Span span) const {
    if (span.source >= sources_.size()) return {};
    std::string_view all = sources_[span.source].text;
    std::size_t end = std::min<std::size_t>(span.end, all.size());
    std::size_t begin = std::min<std::size_t>(span.begin, end);
    return all.substr(begin, end - begin);
}

// A line ends with LF, CR LF or CR alone. A byte-order mark belongs to no line.
const std::vector<std::uint32_t>& Sources::line_starts(SourceId id) const {
    std::vector<std::uint32_t>& starts = starts_[id];
    if (!starts.empty()) return starts;
    std::string_view text = sources_[id].text;
    starts.push_back(text.starts_with(byte_order_mark) ? 3 : 0);
    for (std::size_t i = starts[0]; i < text.size(); ++i) {
        if (text[i] != '\n' && text[i] != '\r') continue;
        if (text[i] == '\r' && i + 1 < text.size() && text[i + 1] == '\n') ++i;
        starts.push_back(static_cast<std::uint32_t>(i + 1));
    }
    return starts;
}

Position Sources::at(SourceId source, std::uint32_t offset) const {
    if (source >= sources_.size()) return {};
    std::string_view text = sources_[source].text;
    const auto& starts = line_starts(source);
    auto next = std::upper_bound(starts.begin() + 1, starts.end(), offset);
    std::uint32_t start = *(next - 1);
    std::size_t end = std::min<std::size_t>(offset, text.size());
    Position position{static_cast<std::uint32_t>(next - starts.begin()), 1};
    for (std::size_t i = start; i < end; ++position.column) i += first_of(text.substr(i)).bytes;
    return position;
}

Position Sources::position(Span span) const { return at(span.source, span.begin); }
Position Sources::end_position(Span span) const { return at(span.source, span.end); }

std::uint32_t Sources::line_begin(Span span) const {
    if (span.source >= sources_.size()) return 0;
    const auto& starts = line_starts(span.source);
    return *(std::upper_bound(starts.begin() + 1, starts.end(), span.begin) - 1);
}

std::string_view Sources::line(Span span) const {
    if (span.source >= sources_.size()) return {};
    std::string_view rest = sources_[span.source].text;
    rest.remove_prefix(line_begin(span));
    return rest.substr(0, rest.find_first_of("\r\n"));
}

// Letters that a terminal draws over each other count once: an accent, a skin tone, what follows
// a joiner, the second half of a flag. A variation selector 16 asks for the wide picture.
std::size_t display_width(std::string_view text) {
    if (plain_ascii(text)) return text.size();
    std::size_t width = 0, of_last = 0;
    utf8proc_int32_t before = 0;
    bool flag = false;  // one half of a flag waits for the other
    while (!text.empty()) {
        CodePoint point = first_of(text);
        text.remove_prefix(point.bytes);
        utf8proc_int32_t c = point.value;
        std::size_t wide = c < 0 ? 1 : static_cast<std::size_t>(utf8proc_charwidth(c));
        bool second_half = is_flag_half(c) && flag;
        flag = is_flag_half(c) && !flag;
        if (is_flag_half(c)) wide = second_half ? 0 : 2;
        if (of_last == 2 && (before == 0x200D || is_skin_tone(c))) wide = 0;
        if (c == 0xFE0F && of_last == 1) wide = 1;
        width += wide;
        of_last = wide ? (c == 0xFE0F ? 2 : wide) : of_last;
        before = c;
    }
    return width;
}

std::string shown(std::string_view text) {
    if (plain_ascii(text)) return std::string(text);
    std::string out;
    char32_t before = 0;
    while (!text.empty()) {
        CodePoint point = first_of(text);
        const auto sign = static_cast<char32_t>(point.value);
        if (point.value < 0)
            out += fmt::format("\\x{:02X}", static_cast<unsigned char>(text[0]));
        else if (point.value == '\t')
            out += ' ';
        else if (hidden(sign, before))
            out += fmt::format("\\u{{{:X}}}", static_cast<unsigned>(point.value));
        else
            out += text.substr(0, point.bytes);
        before = point.value < 0 ? 0 : sign;
        text.remove_prefix(point.bytes);
    }
    return out;
}

}  // namespace levigate
