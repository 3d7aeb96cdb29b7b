#pragma once
// What is wrong, as a value. Phases return findings; render/ writes them for people and programs.

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "grammar/span.hpp"

namespace levigate {

enum class Severity : std::uint8_t { error, warning, advice };

/// A second marked place: "already there", "added here".
struct Label {
    Span span;
    std::string text;
};

struct Finding {
    std::string_view code;  ///< stable, a literal: the name of its page under `levigate explain`
    Severity severity = Severity::error;
    std::string message;      ///< what is wrong, one sentence
    Span span;                ///< the smallest place to look at
    std::string remedy = {};  ///< what to write instead; may be empty
    std::vector<Label> labels = {};
    std::string here = {};  ///< words under the caret; may be empty
};

using Findings = std::vector<Finding>;

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
