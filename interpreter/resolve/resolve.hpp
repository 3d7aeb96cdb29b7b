#pragma once
// Tree to formulary: names looked up, chains of `like` followed, holes filled, edits applied,
// blends solved. What is broken stays, marked as such.

#include <functional>
#include <string_view>

#include "grammar/names.hpp"
#include "grammar/source.hpp"
#include "grammar/tidy.hpp"
#include "interpreter/formulary/formulary.hpp"
#include "interpreter/formulary/records.hpp"
#include "interpreter/formulary/spoons.hpp"
#include "interpreter/resolve/load.hpp"

namespace levigate {

/// "2026-10-01": a day of the calendar, as ISO 8601 writes it.
bool is_date(std::string_view text);

/// `lost`: some file that is used could not be read.
Outcome<Formulary> resolve(const Sources& sources, Names& names,
                           const std::vector<LoadedFile>& files, bool lost);

/// A batch size from the command line, read against the measures of `files`.
Outcome<std::optional<BatchSize>> resolve_size(const Sources& sources, SourceId source,
                                               Names& names, const std::vector<LoadedFile>& files);

/// One measure that is at hand, from the command line: `1/4 tsp`. (spoons.cpp)
Outcome<std::optional<Spoon>> resolve_spoon(const Sources& sources, SourceId source, Names& names,
                                            const std::vector<LoadedFile>& files);

/// What was poured, from the command line, by the names of a formulary.
Outcome<std::vector<Pour>> resolve_pours(const Sources& sources, SourceId source, Names& names,
                                         const std::vector<LoadedFile>& files,
                                         const Formulary& formulary);

/// What else was made, from the command line: `12 g Windfall mica lot W-1`.
Outcome<std::vector<Made>> resolve_made(const Sources& sources, SourceId source, Names& names,
                                        const std::vector<LoadedFile>& files,
                                        const Formulary& formulary);

/// The records in a file that was read by itself. Names that are gone since are no error.
Outcome<std::vector<Record>> resolve_records(const Sources& sources, Names& names,
                                             const std::vector<LoadedFile>& files,
                                             const Formulary& formulary, Outcome<tree::File> read);

/// A day of the calendar: "2026-11-25".
bool is_day(std::string_view text);
/// The day, where what is written otherwise can be read in one way only: of "2026-1-5" and
/// "29.11.2026". Else empty.
std::string day_meant(std::string_view written);

/// Runs `then` with the measures of `files` at hand: those of the library, and their own.
void with_measures(const Sources& sources, Names& names, const std::vector<LoadedFile>& files,
                   const std::function<void(const MeasureSplit&)>& then);

}  // namespace levigate
