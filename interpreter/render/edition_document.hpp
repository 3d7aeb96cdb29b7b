#pragma once
// An edition as a page: each shade once, all its batches side by side.

#include <vector>

#include "interpreter/expand/sheet.hpp"
#include "interpreter/formulary/formulary.hpp"
#include "interpreter/render/document.hpp"
#include "interpreter/rules/box.hpp"

namespace levigate {

/// `sheets`: all of them, in their order. `labels`: what can be told of the ingredient lists.
document::Document edition_document(const Formulary& formulary, const std::vector<Sheet>& sheets,
                                    const std::vector<BoxLabel>& labels);

}  // namespace levigate
