#pragma once
// What is wrong, as a value. Phases return findings; render/ writes them for people and programs.

#include <string>
#include <utility>
#include <vector>

#include "grammar/codes.hpp"
#include "grammar/span.hpp"

namespace levigate {

/// A second marked place: "already there", "added here".
struct Note {
    Span span;
    std::string text;
};

/// Text to put in the place of a span; an empty span is a place to put it at, an empty text
/// deletes.
struct Fix {
    Span span;
    std::string text;
    /// A promise: put there, the finding is gone and nothing new is wrong on that line. Otherwise a
    /// guess, or one of several ways.
    bool certain = false;
};

inline Fix certain_fix(Span span, std::string text) { return {span, std::move(text), true}; }
inline Fix possible_fix(Span span, std::string text) { return {span, std::move(text), false}; }

struct Finding {
    Code code;
    std::string message;       ///< what is wrong, one sentence
    Span span;                 ///< the smallest place to look at
    std::string advice = {};   ///< what to do, in sentences; may be empty
    std::string example = {};  ///< what is right here, with names and numbers not the maker's own
    std::vector<Fix> fixes = {};  ///< what to write instead; the likeliest first
    std::vector<Note> notes = {};
    std::string here = {};  ///< words under the caret; may be empty
    Severity severity = row_of(code).severity;
};

using Findings = std::vector<Finding>;

/// The one text that tells what to write or do: the advice, else the first fix, else the example.
const std::string& remedy(const Finding& finding);
/// Tells what is right here in place of what the finding said to do.
void show_example(Finding& finding, std::string example);
/// The same with what to do, in sentences.
void advise(Finding& finding, std::string advice);

inline bool any_error(const Findings& findings) {
    for (const Finding& finding : findings)
        if (finding.severity == Severity::error) return true;
    return false;
}

/// A phase's result: the value is always there, and what was wrong on the way stands beside it.
template <typename T>
struct Outcome {
    T value;
    Findings findings;
};

}  // namespace levigate
