#pragma once
// Labels for a person: the list to copy, then what it was made from and rests on.

#include <string>

#include "interpreter/formulary/formulary.hpp"
#include "interpreter/render/document.hpp"
#include "interpreter/rules/box.hpp"

namespace levigate {

/// What the command line adds, as text: nothing of it is judged.
struct LabelWords {
    std::string batch, code, opened;  ///< empty: not printed
    bool sources = false;             ///< each thing that is not confirmed, not their number alone
};

document::Document label_document(const Formulary& formulary, const BoxLabel& label,
                                  const LabelWords& words);

/// The closing line of every run of labels.
std::string label_closing();

}  // namespace levigate
