#include "interpreter/rules/declaration.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "interpreter/formulary/say.hpp"
#include "interpreter/rules/parts.hpp"

namespace levigate {
namespace {

template <typename T>
void add_once(std::vector<T>& to, const T& one) {
    if (std::find(to.begin(), to.end(), one) == to.end()) to.push_back(one);
}

/// "ci 77491"
bool is_number(std::string_view folded) {
    return folded.starts_with("ci ") && folded.size() > 3 && folded[3] >= '0' && folded[3] <= '9';
}

/// The words that may stand for a mix of many: 21 CFR 701.3(a), and in the EU parfum and aroma.
bool is_collective(std::string_view folded) {
    for (const std::string_view word :
         {"aroma", "flavor", "flavour", "fragrance", "parfum", "perfume"})
        if (folded == word) return true;
    return false;
}

const Called* number_of(const Names& names, const Rule& rule) {
    for (const Called& what : rule.covers)
        if (is_number(names.folded(what.sym))) return &what;
    return nullptr;
}

/// A rule that only limits a substance or wants it named is no rule of a colourant.
bool speaks_of_colour(const Names& names, const Rule& rule) {
    return rule.lips != Rule::Lips::silent && rule.lips != Rule::Lips::filler &&
           (!rule.label.empty() || number_of(names, rule));
}

Listed& seat(std::vector<Listed>& list, const Called& name, bool colours) {
    for (Listed& one : list)
        if (one.name.sym == name.sym && one.colours() == colours) return one;
    list.push_back({colours ? Listed::Group::colourant : Listed::Group::main, name, {}, {}, {}});
    return list.back();
}

std::string names_of(const Formulary& formulary, const std::vector<IngredientId>& ids) {
    std::vector<std::string> out;
    for (const IngredientId id : ids) out.push_back(formulary.name(id));
    return list_words(out, 20);
}

}  // namespace

bool in_minor_group(const Region& region, const Share& size) {
    return region.minor_below ? size < region.minor : size <= region.minor;
}

bool order_known(const Region& region, const Listed& a, const Listed& b) {
    return a.most <= b.least || b.most <= a.least ||
           (in_minor_group(region, a.most) && in_minor_group(region, b.most));
}

Declarer::Declarer(const Formulary& formulary, const Names& names, const Region& region)
    : formulary_(formulary), names_(names), region_(region),
      book_(formulary, names, region.name.sym), known_(formulary.ingredients.size()) {
    for (std::uint32_t id = 0; id < formulary.rules.size(); ++id) {
        const Rule& rule = formulary.rules[id];
        if (rule.region.sym != region.name.sym) continue;
        if (speaks_of_colour(names, rule)) colour_.push_back(id);
        if (rule.lips == Rule::Lips::filler) filler_.push_back(id);
        if (rule.named_above && !rule.covers.empty())
            to_be_named_.push_back(rule.covers.front().name);
    }
}

// ---- What a material brings --------------------------------------------------------------------

std::uint32_t Declarer::rule_of(const std::vector<std::uint32_t>& rules, Sym what) const {
    for (const std::uint32_t id : rules)
        if (covers(formulary_.rules[id], what)) return id;
    for (const std::uint32_t id : rules)
        if (labelled(names_, formulary_.rules[id], what)) return id;
    return nothing;
}

/// The region's own, spelt as the material spells it. A lake stays one: by the whole name of the
/// part where that goes on from the region's, as in `Red 7 Calcium Lake`.
Called Declarer::listing_name(const Rule& rule, const MaterialPart& part) const {
    if (rule.label.empty() || part.name.sym == rule.label_sym) return part.name;
    Called own{rule.label, rule.label_sym};
    if (!is_lake(names_, part.plain) || is_lake(names_, own.sym)) return own;
    if (goes_by_label(names_, rule, part.plain)) return part.name;
    own.name += " Lake";
    own.sym = names_.find(own.name);
    return own;
}

/// By number: that of the region's own label (one for a dye and its salts), else the one written.
Called Declarer::name_by(const Rule& rule, const MaterialPart& part, const Called* index) const {
    const Called own{rule.label, rule.label_sym};
    if (!region_.by_number) return listing_name(rule, part);
    if (!rule.label.empty() && is_number(names_.folded(rule.label_sym))) return own;
    if (index && is_number(names_.folded(index->sym))) return *index;
    if (const Called* number = number_of(names_, rule)) return *number;
    return rule.label.empty() ? part.name : own;
}

/// It colours, and no rule of the region knows by what: that is an error elsewhere, and in the list
/// it stands where colourants do.
bool Declarer::of_unknown_colour(const MaterialPart& part) const {
    return is_number(names_.folded(part.name.sym)) ||
           std::any_of(part.indices.begin(), part.indices.end(), [this](const Called& index) {
               return rule_of(filler_, index.sym) == nothing;
           });
}

void Declarer::enter(const MaterialPart& part, const Share& least, const Share& most,
                     Known& out) const {
    std::vector<Entry> entries;
    const auto add = [&](const Called& name, bool colours, std::uint32_t rule) {
        const auto same = [&](const Entry& one) { return one.name.sym == name.sym; };
        if (std::none_of(entries.begin(), entries.end(), same))
            entries.push_back({name, colours, least, most, rule});
    };
    for (const Called& index : part.indices)
        if (const std::uint32_t id = rule_of(colour_, index.sym); id != nothing)
            add(name_by(formulary_.rules[id], part, &index), true, id);
    if (entries.empty())
        if (const std::uint32_t id = rule_of(colour_, part.name.sym); id != nothing)
            add(name_by(formulary_.rules[id], part, nullptr), true, id);
    if (entries.empty()) {
        const std::uint32_t id =
            is_number(names_.folded(part.name.sym)) ? rule_of(filler_, part.name.sym) : nothing;
        const bool renamed = id != nothing && !formulary_.rules[id].label.empty();
        add(renamed ? Called{formulary_.rules[id].label, formulary_.rules[id].label_sym}
                    : part.name,
            id == nothing && of_unknown_colour(part), id);
    }
    // Of several colours in one part nothing tells how much is which.
    if (entries.size() > 1)
        for (Entry& entry : entries) entry.least = Share();
    out.entries.insert(out.entries.end(), entries.begin(), entries.end());
}

Declarer::Known Declarer::reckon(const Material& material) const {
    Known out;
    const MaterialParts parts = parts_of(formulary_, names_, material);
    if (parts.parts.empty()) return out;
    Extent given;
    bool open = false;
    for (const MaterialPart& part : parts.parts) {
        if (part.share) given.least += part.share->least;
        if (part.share) given.most += part.share->most;
        open = open || !part.share;
    }
    out.over = open ? !(given.least < share(1)) : given.least > share(1);
    if (!out.over && !open && given.most < share(1)) out.off = given.most;
    for (const MaterialPart& part : parts.parts) {
        if (part.share && part.share->most == Share()) continue;
        const Extent size = part.share.value_or(Extent{Share(), share(1) - given.least});
        enter(part, size.least, size.most, out);
    }
    for (const Called& index : parts.loose)
        if (rule_of(colour_, index.sym) != nothing) out.homeless.push_back(index);
    return out;
}

const Declarer::Known& Declarer::known(IngredientId id) {
    std::optional<Known>& place = known_[id];
    if (!place) place = reckon(formulary_.materials[formulary_.ingredients[id].index]);
    return *place;
}

// ---- The list ----------------------------------------------------------------------------------

Declaration Declarer::declare(const Product& product) {
    Declaration out;
    refuse_unknown(product, out);
    if (out.lost || !out.refused.empty()) return out;
    add_up(product, out);
    add_named(product, out);
    put_in_order(out);
    refuse_open(product, out);
    return out;
}

/// Materials whose label is missing, or doesn't say what is in them.
void Declarer::refuse_unknown(const Product& product, Declaration& out) {
    std::vector<IngredientId> missing;
    Finding finding{Code::label_missing, {}, formulary_.shades[product.shade].span};
    for (const ProductMaterial& one : product.materials) {
        if (one.share == Share()) continue;
        // A line of its block can't be read; that is said.
        if (formulary_.ingredients[one.what].damaged) {
            out.lost = true;
            continue;
        }
        refuse_material(one.what, out);
        if (!known(one.what).entries.empty()) continue;
        missing.push_back(one.what);
        if (finding.notes.size() < 6)
            finding.notes.push_back({formulary_.ingredients[one.what].span, "no label"});
    }
    if (missing.empty()) return;
    finding.message =
        fmt::format("{} gets no ingredient list: nothing says what {} {} called in one.",
                    title_of(formulary_, product), names_of(formulary_, missing),
                    missing.size() == 1 ? "is" : "are");
    finding.advice = fmt::format("Add a line such as `label Mica` to a block `material {}`.",
                                 formulary_.name(missing.front()));
    out.refused.push_back(std::move(finding));
}

/// What is the same in all products that hold it.
void Declarer::refuse_material(IngredientId id, Declaration& out) {
    const Known& material = known(id);
    const Ingredient& ingredient = formulary_.ingredients[id];
    const auto refuse = [&](Code code, std::string message, Span span, std::string advice) {
        out.refused.push_back({code, std::move(message), span, std::move(advice)});
    };
    if (material.over) out.lost = true;
    if (material.off)
        refuse(Code::label_shares,
               fmt::format("What the label of {} names comes to {}, and an ingredient list must "
                           "name all of it.",
                           ingredient.name, percent_words(*material.off)),
               ingredient.span,
               "Write all its parts, with shares that come to 100 %; one of them may stand "
               "without.");
    for (const Called& index : material.homeless)
        refuse(
            Code::label_undecided,
            fmt::format("{} colours {}, and nothing tells which part of its label that is.",
                        index.name, ingredient.name),
            formulary_.materials[ingredient.index].colourant_span,
            fmt::format("Write that part by its number: `label Mica 60 %, {} 40 %`.", index.name));
    // Some other region calls it a colourant, so that here too it may be one.
    for (const Called& part : book_.of(id).unnumbered)
        for (const Entry& entry : material.entries)
            if (entry.name.sym == part.sym && !entry.colours)
                refuse(Code::label_undecided,
                       fmt::format("{} in {} may be a colourant in {}, and has no colour index "
                                   "number to be listed by.",
                                   part.name, ingredient.name, region_.title),
                       ingredient.span,
                       fmt::format("Add a line such as `colourant CI 77491` to its block. If it "
                                   "doesn't colour: a rule of yours, `rule {} NAME`, with `covers "
                                   "{}` and `lips filler`.",
                                   region_.name.name, part.name));
}

void Declarer::add_up(const Product& product, Declaration& out) {
    for (const ProductMaterial& one : product.materials) {
        if (one.share == Share()) continue;
        for (const Entry& entry : known(one.what).entries) {
            Listed& listed = seat(out.list, entry.name, entry.colours);
            listed.least += one.share * entry.least;
            listed.most += one.share * entry.most;
            add_once(listed.from, one.what);
            if (entry.rule != nothing) add_once(out.rules, entry.rule);
        }
    }
}

/// How much the product holds of each substance that must be named above a share.
std::vector<Declarer::NamedSum> Declarer::sum_named(const Product& product, Declaration& out) {
    std::vector<NamedSum> sums;
    for (const ProductMaterial& one : product.materials) {
        if (one.share == Share()) continue;
        const Claims& claims = book_.of(one.what);
        for (const Claim& claim : claims.rules) {
            if (!formulary_.rules[claim.rule].named_above) continue;
            auto sum = std::find_if(sums.begin(), sums.end(), [&](const NamedSum& other) {
                return other.rule == claim.rule;
            });
            if (sum == sums.end()) sum = sums.insert(sum, {claim.rule, {}, {}, {}});
            sum->least += one.share * claim.least;
            sum->most += one.share * claim.part;
            sum->from.push_back(one.what);
        }
        ask_about(one.what, claims, out);
    }
    return sums;
}

/// Whatever brings them: an aroma stays an aroma, and what it holds too much of stands beside it.
void Declarer::add_named(const Product& product, Declaration& out) {
    for (NamedSum& sum : sum_named(product, out)) {
        const Rule& rule = formulary_.rules[sum.rule];
        if (!(sum.most > *rule.named_above)) continue;
        if (!(sum.least > *rule.named_above))
            out.undecided.push_back(fmt::format(
                "{} must be named above {}, and is named here; how much of it is in {} is not "
                "known.",
                rule.covers.front().name, exact_percent_words(*rule.named_above),
                names_of(formulary_, sum.from)));
        add_once(out.rules, sum.rule);
        const auto there = std::find_if(out.list.begin(), out.list.end(), [&](const Listed& one) {
            return covers(rule, one.name.sym) || labelled(names_, rule, one.name.sym);
        });
        if (there == out.list.end()) {
            const Called name =
                rule.label.empty() ? rule.covers.front() : Called{rule.label, rule.label_sym};
            out.list.push_back(
                {Listed::Group::named, name, sum.least, sum.most, std::move(sum.from)});
            continue;
        }
        there->least = std::max(there->least, sum.least);
        there->most = std::max(there->most, sum.most);
        for (const IngredientId what : sum.from) add_once(there->from, what);
    }
}

/// What an aroma holds only its supplier knows. Where a rule asks for it by a role, check says so.
void Declarer::ask_about(IngredientId id, const Claims& claims, Declaration& out) const {
    const Ingredient& ingredient = formulary_.ingredients[id];
    const Material& material = formulary_.materials[ingredient.index];
    const auto scents = [&](Sym word) { return is_collective(names_.folded(word)); };
    const bool scented = scents(ingredient.role) ||
                         std::any_of(material.label.begin(), material.label.end(),
                                     [&](const LabelPart& part) { return scents(part.sym); });
    // One that is such a substance itself needs no further word.
    const bool answered =
        !material.contains.empty() ||
        std::any_of(claims.rules.begin(), claims.rules.end(), [&](const Claim& claim) {
            return formulary_.rules[claim.rule].named_above.has_value();
        });
    if (!scented || answered || to_be_named_.empty()) return;
    out.undecided.push_back(
        fmt::format("Nothing says what {} contains of substances that {} wants named above a "
                    "share: {}. Ask its "
                    "supplier, and write a `contains` line; 0 % where it holds none.",
                    formulary_.name(id), region_.title, list_words(to_be_named_, 4)));
}

/// Any order is allowed in the minor group and among colourants. The first is kept by weight and
/// the second by name, so that neither the order of lines nor an open share moves a name.
void Declarer::put_in_order(Declaration& out) const {
    for (Listed& one : out.list)
        if (one.group == Listed::Group::main && in_minor_group(region_, one.most))
            one.group = Listed::Group::minor;
    std::sort(out.list.begin(), out.list.end(), [&](const Listed& a, const Listed& b) {
        if (a.colours() != b.colours()) return b.colours();
        if (!a.colours()) {
            if (!(a.most == b.most)) return a.most > b.most;
            if (!(a.least == b.least)) return a.least > b.least;
        }
        return names_.folded(a.name.sym) < names_.folded(b.name.sym);
    });
}

/// An open share is no matter where no order hangs on it.
void Declarer::refuse_open(const Product& product, Declaration& out) const {
    for (const Listed& one : out.list) {
        if (one.colours() || one.least == one.most) continue;
        const std::string who = names_of(formulary_, one.from);
        const auto rival = std::find_if(out.list.begin(), out.list.end(), [&](const Listed& other) {
            return &other != &one && !other.colours() && !order_known(region_, one, other);
        });
        if (rival == out.list.end()) {
            out.undecided.push_back(fmt::format(
                "How much {} is in {} is not known; its place in the list doesn't hang on it.",
                one.name.name, who));
            continue;
        }
        out.refused.push_back(
            {Code::label_undecided,
             fmt::format("{} gets no ingredient list for {}: whether {} or {} comes first hangs on "
                         "shares that the label of {} doesn't give.",
                         title_of(formulary_, product), region_.title, one.name.name,
                         rival->name.name, who),
             formulary_.ingredients[one.from.front()].span,
             "Ask its supplier, and write a share behind each part."});
        return;
    }
}

}  // namespace levigate
