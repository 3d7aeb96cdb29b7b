#pragma once
// Findings for programs.

#include <string>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "grammar/finding.hpp"
#include "grammar/source.hpp"

namespace levigate {

/// {"code", "severity", "message", "remedy", "file", "line", "column", "end_line", "end_column",
/// "fixes": [{"file", …, "text", "certain"}], "labels": [{"file", …, "text"}]}. Lines and columns
/// count from 1, columns in code points; an end is the place behind the last character. Nowhere is
/// null. `remedy`, the one text that people see too, is there only where there is one.
nlohmann::ordered_json finding_json(const Sources& sources, const Finding& finding);
nlohmann::ordered_json findings_json(const Sources& sources, const Findings& findings);
/// The array as text, for objects that are written piece by piece.
std::string findings_array(const Sources& sources, const Findings& findings);

/// Findings with the sources that they point into: of several files that were read apart.
struct FoundIn {
    const Sources* sources = nullptr;
    Findings findings;
};
nlohmann::ordered_json findings_json(const std::vector<FoundIn>& all);

}  // namespace levigate
