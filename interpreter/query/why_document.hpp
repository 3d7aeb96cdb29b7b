#pragma once
// A `why` as a page for people, and as an object for programs.

#include <string>

#include "interpreter/query/why.hpp"
#include "interpreter/render/document.hpp"

namespace levigate {

document::Document why_document(const Sources& sources, const Why& why);
/// {"format": "levigate why 1", …}; `why` may be missing, where findings say the reason.
std::string why_json(const Sources& sources, const std::optional<Why>& why,
                     const Findings& findings);

}  // namespace levigate
