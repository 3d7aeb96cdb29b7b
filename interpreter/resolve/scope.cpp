// Names in scope: what each heading defines, which of two wins, and which is near to a slip.

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "grammar/lines.hpp"
#include "grammar/words.hpp"
#include "interpreter/resolve/context.hpp"

namespace levigate::resolving {

namespace {

std::uint64_t place_key(const Finding& finding) {
    std::uint64_t key = 1469598103934665603u;
    const auto mix = [&](std::uint64_t value) { key = (key ^ value) * 1099511628211u; };
    mix(static_cast<std::uint64_t>(finding.code));
    mix(finding.span.source);
    mix(finding.span.begin);
    mix(finding.span.end);
    return key;
}

Span name_span(const Context& context, At at) { return context.block(at).name.span; }

}  // namespace

void report_twice(Context& context, At first, At second, std::string_view kind) {
    const Span there = name_span(context, first), here = name_span(context, second);
    report(context, {.code = Code::block_twice,
                     .message = fmt::format("{} is there twice: each {} needs a name of its own.",
                                            context.written(here), kind),
                     .span = here,
                     .advice = "Give one of them another name, or take one out.",
                     .notes = {{there, "already there"}},
                     .here = "again here"});
}

namespace {

/// Enters a block under a name. A person's own takes the place of the library's, silently.
void enter(Context& context, Table& table, Sym sym, At at, std::string_view kind) {
    At& seat = table[sym];
    if (!seat) {
        seat = at;
        return;
    }
    const bool old_library = context.files[seat.file].library;
    const bool new_library = context.files[at.file].library;
    if (old_library && !new_library) seat = at;
    if (old_library || new_library) return;
    seat.ambiguous = true;
    report_twice(context, seat, at, kind);
}

void enter_all(Context& context, Table& table, Heading heading) {
    each_block(context, heading, [&](At at) {
        enter(context, table, context.block(at).name.sym, at, word(heading));
    });
}

/// Other names of a material stand for it, unless something is called so itself.
void enter_aliases(Context& context) {
    each_block(context, Heading::material, [&](At at) {
        if (context.scope.material_or_blend[context.block(at).name.sym].block != at.block) return;
        const auto [first, last] = lines_of(context, at);
        for (const tree::Line* line = first; line != last; ++line) {
            if (line->form != Form::also_called) continue;
            for (const Name& name : std::get<tree::NameList>(line->body).names) {
                At& seat = context.scope.material_or_blend[name.sym];
                const bool free =
                    !seat || (context.files[seat.file].library && !context.files[at.file].library);
                if (free) {
                    seat = at;
                } else if (!context.files[seat.file].library &&
                           !(seat.file == at.file && seat.block == at.block)) {
                    seat.ambiguous = true;
                    report(context,
                           {.code = Code::block_twice,
                            .message = fmt::format("{} is the name of something else already.",
                                                   context.written(name.span)),
                            .span = name.span,
                            .advice = "Write another name, or none.",
                            .notes = {{name_span(context, seat), "already there"}}});
                }
            }
        }
    });
}

/// Lines that a block holds at most once.
bool only_once(Form form) {
    switch (form) {
        case Form::role:
        case Form::density:
        case Form::bulk:
        case Form::price:
        case Form::label:
        case Form::from:
        case Form::between:
        case Form::name:
        case Form::columns:
        case Form::holds:
        case Form::reads:
        case Form::up_to:
        case Form::least:
        case Form::error:
        case Form::repeatability:
        case Form::lips:
        case Form::market:
        case Form::counts:
        case Form::certified:
        case Form::named:
        case Form::title:
        case Form::colourants:
        case Form::range:
        case Form::minor:
        case Form::contents:
        case Form::source:
        case Form::on:
        case Form::weigh_on:
        case Form::rebalance:
        case Form::sealed:
        case Form::number:
        case Form::date:
        case Form::shades:
        case Form::digest:
        case Form::variants:
        case Form::by:
        case Form::code:
        case Form::filled:
        case Form::commit:
        case Form::formula:
        case Form::finishes: return true;
        default: return false;
    }
}

/// A name twice on one line, as in `finishes satin, satin`; it counts once, and is said once.
void report_same_names(Context& context, const tree::Line& line) {
    const auto* list = std::get_if<tree::NameList>(&line.body);
    if (!list) return;
    std::unordered_map<Sym, Span> seen;
    Span before;
    for (const Name& name : list->names) {
        const auto [there, fresh] = seen.emplace(name.sym, name.span);
        const Span here = with_quotes(context, name.span);
        const std::uint32_t from = std::exchange(before, here).end;
        if (fresh) continue;
        report(context, {.code = Code::name_twice,
                         .message = fmt::format("{} stands twice in this line.",
                                                shown(context.written(name.span))),
                         .span = name.span,
                         .advice = "Leave one of the two out.",
                         .fixes = {possible_fix({here.source, from, here.end}, "")},
                         .notes = {{there->second, "already here"}},
                         .here = "again here"});
        return;
    }
}

void report_repeats(Context& context) {
    std::vector<const tree::Line*> seen;
    for (const LoadedFile& file : context.files) {
        for (const tree::Block& block : file.tree.blocks) {
            seen.assign(form_words().size(), nullptr);
            for (std::uint32_t i = block.first; i < block.first + block.count; ++i) {
                const tree::Line& line = file.tree.lines[i];
                report_same_names(context, line);
                if (!only_once(line.form)) continue;
                const tree::Line*& before = seen[static_cast<std::size_t>(line.form)];
                if (before)
                    report(context, {.code = Code::line_twice,
                                     .message = fmt::format("`{}` stands in this block twice.",
                                                            entry(line.form).word),
                                     .span = line.word(),
                                     .advice = "Take one of the two lines out.",
                                     .notes = {{before->word(), "already there"}},
                                     .here = "again here"});
                else
                    before = &line;
            }
        }
    }
}

}  // namespace

Span with_quotes(const Context& context, Span name) {
    if (!name) return name;
    const std::string_view text = context.sources[name.source].text;
    const std::uint32_t behind = name.end < text.size() ? quote_at(text, name.end) : 0;
    for (const std::uint32_t before : {1u, 3u})
        if (behind > 0 && name.begin >= before && quote_at(text, name.begin - before) == before)
            return {name.source, name.begin - before, name.end + behind};
    return name;
}

namespace {

std::string_view without_quotes(std::string_view name) {
    const bool quoted = name.size() >= 2 && name.front() == '"' && name.back() == '"';
    return quoted ? name.substr(1, name.size() - 2) : name;
}

/// The last step of both ways in. A name that only looks like the one that was meant seems right
/// to the eye, so what is wrong with it is said in so many words. A name that needs quotes takes
/// the place of the quotes that are there.
void add(Context& context, Finding finding) {
    const std::vector<Fix>& fixes = finding.fixes;
    if (finding.here.empty() && !fixes.empty() && fixes.front().span == finding.span)
        finding.here =
            told_apart(context.written(finding.span), without_quotes(fixes.front().text));
    for (Fix& fix : finding.fixes)
        if (fix.text.starts_with('"')) fix.span = with_quotes(context, fix.span);
    // What stands there already mends nothing.
    std::erase_if(finding.fixes, [&](const Fix& fix) {
        return context.sources.text(fix.span) == fix.text;
    });
    context.findings.push_back(std::move(finding));
}

}  // namespace

void report(Context& context, Finding finding) {
    if (context.findings.size() >= most_findings) return;
    if (context.said.insert(place_key(finding)).second) add(context, std::move(finding));
}

void report_of(Context& context, Finding finding, const std::string& whose, std::uint64_t which) {
    if (context.findings.size() >= most_findings) return;
    const std::uint64_t place = place_key(finding);
    if (which != 0 && !context.said.insert(place * 31 + which).second) return;
    const bool again = !context.said.insert(place).second;
    if (again && which == 0) return;
    if (again && finding.message.find(whose) == std::string::npos)
        finding.message = fmt::format("{}: {}", whose, finding.message);
    add(context, std::move(finding));
}

void fill_scope(Context& context) {
    Scope& scope = context.scope;
    enter_all(context, scope.unit, Heading::unit);
    enter_all(context, scope.material_or_blend, Heading::material);
    enter_all(context, scope.material_or_blend, Heading::blend);
    enter_all(context, scope.shade, Heading::shade);
    enter_all(context, scope.variant, Heading::variant);
    enter_all(context, scope.finish, Heading::finish);
    enter_all(context, scope.family, Heading::family);
    enter_all(context, scope.container, Heading::container);
    enter_all(context, scope.balance, Heading::balance);
    enter_all(context, scope.region, Heading::region);
    enter_all(context, scope.plan, Heading::plan);
    enter_aliases(context);
    report_repeats(context);
    report_measure_names(context);
    // The role that a name needs may stand in its other block.
    for (const auto& [sym, at] : scope.material_or_blend)
        context.lost.role = context.lost.role || at.ambiguous;
    for (const LoadedFile& file : context.files) {
        for (const tree::Block& block : file.tree.blocks) {
            if (!block.name && block.heading != Heading::language)
                context.lost.headings |= in(block.heading);
            if (block.damaged &&
                (block.heading == Heading::material || block.heading == Heading::blend))
                context.lost.role = true;
        }
    }
}

At look(const Table& table, Sym sym) {
    const auto found = table.find(sym);
    return found == table.end() ? At{} : found->second;
}

}  // namespace levigate::resolving
