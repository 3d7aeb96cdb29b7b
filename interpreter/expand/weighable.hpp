#pragma once
// How little a balance weighs well, how far a reading is off, and how a smaller amount is weighed
// all the same. Masses alone: no sheet, no formula.

#include <array>
#include <optional>

#include "interpreter/expand/sheet.hpp"

namespace levigate {

/// The rule of pharmacy: least weight = sensitivity ÷ error. The sensitivity is the smallest load
/// that the balance tells; of a balance with digits its step is taken (common practice). Sources of
/// the rule and of worked examples: tests/facts/weighing.csv.
Mass least_by_error(const Mass& sensitivity, const Share& error);

/// What the balance tells apart: its step, or how far a reading of it may be off, if that is more.
const Mass& sensitivity(const Reading& reading);

/// USP <41> Balances: twice the standard deviation of at least ten weighings is no more than 0.10 %
/// of the smallest weight, and a standard deviation under 0.41 steps counts as 0.41 steps. So the
/// least weight is 2000 × max(repeatability, 0.41 × step); without a repeatability it is the floor.
Mass least_by_usp41(const Mass& step, const std::optional<Mass>& repeatability);

enum class LeastBy : std::uint8_t { stated, error, usp41 };
struct Least {
    Mass mass;
    LeastBy by = LeastBy::stated;
};
/// The largest of what the balance states, of the rule of pharmacy where an error is stated, and of
/// USP <41> where that is asked for. None where nothing is.
std::optional<Least> least_weight(const Reading& reading);

/// The least error that a weighing is taken for good at where nobody says: 5 %, as pharmacies have
/// it (common practice).
Share usual_error();

/// The rounding error of a line: (reading − wanted) ÷ wanted, signed. Nothing read of nothing is 0.
Exact off_by(const Mass& reading, const Mass& wanted);

// ---- The aliquot method ------------------------------------------------------------------------

/// What a balance does: reads in steps, from `least` to `up_to`.
struct Scale {
    Mass step, least;
    std::optional<Mass> up_to = {};

    /// The least weight that it reads: whole steps, rounded up.
    Exact least_steps() const;
    Exact steps(const Mass& mass) const { return steps_half_up(in_grams(mass), in_grams(step)); }
    Mass mass(const Exact& steps) const { return grams(steps * in_grams(step)); }
};

/// The smallest whole factor at which so many times the need can be weighed.
Exact aliquot_factor(const Mass& need, const Mass& least);

/// What is mixed with `weigh`, so that `take` of the mixture holds the need.
Mass aliquot_diluent(const Mass& need, const Mass& weigh, const Mass& take);

struct Aliquot {
    Exact factor;
    Mass weigh, with, take;  ///< whole steps

    /// What is taken holds of what was weighed: the need, as near as the steps allow.
    Mass held() const { return grams(in_grams(weigh) * in_grams(take) / in_grams(weigh + with)); }
};
/// The aliquot of the smallest factor, and for that the smallest part to take, at which each of the
/// three is no less than the least weight. Needs 0 < need < least. None where the mixture would be
/// over the balance's capacity, or weaker than 1 in 1000.
std::optional<Aliquot> aliquot(const Mass& need, const Scale& scale);

// ---- A dilution to keep ------------------------------------------------------------------------

/// 1 in so many, the strongest first: 50, 25, 20, 10, 5, 2, 1, 0.5, 0.2 and 0.1 %.
inline constexpr std::array<std::int64_t, 10> stock_strengths{2,  4,   5,   10,  20,
                                                              50, 100, 200, 500, 1000};

/// What a bowl takes of a dilution of 1 in `parts`, in steps; none where that, or what is left of
/// the diluent's own line, is too little to be weighed. A diluent of which exactly nothing is left
/// is well.
std::optional<Exact> taken_of_stock(const Mass& need, const Mass& diluent, std::int64_t parts,
                                    const Scale& scale);

/// The least of it to prepare, so that `wanted` is there and both of its lines can be weighed: so
/// many steps of what is diluted; `parts` times as many are the whole. None over the capacity.
std::optional<Exact> stock_to_prepare(const Mass& wanted, std::int64_t parts, const Scale& scale);

}  // namespace levigate
