#pragma once
// Files that are deep: blocks that need blocks that need blocks. As lists of blocks, so that they
// can be written in any order.

#include <string>
#include <vector>

namespace levigate::testing::hostile {

using Blocks = std::vector<std::string>;

enum class Order { as_made, backwards, shuffled };
/// One text. Shuffled by a fixed seed.
std::string in_order(const Blocks& blocks, Order order);

// Each begins with two materials and ends with a shade; `deep` blocks hang on each other.
Blocks blends_deep(int deep);
Blocks parts_deep(int deep);        ///< shades, each a part of the one before
Blocks likes_deep(int deep);        ///< shades, each like the one before
Blocks blends_like_deep(int deep);  ///< blends, each like the one before
Blocks units_deep(int deep);
Blocks lets_deep(int deep);           ///< in one shade
Blocks bracketed_lets_deep(int deep);  ///< each within 38 brackets
Blocks diamond_deep(int deep);        ///< each blend holds the two before it
Blocks dilutions_deep(int deep);      ///< each blend dilutes a line of its own
Blocks mentions_deep(int deep);       ///< a step of each blend names the next
Blocks lets_down_likes(int deep);     ///< each like the one before, with a `let` of its own

// Rings of so many.
Blocks ring_of_blends(int count);
Blocks ring_of_likes(int count);
Blocks ring_of_units(int count);
Blocks ring_of_lets(int count);

// Deep and wide.
Blocks layers(int deep, int wide, int shades);          ///< 3 ways down from each blend
Blocks shades_over_blends(int shades, int deep);        ///< all of them over one chain
Blocks families_over_likes(int families, int members);  ///< of a shade that is the 190th
Blocks variants_over_blends(int shades);                ///< 189 swaps in a chain of 190 blends
Blocks uses_of_a_plan(int batches);                     ///< of one shade over 190 blends
Blocks additions_deep(int deep);                        ///< of a finish, each as much as another

// Long lines.
Blocks sum_of(int terms);
Blocks quotient_of(int terms);  ///< 1 % / ppm / ppm …, in a step as well

}  // namespace levigate::testing::hostile
