#pragma once
// What programs read: one object a run, keys stable from the first release on, in UTF-8. Broken
// bytes of a file become the replacement character.

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "grammar/finding.hpp"
#include "grammar/source.hpp"
#include "interpreter/expand/stock.hpp"
#include "interpreter/render/amounts.hpp"
#include "interpreter/render/check_report.hpp"
#include "interpreter/render/overview.hpp"

namespace levigate {

/// {"format": "levigate weigh 1", "sheets": […], "findings": […]}, sheet by sheet as they come. One
/// sheet a line: a program reads it as any JSON, a person still finds a place in it.
class SheetsJson {
public:
    SheetsJson(const Formulary& formulary, const Sources& sources)
        : formulary_(formulary), sources_(sources) {}
    void open(std::string& out) const;
    void append(const Sheet& sheet, std::string& out);
    /// The same, with what `more` puts into its object.
    using PutMore = std::function<void(nlohmann::ordered_json& sheet)>;
    void append(const Sheet& sheet, std::string& out, const PutMore& more);
    /// `outside`: the findings that stopped or concern no one sheet.
    void close(const Findings& outside, std::string& out) const;

private:
    const Formulary& formulary_;
    const Sources& sources_;
    StockDilutions stocks_;
    bool first_ = true;
};

/// {"format": "levigate shades 1", "shades": […], "findings": […]}
std::string overview_json(const Sources& sources, const std::vector<ShadeOverview>& shades,
                          const Findings& findings);

/// {"format": "levigate check 1", "files": […], "findings": […]}
std::string checks_json(const std::vector<CheckReport>& reports);

/// The object of a verb that came to nothing: an empty list under `list`, and why.
std::string nothing_json(std::string_view verb, std::string_view list, const Sources& sources,
                         const Findings& findings);

}  // namespace levigate
