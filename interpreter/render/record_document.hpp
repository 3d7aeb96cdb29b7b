#pragma once
// Records as a person reads them, as a table, and as a program does.

#include <vector>

#include "grammar/source.hpp"
#include "interpreter/record/recall.hpp"
#include "interpreter/record/record.hpp"
#include "interpreter/render/document.hpp"

namespace levigate {

document::Document record_document(const RecordReport& report);

/// "whole", "altered", "cut", "damaged", "unfinished", "joined"; "older" of one without a stamp.
std::string_view state_word(const Record& record);

/// day,made,bowl,ingredient,planned,weighed,lots,today,code,state: one row a line, in grams.
std::string records_csv(const std::vector<RecordReport>& reports);

/// Where a lot or a batch went. `reports` are those of the batches that it tells of.
document::Document recall_document(const Recall& recall, const std::vector<RecordReport>& reports);
/// day,made,code,stamp,filled,edition,edition_date,state,ways: one row a batch.
std::string recall_csv(const Recall& recall, const std::vector<RecordReport>& reports);

/// {"format": "levigate record 1", "records": […], "findings": […]}; where something was looked
/// for, also what, and in each record how it came there.
std::string records_json(const Sources& sources, const std::vector<RecordReport>& reports,
                         const Findings& findings, const Recall* recall = nullptr);

}  // namespace levigate
