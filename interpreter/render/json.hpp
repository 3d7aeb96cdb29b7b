#pragma once
// What programs read: one object a run, keys stable from the first release on, in UTF-8. Broken
// bytes of a file become the replacement character.

#include <string>
#include <string_view>
#include <vector>

#include "grammar/finding.hpp"
#include "grammar/source.hpp"
#include "interpreter/render/amounts.hpp"
#include "interpreter/render/check_report.hpp"
#include "interpreter/render/overview.hpp"

namespace levigate {

/// {"format": "levigate weigh 1", "sheets": […], "findings": […]}, written sheet by sheet.
void write_sheets_json(const Formulary& formulary, const Sources& sources,
                       const std::vector<Sheet>& sheets, const Findings& outside, std::string& out,
                       const Drain& drain);

/// {"format": "levigate shades 1", "shades": […], "findings": […]}
std::string overview_json(const Sources& sources, const std::vector<ShadeOverview>& shades,
                          const Findings& findings);

/// {"format": "levigate check 1", "files": […], "findings": […]}
std::string checks_json(const std::vector<CheckReport>& reports);

/// The findings alone, as they stand in every object: […]
std::string findings_array_json(const Sources& sources, const Findings& findings);

/// The object of a verb that came to nothing: an empty list under `list`, and why.
std::string nothing_json(std::string_view verb, std::string_view list, const Sources& sources,
                         const Findings& findings);

}  // namespace levigate
