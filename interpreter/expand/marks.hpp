#pragma once
// Values by small number (an IngredientId, a MixId) that are all forgotten at once at no cost:
// scratch space for work that is done thousands of times over the same tables.

#include <cstddef>
#include <cstdint>
#include <vector>

namespace levigate {

template <typename T>
class Marks {
public:
    /// Forgets everything; numbers below `size` may be marked from now on.
    void clear(std::size_t size) {
        if (values_.size() < size) {
            values_.resize(size);
            marked_.resize(size, 0);
        }
        if (++now_ == 0) {  // came round: old marks would look new
            marked_.assign(marked_.size(), 0);
            now_ = 1;
        }
    }
    bool has(std::uint32_t id) const { return marked_[id] == now_; }
    /// The value; one that is met for the first time starts as T().
    T& operator[](std::uint32_t id) {
        if (marked_[id] != now_) {
            marked_[id] = now_;
            values_[id] = T();
        }
        return values_[id];
    }
    const T* find(std::uint32_t id) const { return has(id) ? &values_[id] : nullptr; }

private:
    std::vector<T> values_;
    std::vector<std::uint32_t> marked_;
    std::uint32_t now_ = 0;
};

}  // namespace levigate
