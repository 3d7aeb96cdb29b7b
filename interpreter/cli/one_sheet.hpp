#pragma once
// Verbs that are about one bowl: the sheet that it was meant for, and the records of it.

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "interpreter/cli/verb.hpp"
#include "interpreter/compile.hpp"

namespace levigate::cli {

/// The value; what was found on the way joins the findings.
template <typename Value>
Value take(Outcome<Value> read, Findings& findings) {
    for (Finding& finding : read.findings) findings.push_back(std::move(finding));
    return std::move(read.value);
}

/// By `--shade`, `--variant`, `--finish`, and `--batch` or `--make`; without these a sheet whose
/// shares are all that counts. Nothing where it is not one, said. Without `dilutions` its lines are
/// those of the formula, whatever is weighed diluted.
std::optional<Sheet> one_sheet(Compiled& compiled, const Arguments& arguments, Findings& findings,
                               bool dilutions = true);

/// The records in a file, or why it can't be read.
struct RecordsRead {
    std::vector<Record> records;
    std::optional<Unreadable> unreadable;
    SourceId source = no_source;  ///< where its text is kept
};
RecordsRead read_record_file(Compiled& compiled, const std::string& path, Findings& findings);

/// True where it is a record of this product.
bool is_record_of(const Formulary& formulary, const Record& record, const Sheet& sheet);

}  // namespace levigate::cli
