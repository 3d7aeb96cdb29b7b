#include "tests/golden/planted.hpp"

#include "tests/support/text.hpp"

#include <charconv>
#include <nlohmann/json.hpp>
#include <sstream>

namespace levigate::testing {
namespace {

constexpr std::string_view sign = "#~";

bool read_number(std::string_view& text, std::size_t& number) {
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc()) return false;
    text.remove_prefix(static_cast<std::size_t>(end - text.data()));
    return true;
}

bool take(std::string_view& text, char expected) {
    if (!text.starts_with(expected)) return false;
    text.remove_prefix(1);
    return true;
}

// "[LINE:]FIRST-LAST", behind the @
bool read_columns(std::string_view& text, Mark& mark) {
    std::size_t last = 0;
    if (!read_number(text, mark.column)) return false;
    if (take(text, ':')) {
        mark.line = mark.column;
        if (!read_number(text, mark.column)) return false;
    }
    if (!take(text, '-') || !read_number(text, last)) return false;
    mark.end_column = last + 1;
    return mark.line > 0 && mark.column > 0 && last >= mark.column;
}

// The carets, whose columns are those of the line above
bool read_carets(std::string_view& text, Mark& mark) {
    const std::size_t first = text.find_first_not_of(' ');
    if (first == std::string_view::npos || text[first] != '^') return false;
    std::size_t end = text.find_first_not_of('^', first);
    if (end == std::string_view::npos) end = text.size();
    mark.column = sign.size() + first + 1;
    mark.end_column = sign.size() + end + 1;
    text.remove_prefix(end);
    return true;
}

bool read_code(std::string_view text, Mark& mark) {
    std::istringstream words{std::string(text)};
    std::string more;
    words >> mark.code;
    if (mark.code == "error" || mark.code == "warning" || mark.code == "advice") {
        mark.severity = mark.code;
        mark.code.clear();
        words >> mark.code;
    }
    return !mark.code.empty() && !(words >> more);
}

}  // namespace

Planted read_planted(std::string_view text) {
    Planted result;
    std::size_t number = 0;
    std::string above;
    bool seen = false;
    for (const std::string& line : split_lines(text)) {
        ++number;
        std::string_view rest = line;
        while (rest.ends_with(' ') || rest.ends_with('\r')) rest.remove_suffix(1);
        if (!rest.starts_with(sign)) {
            above = line;
            continue;
        }
        if (seen) result.problem = "a second annotation in line " + std::to_string(number);
        seen = true;
        rest.remove_prefix(sign.size());
        result.mark.line = number - 1;
        const bool read =
            take(rest, '@') ? read_columns(rest, result.mark) : read_carets(rest, result.mark);
        if (!read || !read_code(rest, result.mark)) {
            result.problem = "line " + std::to_string(number) + " is no annotation: " + line;
        } else if (result.mark.line == number - 1 &&
                   result.mark.end_column > code_points(above) + 2) {
            result.problem =
                "the carets in line " + std::to_string(number) + " reach beyond the line above";
        }
    }
    if (!seen) result.problem = "no line begins with #~: what is planted here?";
    return result;
}

Checked read_findings(std::string_view text) {
    Checked result;
    const auto json = nlohmann::json::parse(text, nullptr, false);
    if (!json.is_object() || !json.contains("findings")) {
        result.problem = "the output is no JSON object with \"findings\"";
        return result;
    }
    for (const auto& finding : json["findings"]) {
        Mark mark;
        mark.code = finding.value("code", "");
        mark.severity = finding.value("severity", "");
        mark.line = finding.value("line", std::size_t{0});
        mark.column = finding.value("column", std::size_t{0});
        mark.end_column = finding.value("end_column", std::size_t{0});
        if (finding.value("end_line", mark.line) != mark.line) mark.end_column = 0;
        result.marks.push_back(mark);
    }
    return result;
}

std::string describe(const Mark& mark) {
    return std::to_string(mark.line) + ":" + std::to_string(mark.column) + "-" +
           (mark.end_column == 0 ? "?" : std::to_string(mark.end_column - 1)) + " " +
           mark.severity + " " + mark.code;
}

bool same(const Mark& planted, const Mark& found) {
    const bool point = found.end_column == found.column;
    const std::size_t end = point ? found.end_column + 1 : found.end_column;
    return planted.code == found.code && planted.severity == found.severity &&
           planted.line == found.line && planted.column == found.column &&
           planted.end_column == end;
}

}  // namespace levigate::testing
