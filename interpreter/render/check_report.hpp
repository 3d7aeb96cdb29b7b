#pragma once
// `check`: one file's verdict, with what became of each `expect` line.

#include <string>
#include <string_view>
#include <vector>

#include "grammar/finding.hpp"
#include "grammar/source.hpp"
#include "interpreter/expand/sheet.hpp"
#include "interpreter/formulary/formulary.hpp"
#include "interpreter/render/document.hpp"

namespace levigate {

/// An `expect` line of the file. It is judged for each shade that has it, in every variant,
/// finish and batch; it holds if it holds in all of them.
struct ExpectResult {
    Span span;
    std::string file;
    std::uint32_t line = 0;
    std::string wording;
    Verdict verdict = Verdict::holds;
    std::string why = {};  ///< it can't be told: a sentence that says why
};

/// A fix that `--mend` made, or left.
struct MendedPlace {
    std::string code;
    Position begin, end;
    std::string was, text;
    std::string why = {};           ///< it was left: a sentence that says why
    std::string_view because = {};  ///< the same in a word, for programs
};

struct CheckReport {
    std::string file;
    const Sources* sources = nullptr;
    Findings findings;  ///< all of them, each once
    std::vector<ExpectResult> expects;
    const Edition* edition = nullptr;  ///< where the file has a digest
    bool mended = false;               ///< `--mend` was asked for
    std::vector<MendedPlace> made = {}, left = {};
};

CheckReport check_report(const std::string& file, const Sources& sources,
                         const Formulary& formulary, const Findings& findings,
                         const Verdicts& verdicts);

document::Document check_document(const CheckReport& report);
/// What `--mend` left, with the reasons; empty if there is nothing.
document::Document left_document(const CheckReport& report);

}  // namespace levigate
