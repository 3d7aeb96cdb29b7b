#pragma once
// Records as a person reads them, as a table, and as a program does.

#include <vector>

#include "grammar/source.hpp"
#include "interpreter/record/record.hpp"
#include "interpreter/render/document.hpp"

namespace levigate {

document::Document record_document(const RecordReport& report);

/// day,made,bowl,ingredient,planned,weighed,lots,today: one row a line, in grams.
std::string records_csv(const std::vector<RecordReport>& reports);

/// {"format": "levigate record 1", "records": […], "findings": […]}
std::string records_json(const Sources& sources, const std::vector<RecordReport>& reports,
                         const Findings& findings);

}  // namespace levigate
