// Names that nothing has: what was likely meant, and what else is called so.

#include <fmt/format.h>

#include <algorithm>

#include "grammar/near.hpp"
#include "grammar/words.hpp"
#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/written_name.hpp"
#include "interpreter/lookalike/lookalike.hpp"
#include "interpreter/resolve/context.hpp"
#include "interpreter/resolve/slips.hpp"
#include "interpreter/resolve/unknown.hpp"

namespace levigate::resolving {

std::vector<std::string> near_names(Context& context, std::initializer_list<const Table*> tables,
                                    Sym written) {
    const std::string_view name = context.names.folded(written);
    const std::uint64_t looks = lookalike::skeleton_hash(name);
    Nearest nearest(name);
    std::unordered_map<Sym, At> places;
    for (const Table* table : tables) {
        context.near_asked += table->size() * (name.size() + 1);
        if (context.near_asked > most_near) return {};
        for (const auto& [sym, at] : *table) {
            if (!at || !places.emplace(sym, at).second) continue;
            const std::string_view other = context.names.folded(sym);
            if (looks == lookalike::skeleton_hash(other))
                nearest.offer(Fit{Likeness::same_look, 0}, sym);
            else
                nearest.offer(other, sym);
        }
    }
    std::vector<std::string> out;
    for (const std::size_t id : nearest.best()) {
        const auto sym = static_cast<Sym>(id);
        const Name& block = context.block(places[sym]).name;
        out.push_back(block.sym == sym ? context.written(block.span)
                                       : std::string(context.names.folded(sym)));
    }
    return out;
}

std::vector<std::string> near_ingredient(Context& context, Sym written) {
    return near_names(context, {&context.scope.material_or_blend, &context.scope.shade}, written);
}

namespace {

/// A block that has the name, of another kind than is due.
At other_block(const Context& context, const Unknown& unknown) {
    const Scope& scope = context.scope;
    for (const Table* table :
         {&scope.family, &scope.shade, &scope.material_or_blend, &scope.variant, &scope.finish,
          &scope.container, &scope.balance, &scope.plan}) {
        if (std::find(unknown.tables.begin(), unknown.tables.end(), table) != unknown.tables.end())
            continue;
        // An alias stands for its material, and a library's block is not what a person meant.
        const At at = look(*table, unknown.name.sym);
        if (at && context.block(at).name.sym == unknown.name.sym && !context.files[at.file].library)
            return at;
    }
    return {};
}

/// The shades that a family is made from.
std::vector<std::string> origins(const Context& context, At family) {
    std::vector<std::string> out;
    const auto [first, last] = lines_of(context, family);
    for (const tree::Line* line = first; line != last; ++line) {
        if (line->form == Form::from)
            out.push_back(context.written(std::get<tree::Reference>(line->body).name.span));
        if (const auto* between = std::get_if<tree::Between>(&line->body))
            for (const Name& name : {between->first, between->last})
                out.push_back(context.written(name.span));
    }
    return out;
}

std::vector<std::string> member_names(const Context& context, Sym family) {
    std::vector<std::string> out;
    for (const Shade& shade : context.out.shades)
        if (shade.member && shade.family.sym == family) out.push_back(shade.name);
    return out;
}

std::string due_words(std::string_view due) {
    if (due.empty()) return "a material, blend or shade";
    return fmt::format("a {}", due);
}

void say_family(const Context& context, const Unknown& unknown, At family, Finding& finding) {
    std::vector<std::string> instead = origins(context, family);
    if (unknown.members) {
        instead = member_names(context, unknown.name.sym);
        if (!instead.empty())
            finding.advice = fmt::format("Write one of its shades: {}.", list_words(instead));
        if (instead.size() > 3) instead.resize(3);
    }
    std::erase_if(instead, [&](const std::string& name) {
        return context.names.find(name) == unknown.name.sym;
    });
    finding.fixes = near_fix(finding.span, instead);
}

/// `dull clay and satin` in a list of names where each of them is there: the list with commas;
/// empty where it is none.
std::string parted_list(const Context& context, const Unknown& unknown) {
    const std::string_view text = context.sources.text(unknown.name.span);
    const tree::Line* line = line_at(context, unknown.name.span);
    if (!line || !std::holds_alternative<tree::NameList>(line->body)) return {};
    if (with_quotes(context, unknown.name.span) != unknown.name.span) return {};
    const auto there = [&](std::string_view name) {
        const Sym sym = context.names.find(name);
        return sym != no_name && std::any_of(unknown.tables.begin(), unknown.tables.end(),
                                             [&](const Table* one) { return look(*one, sym); });
    };
    std::string rest(text), out;
    for (const std::string_view mark : {" and ", " AND ", " And ", "&", ";", "/", "+"})
        for (std::size_t at = rest.find(mark); at != rest.npos; at = rest.find(mark, at + 1))
            rest.replace(at, mark.size(), "\n");
    if (rest.find('\n') == rest.npos) return {};
    for (std::size_t begin = 0; begin <= rest.size();) {
        const std::size_t end = std::min(rest.find('\n', begin), rest.size());
        const std::string name = tidy_name(std::string_view(rest).substr(begin, end - begin));
        if (!there(name)) return {};
        out += fmt::format("{}{}", out.empty() ? "" : ", ", written_name(name));
        begin = end + 1;
    }
    return out;
}

}  // namespace

void report_unknown(Context& context, const Unknown& unknown) {
    const Name& name = unknown.name;
    const std::string written = shown(context.written(name.span));
    Finding finding{.code = unknown.code,
                    .message = unknown.due.empty()
                                   ? fmt::format("Nothing is called {}.", written)
                                   : fmt::format("No {} is called {}.", unknown.due, written),
                    .span = name.span};
    if (std::string list = parted_list(context, unknown); !list.empty()) {
        finding.message = "The names of a list have commas between them.";
        finding.fixes = {possible_fix(name.span, std::move(list))};
    }
    const At other = finding.fixes.empty() ? other_block(context, unknown) : At{};
    if (other) {
        const Heading heading = context.block(other).heading;
        finding.message = fmt::format("{} is a {}, and {} is needed here.", written, word(heading),
                                      due_words(unknown.due));
        if (heading == Heading::family) say_family(context, unknown, other, finding);
    }
    if (finding.fixes.empty() && finding.advice.empty()) {
        const std::vector<std::string> near = near_names(context, unknown.tables, name.sym);
        if (near.empty() && !other && context.lost.any(unknown.holders)) return;
        finding.fixes = near_fix(name.span, near);
        if (near.empty()) finding.advice = unknown.advice;
    }
    const std::size_t before = context.findings.size();
    report(context, std::move(finding));
    if (context.findings.size() > before) context.unfound.emplace_back(before, name.sym);
}

void tell_members(Context& context) {
    std::unordered_map<Sym, const Shade*> members;
    if (!context.unfound.empty())
        for (const Shade& shade : context.out.shades)
            if (shade.member) members.emplace(shade.sym, &shade);
    for (const auto& [at, sym] : context.unfound) {
        const auto found = members.find(sym);
        if (found == members.end()) continue;
        const Shade& shade = *found->second;
        Finding& finding = context.findings[at];
        const std::string_view due = finding.code == Code::shade_unknown ? "shade" : "";
        finding.message =
            fmt::format("{} is a shade of the family {}, and {} with a block of its own is needed "
                        "here.",
                        shade.name, shade.family.name, due_words(due));
        finding.advice.clear();
        finding.here.clear();
        const At family = look(context.scope.family, shade.family.sym);
        finding.fixes =
            family ? near_fix(finding.span, origins(context, family)) : std::vector<Fix>();
        for (Fix& fix : finding.fixes)
            if (fix.text.starts_with('"')) fix.span = with_quotes(context, fix.span);
    }
    context.unfound.clear();
}

}  // namespace levigate::resolving
