#pragma once
// Changes as a person reads them, and as a program does.

#include <string>

#include "interpreter/changes/changes.hpp"
#include "interpreter/render/document.hpp"

namespace levigate {

document::Document changes_document(const Changes& changes);

/// {"format": "levigate changes 1", …}; `findings` is the array as every verb writes it.
std::string changes_json(const Changes& changes, const std::string& findings);

/// "because they are like Quince", "because 1 drop is more now"; empty where nothing is to be told.
std::string because(const std::vector<Cause>& causes, bool several);

}  // namespace levigate
