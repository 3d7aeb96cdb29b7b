#pragma once
// What is worked out, back in the words of the language: formulas without `like`, holes and
// edits. Spelt soundly; the canonical form comes after.

#include <string>
#include <string_view>

#include "grammar/names.hpp"
#include "interpreter/formulary/formulary.hpp"

namespace levigate::sharing {

/// In quotes where a bare name could be read as something else.
std::string name_words(std::string_view name);
/// Exactly: "16 2/3 %".
std::string exact_share(const Share& share);
/// "18 %  Windfall mica", "half as much kaolin as the base".
std::string part_words(const Formulary& formulary, const Part& part);
/// "batch  full  48 slim tubes, overage 5 %"
std::string batch_words(const Formulary& formulary, const Batch& batch);
/// "expect  the lake at most 8 %"
std::string expect_words(const Formulary& formulary, const Expectation& expect);
/// "Work {Windfall mica} into {soft base}."
std::string text_words(const Formulary& formulary, const Text& text);

}  // namespace levigate::sharing
