#include "interpreter/expand/select.hpp"

#include <unordered_set>

#include "grammar/near.hpp"
#include "interpreter/formulary/say.hpp"

namespace levigate {
namespace {

using NameList = std::vector<std::pair<Sym, std::string>>;

/// One of the choices: what it is called, and the names of that sort that a shade holds.
struct Axis {
    std::string_view noun;
    void (*visit)(const Formulary&, const Shade&, NameList&);
};

void family_names(const Formulary&, const Shade& shade, NameList& out) {
    if (shade.family.sym != no_name) out.push_back({shade.family.sym, shade.family.name});
}
void shade_names(const Formulary&, const Shade& shade, NameList& out) {
    out.push_back({shade.sym, shade.name});
}
void variant_names(const Formulary&, const Shade& shade, NameList& out) {
    for (std::size_t i = 1; i < shade.versions.size(); ++i)
        out.push_back({shade.versions[i].sym, shade.versions[i].variant});
}
void finish_names(const Formulary& formulary, const Shade& shade, NameList& out) {
    for (const ShadeFinish& finish : shade.finishes) {
        std::string name;
        if (finish.finishing != nothing)
            name = formulary.finishes[formulary.finishings[finish.finishing].finish].name;
        out.push_back({finish.sym, std::move(name)});
    }
}
void batch_names(const Formulary&, const Shade& shade, NameList& out) {
    for (const Batch& batch : shade.batches) out.push_back({batch.sym, batch.name});
}

constexpr Axis by_family{"family", family_names};
constexpr Axis by_shade{"shade", shade_names};
constexpr Axis by_variant{"variant", variant_names};
constexpr Axis by_finish{"finish", finish_names};
constexpr Axis by_batch{"batch", batch_names};

/// Adds the name that was likely meant, or else what there is. The name is a word of the command
/// line, where a name never needs quotes of its own.
void add_known(const Names& names, std::string_view written, const NameList& there,
               Finding& finding) {
    std::string folded;
    fold_name(written, folded);
    std::vector<std::string> all;
    std::unordered_set<Sym> seen;
    Nearest nearest(folded);
    for (const auto& [sym, name] : there) {
        if (name.empty() || !seen.insert(sym).second) continue;
        nearest.offer(names.folded(sym), all.size());
        all.push_back(name);
    }
    for (const std::size_t id : nearest.best())
        finding.fixes.push_back(possible_fix(Span{}, all[id]));
    if (finding.fixes.empty() && !all.empty())
        finding.advice = "Known here: " + list_words(all) + ".";
}

/// Where a shade was asked for by the name of a family: that it is one, and its shades.
bool add_family(const Formulary& formulary, Sym wanted, Finding& finding) {
    std::vector<std::string> members;
    for (const Shade& shade : formulary.shades) {
        if (!shade.own || wanted == no_name || shade.family.sym != wanted) continue;
        if (members.empty())
            finding.message = "`" + shade.family.name + "` is a family, and one shade is needed.";
        members.push_back(shade.name);
    }
    if (members.empty()) return false;
    finding.advice = "Write one of its shades: " + list_words(members) + ".";
    return true;
}

/// Keeps the shades that hold the name that was chosen; a finding where none does.
void keep_named(const Formulary& formulary, const Names& names, const Axis& axis,
                const std::string& chosen, std::vector<ShadeId>& shades, Findings& findings) {
    Sym wanted = names.find(chosen);
    NameList there, of_shade;
    std::vector<ShadeId> kept;
    bool broken = false;
    for (ShadeId id : shades) {
        of_shade.clear();
        axis.visit(formulary, formulary.shades[id], of_shade);
        bool holds = false;
        for (const auto& entry : of_shade)
            holds = holds || (wanted != no_name && entry.first == wanted);
        if (holds)
            kept.push_back(id);
        else if (kept.empty())
            there.insert(there.end(), of_shade.begin(), of_shade.end());
        broken = broken || formulary.shades[id].broken;
    }
    shades = std::move(kept);
    // What a broken shade would have named is not known.
    if (!shades.empty() || (broken && &axis != &by_shade)) return;
    std::string shown_name(chosen);
    const bool of_file = &axis == &by_shade || &axis == &by_family;
    std::string message =
        of_file ? "No " + std::string(axis.noun) + " of this file is called `" + shown_name + "`."
                : "None of the chosen shades has a " + std::string(axis.noun) + " `" + shown_name +
                      "`.";
    findings.push_back({Code::choice_none, std::move(message), Span{}});
    if (&axis == &by_shade && add_family(formulary, wanted, findings.back())) return;
    add_known(names, chosen, there, findings.back());
}

bool keep_chosen(const Formulary& formulary, const Names& names, const Choice& choice,
                 std::vector<ShadeId>& shades, Findings& findings) {
    const bool sized = choice.make || choice.onto;
    const std::pair<const Axis*, const std::optional<std::string>*> choices[] = {
        {&by_family, &choice.family}, {&by_shade, &choice.shade}, {&by_variant, &choice.variant},
        {&by_finish, &choice.finish}, {&by_batch, &choice.batch},
    };
    for (const auto& [axis, chosen] : choices) {
        if (!*chosen || (axis == &by_batch && sized)) continue;
        keep_named(formulary, names, *axis, **chosen, shades, findings);
        if (shades.empty()) return false;
    }
    return true;
}

void choose_versions(const Shade& shade, const Choice& choice, Sym variant, Selected& out) {
    for (std::uint32_t i = 0; i < shade.versions.size(); ++i) {
        bool wanted =
            choice.variant ? i > 0 && shade.versions[i].sym == variant : i == 0 || choice.all;
        const Version& version = shade.versions[i];
        if (wanted && !version.broken && version.formula.solved()) out.versions.push_back(i);
    }
}

void choose_finishes(const Formulary& formulary, const Shade& shade, const Choice& choice,
                     Sym finish, Selected& out) {
    if (!choice.finish && (!choice.all || shade.finishes.empty())) {
        if (!choice.onto) out.finishings.push_back(nothing);
        return;
    }
    for (const ShadeFinish& entry : shade.finishes) {
        if (choice.finish && entry.sym != finish) continue;
        if (entry.finishing == nothing || formulary.finishings[entry.finishing].broken) continue;
        out.finishings.push_back(entry.finishing);
    }
}

void choose_batches(const Shade& shade, const Choice& choice, Sym batch, Selected& out) {
    if (choice.make || choice.onto) {
        out.batches.push_back(nothing);
        return;
    }
    for (std::uint32_t i = 0; i < shade.batches.size(); ++i)
        if (!choice.batch || shade.batches[i].sym == batch) out.batches.push_back(i);
}

Sym find(const Names& names, const std::optional<std::string>& chosen) {
    return chosen ? names.find(*chosen) : no_name;
}

}  // namespace

Selection select(const Formulary& formulary, const Names& names, const Choice& choice) {
    Selection out;
    if (choice.onto && !choice.finish && !choice.all) {
        out.findings.push_back({Code::choice_none,
                                "`--onto` adds a finish to what is made, and no finish is named.",
                                Span{}, "Name one: `--finish matte`."});
        return out;
    }
    std::vector<ShadeId> shades;
    for (ShadeId id = 0; id < formulary.shades.size(); ++id)
        if (choice.only == nothing ? formulary.shades[id].own : id == choice.only)
            shades.push_back(id);
    if (!keep_chosen(formulary, names, choice, shades, out.findings)) return out;
    const Sym variant = find(names, choice.variant), finish = find(names, choice.finish),
              batch = find(names, choice.batch);
    out.shades.reserve(shades.size());
    for (ShadeId id : shades) {
        const Shade& shade = formulary.shades[id];
        if (shade.broken) continue;
        Selected& selected = out.shades.emplace_back();
        selected.shade = id;
        choose_versions(shade, choice, variant, selected);
        choose_finishes(formulary, shade, choice, finish, selected);
        choose_batches(shade, choice, batch, selected);
        out.sheets +=
            selected.versions.size() * selected.finishings.size() * selected.batches.size();
    }
    return out;
}

}  // namespace levigate
