#include "interpreter/query/why_asked.hpp"

#include <fmt/format.h>

#include "interpreter/formulary/dilute.hpp"
#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/written_name.hpp"
#include "interpreter/query/near.hpp"

namespace levigate::query {

namespace {

/// `near`: what was likely meant, as it is written on the command line; where that is empty, the
/// advice tells what to do.
Finding none_called(std::string message, const std::vector<std::string>& near, std::string advice) {
    Finding finding = none_found(std::move(message), near.empty() ? std::move(advice) : "");
    for (const std::string& name : near) finding.fixes.push_back(possible_fix(Span{}, name));
    return finding;
}

/// Parts `Quince / matte`; a name in double quotes holds its own ` / `.
std::vector<std::string> split_path(const std::string& path) {
    std::vector<std::string> out(1);
    bool quoted = false;
    for (std::size_t i = 0; i < path.size(); ++i) {
        const bool slash = path[i] == '/' && (i == 0 || path[i - 1] == ' ') &&
                           (i + 1 == path.size() || path[i + 1] == ' ');
        if (path[i] == '"')
            quoted = !quoted;
        else if (slash && !quoted)
            out.emplace_back();
        else
            out.back() += path[i];
    }
    for (std::string& piece : out) piece = tidy_name(piece);
    return out;
}

/// `path` is all that was asked for: it may be one name, whose quotes were forgotten.
const Shade* find_shade(const Compiled& compiled, const std::string& name, const std::string& path,
                        Findings& findings) {
    const Sym sym = compiled.names.find(name);
    const Sym whole = compiled.names.find(path);
    std::vector<std::string> near, all, members;
    for (const Shade& shade : compiled.formulary.shades) {
        if (sym != no_name && shade.sym == sym) return &shade;
        if (whole != no_name && shade.sym == whole) near = {written_name(shade.name)};
        if (sym != no_name && shade.family.sym == sym) members.push_back(shade.name);
        all.push_back(shade.name);
    }
    if (!members.empty()) {
        findings.push_back(
            none_found(fmt::format("{} is a family, and one shade is needed.", shown(name)),
                       fmt::format("Write one of its shades: {}.", list_words(members))));
        return nullptr;
    }
    if (near.empty())
        for (const std::string& one : near_ones(name, all)) near.push_back(written_name(one));
    findings.push_back(none_called(fmt::format("No shade is called {}.", shown(name)), near,
                                   "See which there are with `levigate shades FILE`."));
    return nullptr;
}

bool find_under(const Compiled& compiled, const std::string& name, Asked& asked,
                Findings& findings) {
    const Sym sym = compiled.names.find(name);
    for (const Version& version : asked.shade->versions)
        if (sym != no_name && version.sym == sym) return asked.version = &version, true;
    std::vector<std::string> all;
    for (const Version& version : asked.shade->versions)
        if (!version.variant.empty()) all.push_back(version.variant);
    for (const ShadeFinish& finish : asked.shade->finishes) {
        if (finish.finishing == nothing) continue;
        const Finishing& used = compiled.formulary.finishings[finish.finishing];
        all.push_back(compiled.formulary.finishes[used.finish].name);
        if (sym == no_name || finish.sym != sym) continue;
        asked.finishing = finish.finishing;
        asked.finish = all.back();
        return true;
    }
    findings.push_back(none_called(
        fmt::format("{} has no variant or finish called {}.", asked.shade->name, shown(name)),
        near_ones(name, all),
        all.empty() ? "Write the shade's name alone." : "Known here: " + list_words(all) + "."));
    return false;
}

bool find_what(const Compiled& compiled, const std::string& name, Asked& asked,
               Findings& findings) {
    const Sym sym = compiled.names.find(name);
    const Formulary& formulary = compiled.formulary;
    const auto alias = compiled.formulary.called.find(sym);
    if (sym != no_name && alias != compiled.formulary.called.end()) asked.what = alias->second;
    std::vector<std::string> all;
    for (IngredientId id = 0; id < formulary.ingredients.size(); ++id) {
        if (asked.what == no_ingredient && sym != no_name && formulary.ingredients[id].sym == sym)
            asked.what = id;
        if (!dilution_of(formulary, id)) all.push_back(formulary.name(id));
    }
    if (asked.what != no_ingredient) return true;
    findings.push_back(none_called(fmt::format("Nothing is called {}.", shown(name)),
                                   near_ones(name, all), "Write the name of an ingredient."));
    return false;
}

}  // namespace

Finding none_found(std::string message, std::string advice) {
    return {Code::choice_none, std::move(message), Span{}, std::move(advice)};
}

bool look_up(const Compiled& compiled, const WhyQuestion& question, Asked& asked,
             Findings& findings) {
    const std::vector<std::string> path = split_path(question.shade);
    asked.shade = find_shade(compiled, path[0], question.shade, findings);
    if (!asked.shade) return false;
    asked.version = &asked.shade->versions[0];
    for (std::size_t i = 1; i < path.size(); ++i)
        if (!find_under(compiled, path[i], asked, findings)) return false;
    return find_what(compiled, question.ingredient, asked, findings);
}

}  // namespace levigate::query
