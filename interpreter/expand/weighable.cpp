#include "interpreter/expand/weighable.hpp"

#include <algorithm>

namespace levigate {
namespace {

/// As strong as the weakest dilution to keep. Weaker ones are made in two goes, by a person.
constexpr std::int64_t largest_factor = 1000;

}  // namespace

const Mass& sensitivity(const Reading& reading) { return std::max(reading.step, reading.reads_by); }

Mass least_by_error(const Mass& sensitivity, const Share& error) { return sensitivity / error; }

Mass least_by_usp41(const Mass& step, const std::optional<Mass>& repeatability) {
    const Exact floor = Exact(41, 100) * in_grams(step);
    const bool worse = repeatability && in_grams(*repeatability) > floor;
    return grams(2000 * (worse ? in_grams(*repeatability) : floor));
}

std::optional<Least> least_weight(const Reading& reading) {
    std::optional<Least> out;
    const auto raise = [&](const Mass& mass, LeastBy by) {
        if (!out || in_grams(mass) > in_grams(out->mass)) out = Least{mass, by};
    };
    if (reading.least) raise(*reading.least, LeastBy::stated);
    if (reading.error) raise(least_by_error(sensitivity(reading), *reading.error), LeastBy::error);
    if (reading.usp41) raise(least_by_usp41(reading.step, reading.repeatability), LeastBy::usp41);
    return out;
}

Share usual_error() { return percent(5); }

Exact off_by(const Mass& reading, const Mass& wanted) {
    if (in_grams(wanted).is_zero() && in_grams(reading).is_zero()) return {};
    return (in_grams(reading) - in_grams(wanted)) / in_grams(wanted);
}

Exact Scale::least_steps() const {
    return std::max(Exact(1), (in_grams(least) / in_grams(step)).ceil());
}

Exact aliquot_factor(const Mass& need, const Mass& least) {
    return (in_grams(least) / in_grams(need)).ceil();
}

Mass aliquot_diluent(const Mass& need, const Mass& weigh, const Mass& take) {
    return grams(in_grams(take) * in_grams(weigh) / in_grams(need)) - weigh;
}

// What is weighed is read first, and the rest follows from the reading: so only the diluent's
// rounding is left as an error, and that is the largest of the three.
std::optional<Aliquot> aliquot(const Mass& need, const Scale& scale) {
    const Exact least = scale.least_steps();
    const Mass lowest = scale.mass(least);
    if (in_grams(need).sign() <= 0 || !(in_grams(need) < in_grams(lowest))) return std::nullopt;
    Aliquot out;
    out.factor = aliquot_factor(need, lowest);
    out.weigh = scale.mass(scale.steps(grams(out.factor * in_grams(need))));
    // take × weigh ÷ need − weigh ≥ least
    const Exact take = in_grams(out.weigh + lowest) * in_grams(need) / in_grams(out.weigh);
    out.take = scale.mass(std::max(least, (take / in_grams(scale.step)).ceil()));
    out.with = scale.mass(scale.steps(aliquot_diluent(need, out.weigh, out.take)));
    const Exact whole = in_grams(out.weigh + out.with);
    if (!whole.known() || !(out.factor <= Exact(largest_factor))) return std::nullopt;
    if (scale.up_to && whole > in_grams(*scale.up_to)) return std::nullopt;
    return out;
}

std::optional<Exact> taken_of_stock(const Mass& need, const Mass& diluent, std::int64_t parts,
                                    const Scale& scale) {
    const Exact least = scale.least_steps();
    const Exact taken = parts * in_grams(need);
    const Exact left = in_grams(diluent) - (taken - in_grams(need));
    const Exact steps = scale.steps(grams(taken));
    if (!steps.known() || !left.known() || steps < least || left.sign() < 0) return std::nullopt;
    if (!left.is_zero() && scale.steps(grams(left)) < least) return std::nullopt;
    return steps;
}

std::optional<Exact> stock_to_prepare(const Mass& wanted, std::int64_t parts, const Scale& scale) {
    const Exact least = scale.least_steps();
    // least of the one, least of the other, and no less in all than is wanted
    const Exact other = (least / (parts - 1)).ceil();
    const Exact all = (in_grams(wanted) / in_grams(scale.step) / parts).ceil();
    const Exact steps = std::max({least, other, all});
    const Exact whole = parts * steps * in_grams(scale.step);
    if (!whole.known() || (scale.up_to && whole > in_grams(*scale.up_to))) return std::nullopt;
    return steps;
}

}  // namespace levigate
