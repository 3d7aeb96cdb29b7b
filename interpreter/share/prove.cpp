// Whether an edition comes to the same sheets as the public part of its source.

#include "interpreter/share/prove.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "interpreter/share/seen.hpp"

namespace levigate::sharing {

namespace {

std::string other_line(const SeenLine& was, const SeenLine& is) {
    if (was.name != is.name) return fmt::format("{} would be where {} is", is.name, was.name);
    if (was == is) return {};
    return fmt::format("of {} there would be {} g, and not {} g", is.name, is.exact.decimal(6),
                       was.exact.decimal(6));
}

std::string other_bowl(const SeenBowl& was, const SeenBowl& is) {
    if (is.steps != was.steps) {
        for (const std::string& step : is.steps)
            if (std::find(was.steps.begin(), was.steps.end(), step) == was.steps.end())
                return fmt::format("a step would say \"{}\"", step);
        return "a step would be missing, or in another place";
    }
    for (std::size_t i = 0; i < std::max(is.lines.size(), was.lines.size()); ++i) {
        if (i >= is.lines.size()) return was.lines[i].name + " would be missing";
        if (i >= was.lines.size()) return is.lines[i].name + " would be too much";
        if (std::string what = other_line(was.lines[i], is.lines[i]); !what.empty()) return what;
    }
    return {};
}

/// What of a sheet is another one; empty where it is the same.
std::string difference(const SeenSheet& was, const SeenSheet& is) {
    if (!(was.total == is.total))
        return fmt::format("it would come to {} g in all, and not to {} g", is.total.decimal(4),
                           was.total.decimal(4));
    for (const Finding& error : is.errors)
        if (!was.has(error.code))
            return fmt::format("it would get the error {}", row_of(error.code).name);
    for (const Finding& error : was.errors)
        if (!is.has(error.code))
            return fmt::format("it would no longer get the error {}", row_of(error.code).name);
    for (const SeenBowl& bowl : is.bowls) {
        const auto same = std::find_if(was.bowls.begin(), was.bowls.end(),
                                       [&](const SeenBowl& one) { return one.name == bowl.name; });
        if (same == was.bowls.end()) return "there would be another bowl, " + bowl.name;
        if (std::string what = other_bowl(*same, bowl); !what.empty()) return what;
    }
    return is.bowls.size() < was.bowls.size() ? "a bowl would be missing" : "";
}

/// Formulas are compared as well: a shade without a batch has no sheet.
std::string other_formula(const Formulary& open, const Formulary& edition, const Picked& picked) {
    std::map<std::string, const Formula*> there;
    for (const Ingredient& one : edition.ingredients)
        if (one.kind == Ingredient::Kind::blend)
            there.emplace("blend " + one.name, &edition.mixes[one.index].formula);
    for (const Shade& shade : edition.shades)
        for (const Version& version : shade.versions)
            there.emplace(shade.name + " / " + version.variant, &version.formula);
    std::string out;
    const auto compare = [&](const std::string& key, const std::string& name, const Formula& was) {
        const auto found = there.find(key);
        if (found == there.end() || !was.solved() || !out.empty()) return;
        const Formula& is = *found->second;
        bool same = is.solved() && is.parts.size() == was.parts.size();
        for (std::size_t i = 0; same && i < was.parts.size(); ++i)
            same = open.name(was.parts[i].what) == edition.name(is.parts[i].what) &&
                   was.shares[i] == is.shares[i];
        if (!same) out = fmt::format("the percentages of {} would be others", name);
    };
    for (const PickedMix& mix : picked.mixes)
        compare("blend " + open.name(mix.id), open.name(mix.id),
                open.mixes[open.ingredients[mix.id].index].formula);
    for (ShadeId id = 0; id < picked.chosen.size(); ++id)
        if (picked.chosen[id])
            for (const Version& version : open.shades[id].versions)
                compare(open.shades[id].name + " / " + version.variant, open.shades[id].name,
                        version.formula);
    return out;
}

Findings differs(const std::string& what, Span span) {
    return {{Code::share_differs,
             fmt::format("The edition would not come to the same as this file: {}.", what), span,
             "An error of the file itself may be behind it: mend what `levigate check` tells. If "
             "it tells nothing, report the file."}};
}

}  // namespace

Findings same_sheets(const Compiled& open, const Compiled& edition, const Picked& picked) {
    const auto& shades = open.formulary.shades;
    const auto first = std::find(picked.chosen.begin(), picked.chosen.end(), true);
    const Span head = first == picked.chosen.end()
                          ? Span{}
                          : shades[static_cast<std::size_t>(first - picked.chosen.begin())].span;
    for (const Finding& finding : edition.findings)
        if (finding.severity == Severity::error) {
            std::string said = finding.message;
            while (said.ends_with('.')) said.pop_back();
            return differs(fmt::format("it would say \"{}\" ({})", said,
                                       row_of(finding.code).name),
                           head);
        }
    if (std::string what = other_formula(open.formulary, edition.formulary, picked); !what.empty())
        return differs(what, head);
    const Seen was = sheets_of(open, picked.chosen, true);
    for (const Finding& finding : was.findings)
        if (finding.code == Code::too_many_sheets) return {finding};
    const Seen is = sheets_of(edition, {}, true);
    for (const auto& [title, sheet] : was.sheets) {
        const Span span = shades[sheet.shade].span;
        const auto same = is.sheets.find(title);
        if (same == is.sheets.end()) return differs(title + " could not be made", span);
        if (const std::string what = difference(sheet, same->second); !what.empty())
            return differs(fmt::format("of {} {}", title, what), span);
    }
    for (const auto& [title, sheet] : is.sheets)
        if (!was.sheets.contains(title))
            return differs(fmt::format("there would be {} too", title), head);
    return {};
}

}  // namespace levigate::sharing
