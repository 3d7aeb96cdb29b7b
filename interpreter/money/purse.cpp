#include "interpreter/money/purse.hpp"

#include <algorithm>

namespace levigate {

void Purse::add(const Coin& coin) {
    // Tags are in the order of the codes.
    const auto at =
        std::lower_bound(coins_.begin(), coins_.end(), coin,
                         [](const Coin& a, const Coin& b) { return a.currency < b.currency; });
    if (at != coins_.end() && at->currency == coin.currency)
        at->amount += coin.amount;
    else
        coins_.insert(at, coin);
}

void Purse::add(const Purse& other) {
    for (const Coin& coin : other.coins_) add(coin);
}

Purse Purse::times(const Exact& factor) const {
    Purse out = *this;
    for (Coin& coin : out.coins_) coin.amount *= factor;
    return out;
}

Exact Purse::of(std::uint32_t currency) const {
    for (const Coin& coin : coins_)
        if (coin.currency == currency) return coin.amount;
    return {};
}

std::string money_words(const Coin& coin) { return fine_money_words(coin, 0); }

std::string fine_money_words(const Coin& coin, int more_places) {
    std::string out = coin.amount.fixed(currency_places(coin.currency) + more_places);
    return (out += ' ') += currency_code(coin.currency);
}

std::string money_words(const Purse& purse) {
    std::string out;
    for (const Coin& coin : purse.coins()) out += (out.empty() ? "" : " and ") + money_words(coin);
    return out.empty() ? "nothing" : out;
}

std::string sum_words(const Purse& purse, bool complete) {
    if (!complete && purse.empty()) return "not known";
    return (complete ? "" : "at least ") + money_words(purse);
}

}  // namespace levigate
