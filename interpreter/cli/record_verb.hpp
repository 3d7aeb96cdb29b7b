#pragma once
// The two halves of `levigate record`: to add one, and to show what is recorded.

#include "interpreter/cli/report.hpp"
#include "interpreter/cli/verb.hpp"
#include "interpreter/record/recall.hpp"
#include "interpreter/record/record.hpp"

namespace levigate::cli {

extern const Verb record_verb;

int write_record(const Arguments& arguments, Compiled& compiled);
int read_records_of(const Arguments& arguments, Compiled& compiled);

/// Shows the records as the `--as` that was chosen says; the exit status.
int show_records(const Arguments& arguments, Output& output, const Compiled& compiled,
                 const std::vector<RecordReport>& reports, const Findings& findings,
                 const Recall* recall = nullptr);

}  // namespace levigate::cli
