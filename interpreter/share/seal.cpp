#include "interpreter/share/seal.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "interpreter/formulary/say.hpp"
#include "interpreter/rules/book.hpp"
#include "interpreter/rules/parts.hpp"
#include "interpreter/share/print.hpp"

namespace levigate::sharing {

namespace {

/// In tenths of a per cent.
constexpr std::pair<int, int> ranges[] = {
    {0, 1},     {1, 10},    {5, 15},    {10, 50},   {30, 70},   {50, 100},  {70, 130},
    {100, 300}, {150, 400}, {300, 600}, {450, 700}, {600, 800}, {650, 850}, {800, 1000}};

Share tenths(int size) { return share(Exact(size, 1000)); }

/// Raw materials and what of the blend each is, by a walk that sees each mix once.
std::map<IngredientId, Share> materials_of(const Formulary& formulary, IngredientId blend) {
    std::vector<IngredientId> order;  // what a mix holds stands before it
    std::vector<std::pair<IngredientId, bool>> due{{blend, false}};
    std::vector<bool> seen(formulary.ingredients.size());
    while (!due.empty()) {
        const auto [id, ready] = due.back();
        due.pop_back();
        if (ready) order.push_back(id);
        if (ready || seen[id]) continue;
        seen[id] = true;
        due.push_back({id, true});
        if (const Mix* mix = mix_of(formulary, id))
            for (const Part& part : mix->formula.parts) due.push_back({part.what, false});
    }
    std::map<IngredientId, Share> all, out;
    all[blend] = share(1);
    for (auto id = order.rbegin(); id != order.rend(); ++id) {
        const Mix* mix = mix_of(formulary, *id);
        if (!mix) {
            if (!(all[*id] == Share())) out[*id] = all[*id];
            continue;
        }
        for (std::size_t i = 0; i < mix->formula.shares.size(); ++i)
            all[mix->formula.parts[i].what] += all[*id] * mix->formula.shares[i];
    }
    return out;
}

class Sealer {
public:
    Sealer(const Formulary& formulary, const Names& names, IngredientId blend)
        : formulary_(formulary), names_(names), materials_(materials_of(formulary, blend)) {
        out_.value.id = blend;
    }

    Outcome<Seal> operator()() {
        for (const auto& [id, size] : materials_) add_material(id, size);
        name_by_number();
        add_contents();
        add_colour();
        for (auto* list : {&out_.value.label, &out_.value.contains})
            for (Told& told : *list) told.range = told_range(told.truth);
        std::stable_sort(out_.value.label.begin(), out_.value.label.end(),
                         [](const Told& a, const Told& b) { return a.truth.most > b.truth.most; });
        return std::move(out_);
    }

private:
    const Material& material(IngredientId id) const {
        return formulary_.materials[formulary_.ingredients[id].index];
    }
    void add_material(IngredientId id, const Share& size);
    void add_part(const Called& name, const Extent& size, const std::vector<Called>& indices);
    void name_by_number();
    void add_contents();
    void add_content(const Called& what);
    void add_colour();

    const Formulary& formulary_;
    const Names& names_;
    const std::map<IngredientId, Share> materials_;
    Outcome<Seal> out_;
};

void add_once(std::vector<Called>& to, const Called& one) {
    const auto same = [&](const Called& other) { return other.sym == one.sym; };
    if (std::none_of(to.begin(), to.end(), same)) to.push_back(one);
}

void Sealer::add_part(const Called& name, const Extent& size, const std::vector<Called>& indices) {
    auto& label = out_.value.label;
    auto seat = std::find_if(label.begin(), label.end(),
                             [&](const Told& told) { return told.name.sym == name.sym; });
    if (seat == label.end()) seat = label.insert(seat, {name, {}, {}, {}});
    seat->truth.least += size.least;
    seat->truth.most += size.most;
    for (const Called& index : indices) {
        add_once(seat->indices, index);
        add_once(out_.value.indices, index);
    }
}

void Sealer::add_material(IngredientId id, const Share& size) {
    const Material& one = material(id);
    out_.value.powder = out_.value.powder || one.powder;
    out_.value.flammable = out_.value.flammable || one.flammable;
    const MaterialParts parts = parts_of(formulary_, names_, one);
    Share given;
    for (const MaterialPart& part : parts.parts)
        if (part.share) given += part.share->least;
    for (const MaterialPart& part : parts.parts) {
        const Extent own = part.share.value_or(Extent{Share(), share(1) - given});
        add_part(part.name, {size * own.least, size * own.most}, part.indices);
    }
    if (!parts.parts.empty()) {
        for (const Called& index : parts.loose) add_once(out_.value.indices, index);
        return;
    }
    // Without a label a material is its colour; of several numbers none knows how much is which.
    const Share least = parts.loose.size() == 1 ? size : Share();
    for (const Called& index : parts.loose) add_part(index, {least, size}, {index});
    if (parts.loose.empty())
        out_.findings.push_back(
            {Code::share_label,
             fmt::format("{} is sealed, and nothing says what {} in it is called in an ingredient "
                         "list.",
                         formulary_.name(out_.value.id), formulary_.name(id)),
             formulary_.ingredients[id].span,
             fmt::format("Add a line such as `label Mica` to a block `material {}`.",
                         formulary_.name(id))});
}

/// A number that could not be told to belong to its part among the others stands in its place.
void Sealer::name_by_number() {
    Material whole;
    for (const Told& told : out_.value.label)
        whole.label.push_back({told.name.name, told.name.sym, told.truth});
    whole.colour_indices = out_.value.indices;
    const MaterialParts parts = parts_of(formulary_, names_, whole);
    for (std::size_t i = 0; i < parts.parts.size(); ++i) {
        Told& told = out_.value.label[i];
        if (told.indices.size() != 1) continue;
        const auto& there = parts.parts[i].indices;
        const bool found = std::any_of(there.begin(), there.end(), [&](const Called& one) {
            return one.sym == told.indices.front().sym;
        });
        if (!found) told.name = told.indices.front();
    }
}

bool asks(const Rule& rule, Sym role) {
    return role != no_name && std::any_of(rule.ask_of.begin(), rule.ask_of.end(),
                                          [&](const Called& other) { return other.sym == role; });
}

/// How much of a substance is in it at most, by every rule that covers it. A material that a rule
/// asks about and that doesn't say may be all of it.
void Sealer::add_content(const Called& what) {
    auto& contains = out_.value.contains;
    for (const Told& told : contains)
        if (told.name.sym == what.sym) return;
    std::optional<Extent> all;
    const auto widen = [&](const Extent& one) {
        all = all ? Extent{std::min(all->least, one.least), std::max(all->most, one.most)} : one;
    };
    Extent stated;
    for (const auto& [id, size] : materials_)
        for (const LabelPart& part : material(id).contains)
            if (part.sym == what.sym && part.share) {
                stated.least += size * part.share->least;
                stated.most += size * part.share->most;
            }
    const Sym role = formulary_.ingredients[out_.value.id].role;
    bool unknown = false, asked = true;
    for (std::uint32_t rule = 0; rule < formulary_.rules.size(); ++rule) {
        const auto& covers = formulary_.rules[rule].covers;
        if (std::none_of(covers.begin(), covers.end(),
                         [&](const Called& one) { return one.sym == what.sym; }))
            continue;
        RuleBook book(formulary_, names_, formulary_.rules[rule].region.sym);
        Extent sum;
        for (const auto& [id, size] : materials_) {
            const Claims& claims = book.of(id);
            const bool unstated = std::find(claims.unstated.begin(), claims.unstated.end(), rule) !=
                                  claims.unstated.end();
            if (unstated) {
                sum.most += size;
                unknown = true;
                asked = asked && asks(formulary_.rules[rule], role);
                continue;
            }
            for (const Claim& claim : claims.rules) {
                if (claim.rule != rule) continue;
                sum.least += size * claim.least;
                sum.most += size * claim.part;
            }
        }
        widen(sum);
    }
    widen(all ? *all : stated);
    const bool none_known = all->least == Share();
    contains.push_back({what, *all, {}, {}, unknown && asked && none_known});
}

void Sealer::add_contents() {
    for (const auto& [id, size] : materials_)
        for (const LabelPart& part : material(id).contains) add_content({part.name, part.sym});
    // What a rule would ask of a material in it, or of a material in its own role, is answered.
    const Sym role = formulary_.ingredients[out_.value.id].role;
    std::map<Sym, RuleBook> books;
    for (std::uint32_t rule = 0; rule < formulary_.rules.size(); ++rule) {
        const Rule& one = formulary_.rules[rule];
        if (one.covers.empty()) continue;
        RuleBook& book =
            books.try_emplace(one.region.sym, formulary_, names_, one.region.sym).first->second;
        bool asked = asks(one, role);
        for (const auto& [id, size] : materials_) {
            const auto& unstated = book.of(id).unstated;
            asked = asked || std::find(unstated.begin(), unstated.end(), rule) != unstated.end();
        }
        if (asked) add_content(one.covers.front());
    }
}

void Sealer::add_colour() {
    std::vector<std::optional<Share>> strengths;
    bool certified = true;
    for (const auto& [id, size] : materials_) {
        const Material& one = material(id);
        if (one.colour_indices.empty()) continue;
        strengths.push_back(one.strength);
        certified = certified && !one.certified.empty();
    }
    if (strengths.empty()) return;
    const bool same = std::all_of(strengths.begin(), strengths.end(),
                                  [&](const auto& one) { return one == strengths.front(); });
    if (same) out_.value.strength = strengths.front();
    out_.value.certified = certified;
}

/// "CI 15850:1" needs no quotes: a colon between digits belongs to it.
std::string number_words(const std::string& name) {
    const bool plain = std::all_of(name.begin(), name.end(), [](char sign) {
        return (sign >= '0' && sign <= '9') || sign == 'C' || sign == 'I' || sign == ' ' ||
               sign == ':';
    });
    return plain ? name : name_words(name);
}

/// A number at its end would be taken for part of its share.
std::string part_name(const Called& name) {
    const std::size_t last = name.name.rfind(' ') + 1;
    const bool number = name.name[last] >= '0' && name.name[last] <= '9' && last > 0;
    return number ? '"' + name.name + '"' : name_words(name.name);
}

std::string range_words(const Extent& range) {
    const std::string least = exact_share(range.least);
    return range.open() ? fmt::format("{} to {}", least, exact_share(range.most)) : least;
}

std::string list_of(const std::vector<Told>& all) {
    std::vector<std::string> parts;
    for (const Told& told : all)
        parts.push_back(fmt::format("{} {}", part_name(told.name), range_words(told.range)));
    return fmt::format("{}", fmt::join(parts, ", "));
}

}  // namespace

Extent told_range(const Extent& truth) {
    if (truth.most == Share()) return truth;
    Extent best{Share(), share(1)};
    for (const auto& [least, most] : ranges) {
        const Extent range{tenths(least), tenths(most)};
        if (range.least <= truth.least && truth.most <= range.most &&
            range.most - range.least < best.most - best.least)
            best = range;
    }
    if (!(best.least == Share() && best.most == share(1))) return best;
    for (const auto& [least, most] : ranges) {
        if (tenths(least) <= truth.least) best.least = std::max(best.least, tenths(least));
        if (tenths(most) >= truth.most) best.most = std::min(best.most, tenths(most));
    }
    return best;
}

Extent narrowed(const Told& told) {
    const Share middle = (told.range.least + told.range.most) / Exact(2);
    if (told.truth.most <= middle) return {told.range.least, middle};
    if (middle <= told.truth.least) return {middle, told.range.most};
    return told.range;
}

Outcome<Seal> seal(const Formulary& formulary, const Names& names, IngredientId blend) {
    return Sealer(formulary, names, blend)();
}

std::string sealed_block(const Formulary& formulary, const Seal& seal) {
    const Ingredient& blend = formulary.ingredients[seal.id];
    std::string out = fmt::format("material {}\n", name_words(blend.name));
    const auto line = [&](std::string_view word, const std::string& rest) {
        out += fmt::format("    {}  {}\n", word, rest);
    };
    if (blend.role != no_name && !seal.keeps_role)
        line("role", name_words(formulary.role_names[blend.role]));
    line("label", list_of(seal.label));
    std::vector<std::string> numbers;
    for (const Called& index : seal.indices) numbers.push_back(number_words(index.name));
    if (!numbers.empty()) {
        std::string rest = fmt::format("{}", fmt::join(numbers, ", "));
        if (seal.strength) rest += ", strength " + exact_share(*seal.strength);
        line("colourant", rest);
    }
    if (!seal.contains.empty()) line("contains", list_of(seal.contains));
    if (seal.certified) line("certified", "lots kept by its maker");
    if (blend.density && !seal.keeps_density)
        line("density", density_words(*blend.density, formulary.tolerance(seal.id).density));
    if (blend.bulk && !seal.keeps_bulk)
        line("bulk", density_words(*blend.bulk, formulary.tolerance(seal.id).bulk));
    if (seal.powder || seal.flammable)
        line("hazard", seal.powder ? seal.flammable ? "powder, flammable" : "powder" : "flammable");
    line("note", "Sealed by its maker: weigh it as one.");
    return out;
}

}  // namespace levigate::sharing
