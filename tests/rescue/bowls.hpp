#pragma once
// Bowls by chance, for the tests of rescues. LEVIGATE_SEED chooses them, and is printed.

#include <cstdlib>
#include <iostream>

#include "interpreter/rescue/restore.hpp"
#include "tests/properties/random.hpp"

namespace levigate::testing {

inline std::uint64_t seed() {
    const char* text = std::getenv("LEVIGATE_SEED");
    const std::uint64_t chosen = text != nullptr && *text != '\0' ? std::strtoull(text, nullptr, 10)
                                                                  : std::random_device{}();
    std::cout << "LEVIGATE_SEED=" << chosen << "\n";
    return chosen;
}

/// Whole thousandths of the whole, and whole centigrams: so that each stands in the file exactly.
struct Bowl {
    std::vector<int> shares, poured, there;  ///< `there` -1: any
    int room = -1, planned = -1;
};

inline Bowl make_bowl(Random& random, int fewest = 2, int most = 9) {
    Bowl bowl;
    const int lines = random.between(fewest, most);
    int left = 1000;
    for (int i = 1; i < lines; ++i) {
        bowl.shares.push_back(random.between(1, left - (lines - i)));
        left -= bowl.shares.back();
    }
    bowl.shares.push_back(left);
    int in_bowl = 0;
    for (const int share : bowl.shares) {
        const int meant = share;  // of 10 g
        const int poured =
            random.chance(30) ? 0 : random.between(0, random.chance(40) ? 3 * meant : meant);
        bowl.poured.push_back(poured);
        in_bowl += poured;
        bowl.there.push_back(random.chance(60) ? -1 : random.between(0, 2 * meant));
    }
    if (in_bowl == 0) bowl.poured[0] = in_bowl = 1;
    if (random.chance(70)) bowl.room = in_bowl + random.between(0, in_bowl);
    if (random.chance(50)) bowl.planned = in_bowl + random.between(0, 2 * in_bowl);
    return bowl;
}

inline std::vector<Wanted> wanted(const Bowl& bowl) {
    std::vector<Wanted> out;
    for (std::size_t i = 0; i < bowl.shares.size(); ++i) {
        out.push_back({share(Exact(bowl.shares[i], 1000)), grams(Exact(bowl.poured[i], 100)), {}});
        if (bowl.there[i] >= 0) out.back().there = grams(Exact(bowl.there[i], 100));
    }
    return out;
}

inline Room room(const Bowl& bowl) {
    Room out;
    if (bowl.room >= 0) out.most = grams(Exact(bowl.room, 100));
    if (bowl.planned >= 0) out.planned = grams(Exact(bowl.planned, 100));
    return out;
}

}  // namespace levigate::testing
