#pragma once
// A file's blocks as what they say, line by line: blanks, comments, letter case and the way a
// number is written are gone, and what a line speaks of is parted from what it says of it.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "grammar/words.hpp"
#include "interpreter/compile.hpp"
#include "interpreter/resolve/meanings.hpp"

namespace levigate::changing {

/// Around each name in the compared forms, so that renamed ones can be found there.
inline constexpr char name_begins = '\x01', name_ends = '\x02';

/// One line. Two lines say the same if they are written the same, or mean the same.
struct Item {
    Form form = Form::ingredient;
    std::string topic;    ///< what it speaks of, compared
    std::string label;    ///< the same for people: "Windfall mica", "batch trial"
    std::string shown;    ///< what it says: "18 %"
    std::string line;     ///< the whole line, blanks single
    std::string written;  ///< what it says, compared: letter case and blanks don't count
    std::string meaning;  ///< the same with each quantity reckoned out, where that can be done
    bool is_private = false;
};

struct BlockView {
    Heading heading = Heading::none;
    std::string key;        ///< kind and name, compared
    std::string name;       ///< for people; with the region in front for a rule
    std::string file;       ///< as both states know it
    std::string source;     ///< the file's path when it was read
    Span span;              ///< from its heading to the next, in that file
    std::string_view text;  ///< there
    std::vector<Item> items;
    std::vector<std::string> measures;  ///< in which its quantities are written, folded
    std::optional<Quantity> size;       ///< of a unit or a container
    bool own = false;                   ///< of FILE itself
};

/// All blocks that a person wrote, in the order of the files and lines.
std::vector<BlockView> blocks_of(const Compiled& compiled, const Meanings& meanings);

/// Kind and marked name: the same for a block in both states.
std::string key_of(Heading heading, std::string_view folded);
std::string folded(std::string_view name);

}  // namespace levigate::changing
