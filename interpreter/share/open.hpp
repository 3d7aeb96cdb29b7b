#pragma once
// What of the files is public: the same files without private lines, and with each sealed blend as
// a material of which nothing but its public properties is known. An edition is made from this
// alone, so that nothing private or sealed can show in it.

#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "interpreter/compile.hpp"
#include "interpreter/share/seal.hpp"

namespace levigate::sharing {

/// A sealed blend: where it is in the source, and what of it is public.
struct SealedBlend {
    IngredientId id = no_ingredient;
    Openly openly;
};

struct Open {
    /// Spans are those of the source. Lines that may not be private stay, to be refused by `pick`.
    Compiled compiled;
    std::vector<SealedBlend> sealed;
    SourceId sealed_page = no_source;  ///< holds their blocks; the source has no such page
    bool failed = false;               ///< something went wrong that no file is to blame for
};

/// `stays`: lines that stay at home though they aren't private.
Open open_part(const Compiled& source, const std::vector<Span>& stays);

/// Names, folded, of what sealed blends hold at any depth.
std::set<std::string> inside_sealed(const Compiled& source);

/// The first comment that begins there or later.
std::vector<tree::Comment>::const_iterator first_comment(const tree::File& file,
                                                         std::uint32_t begin);

/// The block that a comment belongs to, as `tidy` sees it: the one whose heading is right below it,
/// with no empty line between, unless it is indented and right below a line of the block before;
/// else the one that it is in. `nothing`: the head of the file.
std::uint32_t block_of(const tree::File& file, std::string_view text, const tree::Comment& comment);

}  // namespace levigate::sharing
