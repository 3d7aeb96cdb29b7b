#pragma once
// Text to tree. Reading never fails: a line that can't be read costs one finding, and all the
// others are still there.

#include <string_view>

#include "grammar/finding.hpp"
#include "grammar/names.hpp"
#include "grammar/source.hpp"
#include "grammar/tree.hpp"

namespace levigate {

/// More findings than this in one file tell that it is no shade file; the rest is not looked at.
inline constexpr std::size_t most_findings_read = 200;

/// Of a shade file one side of an unfinished merge is read, and one with a NUL is no text at all.
/// In a file of records each block stands for itself: both sides are read, and NULs, as a power cut
/// leaves them, spoil no more than their line.
enum class Reads { shades, records };

Outcome<tree::File> read(const Sources& sources, SourceId source, Names& names,
                         Reads what = Reads::shades);

/// The size of a batch, as it stands behind the batch's name, from the command line.
struct SizeText {
    tree::File file;  ///< holds the expressions
    tree::ExprId quantity = tree::no_expr, overage = tree::no_expr, holdback = tree::no_expr;
};
Outcome<SizeText> read_size_text(const Sources& sources, SourceId source, Names& names);

/// What was poured, from the command line: `6.2 g soft base, 1.4 g Windfall mica`.
struct PoursText {
    tree::File file;
    std::vector<tree::Pour> pours;
};
Outcome<PoursText> read_pours_text(const Sources& sources, SourceId source, Names& names);

}  // namespace levigate
