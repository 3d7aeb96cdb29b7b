#pragma once
// Labels for a program: {"format": "levigate label 1", "labels": […], "findings": […]}

#include <string>

#include "grammar/source.hpp"
#include "interpreter/render/label_document.hpp"
#include "interpreter/rules/box.hpp"

namespace levigate {

/// `outside`: the findings that stopped or concern no one label.
std::string labels_json(const Formulary& formulary, const Sources& sources,
                        const std::vector<BoxLabel>& labels, const LabelWords& words,
                        const Findings& outside);

}  // namespace levigate
