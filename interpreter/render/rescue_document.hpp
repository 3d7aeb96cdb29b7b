#pragma once
// A rescue as a person reads it, and as a program does.

#include "grammar/source.hpp"
#include "interpreter/render/cautions.hpp"
#include "interpreter/render/document.hpp"
#include "interpreter/rescue/rescue.hpp"

namespace levigate {

document::Document rescue_document(const Formulary& formulary, const Rescue& rescue,
                                   Cautions& cautions);

/// {"format": "levigate rescue 1", "rescues": […], "findings": […]}: at most one rescue.
std::string rescue_json(const Formulary& formulary, const Sources& sources,
                        const std::optional<Rescue>& rescue, const Findings& findings);

}  // namespace levigate
