// Families: one shade many times, over values, over the rows of a table, or between two others.

#include <fmt/format.h>

#include <algorithm>
#include <unordered_map>

#include "interpreter/formulary/solve.hpp"
#include "interpreter/resolve/context.hpp"
#include "interpreter/resolve/unknown.hpp"

namespace levigate::resolving {

namespace {

struct Family {
    Context& context;
    At at;
    const tree::Line* from = nullptr;
    const tree::Line* between = nullptr;
    const tree::Line* pattern = nullptr;
    const tree::Line* columns = nullptr;
    std::vector<const tree::Line*> vary{}, rows{};

    const tree::Block& block() const { return context.block(at); }
    void malformed(Span span, std::string message, std::string advice, std::string example = {}) {
        report(context, {.code = Code::family_malformed,
                         .message = std::move(message),
                         .span = span,
                         .advice = std::move(advice),
                         .example = std::move(example)});
    }
};

using Filling = std::vector<Binding>;

Family collect(Context& context, At at) {
    Family family{context, at};
    const auto [first, last] = lines_of(context, at);
    for (const tree::Line* line = first; line != last; ++line) {
        switch (line->form) {
            case Form::from: family.from = line; break;
            case Form::between: family.between = line; break;
            case Form::name: family.pattern = line; break;
            case Form::columns: family.columns = line; break;
            case Form::vary: family.vary.push_back(line); break;
            case Form::row: family.rows.push_back(line); break;
            default: break;
        }
    }
    return family;
}

At family_shade(Family& family, const Name& name) {
    const At at = look(family.context.scope.shade, name.sym);
    if (at) return at;
    report_unknown(family.context, {Code::shade_unknown,
                                    "shade",
                                    name,
                                    {&family.context.scope.shade},
                                    in(Heading::shade),
                                    "Write the name of a shade."});
    return {};
}

/// The words of a member's name; holes print what they hold.
std::string member_name(Family& family, Env& env, const std::string& fallback) {
    if (!family.pattern) return fallback;
    std::string name;
    for (const tree::TextPiece& piece : std::get<tree::Text>(family.pattern->body).pieces) {
        if (piece.text) {
            name += family.context.sources.text(piece.text);
            continue;
        }
        if (Binding* binding = settle(family.context, {piece.name.sym, piece.span, true}, env))
            name += hole_words(family.context, *binding, env);
    }
    return tidy_name(name);
}

std::string value_words(Family& family, const Binding& filling, Env& env) {
    Binding* binding = settle(family.context, {filling.hole, filling.span, true}, env);
    return binding ? hole_words(family.context, *binding, env) : std::string();
}

void add_member(Family& family, At shade, const Filling& filling, const std::string& named,
                Span named_at = {}) {
    Context& context = family.context;
    ShadeState& state = ensure_shade(context, shade);
    if (state.chain.empty()) return;
    Env env = state.env;
    for (Binding& binding : env.bindings) binding.refresh();
    for (const Binding& one : filling) {
        if (Binding* there = env.find(one.hole))
            *there = one;
        else
            env.bindings.push_back(one);
    }
    std::string fallback = named;
    if (fallback.empty()) {
        fallback = context.written(family.block().name.span);
        for (const Binding& one : filling) fallback += " " + value_words(family, one, env);
    }
    const std::string name = named.empty() ? member_name(family, env, fallback) : named;
    Recipe recipe = build_recipe(
        context, state.chain, env, name,
        state.recipe.broken ? context.written(context.block(shade).name.span) : std::string());
    // A hole that lacks is said once, at the shade itself.
    if (state.recipe.broken) recipe.broken = true;
    const Span span = named_at          ? named_at
                      : filling.empty() ? family.block().name.span
                                        : filling.front().span;
    add_shade(context, name, context.names.intern(name), span, family.at, shade, std::move(recipe),
              env, state.traits);
}

/// A hole that a family fills must be one of the shade's own.
bool check_hole(Family& family, At shade, const Name& hole) {
    ShadeState& state = ensure_shade(family.context, shade);
    if (state.chain.empty()) return false;
    if (state.env.find(hole.sym)) return true;
    const std::vector<Fix> near = near_hole(family.context, state.env, hole);
    const std::string whose = family.context.written(family.context.block(shade).name.span);
    const std::string_view name = family.context.names.folded(hole.sym);
    if (near.empty())
        // Like a `let` that no line uses: it can stand, but it changes nothing.
        report(family.context,
               {.code = Code::hole_unused,
                .message = fmt::format("{} has no hole {{{}}}, so these values change nothing.",
                                       whose, name),
                .span = hole.span,
                .advice = fmt::format("Add a line `let {{{}}} = …` to it, or leave the values out.",
                                      name)});
    else
        report(family.context, {.code = Code::hole_unknown,
                                .message = fmt::format("{} has no hole {{{}}}.", whose, name),
                                .span = hole.span,
                                .fixes = near});
    return near.empty();
}

void vary_members(Family& family, At shade) {
    std::size_t members = 1;
    for (const tree::Line* line : family.vary) {
        const auto& vary = std::get<tree::Vary>(line->body);
        if (!check_hole(family, shade, vary.hole)) return;
        members *= vary.values.size();
        if (members > most_members)
            return family.malformed(line->span,
                                    fmt::format("A family has at most {} members.", most_members),
                                    "Write fewer values.");
    }
    // Every combination, the last `vary` turning fastest, as the lines are read.
    for (std::size_t i = 0; i < members; ++i) {
        Filling filling;
        std::size_t rest = members, index = i;
        for (const tree::Line* line : family.vary) {
            const auto& vary = std::get<tree::Vary>(line->body);
            rest /= vary.values.size();
            const tree::Value& value = vary.values[index / rest];
            index %= rest;
            filling.push_back({vary.hole.sym, family.at.file, value, value.span});
        }
        add_member(family, shade, filling, {});
    }
}

void table_members(Family& family, At shade) {
    Context& context = family.context;
    const auto& columns = std::get<tree::Columns>(family.columns->body).columns;
    for (const Name& column : columns) {
        if (!column.hole && context.names.folded(column.sym) != "name")
            return family.malformed(column.span, "A column is `name` or a hole.", {}, "{depth}");
        if (column.hole && !check_hole(family, shade, column)) return;
    }
    if (family.rows.size() > most_members)
        return family.malformed(family.block().name.span,
                                fmt::format("A family has at most {} members.", most_members),
                                "Write fewer rows.");
    for (const tree::Line* line : family.rows) {
        const auto& cells = std::get<tree::Row>(line->body).cells;
        if (cells.size() != columns.size()) {
            family.malformed(line->span,
                             fmt::format("This row has {} cells, and there are {} columns.",
                                         cells.size(), columns.size()),
                             "Write one cell for each column, with | between them.");
            continue;
        }
        Filling filling;
        std::string name;
        Span name_at{};
        for (std::size_t i = 0; i < cells.size(); ++i) {
            if (columns[i].hole)
                filling.push_back({columns[i].sym, family.at.file, cells[i], cells[i].span});
            else
                name_at = cells[i].name ? cells[i].name.span : cells[i].span,
                name = context.written(name_at);
        }
        add_member(family, shade, filling, name, name_at);
    }
}

/// A line of a family between two shades: what it is at both ends.
struct Way {
    Part like;
    std::uint32_t ends;  ///< index of its Interpolation
    /// The rest at both ends is the rest on the way: all others go linearly, so it does. Kept as
    /// one, so that a variant finds a line that takes up its change.
    bool rest = false;
};

std::vector<Way> ways_between(Context& context, const Formula& a, const Formula& b) {
    std::unordered_map<IngredientId, std::size_t> in_a, in_b;
    for (std::size_t i = 0; i < a.parts.size(); ++i) in_a[a.parts[i].what] = i;
    for (std::size_t i = 0; i < b.parts.size(); ++i) in_b[b.parts[i].what] = i;
    std::vector<Way> ways;
    const auto add = [&](const Part& like, Exact from, Exact to) {
        ways.push_back({like, static_cast<std::uint32_t>(context.out.interpolations.size())});
        context.out.interpolations.push_back({std::move(from), std::move(to)});
    };
    for (std::size_t i = 0; i < a.parts.size(); ++i) {
        const auto other = in_b.find(a.parts[i].what);
        add(a.parts[i], as_fraction(a.shares[i]),
            other == in_b.end() ? Exact() : as_fraction(b.shares[other->second]));
        ways.back().rest = other != in_b.end() && std::holds_alternative<Rest>(a.parts[i].amount) &&
                           std::holds_alternative<Rest>(b.parts[other->second].amount);
    }
    for (std::size_t i = 0; i < b.parts.size(); ++i)
        if (!in_a.contains(b.parts[i].what)) add(b.parts[i], Exact(), as_fraction(b.shares[i]));
    return ways;
}

/// One member between two: every line a share of the way from the one to the other. A line of
/// exactly nothing at one end is no slip: it is left out there.
Recipe between_recipe(Context& context, const Recipe& first, const std::vector<Way>& ways,
                      const Exact& part, Span line) {
    Recipe recipe;
    recipe.ambiguous = first.ambiguous;
    recipe.steps = first.steps;
    recipe.notes = first.notes;
    for (const Way& way : ways) {
        const Interpolation& ends = context.out.interpolations[way.ends];
        const Exact value = ends.from + part * (ends.to - ends.from);
        if (value.is_zero()) continue;
        WorkPart work;
        work.part = way.like;
        if (way.rest) {
            recipe.parts.push_back(std::move(work));
            continue;
        }
        work.part.amount = share(value);
        work.part.origin = add_origin(
            context,
            {.kind = OriginKind::interpolated, .span = line, .was = way.ends, .value = value});
        recipe.parts.push_back(std::move(work));
    }
    inherit_dilutions(first, recipe);
    return recipe;
}

/// How many members a `between` line asks for, or 0; said.
std::int64_t step_count(Family& family, const tree::Between& between) {
    const tree::Expr& steps = family.context.file(family.at.file).exprs[between.steps];
    const std::string_view words =
        family.context.sources.text(steps.words ? steps.words : steps.span);
    std::string folded;
    fold_name(words, folded);
    const auto number = read_number(family.context.sources.text(steps.number));
    std::int64_t count = 0;
    if (folded == "steps" && number && number->to_int64(count) && count >= 2 &&
        count <= static_cast<std::int64_t>(most_members))
        return count;
    family.malformed(steps.span,
                     fmt::format("A family between two shades has from 2 to {} steps, both ends "
                                 "among them.",
                                 most_members),
                     {}, "in 5 steps");
    return 0;
}

void between_members(Family& family) {
    Context& context = family.context;
    const auto& between = std::get<tree::Between>(family.between->body);
    const At first = family_shade(family, between.first), last = family_shade(family, between.last);
    const std::int64_t count = step_count(family, between);
    if (!first || !last || count == 0) return;
    ShadeState& a = ensure_shade(context, first);
    ShadeState& b = ensure_shade(context, last);
    Recipe left = a.recipe, right = b.recipe;
    Formula from, to;
    // What is wrong in one of the two is said there.
    if (!finish_formula(context, left, from, {}, family.block().name.span, true)) return;
    if (!finish_formula(context, right, to, {}, family.block().name.span, true)) return;
    const Sym step = context.names.intern("step");
    const std::vector<Way> ways = ways_between(context, from, to);
    left.ambiguous = from.ambiguous || to.ambiguous;
    for (std::int64_t i = 0; i < count && context.parts_made <= most_parts; ++i) {
        Env env = a.env;
        Binding binding{step, family.at.file, {}, family.between->span, {}, Binding::State::done};
        binding.quantity = Quantity{Kind::number, Exact(i + 1), 0};
        env.bindings.push_back(binding);
        const std::string fallback =
            fmt::format("{} {}", context.written(family.block().name.span), i + 1);
        const std::string name = member_name(family, env, fallback);
        add_shade(context, name, context.names.intern(name), family.between->span, family.at, first,
                  between_recipe(context, left, ways, Exact(i, count - 1), family.between->span),
                  env, a.traits);
    }
}

/// The words of a `name` line that has no hole, and so can tell nothing apart.
Span pattern_span(const Family& family) {
    if (!family.pattern) return {};
    const auto& pieces = std::get<tree::Text>(family.pattern->body).pieces;
    Span words{};
    for (const tree::TextPiece& piece : pieces) {
        if (!piece.text) return {};
        words = cover(words, piece.span);
    }
    return words;
}

/// One value twice in a `vary` line, `1 %` and `1.0 %`: no name could tell its members apart.
bool report_same_value(Family& family) {
    for (const tree::Line* line : family.vary) {
        const auto& vary = std::get<tree::Vary>(line->body);
        std::unordered_map<std::string, Span> seen;
        for (const tree::Value& value : vary.values) {
            Env filled{{{vary.hole.sym, family.at.file, value, value.span}}, true};
            const auto [there, fresh] =
                seen.emplace(value_words(family, filled.bindings.front(), filled), value.span);
            if (fresh || there->first.empty()) continue;
            report(family.context,
                   {.code = Code::family_name_twice,
                    .message = fmt::format("The value {} stands here twice.", there->first),
                    .span = value.span,
                    .advice = "Leave one of the two out.",
                    .notes = {{there->second, "already here"}}});
            return true;
        }
    }
    return false;
}

void check_names(Family& family, std::size_t first) {
    Context& context = family.context;
    const auto& shades = context.out.shades;
    bool said = false;
    for (std::size_t i = first; i < shades.size(); ++i) {
        Span other{};
        const auto [member, fresh] = context.members.emplace(shades[i].sym, i);
        if (said) continue;
        if (const At at = look(context.scope.shade, shades[i].sym))
            other = context.block(at).name.span;
        bool inside = false;  // both are of this family
        if (!other && !fresh)
            other = shades[member->second].span, inside = member->second >= first;
        if (!other) continue;
        said = true;
        if (inside && report_same_value(family)) continue;
        report(context, {.code = Code::family_name_twice,
                         .message = fmt::format("Two shades would be called {}.", shades[i].name),
                         .span = pattern_span(family) ? pattern_span(family) : shades[i].span,
                         .advice = "Add a `name` line with the hole that tells them apart, as in "
                                   "`name Quince {depth}`.",
                         .notes = {{other, "already there"}}});
    }
}

}  // namespace

void add_family(Context& context, At at) {
    Family family = collect(context, at);
    if (family.block().formula_lost) return;
    const std::size_t first = context.out.shades.size();
    if (family.between) {
        between_members(family);
    } else if (!family.from) {
        return family.malformed(family.block().name.span,
                                "Nothing says of which shade this family is.",
                                "Add a line `from SHADE`, or `between A and B in 5 steps`.");
    } else {
        const At shade = family_shade(family, std::get<tree::Reference>(family.from->body).name);
        if (!shade) return;
        if (family.columns)
            table_members(family, shade);
        else if (!family.vary.empty())
            vary_members(family, shade);
        else
            return family.malformed(family.block().name.span,
                                    "Nothing tells this family's members apart.",
                                    "Add a line such as `vary {depth} over 4 %, 8 %`, or `columns` "
                                    "and `row` lines.");
    }
    check_names(family, first);
}

}  // namespace levigate::resolving
