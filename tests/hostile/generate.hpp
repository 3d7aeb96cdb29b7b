#pragma once
// Files that no one writes by hand. Each function writes FOLDER/hostile.shade, and others that it
// uses, piece by piece: the test itself must stay small (measured.hpp says why).

#include <filesystem>

namespace levigate::testing::hostile {

using Path = std::filesystem::path;

// Text
void line_of_100_megabytes(const Path& folder);
void line_of_15_megabytes(const Path& folder);
void half_a_million_bad_lines(const Path& folder);
void a_list_of_200000_lines(const Path& folder);
void merge_marks(const Path& folder);
void brackets_100000(const Path& folder);
void brackets_30000(const Path& folder);
void brackets_in_a_step(const Path& folder);

// Names
void blends_60_by_2(const Path& folder);      // 2 to the 60 ways down; legal
void blends_in_a_chain(const Path& folder);   // 20,000 deep
void likes_in_a_chain(const Path& folder);    // 20,000 deep
void lets_in_a_chain(const Path& folder);     // 190,000 deep, over 100 shades
void units_in_a_chain(const Path& folder);    // 50,000 deep
void files_in_a_chain(const Path& folder);    // 1,000 deep
void unknown_names(const Path& folder);       // 5,000 slips, 5,000 names that they could mean
void blocks_of_one_name(const Path& folder);  // 200,000

// Numbers
void denominators_to_2000(const Path& folder);  // 1/1 … 1/2000; legal
void prime_denominators(const Path& folder);    // their product has 7,000 digits
void squares_of_squares(const Path& folder);

// Work
void family_of_a_million(const Path& folder);
void family_of_long_formulas(const Path& folder);
void shades_of_long_formulas(const Path& folder);
void sheets_27_million(const Path& folder);  // 300 variants, 300 finishes, 300 batches; legal
void sheets_27_million_that_fail(const Path& folder);
void volumes_with_ends(const Path& folder);
void swaps_and_steps(const Path& folder);
void many_dilutions(const Path& folder);  // 900 lines diluted, in 60 shades
void long_notes(const Path& folder);      // 60 KB of note on each of 250 shades; legal

}  // namespace levigate::testing::hostile
