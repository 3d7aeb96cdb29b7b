#include "interpreter/rules/remarks.hpp"

#include <fmt/format.h>

#include "grammar/near.hpp"

namespace levigate {
namespace {

bool passes(const Rule& rule) {
    return rule.lips == Rule::Lips::yes || rule.lips == Rule::Lips::at_most ||
           rule.lips == Rule::Lips::silent;
}

/// The nearest number that any rule knows: for one that is mistyped.
std::string near_index(const Formulary& formulary, const Names& names, Sym index) {
    std::string best;
    std::size_t far = 3;
    for (const Rule& rule : formulary.rules)
        for (const Called& what : rule.covers) {
            const std::size_t apart = distance(names.folded(index), names.folded(what.sym));
            if (apart < far) far = apart, best = what.name;
        }
    return best;
}

/// The number as rules have it, where only the way of writing differs: "15850", "ci15850-1".
std::string spelt(const Formulary& formulary, const Names& names, const Called& index) {
    const auto digits = [](std::string_view text) {
        std::string out;
        for (const char sign : text)
            if ((sign >= '0' && sign <= '9') || sign == ':')
                out += sign;
            else if (sign == '-')
                out += ':';
        return out;
    };
    const std::string wanted = digits(names.folded(index.sym));
    if (wanted.size() < 5) return {};
    for (const Rule& rule : formulary.rules)
        for (const Called& what : rule.covers)
            if (names.folded(what.sym).starts_with("ci ") &&
                digits(names.folded(what.sym)) == wanted && what.sym != index.sym)
                return what.name;
    return {};
}

std::string unknown_advice(const Formulary& formulary, const Names& names, const Called& region,
                           const Called& index) {
    if (names.folded(index.sym) == "ci") return "The number is missing: write it as in CI 15850.";
    if (const std::string meant = spelt(formulary, names, index); !meant.empty())
        return fmt::format("Write it as {}.", meant);
    // A salt's number behind a colon: what holds for the dye may not hold for it.
    if (names.folded(index.sym).find(':') != std::string_view::npos)
        return "Ask whether what is said of the number before the colon holds for this salt too, "
               "and write a rule that says so.";
    const std::string look = fmt::format(
        "ook it up in the current text; if it is listed, write a block `rule {} NAME` that covers "
        "it.",
        region.name);
    const std::string near = near_index(formulary, names, index.sym);
    if (near.empty() || near == index.name) return "L" + look;
    return fmt::format("Is {} meant? If not: l{}", near, look);
}

/// Collects what one region has to say of one material.
struct Notes {
    const Formulary& formulary;
    const Called& region;
    IngredientId material;
    std::vector<Remark> out = {};

    const std::string& name() const { return formulary.name(material); }
    void add(Code code, std::string message, std::string advice, std::uint32_t rule,
             Sym index = no_name) {
        out.push_back(
            {{code, std::move(message), Span{}, std::move(advice)}, rule, material, index});
    }
    /// The same of every material that the rule speaks of: said once.
    void of_rule(Code code, std::string message, std::string advice, std::uint32_t rule) {
        add(code, std::move(message), std::move(advice), rule);
        out.back().material = no_ingredient;
    }
};

void note_unknown(const Names& names, const Claims& claims, Notes& notes) {
    for (const Called& index : claims.unknown)
        notes.add(Code::lips_unknown,
                  fmt::format("No rule of {} speaks of {}, which colours {}. What is not known is "
                              "not let pass.",
                              notes.region.name, index.name, notes.name()),
                  unknown_advice(notes.formulary, names, notes.region, index), nothing, index.sym);
    for (const Called& part : claims.unnumbered)
        notes.add(Code::colourant_unnumbered,
                  fmt::format("{} holds {}, which may colour it, and has no colour index number "
                              "that {} could judge it by.",
                              notes.name(), part.name, notes.region.name),
                  "Add a line such as `colourant CI 77491` to its block, or write the part by its "
                  "number in its `label`.",
                  nothing, part.sym);
    for (const std::uint32_t id : claims.unstated) {
        const Rule& rule = notes.formulary.rules[id];
        const std::string& what = rule.covers.front().name;
        notes.add(Code::content_unstated,
                  fmt::format("Nothing says how much {} {} contains, and {} counts it ({}).", what,
                              notes.name(), notes.region.name, source_words(rule)),
                  fmt::format("Ask its supplier, and add `contains {} Q %` to its block; 0 % if "
                              "none.",
                              what),
                  id);
    }
}

/// The verdict of a rule, where it is not simply yes.
void note_verdict(std::uint32_t id, const std::string& conditions, Notes& notes) {
    const Rule& rule = notes.formulary.rules[id];
    const std::string& region = rule.region.name;
    const std::string where = fmt::format("{}, {}", rule.name, source_words(rule));
    if (rule.lips == Rule::Lips::no)
        notes.add(
            Code::lips_not_allowed,
            fmt::format("{} is not for lips in {}: {}.{}", notes.name(), region, where, conditions),
            "Take it out, or swap it for a colourant that is allowed on lips. Check the "
            "current text.",
            id);
    if (rule.lips == Rule::Lips::stop)
        notes.add(Code::lips_assess,
                  fmt::format("{} can neither be let pass nor be called illegal on lips in {}: "
                              "{}.{}",
                              notes.name(), region, where, conditions),
                  "Leave it out, or have a qualified safety assessor decide.", id);
    if (rule.lips == Rule::Lips::ask)
        notes.add(Code::lips_ask,
                  fmt::format("Whether {} may go on lips in {} is not settled by the rule alone: "
                              "{}.{}",
                              notes.name(), region, where, conditions),
                  "Ask its supplier for a written statement for use on lips, and keep it.", id);
    if (passes(rule) && !conditions.empty())
        notes.add(Code::lips_condition,
                  fmt::format("{} passes in {} on a condition ({}):{}", notes.name(), region, where,
                              conditions),
                  "See to it that this holds for what you bought.", id);
}

void note_rule(std::uint32_t id, Notes& notes) {
    const Rule& rule = notes.formulary.rules[id];
    std::string conditions;
    for (const std::string& condition : rule.conditions) conditions += " " + condition;
    note_verdict(id, conditions, notes);
    if (rule.replaces)
        notes.of_rule(Code::rule_replaced,
                      fmt::format("Your own rule {} {} stands in place of the library's.",
                                  rule.region.name, rule.name),
                      "Give it another name if both are to hold.", id);
    if (!rule.unconfirmed.empty())
        notes.of_rule(
            Code::rule_unconfirmed,
            fmt::format("The rule {} {} is not confirmed: {}", rule.region.name, rule.name,
                        rule.unconfirmed),
            fmt::format("Read the current text before you rely on it: {}.", source_words(rule)),
            id);
    const Ingredient& ingredient = notes.formulary.ingredients[notes.material];
    const bool let = passes(rule) || rule.lips == Rule::Lips::ask;
    if (rule.certified && let && notes.formulary.materials[ingredient.index].certified.empty())
        notes.add(Code::lot_uncertified,
                  fmt::format("{} lets {} on lips only from a certified lot, and none is noted "
                              "({}).",
                              rule.region.name, notes.name(), source_words(rule)),
                  fmt::format("Add a line `certified lot NUMBER` to a block `material {}`.",
                              notes.name()),
                  id);
}

}  // namespace

std::string source_words(const Rule& rule) {
    return rule.source.empty() ? "no source noted" : rule.source;
}

std::vector<Remark> remarks_on(const Formulary& formulary, const Names& names, const Called& region,
                               IngredientId material, const Claims& claims) {
    Notes notes{formulary, region, material};
    note_unknown(names, claims, notes);
    for (const Claim& claim : claims.rules) note_rule(claim.rule, notes);
    return std::move(notes.out);
}

}  // namespace levigate
