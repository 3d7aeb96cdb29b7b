#include "grammar/conflict.hpp"

#include <utility>

namespace levigate {

namespace {

/// What is on both sides of a mark between records was made.
Passed pass_between_records(Conflict& conflict, Marker marker, Span span, Findings& findings) {
    if (marker == Marker::none) return Passed::read;
    if (!std::exchange(conflict.said, true))
        findings.push_back(
            {.code = Code::text_merge_marker,
             .message = "A mark of an unfinished merge stands between these records.",
             .span = span,
             .advice = "Take out the lines with <<<<<<<, |||||||, ======= and >>>>>>> wherever "
                       "they are in this file, and keep the records on both sides of them."});
    return Passed::skipped;
}

}  // namespace

Passed pass(Conflict& conflict, Marker marker, Span span, Findings& findings) {
    if (conflict.both_sides) return pass_between_records(conflict, marker, span, findings);
    if (marker == Marker::ours) {
        findings.push_back(
            {.code = Code::text_merge_marker,
             .message = "Two versions of these lines stand here unmerged.",
             .span = span,
             .advice = "Keep the lines that you want, and take out those with <<<<<<<, ======= and "
                       ">>>>>>>."});
        conflict.inside = true;
        conflict.in_theirs = false;
        return Passed::lost;
    }
    if (!conflict.inside) {
        if (marker == Marker::none) return Passed::read;
        findings.push_back({.code = Code::text_merge_marker,
                            .message = "A mark of an unfinished merge stands here.",
                            .span = span,
                            .advice = "Take this line out."});
        return Passed::lost;
    }
    if (marker == Marker::base || marker == Marker::middle) conflict.in_theirs = true;
    if (marker == Marker::theirs) conflict.inside = conflict.in_theirs = false;
    return marker != Marker::none || conflict.in_theirs ? Passed::skipped : Passed::read;
}

}  // namespace levigate
