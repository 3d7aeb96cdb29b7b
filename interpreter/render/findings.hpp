#pragma once
// Findings for people.

#include <string>
#include <string_view>

#include "grammar/finding.hpp"
#include "grammar/source.hpp"

namespace levigate {

struct FindingStyle {
    bool brief = false;    ///< one line each
    bool colour = false;   ///< a terminal that wants it
    bool fixes = false;    ///< every fix with what it replaces, not the first alone
    bool sources = false;  ///< each rule that is not confirmed, not their number alone
};

/// `orchard.shade:7:12: error: MESSAGE (code)`, the line with a caret under the place, other
/// marked places, and what to write instead.
void append_finding(std::string& out, const Sources& sources, const Finding& finding,
                    FindingStyle style);

/// All of them, each once, and a last line that counts them. Empty where there are none.
std::string findings_text(const Sources& sources, const Findings& findings, FindingStyle style);

/// "0.5 in place of 0,5", "delete rebalance", "put set here".
std::string fix_words(std::string_view was, std::string_view text);
/// "error", "warning", "advice".
std::string_view severity_word(Severity severity);
/// "2 errors, 1 warning"; empty where there are none.
std::string count_words(const Findings& findings);
/// Without those that say the same about the same place as an earlier one.
Findings each_once(const Findings& findings);
/// Several rules that are not confirmed as one finding, at the end: what a maker has read once she
/// need not read on each check.
Findings rules_together(Findings findings);

/// The line on which a place begins, made safe to show, with `…` where it was cut to `columns`.
struct Excerpt {
    std::string text;
    std::size_t before = 0;  ///< columns left of the marked place
    std::size_t marked = 1;  ///< columns of the marked place, at least 1
};
Excerpt excerpt(const Sources& sources, Span span, std::size_t columns = 100);

}  // namespace levigate
