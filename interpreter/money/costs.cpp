#include "interpreter/money/costs.hpp"

#include <algorithm>

#include "interpreter/formulary/say.hpp"

namespace levigate {
namespace {

Cost cost_of_material(const Formulary& formulary, const Needed& needed) {
    const Ingredient& entry = formulary.ingredients[needed.material];
    if (entry.kind != Ingredient::Kind::material) return Lack{Lack::Why::price, needed};
    const std::optional<Price>& price = formulary.materials[entry.index].price;
    if (!price) return Lack{Lack::Why::price, needed};
    const Exact& each = price->amount.value;
    if (price->amount.kind == Kind::money_per_mass)
        return Coin{price->amount.tag, each * needed.amount};
    if (!entry.density) return Lack{Lack::Why::density, needed};
    return Coin{price->amount.tag, each * needed.amount / in_grams_per_millilitre(*entry.density)};
}

}  // namespace

const std::string& name_of(const Formulary& formulary, const Needed& needed) {
    return needed.material != no_ingredient ? formulary.name(needed.material)
                                            : formulary.containers[needed.container].name;
}

Cost cost_of(const Formulary& formulary, const Needed& needed) {
    if (needed.material != no_ingredient) return cost_of_material(formulary, needed);
    const std::optional<Price>& price = formulary.containers[needed.container].price;
    if (!price) return Lack{Lack::Why::price, needed};
    return Coin{price->amount.tag, price->amount.value * needed.amount};
}

std::optional<Exchange> exchange(const Formulary& formulary, std::uint32_t from,
                                 std::uint32_t into) {
    for (const Rate& rate : formulary.rates) {
        if (rate.from == from && rate.into == into) return Exchange{&rate, rate.factor};
        if (rate.from == into && rate.into == from) return Exchange{&rate, 1 / rate.factor};
    }
    return std::nullopt;
}

std::string rate_words(const Rate& rate) {
    return "1 " + std::string(currency_code(rate.from)) + " = " + exact_words(rate.factor) + " " +
           std::string(currency_code(rate.into)) + ", " + rate.date;
}

namespace {

/// The largest first, a currency after the other; equal ones as they came.
void order_lines(Costing& costing) {
    for (CostLine& line : costing.lines) {
        const Exact all = costing.sum.of(line.cost.currency);
        if (all.sign() > 0) line.part = line.cost.amount / all;
    }
    std::stable_sort(costing.lines.begin(), costing.lines.end(),
                     [](const CostLine& a, const CostLine& b) {
                         if (a.cost.currency != b.cost.currency)
                             return a.cost.currency < b.cost.currency;
                         return b.cost.amount < a.cost.amount;
                     });
}

}  // namespace

Costing costing(const Formulary& formulary, std::span<const Needed> needed, std::uint32_t into) {
    Costing out;
    for (const Needed& one : needed) {
        const Cost cost = cost_of(formulary, one);
        if (const Lack* lack = std::get_if<Lack>(&cost)) {
            out.lacking.push_back(*lack);
            continue;
        }
        CostLine line{one, std::get<Coin>(cost), std::get<Coin>(cost), {}, {}};
        if (into != 0 && line.paid.currency != into) {
            line.rate = exchange(formulary, line.paid.currency, into);
            if (line.rate)
                line.cost = {into, line.paid.amount * line.rate->factor};
            else
                out.lacking.push_back({Lack::Why::rate, one, line.paid.currency});
        }
        out.sum.add(line.cost);
        out.lines.push_back(std::move(line));
    }
    order_lines(out);
    return out;
}

namespace {

std::vector<std::string> names_lacking(const Formulary& formulary, const std::vector<Lack>& lacking,
                                       Lack::Why why) {
    std::vector<std::string> out;
    for (const Lack& lack : lacking)
        if (lack.why == why) out.push_back(name_of(formulary, lack.of));
    return out;
}

void append_lacking(std::string& out, const std::vector<std::string>& names, std::string what) {
    if (names.empty()) return;
    out += (out.empty() ? "" : ", and ") + list_words(names) +
           (names.size() == 1 ? " has no " : " have no ") + what;
}

}  // namespace

std::string lacking_words(const Formulary& formulary, const std::vector<Lack>& lacking) {
    std::string out;
    append_lacking(out, names_lacking(formulary, lacking, Lack::Why::price), "price");
    append_lacking(out, names_lacking(formulary, lacking, Lack::Why::density),
                   "density, by which its price would be one by weight");
    std::vector<std::string> codes;
    for (const Lack& lack : lacking)
        if (lack.why == Lack::Why::rate) codes.emplace_back(currency_code(lack.currency));
    std::sort(codes.begin(), codes.end());
    codes.erase(std::unique(codes.begin(), codes.end()), codes.end());
    if (!codes.empty())
        out +=
            (out.empty() ? "" : ", and ") + std::string("no rate leads from ") + list_words(codes);
    return out;
}

std::string lacking_advice(const Formulary& formulary, const std::vector<Lack>& lacking,
                           std::uint32_t currency) {
    if (lacking.empty()) return {};
    const Lack& first = lacking.front();
    const std::string& name = name_of(formulary, first.of);
    if (first.why == Lack::Why::rate) {
        const std::string into(currency == 0 ? "USD" : currency_code(currency));
        return "Write the rate of a day into the file, as in `rate " +
               std::string(currency_code(first.currency)) + " = 1.08 " + into + ", 2026-10-01`.";
    }
    if (first.of.container != nothing)
        return "Add a line such as `price 0.35 USD` to a block `container " + name + "`.";
    const Ingredient& entry = formulary.ingredients[first.of.material];
    const std::string line =
        first.why == Lack::Why::price ? "`price 14.20 USD per 30 g`" : "`density 0.9 g/mL`";
    // A page of the library can't be written to: a block of one's own takes its place.
    if (entry.kind == Ingredient::Kind::material && formulary.materials[entry.index].library)
        return "Write a block of your own, `material " + name +
               "`, with all that you need and a line such as " + line +
               ": it takes the place of the library's.";
    return "Add a line such as " + line + " to the block of " + name + ".";
}

std::vector<Note> lacking_notes(const Formulary& formulary, const std::vector<Lack>& lacking) {
    std::vector<Note> out;
    for (const Lack& lack : lacking) {
        if (out.size() >= 6) break;
        const bool container = lack.of.container != nothing;
        const Span span = container ? formulary.containers[lack.of.container].span
                                    : formulary.ingredients[lack.of.material].span;
        if (lack.why != Lack::Why::rate)
            out.push_back(
                {span, lack.why == Lack::Why::price ? "no price here" : "no density here"});
    }
    return out;
}

}  // namespace levigate
