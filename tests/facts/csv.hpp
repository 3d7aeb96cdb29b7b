#pragma once
// The tables of facts that the tests read: comma-separated values with a row of names on top.

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace levigate::testing {

/// A row by the names of its columns.
using CsvRow = std::map<std::string, std::string>;

/// Fields may stand in double quotes, a quote in them twice. A field of a row that is too short is
/// empty.
inline std::vector<CsvRow> read_csv(std::string_view text) {
    std::vector<std::vector<std::string>> rows(1, {""});
    bool quoted = false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (quoted) {
            if (c != '"')
                rows.back().back() += c;
            else if (i + 1 < text.size() && text[i + 1] == '"')
                rows.back().back() += text[++i];
            else
                quoted = false;
        } else if (c == '"') {
            quoted = true;
        } else if (c == ',') {
            rows.back().emplace_back();
        } else if (c == '\n') {
            rows.push_back({""});
        } else if (c != '\r') {
            rows.back().back() += c;
        }
    }
    if (rows.back() == std::vector<std::string>{""}) rows.pop_back();
    std::vector<CsvRow> table;
    for (std::size_t r = 1; r < rows.size(); ++r) {
        CsvRow row;
        for (std::size_t c = 0; c < rows[0].size(); ++c)
            row[rows[0][c]] = c < rows[r].size() ? rows[r][c] : "";
        table.push_back(std::move(row));
    }
    return table;
}

}  // namespace levigate::testing
