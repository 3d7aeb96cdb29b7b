#include "interpreter/rules/label.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "grammar/near.hpp"
#include "interpreter/formulary/say.hpp"
#include "interpreter/rules/lips.hpp"

namespace levigate {
namespace {

constexpr std::size_t most_refusals = 1000;  ///< more tell nobody anything

template <typename T>
void say_once(std::vector<T>& to, T one) {
    if (std::find(to.begin(), to.end(), one) == to.end()) to.push_back(std::move(one));
}

std::string variant_of(const Formulary& formulary, const Product& product) {
    return formulary.shades[product.shade].versions[product.version].variant;
}

std::string finish_of(const Formulary& formulary, const Product& product) {
    if (product.finishing == nothing) return {};
    return formulary.finishes[formulary.finishings[product.finishing].finish].name;
}

bool has_rules(const Formulary& formulary, Sym region) {
    return std::any_of(formulary.rules.begin(), formulary.rules.end(),
                       [region](const Rule& rule) { return rule.region.sym == region; });
}

std::string join(const std::vector<Listed>& list, bool (*wanted)(const Listed&)) {
    std::vector<std::string> names;
    for (const Listed& one : list)
        if (wanted(one)) names.push_back(one.name.name);
    return fmt::format("{}", fmt::join(names, ", "));
}

}  // namespace

std::string list_text(const Region& region, const std::vector<Listed>& list) {
    const auto sometimes = [](const Listed& one) {
        return one.group == Listed::Group::may_contain;
    };
    std::string out = "Ingredients: " + join(list, [](const Listed& one) {
                          return one.group != Listed::Group::may_contain;
                      });
    const std::string some = join(list, sometimes);
    if (some.empty()) return out;
    const char first = region.range_before.empty() ? '[' : region.range_before.front();
    const bool sentence = (first | 0x20) >= 'a' && (first | 0x20) <= 'z';
    return out + (sentence ? ". " : " ") + region.range_before + some + region.range_after;
}

Labeller::Labeller(const Formulary& formulary, const Names& names, LabelOrder order)
    : formulary_(formulary), names_(names), order_(std::move(order)) {
    for (const Material& material : formulary.materials)
        own_label_ = own_label_ || (!material.library && !material.label.empty());
}

void Labeller::add(const Product& product) {
    if (!order_.range) return make_group({product});
    const Version& version = formulary_.shades[product.shade].versions[product.version];
    const Sym finish =
        product.finishing == nothing
            ? no_name
            : formulary_.finishes[formulary_.finishings[product.finishing].finish].sym;
    const auto [seat, fresh] = seats_.emplace(std::pair{version.sym, finish}, groups_.size());
    if (fresh) groups_.emplace_back();
    groups_[seat->second].push_back(product);
}

BoxLabels Labeller::make() {
    for (const Products& products : groups_) make_group(products);
    return std::move(out_);
}

/// True where somebody works on labels: a person's own material has one, or this product's.
bool Labeller::any_label(const Product& product) const {
    return own_label_ || std::any_of(product.materials.begin(), product.materials.end(),
                                     [&](const ProductMaterial& one) {
                                         const Ingredient& what =
                                             formulary_.ingredients[one.what];
                                         return what.kind == Ingredient::Kind::material &&
                                                !formulary_.materials[what.index].label.empty();
                                     });
}

std::vector<Called> Labeller::markets_of(const Shade& shade, bool& named) const {
    named = true;
    if (!order_.markets.empty()) return order_.markets;
    if (!shade.markets.empty()) return shade.markets;
    if (!formulary_.markets.empty()) return formulary_.markets;
    named = false;
    std::vector<Called> all;
    for (const Region& region : formulary_.regions)
        if (has_rules(formulary_, region.name.sym)) all.push_back(region.name);
    std::sort(all.begin(), all.end(),
              [](const Called& a, const Called& b) { return a.name < b.name; });
    return all;
}

void Labeller::make_group(const Products& products) {
    std::vector<Called> markets;
    std::map<Sym, Products> sold;
    bool named = false;
    for (const Product& product : products)
        for (const Called& market : markets_of(formulary_.shades[product.shade], named)) {
            Products& there = sold[market.sym];
            if (there.empty()) markets.push_back(market);
            if (there.empty() || there.back().shade != product.shade) there.push_back(product);
        }
    for (const Called& market : markets) make_in(market, sold[market.sym]);
}

/// None where the region or its way of writing is not known; said.
Declarer* Labeller::declarer_of(const Called& market, const Shade& shade) {
    if (const auto found = declarers_.find(market.sym); found != declarers_.end())
        return &found->second;
    const auto region = std::find_if(formulary_.regions.begin(), formulary_.regions.end(),
                                     [&](const Region& one) { return one.name.sym == market.sym; });
    const bool there = region != formulary_.regions.end();
    if (there && region->damaged) return nullptr;
    const bool ruled = has_rules(formulary_, market.sym);
    if (there && ruled)
        return &declarers_.try_emplace(market.sym, formulary_, names_, *region).first->second;
    Nearest nearest(names_.folded(market.sym));
    for (std::size_t i = 0; i < formulary_.regions.size(); ++i)
        nearest.offer(names_.folded(formulary_.regions[i].name.sym), i);
    std::string meant;
    for (const std::size_t i : there ? std::vector<std::size_t>() : nearest.best(1))
        meant = fmt::format("Is {} meant? If not, w", formulary_.regions[i].name.name);
    Finding finding = {
        Code::market_unknown,
        there ? fmt::format("No rules are known here for {}, and without them nothing says what "
                            "colours there.",
                            market.name)
              : fmt::format("Nothing says how an ingredient list is written in {}.", market.name),
        shade.span,
        fmt::format("{}rite {}{}{}.", meant.empty() ? "W" : meant,
                    ruled ? "" : fmt::format("its rules, each a block `rule {} NAME`", market.name),
                    ruled || there ? "" : ", and ",
                    there ? "" : fmt::format("a block `region {}`", market.name))};
    const auto said = [&](const Finding& other) { return other.message == finding.message; };
    if (std::none_of(out_.findings.begin(), out_.findings.end(), said))
        out_.findings.push_back(std::move(finding));
    return nullptr;
}

void Labeller::make_in(const Called& market, const Products& products) {
    Declarer* declarer = declarer_of(market, formulary_.shades[products.front().shade]);
    if (!declarer || out_.findings.size() >= most_refusals) return;
    std::vector<RangeMember> members;
    for (const Product& product : products) {
        Declaration declaration = declarer->declare(product);
        bool named = false;
        markets_of(formulary_.shades[product.shade], named);
        for (Finding& finding : declaration.refused) {
            // Nobody says that it is sold: its labels may be to come.
            if (finding.code == Code::label_missing && !named && any_label(product))
                finding.severity = Severity::advice;
            out_.findings.push_back(std::move(finding));
        }
        if (!declaration.lost && declaration.refused.empty())
            members.push_back({title_of(formulary_, product), std::move(declaration)});
    }
    if (members.size() < products.size() || order_.refusals_only) return;
    if (members.size() > 1) return make_range(*declarer, products, std::move(members));
    put(declarer->region(), products, std::move(members.front().declaration), {});
}

/// Where the shades differ in more than colourants those that don't keep one list, and all are told
/// why.
void Labeller::make_range(Declarer& declarer, const Products& products,
                          std::vector<RangeMember> members) {
    const Region& region = declarer.region();
    RangeList range = list_of_range(region, names_, members);
    if (range.apart.empty()) return put(region, products, std::move(range.declaration), {});
    const std::string warning = fmt::format(
        "Not all of these shades can share one list, since only colourants may differ: {}.",
        range.apart);
    for (const std::vector<std::size_t>& likes : alike_but_for_colour(members)) {
        Products theirs;
        std::vector<RangeMember> group;
        for (const std::size_t i : likes) {
            theirs.push_back(products[i]);
            group.push_back(members[i]);
        }
        RangeList one = list_of_range(region, names_, group);
        if (one.apart.empty()) {
            put(region, theirs, std::move(one.declaration), warning);
            continue;
        }
        for (std::size_t i = 0; i < theirs.size(); ++i)
            put(region, {theirs[i]}, std::move(group[i].declaration), warning);
    }
}

void Labeller::put(const Region& region, const Products& products, Declaration declaration,
                   std::string warning) {
    BoxLabel out;
    LipJudge judge(formulary_, names_, {region.name});
    for (const Product& product : products) {
        out.shades.push_back(formulary_.shades[product.shade].name);
        judge.add(product);
    }
    out.variant = variant_of(formulary_, products.front());
    out.finish = finish_of(formulary_, products.front());
    out.title = list_words(out.shades);
    for (const std::string& word : {out.variant, out.finish})
        if (!word.empty()) out.title += " / " + word;
    out.region = &region;
    out.text = list_text(region, declaration.list);
    if (!warning.empty()) out.warnings.push_back(std::move(warning));
    for (const std::string& words : declaration.undecided)
        out.warnings.push_back("Can't be decided from the data: " + words);
    for (Finding& finding : judge.findings())
        if (finding.severity == Severity::error)
            out.findings.push_back(std::move(finding));
        else if (finding.code == Code::lips_ask || finding.code == Code::content_unstated)
            say_once(out.warnings, finding.message);
    add_conditions(declaration, out);
    add_contents(products, out);
    out.list = std::move(declaration.list);
    out_.labels.push_back(std::move(out));
}

void Labeller::add_contents(const Products& products, BoxLabel& out) const {
    for (const Product& product : products)
        for (NetContent& content : net_contents(formulary_, *out.region, product, order_.batch)) {
            if (!content.mass) {
                std::vector<std::string> lacking;
                for (const IngredientId what : product.lacking)
                    lacking.push_back(formulary_.name(what));
                say_once(out.warnings,
                         fmt::format("What one {} of {} weighs is not known: no density is known "
                                     "for {}.",
                                     content.container, title_of(formulary_, product),
                                     lacking.empty() ? "all of it" : list_words(lacking)));
            }
            if (products.size() > 1) content.shade = formulary_.shades[product.shade].name;
            out.contents.push_back(std::move(content));
        }
}

void Labeller::add_conditions(const Declaration& declaration, BoxLabel& out) const {
    const auto add = [&](const std::string& words) { say_once(out.conditions, words); };
    const auto add_unconfirmed = [&](const std::string& words) {
        const std::size_t before = out.conditions.size();
        add(words);
        if (out.conditions.size() > before) out.unconfirmed.push_back(before);
    };
    for (const std::uint32_t id : declaration.rules) {
        const Rule& rule = formulary_.rules[id];
        const std::string whose = fmt::format("{} {}", rule.region.name, rule.name);
        for (const std::string& condition : rule.conditions)
            add(fmt::format("{}: {} ({})", whose, condition, source_words(rule)));
        if (!rule.unconfirmed.empty())
            add_unconfirmed(fmt::format("{}: not confirmed. {} ({})", whose, rule.unconfirmed,
                                        source_words(rule)));
    }
    for (const std::string& condition : out.region->conditions) add(condition);
    if (!out.region->unconfirmed.empty())
        add_unconfirmed("Not confirmed: " + out.region->unconfirmed);
    if (!out.region->source.empty()) add("How the list is written: " + out.region->source + ".");
}

}  // namespace levigate
