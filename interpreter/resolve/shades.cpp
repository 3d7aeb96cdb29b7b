// Shades: what each inherits, and its place in the formulary with all that it names.

#include <fmt/format.h>

#include <algorithm>

#include "grammar/lines.hpp"
#include "interpreter/resolve/context.hpp"
#include "interpreter/resolve/unknown.hpp"

namespace levigate::resolving {

namespace {

/// Each name once; that one stands there twice is said where the lines are looked through.
std::vector<Name> different_names(const tree::Line& line) {
    std::vector<Name> out;
    std::unordered_set<Sym> seen;
    for (const Name& name : std::get<tree::NameList>(line.body).names)
        if (seen.insert(name.sym).second) out.push_back(name);
    return out;
}

void inherit_traits(Context& context, At at, Traits& traits) {
    const tree::Block& block = context.block(at);
    traits.damaged = traits.damaged || block.damaged;
    const auto [first, last] = lines_of(context, at);
    for (const tree::Line* line = first; line != last; ++line) {
        if (line->form != Form::fresh) continue;
        switch (std::get<tree::Fresh>(line->body).what) {
            case tree::Inherited::batches: traits.batches.clear(); break;
            case tree::Inherited::expects: traits.expects.clear(); break;
            case tree::Inherited::finishes: traits.finishes.clear(); break;
            case tree::Inherited::variants: traits.variants.clear(); break;
            default: break;
        }
    }
    for (const tree::Line* line = first; line != last; ++line) {
        if (line->form == Form::variants) traits.variants = different_names(*line);
        if (line->form == Form::finishes) traits.finishes = different_names(*line);
        if (line->form == Form::market) traits.markets = different_names(*line);
        if (line->form == Form::weigh_on)
            traits.balance = std::get<tree::Reference>(line->body).name;
        if (line->form == Form::expect) traits.expects.emplace_back(at.file, *line);
        if (line->form != Form::batch) continue;
        const auto& batch = std::get<tree::BatchLine>(line->body);
        const auto same =
            std::find_if(traits.batches.begin(), traits.batches.end(), [&](const auto& other) {
                return std::get<tree::BatchLine>(other.second.body).name.sym == batch.name.sym;
            });
        if (same == traits.batches.end()) {
            traits.batches.emplace_back(at.file, *line);
        } else if (same->first == at.file && same->second.span.begin >= first->span.begin &&
                   same->second.span.begin < line->span.begin) {
            report(context, {.code = Code::batch_twice,
                             .message = fmt::format("The batch {} is there twice.",
                                                    context.written(batch.name.span)),
                             .span = batch.name.span,
                             .advice = "Give one of them another name.",
                             .notes = {{std::get<tree::BatchLine>(same->second.body).name.span,
                                        "already there"}}});
        } else {
            *same = {at.file, *line};
        }
    }
}

Version make_version(Context& context, Recipe recipe, const std::string& shade,
                     const std::string& variant, Sym sym, Span where, bool quiet,
                     bool parent_broken) {
    Version version;
    version.variant = variant;
    version.sym = sym;
    const std::string whose = variant.empty() ? shade : fmt::format("{} / {}", shade, variant);
    count_parts(context, recipe.parts.size(), where);
    if (context.parts_made > most_parts) recipe.broken = true;
    const bool solved = finish_formula(context, recipe, version.formula, whose, where, quiet);
    version.broken = !solved || version.formula.ambiguous ||
                     !settle_dilutions(context, recipe, version.formula, whose, parent_broken,
                                       version.dilutions);
    if (solved) check_texts(context, recipe.steps, version.formula, nullptr, whose);
    version.steps = std::move(recipe.steps);
    version.notes = std::move(recipe.notes);
    return version;
}

bool goes_wrong(const Context& context, At at, Sym variant) {
    const std::uint32_t known = context.shades[at.file].at(at.block).shade;
    if (known == nothing || known >= context.out.shades.size()) return false;
    const auto& versions = context.out.shades[known].versions;
    return std::any_of(versions.begin(), versions.end(), [&](const Version& one) {
        return !one.variant.empty() && one.sym == variant && !one.formula.solved();
    });
}

/// Notes who takes a variant: the shade, or the farthest that it comes from and that goes wrong
/// under it too. What they have in common is said of that one alone.
void note_taker(Context& context, At from, bool member, Sym variant) {
    At taker = from;
    context.apart = member;
    const std::vector<At>& chain = context.shades[from.file].at(from.block).chain;
    for (auto at = chain.rbegin(); at != chain.rend(); ++at) {
        if (!member && at->is(from)) continue;
        if (!goes_wrong(context, *at, variant)) break;
        taker = *at;
        context.apart = false;
    }
    context.taker = taker.key() * 31 + variant;
}

void add_variants(Context& context, Shade& shade, At from, const Recipe& recipe, Env& env,
                  const Traits& traits) {
    for (const Name& name : traits.variants) {
        const At at = look(context.scope.variant, name.sym);
        if (!at) {
            // It is named, and its sheets can't be made.
            Version& missing = shade.versions.emplace_back();
            missing.variant = context.written(name.span);
            missing.sym = name.sym;
            missing.broken = true;
            report_unknown(context,
                           {Code::variant_unknown,
                            "variant",
                            name,
                            {&context.scope.variant},
                            in(Heading::variant),
                            fmt::format("Add a block `variant {}`.", context.written(name.span))});
            continue;
        }
        Recipe changed = recipe;
        const std::string variant = context.written(context.block(at).name.span);
        note_taker(context, from, shade.member, name.sym);
        context.edited = at;
        apply_block(context, at, env, changed, true, fmt::format("{} / {}", shade.name, variant));
        shade.versions.push_back(make_version(
            context, std::move(changed), shade.name, variant, name.sym, context.block(at).name.span,
            !shade.versions[0].formula.solved(), shade.versions[0].broken));
        context.edited = {};
        if (at.ambiguous) shade.versions.back().broken = true;
    }
}

void add_finishes(Context& context, Shade& shade, Env& env, const Traits& traits) {
    for (const Name& name : traits.finishes) {
        const FinishingId id = finishing(context, name, env);
        shade.finishes.push_back({name.sym, id});
        if (id == nothing || !shade.versions[0].formula.solved()) continue;
        const Finishing& used = context.out.finishings[id];
        if (!used.broken)
            check_texts(context, used.steps, shade.versions[0].formula, &used.additions,
                        shade.name);
    }
}

void add_batches(Context& context, Shade& shade, Env& env, const Traits& traits) {
    for (const auto& [file, line] : traits.batches) {
        const auto& written = std::get<tree::BatchLine>(line.body);
        Batch batch;
        batch.name = context.written(written.name.span);
        batch.sym = written.name.sym;
        if (auto size = batch_size(context, file, written, env, {}, &shade))
            batch.size = *size;
        else
            batch.size.broken = true;
        shade.batches.push_back(std::move(batch));
    }
}

Kind due_kind(Expectation::Measure measure) {
    switch (measure) {
        case Expectation::Measure::density: return Kind::density;
        case Expectation::Measure::whole: return Kind::mass;
        case Expectation::Measure::cost:
        case Expectation::Measure::cost_per: return Kind::money;
        default: return Kind::share;
    }
}

std::string_view due_example(Kind kind) {
    if (kind == Kind::density) return "0.95 g/mL";
    if (kind == Kind::mass) return "50 g";
    return kind == Kind::money ? "1.20 USD" : "8 %";
}

/// What an expectation measures. False where it can't be told; said.
bool measured(Context& context, const tree::Expect& written, Env& env, Expectation& out) {
    out.measure = static_cast<Expectation::Measure>(written.measure);
    if (written.measure == tree::MeasureKind::name || written.measure == tree::MeasureKind::role) {
        tree::Ref ref{written.name, written.measure == tree::MeasureKind::role,
                      written.measure_span};
        const auto found = resolve_ref(context, ref, false, env);
        if (!found) return false;
        out.measure = found->kind == Ref::Kind::role ? Expectation::Measure::role
                                                     : Expectation::Measure::ingredient;
        out.ingredient = found->ingredient;
        out.role = found->role;
    }
    if (written.measure == tree::MeasureKind::cost_per) {
        std::string folded(context.names.folded(written.name.sym));
        if (look(context.scope.container, written.name.sym).ambiguous) return false;
        const Measure* known = measure(context, folded);
        const Quantity one = known ? known->one : Quantity{};
        if (one.kind != Kind::count || one.tag == parts_tag || one.tag == 0) {
            report_unknown(context,
                           {Code::container_unknown,
                            "container",
                            written.name,
                            {&context.scope.container},
                            in(Heading::container),
                            fmt::format("Add a block `container {}` with a line such as `holds 4.5 "
                                        "mL`.",
                                        context.written(written.name.span))});
            return false;
        }
        out.container = one.tag - 1;
    }
    return true;
}

/// `between 8 % and 4 %`: nothing lies there.
void report_bounds(Context& context, std::uint32_t file, const tree::Line& line,
                   const Quantity& low, const Quantity& high) {
    const auto& exprs = context.file(file).exprs;
    const auto& written = std::get<tree::Expect>(line.body);
    const std::string from = quantity_words(context, high), to = quantity_words(context, low);
    const std::string_view text = context.sources[line.span.source].text;
    const Span between{line.span.source, skip_blanks(text, written.measure_span.end, line.span.end),
                       line.span.end};
    report(context, {.code = Code::expect_bounds,
                     .message = fmt::format("Nothing lies between {} and {}.", to, from),
                     .span = cover(exprs[written.low].span, exprs[written.high].span),
                     .fixes = {possible_fix(between, fmt::format("between {} and {}", from, to))}});
}

void add_expects(Context& context, Shade& shade, Env& env, const Traits& traits) {
    for (const auto& [file, line] : traits.expects) {
        const auto& written = std::get<tree::Expect>(line.body);
        Expectation expectation;
        expectation.compare = static_cast<Expectation::Compare>(written.compare);
        expectation.span = line.span;
        expectation.measure_span = written.measure_span;
        Span wording = line.span;
        wording.begin = written.measure_span.begin;
        expectation.wording = context.written(wording);
        if (!measured(context, written, env, expectation)) continue;
        const Kind kind = due_kind(expectation.measure);
        const auto low = evaluate_as(context, file, written.low, env, kind, due_example(kind));
        if (!low) continue;
        expectation.low = *low;
        if (written.high != tree::no_expr) {
            const auto high =
                evaluate_as(context, file, written.high, env, kind, due_example(kind));
            if (!high) continue;
            expectation.high = *high;
            if (high->value < low->value) {
                report_bounds(context, file, line, *low, *high);
                continue;
            }
        }
        shade.expects.push_back(std::move(expectation));
    }
}

void add_balance(Context& context, Shade& shade, const Traits& traits) {
    if (!traits.balance) return;
    const Sym sym = traits.balance.sym;
    if (sym < context.balance_of.size() && context.balance_of[sym] != nothing) {
        shade.balance = context.balance_of[sym];
        return;
    }
    shade.balance_lost = true;
    report_unknown(context, {Code::balance_unknown,
                             "balance",
                             traits.balance,
                             {&context.scope.balance},
                             in(Heading::balance),
                             fmt::format("Add a block `balance {}` with a line `reads 0.01 g`.",
                                         context.written(traits.balance.span))});
}

}  // namespace

ShadeState& ensure_shade(Context& context, At at) {
    if (context.open.empty()) prepare(context, at);
    ShadeState& state = context.shades[at.file][at.block];
    if (state.state != ShadeState::State::untouched) return state;
    state.state = ShadeState::State::working;
    context.open.push_back(at);
    state.chain = chain_of(context, at, context.scope.shade);
    state.recipe.broken = state.chain.empty();
    if (!state.chain.empty()) {
        const bool has_parent = state.chain.size() > 1;
        bool lets = false;
        const auto [first, last] = lines_of(context, at);
        for (const tree::Line* line = first; line != last; ++line)
            lets = lets || line->form == Form::let;
        ShadeState* parent = nullptr;
        if (has_parent) {
            parent = &ensure_shade(context, state.chain[state.chain.size() - 2]);
            state.traits = parent->traits;
            state.env = parent->env;
        }
        // What was reckoned under the parent's holes may come out otherwise under one's own.
        if (lets)
            for (Binding& binding : state.env.bindings) binding.refresh();
        add_lets(context, at, state.env);
        inherit_traits(context, at, state.traits);
        if (parent && !lets) {
            if (context.parts_made <= most_parts)
                state.recipe = parent->recipe;
            else
                state.recipe.broken = true;
            state.recipe.ambiguous = state.recipe.ambiguous || state.chain.back().ambiguous;
            apply_block(context, at, state.env, state.recipe, true,
                        context.written(context.block(at).name.span));
        } else {
            state.recipe = build_recipe(
                context, state.chain, state.env, context.written(context.block(at).name.span),
                parent && parent->recipe.broken
                    ? context.written(context.block(state.chain[state.chain.size() - 2]).name.span)
                    : std::string());
        }
    }
    context.open.pop_back();
    state.state = ShadeState::State::done;
    return state;
}

void release_recipe(Context& context, At at) {
    ShadeState& state = context.shades[at.file][at.block];
    state.recipe = {};
    state.env = {};
    state.traits = {};
    state.state = ShadeState::State::untouched;  // should a blend still ask for it
}

void add_shade(Context& context, const std::string& name, Sym sym, Span span, At at, At from,
               Recipe recipe, Env& env, const Traits& traits) {
    const bool member = !at.is(from);
    context.taker = from.key();
    context.apart = member;
    Shade shade;
    shade.name = name;
    shade.sym = sym;
    shade.span = span;
    shade.own = context.files[at.file].own;
    shade.member = member;
    if (member) shade.family = called(context, context.block(at).name);
    // A shade that goes wrong as its parent does is not reported beside it.
    bool quiet = recipe.broken;
    const ShadeState& state = context.shades[at.file][at.block];
    bool parent_broken = false;
    if (!member && state.chain.size() > 1) {
        const At parent = state.chain[state.chain.size() - 2];
        const ShadeState& other = context.shades[parent.file][parent.block];
        quiet = quiet || other.broken;
        parent_broken = other.shade < context.out.shades.size() &&
                        context.out.shades[other.shade].versions[0].broken;
    }
    context.traits = &traits;
    context.env = &env;
    // What a shade is like was solved as it was: only its edits can make it wrong.
    if (!member && context.block(at).like) context.edited = at;
    shade.versions.push_back(
        make_version(context, recipe, name, {}, no_name, span, quiet, parent_broken));
    context.edited = {};
    shade.damaged = traits.damaged;
    add_variants(context, shade, from, recipe, env, traits);
    context.traits = nullptr;
    context.env = nullptr;
    context.taker = 0;
    shade.broken = std::all_of(shade.versions.begin(), shade.versions.end(),
                               [](const Version& version) { return version.broken; });
    add_finishes(context, shade, env, traits);
    add_batches(context, shade, env, traits);
    add_expects(context, shade, env, traits);
    add_balance(context, shade, traits);
    for (const Name& market : traits.markets) shade.markets.push_back(called(context, market));
    if (!member) shade.swatches = swatches_in(context, at);
    if (traits.damaged && shade.batches.empty()) shade.broken = true;
    context.out.shades.push_back(std::move(shade));
}

}  // namespace levigate::resolving
