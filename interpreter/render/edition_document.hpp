#pragma once
// An edition as a page: each shade once, all its batches side by side.

#include <string>
#include <vector>

#include "interpreter/expand/sheet.hpp"
#include "interpreter/formulary/formulary.hpp"
#include "interpreter/render/document.hpp"
#include "interpreter/rules/box.hpp"

namespace levigate {

/// `sheets`: all of them, in their order. `labels`: what can be told of the ingredient lists.
document::Document edition_document(const Formulary& formulary, const std::vector<Sheet>& sheets,
                                    const std::vector<BoxLabel>& labels);

/// "Edition 3, 2026-10-01."; empty where neither is stated.
std::string edition_number_words(const Edition& edition);

/// What the file says of the edition, in whole sentences.
std::vector<std::string> edition_notes(const Formulary& formulary);

/// The line about local rules that every page of an edition carries.
std::string local_rules();

}  // namespace levigate
