#pragma once
// Two states of files compared: what was edited, in the maker's words, and what comes of it on the
// sheets, on the box and for what is expected. Plain values; changes_document.hpp writes them.

#include <deque>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "interpreter/compile.hpp"
#include "interpreter/expand/sheet.hpp"
#include "interpreter/money/purse.hpp"
#include "interpreter/resolve/meanings.hpp"

namespace levigate {

// ---- What is compared --------------------------------------------------------------------------

struct StateFile {
    std::string path;  ///< as both states know the file
    Compiled compiled;
    Meanings meanings;
};

/// One state: the shade files of a folder, or one file. What they use stands in them.
struct State {
    std::string shown;  ///< "HEAD~2", "orchard.shade"
    std::deque<StateFile> files;
};

/// Reads one more file into a state, with the rules of the regions.
StateFile& add_file(State& state, const World& world, const std::string& opened,
                    const std::string& path);

/// git's marks of an unfinished merge stand in it, or in what it uses: what of it is there is
/// nobody's version.
bool half_merged(const StateFile& file);

struct Comparing {
    std::vector<std::string> markets;  ///< regions in place of those that shades and files name
    bool editions = false;             ///< what is only written in another way is told as well
};

// ---- What was edited ---------------------------------------------------------------------------

enum class Turn : std::uint8_t { added, gone, changed, renamed };

/// One line. Of an added or gone one the whole line stands in `now` or `before`.
struct LineChange {
    Turn turn = Turn::changed;
    std::string label;  ///< what it speaks of: "Windfall mica", "batch trial"
    std::string before, now;
};

struct BlockChange {
    Turn turn = Turn::changed;
    std::string kind;       ///< the heading's word: "shade"
    std::string name, was;  ///< `was`: the name before, where it was renamed
    std::string file;
    std::vector<LineChange> lines;
};

// ---- What comes of it --------------------------------------------------------------------------

/// A line on a sheet. A share or an amount that is not there is empty.
struct RowEffect {
    std::string bowl;  ///< the blend's; empty for the shade's own
    std::string ingredient;
    std::string percent_before, percent_now;
    std::vector<std::string> grams_before, grams_now;  ///< by batch
};

struct BatchEffect {
    std::string name;
    std::string total_before, total_now;  ///< grams as weighed; empty where it isn't made
};

/// A shade under one variant and one finish; names are empty where there is none.
struct ProductEffect {
    Turn turn = Turn::changed;
    std::string variant, finish;
    std::vector<BatchEffect> batches;
    std::vector<RowEffect> rows;
};

struct LabelEffect {
    std::string region, variant, finish;
    std::string before, now;  ///< the list as it is printed
};

/// What a batch costs in one state: `each` is one container of it, filled.
struct CostSeen {
    Purse sum, each;
    std::string container;             ///< empty where the batch isn't counted in any
    std::vector<std::string> lacking;  ///< what has no known cost; then the sums are the least
    bool complete() const { return lacking.empty(); }
};

/// A batch that is there in both states and costs something else. Nothing: no file had a price.
struct CostEffect {
    std::string variant, finish, batch;
    std::optional<CostSeen> before, now;
};

struct ExpectEffect {
    std::string wording;
    std::optional<Verdict> before, now;  ///< nothing where it wasn't or isn't expected
};

/// Why a shade changes that nobody touched.
struct Cause {
    enum class By : std::uint8_t {
        itself,
        like,
        from,
        inside,
        variant,
        finish,
        unit,
        container,
        balance,
        rules,
        rate,
    } by = By::itself;
    std::string name;      ///< of what was edited
    std::string how;       ///< "changed", "is new", "is gone", "is more now"
    std::string via = {};  ///< what in it is like that
    bool operator==(const Cause&) const = default;
};

struct ShadeEffect {
    std::string name;
    std::string file;
    std::string family;  ///< which it is a member of
    Turn turn = Turn::changed;
    std::vector<Cause> causes;
    std::vector<ProductEffect> products;
    std::vector<LabelEffect> labels;
    std::vector<CostEffect> costs;
    std::vector<ExpectEffect> expects;
};

/// A finding about lips that is new, or gone.
struct LipEffect {
    bool gone = false;
    Code code;
    std::string message;
};

struct Changes {
    std::string before, now;  ///< what was compared
    std::vector<BlockChange> blocks;
    std::vector<ShadeEffect> shades;
    std::vector<LipEffect> lips;
    // Of editions, in which members see every word.
    std::vector<LineChange> remarks;    ///< comments that go out, new or gone
    std::vector<std::string> reworded;  ///< blocks that mean what they meant, in other words
    bool reordered = false;             ///< nothing but the order of the blocks

    bool any() const {
        return !blocks.empty() || !shades.empty() || !lips.empty() || !remarks.empty() ||
               !reworded.empty() || reordered;
    }
};

/// What is half merged in one state is left out of both.
Changes compare(State& before, State& now, const Comparing& how);

/// What is said of a file that is too deep, or whose sheets are too many lines, to be compared.
std::optional<Finding> too_much_to_compare(const Compiled& compiled);

}  // namespace levigate
