#pragma once
// What was made, held against what was planned, and against the formula as it stands today.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "grammar/names.hpp"
#include "interpreter/expand/sheet.hpp"
#include "interpreter/formulary/records.hpp"

namespace levigate {

/// One ingredient of one bowl. What one of them lacks was not planned, not weighed, or isn't in the
/// formula.
struct RecordLine {
    std::string bowl, name;  ///< `bowl` is empty for the shade's own
    std::optional<Mass> planned, weighed;
    std::optional<Mass> today;  ///< by today's formula, for as much as was planned of the bowl
    std::vector<std::string> lots;
};

struct RecordReport {
    Record record;
    std::vector<RecordLine> lines;  ///< as planned, then what was weighed beside, then what is new
    enum class Formula : std::uint8_t { same, changed, unknown } formula = Formula::unknown;
    std::string filled;       ///< "47 slim tubes"; empty where it isn't told
    Mass in;                  ///< into the shade's own bowl
    Mass step = grams(Exact(1, 100));  ///< of the balance
    std::optional<Mass> out;  ///< by what was filled
    std::string lacking;      ///< what has no density, where `out` needs one
};

/// What was poured, and the bowl that it went into, by name; empty for the shade's own bowl.
std::string poured_name(const Formulary& formulary, const Pour& pour);
std::string poured_bowl(const Formulary& formulary, const Pour& pour);

/// The sheet's lines as pours: what is to be weighed, bowl by bowl.
std::vector<Pour> planned_pours(const Formulary& formulary, const Sheet& sheet);

/// For each pour that names no bowl: the one in which it was planned, where the shade's own bowl
/// has no such line and only one other has.
void place_pours(const Formulary& formulary, const std::vector<Pour>& planned,
                 std::vector<Pour>& weighed);

std::vector<RecordLine> record_lines(const Formulary& formulary, const std::vector<Pour>& planned,
                                     const std::vector<Pour>& weighed);

/// "47 slim tubes", "12 g".
std::string size_words(const Formulary& formulary, const BatchSize& size);

/// Sixteen signs that tell the formula of this product from others: every bowl and every line,
/// exactly, and nothing of how they are diluted.
std::string fingerprint(const Formulary& formulary, const Names& names, const Sheet& sheet);

/// In the order of the records.
std::vector<RecordReport> report_on(const Formulary& formulary, const Names& names,
                                    std::vector<Record> records);

}  // namespace levigate
