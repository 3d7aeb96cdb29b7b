#pragma once
// The pipeline from a path to a formulary: read, follow `use`, resolve. What comes after it,
// expand and judge, takes the formulary.

#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include "grammar/finding.hpp"
#include "grammar/names.hpp"
#include "grammar/source.hpp"
#include "interpreter/expand/expand.hpp"
#include "interpreter/formulary/formulary.hpp"
#include "interpreter/formulary/records.hpp"
#include "interpreter/formulary/spoons.hpp"
#include "interpreter/resolve/load.hpp"
#include "interpreter/world.hpp"

namespace levigate {

struct Compiled {
    Sources sources;
    Names names;
    std::vector<LoadedFile> files;  ///< the trees, for what is asked later in their words
    Formulary formulary;
    Findings findings;  ///< in the order of the files, then of the lines
    /// Why FILE itself could not be read; nothing else is there then.
    std::optional<Unreadable> unreadable;
};

Compiled compile(const World& world, const std::string& path, Library library = Library::plain);

/// The guard behind all of resolving: where something of a shade is broken and no error was found
/// at all, one is made here.
void never_in_silence(const Formulary& formulary, Findings& findings);

/// A quantity from the command line: `48 slim tubes`, `120 g, overage 5 %`. Findings point into a
/// source called "command line".
Outcome<std::optional<BatchSize>> read_size(Compiled& compiled, std::string_view text,
                                            std::string_view option);
/// How much of something is there: a weight or a volume, without overage and holdback.
Outcome<std::optional<std::variant<Mass, Volume>>>
read_bulk(Compiled& compiled, std::string_view text, std::string_view option);
Outcome<std::optional<Mass>> read_mass(Compiled& compiled, std::string_view text,
                                       std::string_view option);
/// `1/4 tsp, 1/8 tsp, drop`: the measures that are at hand, largest first, one of a size.
Outcome<Spoons> read_spoons(Compiled& compiled, std::string_view text, std::string_view option);
/// `6.2 g soft base, 1.4 g Windfall mica`: what was poured, or what there is.
Outcome<std::vector<Pour>> read_pours(Compiled& compiled, std::string_view text,
                                      std::string_view option);

/// `12 g Windfall mica lot W-1`: what else was made.
Outcome<std::vector<Made>> read_made(Compiled& compiled, std::string_view text,
                                     std::string_view option);

/// The records in a text, read by the names of what was compiled.
Outcome<std::vector<Record>> read_records(Compiled& compiled, const std::string& path,
                                          std::string text);

}  // namespace levigate
