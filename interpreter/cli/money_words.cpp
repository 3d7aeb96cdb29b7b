#include "interpreter/cli/money_words.hpp"

#include <algorithm>

#include "interpreter/compile.hpp"

namespace levigate::cli {

std::optional<Share> read_percent(std::string_view text) {
    const auto blank = [](char sign) { return sign == ' '; };
    while (!text.empty() && blank(text.front())) text.remove_prefix(1);
    while (!text.empty() && blank(text.back())) text.remove_suffix(1);
    if (text.empty() || text.back() != '%') return std::nullopt;
    text.remove_suffix(1);
    while (!text.empty() && blank(text.back())) text.remove_suffix(1);
    const auto number = read_number(text);
    if (!number || !number->known()) return std::nullopt;
    return percent(*number);
}

namespace {

/// A price is written there and can't be read, which was said.
bool said_before(const Formulary& formulary, const Lack& lack) {
    if (lack.why != Lack::Why::price || lack.of.material == no_ingredient) return false;
    const Ingredient& one = formulary.ingredients[lack.of.material];
    return one.kind == Ingredient::Kind::material && formulary.materials[one.index].price_lost;
}

}  // namespace

void note_lacking(const Formulary& formulary, const std::vector<Lack>& from,
                  std::vector<Lack>& into) {
    for (const Lack& lack : from)
        if (!said_before(formulary, lack) &&
            std::find(into.begin(), into.end(), lack) == into.end())
            into.push_back(lack);
}

Finding lacking_finding(const Formulary& formulary, const std::vector<Lack>& lacking,
                        std::uint32_t currency) {
    const Lack& first = lacking.front();
    Finding out{
        .code = Code::price_missing,
        .message =
            "What this costs is known only in part: " + lacking_words(formulary, lacking) + ".",
        .span = first.of.container != nothing ? formulary.containers[first.of.container].span
                                              : formulary.ingredients[first.of.material].span,
        .advice = lacking_advice(formulary, lacking, currency),
        .notes = lacking_notes(formulary, lacking)};
    if (!out.notes.empty()) out.notes.erase(out.notes.begin());
    return out;
}

void leave_out_weighing(Findings& findings) {
    std::erase_if(findings, [](const Finding& finding) { return about_weighing(finding.code); });
}

}  // namespace levigate::cli
