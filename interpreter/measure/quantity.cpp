#include "interpreter/measure/quantity.hpp"

namespace levigate {
namespace {

enum class Sort { none, currency, container };

Sort sort_of(Kind kind) {
    switch (kind) {
        case Kind::money:
        case Kind::money_per_mass:
        case Kind::money_per_volume:
        case Kind::money_per_count: return Sort::currency;
        case Kind::count: return Sort::container;
        default: return Sort::none;
    }
}

Exact computed(Op op, const Exact& left, const Exact& right) {
    switch (op) {
        case Op::add: return left + right;
        case Op::subtract: return left - right;
        case Op::multiply: return left * right;
        case Op::divide:
        case Op::per: break;
    }
    return left / right;
}

std::uint32_t tag_for(Kind result, const Quantity& left, const Quantity& right) {
    Sort sort = sort_of(result);
    if (sort == Sort::none) return 0;
    if (sort_of(left.kind) == sort && left.tag != 0) return left.tag;
    return sort_of(right.kind) == sort ? right.tag : 0;
}

}  // namespace

std::variant<Quantity, Refusal> combine(Op op, const Quantity& left, const Quantity& right) {
    auto refuse = [&](Refusal::Why why) { return Refusal{why, op, left.kind, right.kind}; };
    auto kind = result_kind(op, left.kind, right.kind);
    if (!kind) return refuse(Refusal::Why::kinds);
    Sort sort = sort_of(left.kind);
    if (sort != Sort::none && sort == sort_of(right.kind) && left.tag != 0 && right.tag != 0 &&
        left.tag != right.tag)
        return refuse(sort == Sort::currency ? Refusal::Why::currencies : Refusal::Why::containers);
    if ((op == Op::divide || op == Op::per) && right.value.is_zero())
        return refuse(Refusal::Why::by_zero);
    return Quantity{*kind, computed(op, left.value, right.value), tag_for(*kind, left, right)};
}

}  // namespace levigate
