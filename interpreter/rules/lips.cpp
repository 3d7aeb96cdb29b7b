#include "interpreter/rules/lips.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "grammar/near.hpp"
#include "interpreter/formulary/say.hpp"

namespace levigate {
namespace {

/// A share with all the places that tell it from a limit: "3.000003 %".
std::string exact_percent(const Share& share) {
    return (as_fraction(share) * 100).decimal(12) + " %";
}

}  // namespace

LipJudge::LipJudge(const Formulary& formulary, const Names& names, std::vector<Called> markets)
    : formulary_(formulary), names_(names), asked_(std::move(markets)) {
    for (const Rule& rule : formulary.rules) {
        const auto same = [&](const Called& region) { return region.sym == rule.region.sym; };
        if (std::none_of(all_.begin(), all_.end(), same)) all_.push_back(rule.region);
    }
    std::sort(all_.begin(), all_.end(),
              [](const Called& a, const Called& b) { return a.name < b.name; });
}

const std::vector<Called>& LipJudge::markets_of(const Shade& shade, bool& chosen) const {
    chosen = true;
    if (!asked_.empty()) return asked_;
    if (!shade.markets.empty()) return shade.markets;
    if (!formulary_.markets.empty()) return formulary_.markets;
    chosen = false;
    return all_;
}

LipJudge::Regional& LipJudge::regional(const Called& region, bool chosen) {
    for (Regional& known : regionals_)
        if (known.name.sym == region.sym && known.chosen == chosen) return known;
    regionals_.push_back({region, chosen, RuleBook(formulary_, names_, region.sym),
                          std::vector<Told>(formulary_.ingredients.size())});
    return regionals_.back();
}

std::size_t LipJudge::place(const Key& key, const Finding& finding) {
    const auto [place, fresh] = places_.emplace(key, said_.size());
    if (fresh) said_.push_back({finding, {}, Exact()});
    return place->second;
}

void LipJudge::show(std::size_t said, const Product& product) {
    std::vector<Shown>& shown = said_[said].shown;
    if (shown.empty() || shown.back().shade != product.shade)
        shown.push_back({product.shade, product.version, product.finishing, first_});
}

const LipJudge::Told& LipJudge::told(Regional& regional, const ProductMaterial& one) {
    Told& told = regional.told[one.what];
    if (told.known) return told;
    told.known = true;
    const Claims& claims = regional.book.of(one.what);
    for (Remark& remark : remarks_on(formulary_, names_, regional.name, one.what, claims)) {
        if (!regional.chosen && remark.finding.severity != Severity::error) continue;
        remark.finding.span = one.span;
        told.said.push_back(place(
            {remark.finding.code, regional.name.sym, remark.rule, remark.material, remark.index},
            remark.finding));
    }
    for (const Claim& claim : claims.rules) {
        const auto& limit = formulary_.rules[claim.rule].limit;
        if (!limit) continue;
        told.limits.push_back(claim);
        if (claim.part > *limit) told.heavy.push_back(claim.rule);
    }
    return told;
}

void LipJudge::add(const Product& product) {
    first_ = product.shade != last_;
    last_ = product.shade;
    bool chosen = false;
    for (const Called& region : markets_of(formulary_.shades[product.shade], chosen)) {
        Regional& rules = regional(region, chosen);
        if (rules.book.known())
            judge(product, rules);
        else
            say_unknown(product, region);
    }
}

void LipJudge::say_unknown(const Product& product, const Called& region) {
    std::vector<std::string> known;
    Nearest nearest(names_.folded(region.sym));
    for (const Called& one : all_) {
        nearest.offer(names_.folded(one.sym), known.size());
        known.push_back(one.name);
    }
    std::string meant;
    for (const std::size_t id : nearest.best(1)) meant = fmt::format("Is {} meant? ", known[id]);
    const Finding finding{
        Code::market_unknown,
        fmt::format("No rules are known here for {}, and what is not known is not let pass.",
                    region.name),
        formulary_.shades[product.shade].span,
        fmt::format("{}Known are: {}. For another region write its rules, each a block "
                    "`rule {} NAME`.",
                    meant, known.empty() ? "none" : list_words(known), region.name)};
    show(place({finding.code, region.sym}, finding), product);
}

/// A mixture holds no more of a thing than the part of it that holds most. So a sum is made only
/// where some material alone holds more than is let.
void LipJudge::judge(const Product& product, Regional& regional) {
    sums_.clear();
    for (const ProductMaterial& one : product.materials) {
        const Told& about = told(regional, one);
        for (const std::size_t said : about.said) show(said, product);
        for (const std::uint32_t rule : about.heavy) {
            const auto known = [rule](const Sum& sum) { return sum.rule == rule; };
            if (std::none_of(sums_.begin(), sums_.end(), known)) sums_.push_back({rule, {}});
        }
    }
    for (Sum& sum : sums_) {
        for (const ProductMaterial& one : product.materials)
            for (const Claim& claim : told(regional, one).limits)
                if (claim.rule == sum.rule) sum.all += one.share * claim.part;
        if (sum.all > *formulary_.rules[sum.rule].limit) judge_limit(product, regional, sum);
    }
}

/// Says the sum with its arithmetic. Of several products over one limit the worst is told.
void LipJudge::judge_limit(const Product& product, Regional& regional, const Sum& sum) {
    const Rule& rule = formulary_.rules[sum.rule];
    const Exact over = as_fraction(sum.all) - as_fraction(*rule.limit);
    const Key key{Code::lips_limit, regional.name.sym, sum.rule};
    const std::size_t said = place(key, {key.code, {}, {}});
    said_[said].shown.push_back({product.shade, product.version, product.finishing, first_});
    if (!(said_[said].worst < over)) return;
    said_[said].worst = over;
    Finding& finding = said_[said].finding;
    std::vector<std::string> terms;
    bool cautious = false, by_strength = false, ranged = false;
    for (const ProductMaterial& one : product.materials) {
        for (const Claim& claim : told(regional, one).limits) {
            if (claim.rule != sum.rule) continue;
            if (terms.empty()) finding.span = one.span;
            terms.push_back(
                fmt::format("{} {}", exact_percent(one.share), formulary_.name(one.what)));
            if (!(claim.part == share(1)))
                terms.back() += (claim.ranged() ? " × up to " : " × ") + exact_percent(claim.part);
            ranged = ranged || claim.ranged();
            cautious = cautious || claim.cautious;
            by_strength = by_strength || claim.by_strength;
        }
    }
    finding.message =
        fmt::format("{} comes to {}{} of {}, and {} lets at most {} on lips ({}). {} = {}.",
                    rule.name, ranged ? "up to " : "", exact_percent(sum.all),
                    title_of(formulary_, product), rule.region.name, exact_percent(*rule.limit),
                    source_words(rule), fmt::join(terms, " + "), exact_percent(sum.all));
    finding.advice = "Use less of it. Check the current text.";
    if (!cautious) return;
    finding.message += by_strength
                           ? " What has no `strength` counts as colour throughout."
                           : " A part counts as all of its material where no share is written.";
    finding.advice = fmt::format("Use less of it, or add {}. Check the current text.",
                                 by_strength ? "its `strength` from the lot's certificate"
                                             : "the shares to the `label` of the material");
}

Findings LipJudge::findings() const {
    Findings out;
    for (const Said& said : said_) {
        if (said.shown.empty()) continue;
        out.push_back(said.finding);
        std::vector<std::string> shades;
        for (const Shown& one : said.shown)
            shades.push_back(
                one.first
                    ? formulary_.shades[one.shade].name
                    : title_of(formulary_, {one.shade, one.version, one.finishing, {}, {}, {}}));
        const bool limit = said.finding.code == Code::lips_limit;
        if (limit && shades.size() == 1) continue;
        out.back().message +=
            fmt::format(" {}: {}.", limit ? "Too much is in" : "It is in", list_words(shades, 4));
    }
    return out;
}

}  // namespace levigate
