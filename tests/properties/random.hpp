#pragma once
// Chance from a seed, the same on every machine: the standard's distributions differ from one
// library to the next, its engine does not.

#include <cstdint>
#include <random>
#include <utility>
#include <vector>

namespace levigate::testing {

class Random {
public:
    explicit Random(std::uint64_t seed) : engine_(seed) {}

    std::uint64_t any() { return engine_(); }
    /// Both ends included.
    int between(int low, int high) {
        return low + static_cast<int>(engine_() % static_cast<std::uint64_t>(high - low + 1));
    }
    bool chance(int percent) { return between(1, 100) <= percent; }
    template <typename T>
    const T& pick(const std::vector<T>& from) {
        return from[static_cast<std::size_t>(engine_() % from.size())];
    }
    template <typename T>
    void shuffle(std::vector<T>& items) {
        for (std::size_t i = items.size(); i > 1; --i)
            std::swap(items[i - 1], items[static_cast<std::size_t>(engine_() % i)]);
    }

private:
    std::mt19937_64 engine_;
};

}  // namespace levigate::testing
