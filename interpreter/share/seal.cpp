#include "interpreter/share/seal.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "interpreter/formulary/say.hpp"
#include "interpreter/rules/book.hpp"
#include "interpreter/rules/parts.hpp"
#include "interpreter/share/bands.hpp"
#include "interpreter/share/print.hpp"

namespace levigate::sharing {

namespace {

class Sealer {
public:
    Sealer(const Formulary& formulary, const Names& names, IngredientId blend,
           const Share& within)
        : formulary_(formulary), names_(names) {
        out_.value.id = blend;
        out_.value.within = within;
        for (const auto& [id, size] : materials_of(formulary, blend)) {
            out_.value.materials.push_back(id);
            out_.value.amounts.push_back(size);
        }
    }

    Outcome<Seal> operator()() {
        for (std::size_t i = 0; i < out_.value.materials.size(); ++i) add_material(i);
        name_by_number();
        add_contents();
        add_colour();
        const std::vector<Share> ends = band_ends(out_.value.within);
        for (auto* list : {&out_.value.label, &out_.value.contains}) {
            for (Told& told : *list) told.range = range_of(ends, told);
            std::sort(list->begin(), list->end(), [&](const Told& a, const Told& b) {
                return names_.folded(a.name.sym) < names_.folded(b.name.sym);
            });
        }
        return std::move(out_);
    }

private:
    const Material& material(IngredientId id) const {
        return formulary_.materials[formulary_.ingredients[id].index];
    }
    Linear none() const { return Linear(out_.value.materials.size()); }
    Share size_of(const Linear& one) const;
    Extent truth_of(const Told& told) const;
    Extent range_of(const std::vector<Share>& ends, const Told& told) const;
    void add_material(std::size_t at);
    void add_part(const Called& name, std::size_t at, const Extent& size,
                  const std::vector<Called>& indices);
    void name_by_number();
    void add_contents();
    void add_content(const Called& what);
    Told stated_content(const Called& what) const;
    void add_colour();

    const Formulary& formulary_;
    const Names& names_;
    Outcome<Seal> out_;
};

void add_once(std::vector<Called>& to, const Called& one) {
    const auto same = [&](const Called& other) { return other.sym == one.sym; };
    if (std::none_of(to.begin(), to.end(), same)) to.push_back(one);
}

void add_once(std::vector<Linear>& to, const Linear& one) {
    if (std::find(to.begin(), to.end(), one) == to.end()) to.push_back(one);
}

Share Sealer::size_of(const Linear& one) const {
    Share out;
    for (std::size_t i = 0; i < one.size(); ++i) out += one[i] * out_.value.amounts[i];
    return out;
}

Extent Sealer::truth_of(const Told& told) const {
    Extent out{size_of(told.least.front()), size_of(told.most.front())};
    for (const Linear& one : told.least) out.least = std::min(out.least, size_of(one));
    for (const Linear& one : told.most) out.most = std::max(out.most, size_of(one));
    return out;
}

/// The same whatever the amounts are.
bool constant(const std::vector<Linear>& all) {
    return all.size() == 1 && std::all_of(all[0].begin(), all[0].end(), [&](const Exact& one) {
               return one == all[0].front();
           });
}

/// A share that hangs on no amount is told outright: 0 % where a blend is free of something.
Extent Sealer::range_of(const std::vector<Share>& ends, const Told& told) const {
    return {constant(told.least) ? told.truth.least : band_below(ends, told.truth.least),
            constant(told.most) ? told.truth.most : band_above(ends, told.truth.most)};
}

void Sealer::add_part(const Called& name, std::size_t at, const Extent& size,
                      const std::vector<Called>& indices) {
    auto& label = out_.value.label;
    auto seat = std::find_if(label.begin(), label.end(),
                             [&](const Told& told) { return told.name.sym == name.sym; });
    if (seat == label.end())
        seat = label.insert(seat, {name, {none()}, {none()}, {}, {}, {}});
    seat->least[0][at] += size.least.value();
    seat->most[0][at] += size.most.value();
    seat->truth = truth_of(*seat);
    for (const Called& index : indices) {
        add_once(seat->indices, index);
        add_once(out_.value.indices, index);
    }
}

void Sealer::add_material(std::size_t at) {
    const IngredientId id = out_.value.materials[at];
    const Material& one = material(id);
    out_.value.powder = out_.value.powder || one.powder;
    out_.value.flammable = out_.value.flammable || one.flammable;
    const MaterialParts parts = parts_of(formulary_, names_, one);
    Share given;
    for (const MaterialPart& part : parts.parts)
        if (part.share) given += part.share->least;
    for (const MaterialPart& part : parts.parts)
        add_part(part.name, at, part.share.value_or(Extent{Share(), share(1) - given}),
                 part.indices);
    if (!parts.parts.empty()) {
        for (const Called& index : parts.loose) add_once(out_.value.indices, index);
        return;
    }
    // Without a label a material is its colour; of several numbers none knows how much is which.
    const Share least = share(parts.loose.size() == 1 ? 1 : 0);
    for (const Called& index : parts.loose) add_part(index, at, {least, share(1)}, {index});
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

/// By what its materials say themselves.
Told Sealer::stated_content(const Called& what) const {
    Told out{what, {none()}, {none()}, {}, {}, {}};
    for (std::size_t i = 0; i < out_.value.materials.size(); ++i)
        for (const LabelPart& part : material(out_.value.materials[i]).contains)
            if (part.sym == what.sym && part.share) {
                out.least[0][i] += part.share->least.value();
                out.most[0][i] += part.share->most.value();
            }
    return out;
}

/// How much of a substance is in it, by every rule that covers it. A material that a rule asks
/// about and that doesn't say may be all of it.
void Sealer::add_content(const Called& what) {
    for (const Told& told : out_.value.contains)
        if (told.name.sym == what.sym) return;
    Told told{what, {}, {}, {}, {}, {}};
    const Sym role = formulary_.ingredients[out_.value.id].role;
    bool unknown = false, asked = true, claimed = false;
    for (std::uint32_t rule = 0; rule < formulary_.rules.size(); ++rule) {
        const auto& covers = formulary_.rules[rule].covers;
        if (std::none_of(covers.begin(), covers.end(),
                         [&](const Called& one) { return one.sym == what.sym; }))
            continue;
        RuleBook book(formulary_, names_, formulary_.rules[rule].region.sym);
        Linear least = none(), most = none();
        for (std::size_t i = 0; i < out_.value.materials.size(); ++i) {
            const Claims& claims = book.of(out_.value.materials[i]);
            const bool unstated = std::find(claims.unstated.begin(), claims.unstated.end(), rule) !=
                                  claims.unstated.end();
            if (unstated) {
                most[i] += 1;
                unknown = true;
                asked = asked && asks(formulary_.rules[rule], role);
                continue;
            }
            for (const Claim& claim : claims.rules) {
                if (claim.rule != rule) continue;
                least[i] += claim.least.value();
                most[i] += claim.part.value();
                claimed = claimed || !(claim.least == Share());
            }
        }
        add_once(told.least, least);
        add_once(told.most, most);
    }
    if (told.least.empty()) told = stated_content(what);
    told.truth = truth_of(told);
    told.asked_anew = unknown && asked && !claimed;
    out_.value.contains.push_back(std::move(told));
}

void Sealer::add_contents() {
    for (const IngredientId id : out_.value.materials)
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
        for (const IngredientId id : out_.value.materials) {
            const auto& unstated = book.of(id).unstated;
            asked = asked || std::find(unstated.begin(), unstated.end(), rule) != unstated.end();
        }
        if (asked) add_content(one.covers.front());
    }
}

void Sealer::add_colour() {
    std::vector<std::optional<Share>> strengths;
    for (const IngredientId id : out_.value.materials)
        if (!material(id).colour_indices.empty()) strengths.push_back(material(id).strength);
    const bool same = std::all_of(strengths.begin(), strengths.end(),
                                  [&](const auto& one) { return one == strengths.front(); });
    if (!strengths.empty() && same) out_.value.strength = strengths.front();
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

std::string property(std::string_view word, const std::string& rest) {
    return fmt::format("    {}  {}\n", word, rest);
}

std::string list_of(const std::vector<Told>& all) {
    std::vector<std::string> parts;
    for (const Told& told : all)
        parts.push_back(fmt::format("{} {}", part_name(told.name), range_words(told.range)));
    return fmt::format("{}", fmt::join(parts, ", "));
}

}  // namespace

/// A walk that sees each mix once.
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

Outcome<Seal> seal(const Formulary& formulary, const Names& names, IngredientId blend,
                   std::optional<Share> within) {
    if (!within) within = formulary.ingredients[blend].within;
    return Sealer(formulary, names, blend, within.value_or(usual_within))();
}

std::string sealed_head(const Formulary& formulary, IngredientId id, const Openly& openly) {
    const Ingredient& blend = formulary.ingredients[id];
    std::string out = fmt::format("material {}\n", name_words(blend.name));
    if (blend.role != no_name && openly.role)
        out += property("role", name_words(formulary.role_names[blend.role]));
    if (blend.density && openly.density)
        out +=
            property("density", density_words(*blend.density, formulary.tolerance(id).density));
    if (blend.bulk && openly.bulk)
        out += property("bulk", density_words(*blend.bulk, formulary.tolerance(id).bulk));
    return out;
}

std::string sealed_block(const Formulary& formulary, const Seal& seal, const Openly& openly) {
    std::string out = sealed_head(formulary, seal.id, openly);
    if (!seal.label.empty()) out += property("label", list_of(seal.label));
    std::vector<std::string> numbers;
    for (const Called& index : seal.indices) numbers.push_back(number_words(index.name));
    std::sort(numbers.begin(), numbers.end());
    if (!numbers.empty()) {
        std::string rest = fmt::format("{}", fmt::join(numbers, ", "));
        if (seal.strength) rest += ", strength " + exact_share(*seal.strength);
        out += property("colourant", rest);
    }
    std::vector<Told> contains = seal.contains;
    if (openly.role)
        std::erase_if(contains, [](const Told& told) { return told.asked_anew; });
    if (!contains.empty()) out += property("contains", list_of(contains));
    if (seal.powder || seal.flammable)
        out += property("hazard", seal.powder ? seal.flammable ? "powder, flammable" : "powder"
                                              : "flammable");
    return out + property("note", "Sealed by its maker: weigh it as one.");
}

}  // namespace levigate::sharing
