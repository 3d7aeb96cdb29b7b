// The run-time table of what goes together, read off the compile-time quantities: each pair of the
// closed list is tried, and an operation is legal if it compiles and its result is in the list.
#include "interpreter/measure/dimension.hpp"
#include "interpreter/measure/quantities.hpp"

#include <utility>
#include <variant>

namespace levigate {
namespace {

// In the order of Kind.
using Closed =
    std::variant<Exact, Share, Mass, Volume, Count, Money, Density, VolumePerMass, MoneyPerMass,
                 MoneyPerVolume, MoneyPerCount, TemperatureStep, TemperaturePoint>;
static_assert(std::variant_size_v<Closed> == kind_count);

using Cell = std::uint8_t;
constexpr Cell no_kind = 0xFF;

template <class T, std::size_t... I>
constexpr Cell find(std::index_sequence<I...>) {
    if (std::is_same_v<T, Ratio>) return static_cast<Cell>(Kind::number);
    Cell found = no_kind;
    ((std::is_same_v<T, std::variant_alternative_t<I, Closed>> ? void(found = I) : void()), ...);
    return found;
}
template <class T>
constexpr Cell kind_of = find<std::remove_cvref_t<T>>(std::make_index_sequence<kind_count>());

template <Op op, class L, class R>
constexpr Cell tried() {
    if constexpr (op == Op::add) {
        if constexpr (requires(L l, R r) { l + r; }) return kind_of<decltype(L() + R())>;
    } else if constexpr (op == Op::subtract) {
        if constexpr (requires(L l, R r) { l - r; }) return kind_of<decltype(L() - R())>;
    } else if constexpr (op == Op::multiply) {
        if constexpr (requires(L l, R r) { l* r; }) return kind_of<decltype(L() * R())>;
    } else {
        if constexpr (requires(L l, R r) { l / r; }) return kind_of<decltype(L() / R())>;
    }
    return no_kind;
}

constexpr bool is_amount(std::size_t kind) {
    return kind == std::size_t(Kind::mass) || kind == std::size_t(Kind::volume) ||
           kind == std::size_t(Kind::count);
}

template <Op op, std::size_t pair>
constexpr Cell cell() {
    constexpr std::size_t left = pair / kind_count, right = pair % kind_count;
    constexpr Cell result = tried<op, std::variant_alternative_t<left, Closed>,
                                  std::variant_alternative_t<right, Closed>>();
    if (op == Op::per && (!is_amount(right) || result == Cell(Kind::number))) return no_kind;
    return result;
}

template <Op op, std::size_t... pair>
constexpr auto row(std::index_sequence<pair...>) {
    return std::array<Cell, sizeof...(pair)>{cell<op, pair>()...};
}
template <Op op>
constexpr auto row_of = row<op>(std::make_index_sequence<kind_count * kind_count>());

constexpr std::array<std::array<Cell, kind_count * kind_count>, op_count> table = {
    row_of<Op::add>, row_of<Op::subtract>, row_of<Op::multiply>, row_of<Op::divide>,
    row_of<Op::per>};

}  // namespace

std::optional<Kind> result_kind(Op op, Kind left, Kind right) {
    Cell result = table[std::size_t(op)][std::size_t(left) * kind_count + std::size_t(right)];
    if (result == no_kind) return std::nullopt;
    return static_cast<Kind>(result);
}

}  // namespace levigate
