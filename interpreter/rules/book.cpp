#include "interpreter/rules/book.hpp"

#include <algorithm>

namespace levigate {
namespace {

constexpr std::string_view composite_word = "composite";

bool among(const std::vector<Called>& list, Sym sym) {
    return std::any_of(list.begin(), list.end(),
                       [sym](const Called& what) { return what.sym == sym; });
}

const LabelPart* find_part(const std::vector<LabelPart>& list, Sym sym) {
    const auto found = std::find_if(list.begin(), list.end(),
                                    [sym](const LabelPart& part) { return part.sym == sym; });
    return found == list.end() ? nullptr : &*found;
}

bool excepted(const Rule& rule, const MaterialPart& part) {
    return among(rule.except, part.name.sym) ||
           std::any_of(part.indices.begin(), part.indices.end(),
                       [&](const Called& index) { return among(rule.except, index.sym); });
}

/// True where the rule is of a colourant that has a number.
bool numbered(const Names& names, const Rule& rule) {
    return std::any_of(rule.covers.begin(), rule.covers.end(), [&](const Called& what) {
        return names.folded(what.sym).starts_with("ci ");
    });
}

/// Adds up how much of a material a rule means. A part of which nobody says how much it is counts
/// as all of the material.
struct Tally {
    Extent sum;
    bool any = false, cautious = false, by_strength = false;
    void add(const std::optional<Extent>& size, const Extent& times = {share(1), share(1)}) {
        any = true;
        cautious = cautious || !size;
        sum.least += times.least * (size ? size->least : share(1));
        sum.most += times.most * (size ? size->most : share(1));
    }
    std::optional<Claim> claim(std::uint32_t rule) const {
        if (!any || as_fraction(sum.most).is_zero()) return std::nullopt;
        return Claim{rule, std::min(sum.most, share(1)), std::min(sum.least, share(1)),
                     cautious || by_strength, by_strength};
    }
};

/// By colour index numbers, each part once, a lake by its strength where the rule counts colour.
void tally_indices(const Rule& rule, const Material& material, const MaterialParts& parts,
                   Tally& tally) {
    const Share colour = rule.counts_colour ? material.strength.value_or(share(1)) : share(1);
    const auto count = [&](const std::optional<Extent>& size) {
        tally.by_strength = tally.by_strength || (rule.counts_colour && !material.strength);
        tally.add(size, {colour, colour});
    };
    for (const MaterialPart& part : parts.parts) {
        const bool covered =
            std::any_of(part.indices.begin(), part.indices.end(),
                        [&](const Called& index) { return among(rule.covers, index.sym); });
        if (covered && !excepted(rule, part)) count(part.share);
    }
    for (const Called& index : parts.loose)
        if (among(rule.covers, index.sym) && !among(rule.except, index.sym)) {
            // Without a label the material is its colour; else nothing tells its share.
            count(parts.parts.empty() ? std::optional(Extent{share(1), share(1)}) : std::nullopt);
            break;
        }
}

/// By the names of the label, and by what a part of such a name is known to hold.
void tally_parts(const Names& names, const Rule& rule, const MaterialParts& parts, Tally& tally) {
    for (const MaterialPart& part : parts.parts) {
        if (excepted(rule, part)) continue;
        // A label that is a number is how a list writes others: it calls nothing.
        const bool number = names.folded(rule.label_sym).starts_with("ci ");
        if (among(rule.covers, part.plain) || (!number && labelled(names, rule, part.plain))) {
            tally.add(part.share);
        } else if (const LabelPart* held = find_part(rule.held_in, part.plain)) {
            if (held->share) tally.add(part.share, *held->share);
        }
    }
}

/// A part holds of it, and nobody says how much: it stands in `in` without a share.
bool holds_some(const Rule& rule, const MaterialParts& parts) {
    if (!rule.limit) return false;
    return std::any_of(parts.parts.begin(), parts.parts.end(), [&](const MaterialPart& part) {
        const LabelPart* held = find_part(rule.held_in, part.plain);
        return held && !held->share;
    });
}

}  // namespace

RuleBook::RuleBook(const Formulary& formulary, const Names& names, Sym region)
    : formulary_(formulary), names_(names), composite_(no_name),
      known_(formulary.ingredients.size()) {
    for (std::uint32_t id = 0; id < formulary.rules.size(); ++id) {
        const Rule& rule = formulary.rules[id];
        if (rule.lips == Rule::Lips::filler)
            fillers_.insert(fillers_.end(), rule.covers.begin(), rule.covers.end());
        if (rule.region.sym != region) continue;
        rules_.push_back(id);
        for (const Called& what : rule.covers)
            if (names.folded(what.sym) == composite_word) composite_ = what.sym;
    }
}

std::optional<Claim> RuleBook::claim(std::uint32_t id, const Ingredient& ingredient,
                                     const Material& material, const MaterialParts& parts) const {
    const Rule& rule = formulary_.rules[id];
    if (among(rule.except, ingredient.sym)) return std::nullopt;
    Tally tally;
    // What the maker states of her material goes before what its label lets expect.
    for (const LabelPart& held : material.contains)
        if (among(rule.covers, held.sym)) tally.add(held.share);
    if (tally.any) return tally.claim(id);
    if (composite_ != no_name && among(rule.covers, composite_)) {
        const bool carried =
            std::any_of(parts.parts.begin(), parts.parts.end(), [&](const MaterialPart& part) {
                return find_part(rule.held_in, part.plain) != nullptr;
            });
        const bool coloured =
            std::any_of(parts.parts.begin(), parts.parts.end(), [&](const MaterialPart& part) {
                return !part.indices.empty() && !find_part(rule.held_in, part.plain);
            });
        if (carried && parts.parts.size() > 1 && (coloured || !parts.loose.empty()))
            return Claim{id, share(1), share(1)};
        return std::nullopt;
    }
    tally_indices(rule, material, parts, tally);
    if (!tally.any) tally_parts(names_, rule, parts, tally);
    return tally.claim(id);
}

bool RuleBook::filler(const Rule& rule) const {
    return std::any_of(rule.covers.begin(), rule.covers.end(),
                       [this](const Called& what) { return among(fillers_, what.sym); });
}

/// Without a number a region that goes by numbers would let such a part pass unseen. Where some
/// region takes it for a filler it may be just that.
std::vector<Called> RuleBook::unnumbered(const MaterialParts& parts) const {
    std::vector<Called> out;
    for (const MaterialPart& part : parts.parts) {
        if (!part.indices.empty()) continue;
        // Where the region itself goes by the name, nothing is missed.
        const bool known = std::any_of(rules_.begin(), rules_.end(), [&](std::uint32_t id) {
            const Rule& rule = formulary_.rules[id];
            return rule.lips != Rule::Lips::silent &&
                   (among(rule.covers, part.name.sym) || labelled(names_, rule, part.name.sym));
        });
        if (known) continue;
        const bool colours =
            std::any_of(formulary_.rules.begin(), formulary_.rules.end(), [&](const Rule& rule) {
                const bool called = labelled(names_, rule, part.plain) ||
                                    (among(rule.covers, part.plain) && numbered(names_, rule));
                return rule.lips != Rule::Lips::silent && called && !filler(rule);
            });
        if (colours) out.push_back(part.name);
    }
    return out;
}

Claims RuleBook::claims_of(const Ingredient& ingredient, const Material& material) const {
    Claims out;
    const MaterialParts parts = parts_of(formulary_, names_, material);
    out.unnumbered = unnumbered(parts);
    const std::vector<Called> numbers = parts.numbers();
    std::vector<bool> ruled(numbers.size());
    for (const std::uint32_t id : rules_) {
        const Rule& rule = formulary_.rules[id];
        for (std::size_t i = 0; i < ruled.size(); ++i)
            if ((rule.lips != Rule::Lips::silent || rule.damaged) &&
                among(rule.covers, numbers[i].sym))
                ruled[i] = true;
        const auto one = claim(id, ingredient, material, parts);
        if (one) out.rules.push_back(*one);
        const bool stated =
            std::any_of(material.contains.begin(), material.contains.end(),
                        [&](const LabelPart& held) { return among(rule.covers, held.sym); });
        if (stated) continue;
        const bool asked = ingredient.role != no_name && among(rule.ask_of, ingredient.role);
        if ((asked && !one) || holds_some(rule, parts)) out.unstated.push_back(id);
    }
    for (std::size_t i = 0; i < ruled.size(); ++i)
        if (!ruled[i]) out.unknown.push_back(numbers[i]);
    return out;
}

const Claims& RuleBook::of(IngredientId id) {
    std::optional<Claims>& known = known_[id];
    if (known) return *known;
    const Ingredient& ingredient = formulary_.ingredients[id];
    if (ingredient.kind != Ingredient::Kind::material) return known.emplace();
    return known.emplace(claims_of(ingredient, formulary_.materials[ingredient.index]));
}

}  // namespace levigate
