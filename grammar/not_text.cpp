#include "grammar/not_text.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace levigate {

namespace {

using namespace std::string_view_literals;

struct FirstBytes {
    std::string_view bytes, what;
};

/// The longer ones first.
constexpr FirstBytes kinds_of_file[] = {
    {"\xFF\xFE\0\0"sv, "text in UTF-32"},
    {"\0\0\xFE\xFF"sv, "text in UTF-32"},
    {"\xFF\xFE"sv, "text in UTF-16"},
    {"\xFE\xFF"sv, "text in UTF-16"},
    {"{\\rtf"sv, "an RTF document"},
    {"%PDF"sv, "a PDF document"},
    {"\xD0\xCF\x11\xE0"sv, "an old word processor's or spreadsheet's file (.doc, .xls)"},
    {"\x89PNG"sv, "a PNG picture"},
    {"\xFF\xD8\xFF"sv, "a JPEG picture"},
    {"GIF8"sv, "a GIF picture"},
    {"\x1F\x8B"sv, "a compressed file (gzip)"},
};

/// What a ZIP file holds is told by the names in it.
std::string_view kind_of_zip(std::string_view bytes) {
    const auto has = [&](std::string_view name) { return bytes.find(name) != bytes.npos; };
    if (has("word/")) return "a word processor's document (.docx)";
    if (has("xl/")) return "a spreadsheet (.xlsx)";
    if (has("opendocument.text")) return "a word processor's document (.odt)";
    if (has("opendocument.spreadsheet")) return "a spreadsheet (.ods)";
    if (has(".iwa")) return "a word processor's or spreadsheet's file (.pages, .numbers)";
    return "a ZIP archive";
}

bool is_web_page(std::string_view bytes) {
    const std::size_t begin = bytes.find_first_not_of(" \t\r\n\xEF\xBB\xBF");
    if (begin == bytes.npos) return false;
    std::string first(bytes.substr(begin, 15));
    for (char& sign : first)
        if (sign >= 'A' && sign <= 'Z') sign = static_cast<char>(sign + 32);
    return first.starts_with("<!doctype html") || first.starts_with("<html");
}

/// Every other byte is nothing: letters of the Latin alphabet in UTF-16 without its mark.
bool is_utf16(std::string_view bytes) {
    constexpr std::size_t enough = 64;
    const std::size_t size = std::min(bytes.size(), enough) & ~std::size_t{1};
    std::size_t even = 0, odd = 0;
    for (std::size_t i = 0; i < size; ++i)
        if (bytes[i] == '\0') ++(i % 2 == 0 ? even : odd);
    const std::size_t pairs = size / 2;
    return pairs >= 2 && ((odd * 4 > pairs * 3 && even == 0) || (even * 4 > pairs * 3 && odd == 0));
}

std::string_view kind_of_file(std::string_view bytes) {
    for (const FirstBytes& one : kinds_of_file)
        if (bytes.starts_with(one.bytes)) return one.what;
    if (bytes.starts_with("PK\x03\x04")) return kind_of_zip(bytes);
    if (is_web_page(bytes)) return "a web page (HTML)";
    return is_utf16(bytes) ? "text in UTF-16" : std::string_view();
}

}  // namespace

std::optional<Finding> not_plain_text(std::string_view bytes, SourceId source) {
    const std::string_view what = kind_of_file(bytes);
    const std::size_t zero = bytes.find('\0');
    if (what.empty() && zero == bytes.npos) return std::nullopt;
    const auto at = static_cast<std::uint32_t>(what.empty() ? zero : 0);
    return Finding{.code = Code::text_not_utf8,
                   .message =
                       what.empty()
                           ? "This is not a text file."
                           : fmt::format("This is {}; a shade file is plain text in UTF-8.", what),
                   .span = {source, at, at + 1},
                   .advice = what.starts_with("a PDF") || what.find("picture") != what.npos
                                 ? "Copy or type its text into a file of plain text, UTF-8."
                                 : "Save it as plain text, UTF-8."};
}

Finding explain_too_much(Span here) {
    return {.code = Code::line_unknown,
            .message = "So much can't be read here that the rest of the file was not looked at.",
            .span = here,
            .advice = "Name a shade file."};
}

}  // namespace levigate
