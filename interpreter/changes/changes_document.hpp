#pragma once
// Changes as a person reads them, and as a program does.

#include <string>

#include "interpreter/changes/changes.hpp"
#include "interpreter/render/document.hpp"
#include "interpreter/render/findings_json.hpp"

namespace levigate {

document::Document changes_document(const Changes& changes);

/// "Quince / sheer / matte"
std::string product_title(const std::string& shade, const std::string& variant,
                          const std::string& finish);

/// A section on what batches cost; none where nothing changes in that.
void add_costs(const std::vector<ShadeEffect>& shades, document::Document& out);

/// {"format": "levigate changes 1", …}
std::string changes_json(const Changes& changes, const std::vector<FoundIn>& findings);

/// "because they are like Quince", "because 1 drop is more now"; empty where nothing is to be told.
std::string because(const std::vector<Cause>& causes, bool several);

}  // namespace levigate
