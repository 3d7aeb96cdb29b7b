#pragma once
// A measured sheet (expand/measured.hpp) as a person reads it, and in JSON.

#include <nlohmann/json_fwd.hpp>

#include "interpreter/expand/measured.hpp"
#include "interpreter/render/cautions.hpp"
#include "interpreter/render/document.hpp"

namespace levigate {

/// `sheet`: with its findings, and its words filled with measures.
document::Document spoon_document(const Formulary& formulary, const Sheet& sheet,
                                  const Spoons& spoons, const MeasuredSheet& measured,
                                  Cautions& cautions);

/// Into a sheet's object: `with`, and for each line `measures`, `comes_to` and `off`; these are
/// null where they aren't known.
void put_measures(nlohmann::ordered_json& sheet, const Spoons& spoons,
                  const MeasuredSheet& measured);

}  // namespace levigate
