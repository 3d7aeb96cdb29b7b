#pragma once
// Sums of money. Two currencies never add up: they stand side by side.

#include <string>
#include <vector>

#include "interpreter/measure/exact.hpp"
#include "interpreter/measure/iso4217.hpp"

namespace levigate {

/// An amount of one currency (tag of iso4217.hpp).
struct Coin {
    std::uint32_t currency = 0;
    Exact amount;
};

class Purse {
public:
    void add(const Coin& coin);
    void add(const Purse& other);
    Purse times(const Exact& factor) const;
    /// One a currency, by their codes.
    const std::vector<Coin>& coins() const { return coins_; }
    /// Of one currency; zero where there is none.
    Exact of(std::uint32_t currency) const;
    bool empty() const { return coins_.empty(); }

private:
    std::vector<Coin> coins_;
};

/// "14.20 USD": rounded half up to the currency's minor unit.
std::string money_words(const Coin& coin);
/// The same with more places, for prices of a gram: "0.4733 USD".
std::string fine_money_words(const Coin& coin, int more_places = 2);
/// "14.20 USD and 3.00 EUR"; "nothing" where there is none.
std::string money_words(const Purse& purse);
/// The same of a sum that isn't complete: "at least 3.00 EUR"; "not known" where nothing of it is.
std::string sum_words(const Purse& purse, bool complete);

}  // namespace levigate
