// Whether an edition comes to the same sheets as its source.

#include "interpreter/share/prove.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <set>

#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/solve.hpp"

namespace levigate::sharing {

namespace {

struct SeenLine {
    std::string name;
    Exact exact, steps;
    bool operator==(const SeenLine&) const = default;
};
struct SeenBowl {
    std::string name;
    std::vector<SeenLine> lines;
    std::vector<std::string> steps;
};
struct SeenSheet {
    ShadeId shade = nothing;
    Exact total;
    std::vector<SeenBowl> bowls;
    std::set<Code> errors;
};
/// By "Quince / sheer / matte, full".
using SeenSheets = std::map<std::string, SeenSheet>;

/// With private `dilute` lines the same is made and not weighed alike: then formulas are compared.
bool keeps_dilutions(const Compiled& source) {
    for (const LoadedFile& loaded : source.files)
        for (const tree::Line& line : loaded.tree.lines)
            if (line.form == Form::dilute && line.is_private) return true;
    return false;
}

Choice everything(bool dilutions) {
    Choice choice;
    choice.all = true;
    choice.dilutions = dilutions;
    choice.materials = false;
    return choice;
}

std::string title_of_sheet(const Formulary& formulary, const Sheet& sheet) {
    std::string out =
        title_of(formulary, {sheet.shade, sheet.version, sheet.finishing, {}, {}, {}});
    if (sheet.batch != nothing)
        out += ", " + formulary.shades[sheet.shade].batches[sheet.batch].name;
    return out;
}

/// What the maker alone expects is no part of what goes out.
bool of_private_expectation(const Compiled& compiled, Span span) {
    for (const LoadedFile& loaded : compiled.files)
        if (loaded.tree.source == span.source)
            for (const tree::Line& line : loaded.tree.lines)
                if (line.form == Form::expect && line.is_private && line.span.begin <= span.begin &&
                    span.end <= line.span.end)
                    return true;
    return false;
}

template <typename Wanted>
SeenSheets sheets_of(const Compiled& compiled, bool dilutions, Wanted wanted, Findings& findings) {
    SeenSheets out;
    const Formulary& formulary = compiled.formulary;
    findings = expand_each(formulary, compiled.names, everything(dilutions), [&](Sheet& sheet) {
        if (!wanted(sheet.shade)) return;
        SeenSheet& seen = out[title_of_sheet(formulary, sheet)];
        seen.shade = sheet.shade;
        seen.total = in_grams(sheet.total);
        for (const Bowl& bowl : sheet.bowls) {
            SeenBowl& one = seen.bowls.emplace_back();
            if (bowl.mix != no_ingredient) one.name = formulary.name(bowl.mix);
            one.steps = bowl.steps_text;
            for (const SheetLine& line : bowl.lines)
                one.lines.push_back({formulary.name(line.what), in_grams(line.exact), line.steps});
        }
        for (const Finding& finding : sheet.findings)
            if (finding.severity == Severity::error &&
                !of_private_expectation(compiled, finding.span))
                seen.errors.insert(finding.code);
    });
    return out;
}

bool same_shares(const SeenBowl& a, const SeenBowl& b) {
    const auto all = [](const SeenBowl& bowl) {
        Exact out;
        for (const SeenLine& line : bowl.lines) out += line.exact;
        return out;
    };
    const Exact of_a = all(a), of_b = all(b);
    return std::equal(a.lines.begin(), a.lines.end(), b.lines.begin(), b.lines.end(),
                      [&](const SeenLine& one, const SeenLine& other) {
                          return one.name == other.name && one.exact * of_b == other.exact * of_a;
                      });
}

/// Names of all blends in sealed ones, at any depth.
std::set<std::string> blends_inside(const Formulary& formulary, const Picked& picked) {
    std::set<std::string> out;
    std::vector<IngredientId> due;
    for (const PickedMix& mix : picked.mixes)
        if (mix.way == Way::sealed) due.push_back(mix.id);
    while (!due.empty()) {
        const Mix* mix = mix_of(formulary, due.back());
        due.pop_back();
        if (!mix) continue;
        for (const Part& part : mix->formula.parts)
            if (mix_of(formulary, part.what) && out.insert(formulary.name(part.what)).second)
                due.push_back(part.what);
    }
    return out;
}

/// What of a sheet is another one; empty where it is the same.
/// `inside`: blends that sealed ones hold too. Of these less is made in the edition, in the same
/// shares: nobody there makes what is sealed.
std::string difference(const SeenSheet& source, const SeenSheet& edition,
                       const std::set<std::string>& inside) {
    if (!(source.total == edition.total))
        return fmt::format("it would come to {} g in all, and not to {} g",
                           edition.total.decimal(4), source.total.decimal(4));
    for (const Code error : edition.errors)
        if (!source.errors.contains(error))
            return fmt::format("it would get the error {}", row_of(error).name);
    for (const Code error : source.errors)
        if (!edition.errors.contains(error))
            return fmt::format("it would no longer get the error {}", row_of(error).name);
    for (const SeenBowl& bowl : edition.bowls) {
        const auto same = std::find_if(source.bowls.begin(), source.bowls.end(),
                                       [&](const SeenBowl& one) { return one.name == bowl.name; });
        if (same == source.bowls.end()) return "there would be another bowl, " + bowl.name;
        if (inside.contains(bowl.name)) {
            if (!same_shares(*same, bowl))
                return fmt::format("the shares of {} would be others", bowl.name);
            continue;
        }
        for (const std::string& step : bowl.steps)  // private ones are missing
            if (std::find(same->steps.begin(), same->steps.end(), step) == same->steps.end())
                return fmt::format("a step would say \"{}\"", step);
        for (std::size_t i = 0; i < std::max(bowl.lines.size(), same->lines.size()); ++i) {
            if (i >= bowl.lines.size()) return same->lines[i].name + " would be missing";
            if (i >= same->lines.size()) return bowl.lines[i].name + " would be too much";
            const SeenLine &was = same->lines[i], &is = bowl.lines[i];
            if (was.name != is.name)
                return fmt::format("{} would stand where {} stands", is.name, was.name);
            if (!(was == is))
                return fmt::format("of {} there would be {} g, and not {} g", is.name,
                                   is.exact.decimal(6), was.exact.decimal(6));
        }
    }
    return {};
}

bool has_sealed(const Picked& picked) {
    return std::any_of(picked.mixes.begin(), picked.mixes.end(),
                       [](const PickedMix& mix) { return mix.way == Way::sealed; });
}

/// What mostly brings it, and what to do. `code`: of the error that the edition would get, if that
/// is the difference.
std::string advice_for(std::optional<Code> code, bool sealed) {
    if (code == Code::role_empty || code == Code::reference_unknown)
        return sealed ? "Nobody can count what is inside a sealed blend: go by the blend's own "
                        "name or role, write the amount as a share, or make the line private."
                      : "What the line goes by is private: let it go out.";
    if (code == Code::name_unknown || code == Code::hole_unknown)
        return sealed ? "It is private, or only a sealed blend holds it: name something else, or "
                        "make the line that names it private."
                      : "It is private: let it go out, or write another name.";
    if (code == Code::density_missing)
        return "A density is private, or a sealed blend states none: let it go out, or state it.";
    if (sealed)
        return "Mostly something counts what is inside a sealed blend, as `the ROLE` does: go by "
               "the blend's own name or role, write the amount as a share, or state the blend's "
               "density.";
    return "Mostly a line that all rests on is private: let it go out.";
}

/// A shade of which a batch, its variants or its finishes are private has fewer sheets.
bool keeps_sheets(const Index& index, const Shade& shade) {
    std::vector<Place> places = index.chain(index.at(shade.span));
    if (shade.member) {
        const Place family = index.find(Heading::family, shade.family.sym);
        for (const tree::Line* line : index.lines(family)) {
            Sym from = no_name;
            if (line->form == Form::from) from = std::get<tree::Reference>(line->body).name.sym;
            if (const auto* between = std::get_if<tree::Between>(&line->body))
                from = between->first.sym;
            if (const Place place = index.find(Heading::shade, from); from != no_name && place)
                places = index.chain(place);
        }
    }
    for (const Place place : places)
        for (const tree::Line* line : index.lines(place))
            if (line->is_private && (line->form == Form::batch || line->form == Form::variants ||
                                     line->form == Form::finishes))
                return false;
    return true;
}

/// An expectation of what is inside a sealed blend too: in the edition it would be judged without.
const Expectation* counts_inside(const Compiled& source, const Index& index, const Picked& picked) {
    const Formulary& formulary = source.formulary;
    const auto inside = [&](const Expectation& expect, IngredientId blend) {
        const Mix& mix = *mix_of(formulary, blend);
        if (expect.measure == Expectation::Measure::ingredient)
            return !(content_of(formulary, mix.formula, expect.ingredient) == Share());
        return expect.measure == Expectation::Measure::role &&
               formulary.ingredients[blend].role != expect.role &&
               std::any_of(mix.roles.begin(), mix.roles.end(), [&](const RoleShare& one) {
                   return one.role == expect.role && !(one.share == Share());
               });
    };
    for (ShadeId id = 0; id < picked.chosen.size(); ++id) {
        if (!picked.chosen[id]) continue;
        for (const Expectation& expect : formulary.shades[id].expects) {
            const tree::Line* line = index.line_at(expect.span);
            if (line && line->is_private) continue;
            for (const PickedMix& mix : picked.mixes)
                if (mix.way == Way::sealed && inside(expect, mix.id)) return &expect;
        }
    }
    return nullptr;
}

/// Formulas are compared as well: a shade without a batch has no sheet.
std::string other_formula(const Formulary& source, const Formulary& edition, const Picked& picked) {
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
            same = source.name(was.parts[i].what) == edition.name(is.parts[i].what) &&
                   was.shares[i] == is.shares[i];
        if (!same) out = fmt::format("the shares of {} would be others", name);
    };
    for (const PickedMix& mix : picked.mixes)
        if (mix.way != Way::sealed)
            compare("blend " + source.name(mix.id), source.name(mix.id),
                    mix_of(source, mix.id)->formula);
    for (ShadeId id = 0; id < picked.chosen.size(); ++id)
        if (picked.chosen[id])
            for (const Version& version : source.shades[id].versions)
                compare(source.shades[id].name + " / " + version.variant, source.shades[id].name,
                        version.formula);
    return out;
}

}  // namespace

Findings same_sheets(const Compiled& source, const Index& index, const Compiled& edition,
                     const Picked& picked) {
    const bool sealed = has_sealed(picked);
    const auto differs = [&](const std::string& what, Span span, std::optional<Code> code) {
        return Findings{
            {Code::share_differs,
             fmt::format("The edition would not come to the same as this file: {}.", what), span,
             advice_for(code, sealed)}};
    };
    const auto first = std::find(picked.chosen.begin(), picked.chosen.end(), true);
    const auto& shades = source.formulary.shades;
    const Span head = first == picked.chosen.end()
                          ? Span{}
                          : shades[static_cast<std::size_t>(first - picked.chosen.begin())].span;
    if (const Expectation* expect = counts_inside(source, index, picked))
        return differs("this expectation counts what a sealed blend holds, and there nobody could "
                       "tell",
                       expect->span, Code::role_empty);
    for (const Finding& finding : edition.findings)
        if (finding.severity == Severity::error) {
            std::string said = finding.message;
            while (said.ends_with('.')) said.pop_back();
            return differs(fmt::format("there it would be said that \"{}\" ({})", said,
                                       row_of(finding.code).name),
                           head, finding.code);
        }
    if (std::string what = other_formula(source.formulary, edition.formulary, picked);
        !what.empty())
        return differs(what, head, std::nullopt);
    Findings found;
    const bool dilutions = !keeps_dilutions(source);
    const SeenSheets was = sheets_of(
        source, dilutions, [&](ShadeId id) { return static_cast<bool>(picked.chosen[id]); }, found);
    for (const Finding& finding : found)
        if (finding.code == Code::too_many_sheets) return {finding};
    const SeenSheets is = sheets_of(
        edition, dilutions, [](ShadeId) { return true; }, found);
    const std::set<std::string> inside = blends_inside(source.formulary, picked);
    for (const auto& [title, sheet] : was) {
        const Shade& shade = source.formulary.shades[sheet.shade];
        const auto same = is.find(title);
        if (same == is.end()) {
            if (!keeps_sheets(index, shade)) continue;
            return differs(title + " could not be made", shade.span, std::nullopt);
        }
        const std::string what = difference(sheet, same->second, inside);
        if (!what.empty())
            return differs(fmt::format("of {} {}", title, what), shade.span, std::nullopt);
    }
    for (const auto& [title, sheet] : is) {
        if (was.contains(title)) continue;
        const std::string& name = edition.formulary.shades[sheet.shade].name;
        for (const Shade& shade : source.formulary.shades)
            if (shade.name == name && keeps_sheets(index, shade))
                return differs(fmt::format("there would be {} too", title), shade.span,
                               std::nullopt);
    }
    return {};
}

}  // namespace levigate::sharing
