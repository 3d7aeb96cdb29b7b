#pragma once
// Formulary to sheets: which sheets come out, what is in each, and what the balance reads.

#include <optional>
#include <string>
#include <vector>

#include "interpreter/expand/sheet.hpp"
#include "interpreter/formulary/formulary.hpp"

namespace levigate {

/// What was asked for. An unnamed choice means: every shade, as written, as made, each batch.
struct Choice {
    std::optional<std::string> shade, variant, finish, batch;
    std::optional<BatchSize> make;   ///< in place of the batches
    std::optional<Mass> onto;        ///< additions to this much of the made bulk; needs a finish
    std::optional<Reading> reading;  ///< overrides every balance
    bool all = false;                ///< every variant and finish that a shade names
    bool words = true;               ///< fill steps and notes
    bool materials = true;           ///< list raw materials
    bool expectations = true;        ///< judge `expect` lines on each sheet
};

struct Sheets {
    std::vector<Sheet> sheets;
    Findings findings;  ///< what stopped a sheet, or concerns no one sheet
};

Sheets expand(const Formulary& formulary, const Names& names, const Choice& choice);

struct Checked {
    Findings findings;
    Verdicts verdicts;
};

/// `check`: every `expect` of FILE's shades, for every variant, finish and batch that it names,
/// and everything that stops a sheet. A shade without a batch is judged on its shares.
Checked check_all(const Formulary& formulary, const Names& names, const Choice& choice);

}  // namespace levigate
