#include "interpreter/share/concluded.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "interpreter/formulary/say.hpp"
#include "interpreter/measure/linear.hpp"
#include "interpreter/share/bands.hpp"

namespace levigate::sharing {

namespace {

using linear::Relation;
using linear::Row;

/// So many ways to choose which rule counts least and most are tried; beyond, no one is chosen.
constexpr std::size_t most_ways = 64;

/// Each of `each` holds, and of every list in `one_of` at least one row.
struct Known {
    std::vector<Row> each;
    std::vector<std::vector<Row>> one_of;
};

Row row(const Linear& of, Relation relation, const Share& bound) {
    return {of, relation, bound.value()};
}

/// The least of `all` lies between two ends; with `most`, the most of them.
void between(Known& known, const std::vector<Linear>& all, bool most, const Share& low,
             const Share& high) {
    std::vector<Row> some;
    for (const Linear& one : all) {
        known.each.push_back(most ? row(one, Relation::at_most, high)
                                  : row(one, Relation::at_least, low));
        some.push_back(most ? row(one, Relation::at_least, low)
                            : row(one, Relation::at_most, high));
    }
    if (some.size() == 1)
        known.each.push_back(some.front());
    else
        known.one_of.push_back(std::move(some));
}

/// What a range tells: its lower end lies in the band that begins there, its upper end in the one
/// that ends there.
void add_told(Known& known, const std::vector<Share>& ends, const Told& told) {
    if (told.asked_anew) return;
    between(known, told.least, false, told.range.least, band_above(ends, told.truth.least));
    between(known, told.most, true, band_below(ends, told.truth.most), told.range.most);
}

Known known_of(const Seal& seal) {
    Known out;
    out.each.push_back(row(Linear(seal.materials.size(), Exact(1)), Relation::exactly, share(1)));
    const std::vector<Share> ends = band_ends(seal.within);
    for (const Told& told : seal.label) add_told(out, ends, told);
    for (const Told& told : seal.contains) add_told(out, ends, told);
    return out;
}

/// With what an earlier edition tells.
void add_before(Known& known, const Seal& seal, const ToldBefore& before, const Names& names) {
    const auto add = [&](const std::vector<Told>& now, const std::vector<ToldBefore::Part>& then) {
        for (const Told& told : now)
            for (const ToldBefore::Part& part : then) {
                if (told.asked_anew || names.folded(told.name.sym) != part.name) continue;
                for (const Linear& one : told.least)
                    known.each.push_back(row(one, Relation::at_least, part.range.least));
                for (const Linear& one : told.most)
                    known.each.push_back(row(one, Relation::at_most, part.range.most));
            }
    };
    add(seal.label, before.label);
    add(seal.contains, before.contains);
}

/// Every choice of one row from each list, each as a whole program over columns.
std::vector<std::vector<Row>> ways_of(const Known& known, const Columns& columns) {
    std::vector<std::vector<Row>> out{columns.rows};
    for (const Row& one : known.each) out[0].push_back(over_columns(columns, one));
    for (const std::vector<Row>& some : known.one_of) {
        if (out.size() * some.size() > most_ways) continue;
        std::vector<std::vector<Row>> more;
        for (const std::vector<Row>& rows : out)
            for (const Row& one : some) {
                more.push_back(rows);
                more.back().push_back(over_columns(columns, one));
            }
        out = std::move(more);
    }
    return out;
}

/// The ends of one amount; none where nothing keeps all bounds. `failed`: numbers became too long.
std::optional<Extent> ends_of(const std::vector<std::vector<Row>>& ways, const Columns& columns,
                              std::size_t at, bool& failed) {
    std::optional<Extent> out;
    for (const std::vector<Row>& rows : ways)
        for (const int sign : {1, -1}) {
            linear::Problem problem{{}, rows};
            for (const Linear& column : columns.of)
                problem.cost.push_back(column[at] * Exact(sign));
            const linear::Answer answer = linear::least(problem);
            if (answer.status == linear::Status::impossible) continue;
            if (answer.status != linear::Status::best) {
                failed = true;
                return out;
            }
            const Share end = share(answer.cost * Exact(sign));
            if (!out) out = {end, end};
            out->least = std::min(out->least, end);
            out->most = std::max(out->most, end);
        }
    return out;
}

/// Whether some formula keeps all bounds. A band holds its lower end alone, so where only the upper
/// end of one is left of it, none does.
bool any_formula(const Known& known, const Columns& columns) {
    const std::size_t count = columns.of.size();
    for (const std::vector<Row>& rows : ways_of(known, columns)) {
        linear::Problem problem{std::vector<Exact>(count + 1), rows};
        problem.cost[count] = Exact(-1);  // how far upper ends are kept away from
        for (Row& one : problem.rows)
            one.of.push_back(Exact(one.relation == Relation::at_most && one.bound < Exact(1)));
        Row most{std::vector<Exact>(count + 1), Relation::at_most, Exact(1)};
        most.of[count] = Exact(1);
        problem.rows.push_back(std::move(most));
        const linear::Answer answer = linear::least(problem);
        if (answer.status == linear::Status::best && answer.cost < Exact(0)) return true;
    }
    return false;
}

/// Another list of names is of another formula.
bool same_names(const Seal& seal, const Names& names, const ToldBefore& before) {
    if (before.label.size() != seal.label.size()) return false;
    return std::all_of(seal.label.begin(), seal.label.end(), [&](const Told& told) {
        return std::any_of(before.label.begin(), before.label.end(), [&](const auto& part) {
            return part.name == names.folded(told.name.sym);
        });
    });
}

std::optional<std::vector<Concluded>> solve(const Seal& seal, const Known& known,
                                            const Columns& columns, bool& failed) {
    const std::vector<std::vector<Row>> ways = ways_of(known, columns);
    std::vector<Concluded> out;
    for (std::size_t at = 0; at < seal.materials.size(); ++at) {
        const auto ends = ends_of(ways, columns, at, failed);
        if (failed || !ends) return std::nullopt;
        out.push_back({seal.materials[at], *ends});
    }
    return out;
}

std::vector<ToldBefore::Part> formula_parts(const Formulary& formulary, const Names& names,
                                       const Formula& formula) {
    std::vector<ToldBefore::Part> out;
    for (std::size_t i = 0; i < formula.shares.size(); ++i) {
        const Sym name = formulary.ingredients[formula.parts[i].what].sym;
        out.push_back({std::string(names.folded(name)), {formula.shares[i], formula.shares[i]}});
    }
    return out;
}

std::vector<ToldBefore::Part> told_parts(const Names& names, const std::vector<LabelPart>& all) {
    std::vector<ToldBefore::Part> out;
    for (const LabelPart& part : all)
        if (part.share) out.push_back({std::string(names.folded(part.sym)), *part.share});
    return out;
}

std::vector<Concluded> outright(const Seal& seal) {
    std::vector<Concluded> out;
    for (std::size_t at = 0; at < seal.materials.size(); ++at)
        out.push_back({seal.materials[at], {seal.amounts[at], seal.amounts[at]}});
    return out;
}

/// In tenths of a percent, outward.
std::string tenths(const Share& size, bool up) {
    const Exact all = size.value() * Exact(1000);
    return ((up ? all.ceil() : all.floor()) / Exact(10)).decimal(1);
}

}  // namespace

std::optional<ToldBefore> told_before(const Formulary& earlier, const Names& names,
                                      std::string_view folded) {
    const Sym name = names.find_folded(folded);
    if (name == no_name) return std::nullopt;
    for (const Ingredient& one : earlier.ingredients) {
        if (one.sym != name || one.kind == Ingredient::Kind::shade) continue;
        ToldBefore out;
        if (one.kind == Ingredient::Kind::material) {
            const Material& material = earlier.materials[one.index];
            out.label = told_parts(names, material.label);
            out.contains = told_parts(names, material.contains);
        } else {
            out.open = formula_parts(earlier, names, earlier.mixes[one.index].formula);
        }
        return out;
    }
    return std::nullopt;
}

std::vector<Concluded> concluded(const Formulary& formulary, const Names& names, const Seal& seal,
                                 const std::vector<ToldBefore>& before, const GoesOut& goes_out) {
    const std::size_t told = seal.label.size() + seal.contains.size();
    if (seal.materials.size() * told > most_sealed) return {};
    const std::vector<ToldBefore::Part> own =
        formula_parts(formulary, names, mix_of(formulary, seal.id)->formula);
    bool failed = false;
    Known known = known_of(seal);
    const Columns columns = columns_of(formulary, seal, goes_out);
    std::optional<std::vector<Concluded>> out = solve(seal, known, columns, failed);
    for (const ToldBefore& one : before) {
        if (failed || !out) break;
        if (one.open == own) return outright(seal);
        if (!same_names(seal, names, one)) continue;
        Known more = known;
        add_before(more, seal, one, names);
        if (!any_formula(more, columns)) continue;
        if (auto closer = solve(seal, more, columns, failed)) {
            out = std::move(closer);
            known = std::move(more);
        }
    }
    return failed || !out ? std::vector<Concluded>() : *out;
}

Share narrowest(const std::vector<Concluded>& all) {
    Share out = share(1);
    for (const Concluded& one : all) out = std::min(out, one.range.most - one.range.least);
    return out;
}

std::string concluded_words(const Formulary& formulary, const std::vector<Concluded>& all) {
    std::string out;
    for (const Concluded& one : all) {
        if (!out.empty()) out += "; ";
        const std::string least = tenths(one.range.least, false);
        const std::string most = tenths(one.range.most, true);
        out += fmt::format("{}, ", formulary.name(one.material));
        out += least == most ? fmt::format("{} %", least) : fmt::format("{} to {} %", least, most);
    }
    return out;
}

}  // namespace levigate::sharing
