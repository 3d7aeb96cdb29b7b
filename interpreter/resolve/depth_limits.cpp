// Limits of depth: chains of `like`, mixes within mixes, and what is said of what is beyond them.

#include <fmt/format.h>

#include <algorithm>

#include "interpreter/resolve/context.hpp"
#include "interpreter/resolve/unknown.hpp"

namespace levigate::resolving {

namespace {

// ---- Chains of `like` --------------------------------------------------------------------------

void report_like_loop(Context& context, const std::vector<At>& chain, At again) {
    constexpr std::size_t most_named = 200;
    std::string ring;
    bool on = false;
    std::size_t named = 0;
    // One ring is said once, at the member that is written first.
    At first = again;
    for (const At& at : chain) {
        on = on || at.is(again);
        if (!on) continue;
        if (named++ < most_named)
            ring += context.written(context.block(at).name.span) + " is like ";
        if (std::pair(at.file, at.block) < std::pair(first.file, first.block)) first = at;
    }
    if (named > most_named) ring += fmt::format("… ({} more) ", named - most_named);
    report(context, {.code = Code::like_loop,
                     .message = fmt::format("These are like each other in a ring: {}{}.", ring,
                                            context.written(context.block(again).name.span)),
                     .span = context.block(first).like.span,
                     .advice = "Give one of them lines of its own, without `like`."});
}

void report_no_parent(Context& context, const tree::Block& block, const Table& table) {
    const bool shade = block.heading == Heading::shade;
    report_unknown(context,
                   {shade ? Code::shade_unknown : Code::name_unknown,
                    word(block.heading),
                    block.like,
                    {&table},
                    in(block.heading),
                    look(context.scope.material_or_blend, block.like.sym) && shade
                        ? "A shade can only be like a shade: write the blend as one of its lines."
                        : fmt::format("Add a {} of that name, or `use` the file that has it.",
                                      word(block.heading))});
}

}  // namespace

std::uint32_t count_likes(Context& context, At at, const Table& table) {
    auto& likes = context.nesting.likes;
    std::vector<At> way;
    std::uint32_t blocks = 0;
    for (At here = at;;) {
        if (const auto known = likes.find(here.key()); known != likes.end()) {
            blocks = known->second.blocks;
            const bool ring = blocks == Nesting::Likes::unfinished;
            if (ring) report_like_loop(context, way, here);
            if (ring || blocks == 0) {
                for (const At& one : way) likes[one.key()].blocks = 0;
                return 0;
            }
            break;
        }
        way.push_back(here);
        likes[here.key()].blocks = Nesting::Likes::unfinished;
        const tree::Block& block = context.block(here);
        if (!block.like) break;
        const At parent = parent_of(context, block);
        if (!parent) {
            report_no_parent(context, block, table);
            for (const At& one : way) likes[one.key()].blocks = 0;
            return 0;
        }
        here = parent;
    }
    for (auto one = way.rbegin(); one != way.rend(); ++one) {
        likes[one->key()].blocks = ++blocks;
        if (blocks == longest_chain + 1)
            note_deep(context, context.nesting.like, context.block(*one).name);
    }
    return blocks;
}

std::vector<At> chain_of(Context& context, At at, const Table& table) {
    const std::uint32_t blocks = count_likes(context, at, table);
    if (blocks == 0 || blocks > longest_chain) return {};
    std::vector<At> chain;
    for (At here = at; here; here = parent_of(context, context.block(here))) {
        here.ambiguous = look(table, context.block(here).name.sym).ambiguous;
        chain.push_back(here);
    }
    std::reverse(chain.begin(), chain.end());
    return chain;
}

void note_deep(const Context& context, std::optional<TooDeep>& noted, const Name& name) {
    const std::string_view folded_name = context.names.folded(name.sym);
    if (!noted || folded_name < noted->name) noted = TooDeep{std::string(folded_name), name.span};
}

bool settle_depth(Context& context, IngredientId id, const Formula& formula) {
    std::vector<std::uint32_t>& depth = context.nesting.depth;
    depth.resize(context.out.ingredients.size());
    std::uint32_t deepest = 0;
    for (const Part& part : formula.parts) deepest = std::max(deepest, depth[part.what]);
    if (deepest < longest_chain) {
        depth[id] = deepest + 1;
        return true;
    }
    const Ingredient& mix = context.out.ingredients[id];
    note_deep(context, context.nesting.held, {mix.sym, mix.span, false});
    return false;
}

void report_depths(Context& context) {
    if (const auto& held = context.nesting.held)
        report(context, {.code = Code::nesting_too_deep,
                         .message = fmt::format("{} holds a chain of {} blends and shades, each in "
                                                "the next; {} are the most, itself among them.",
                                                context.written(held->span), longest_chain + 1,
                                                longest_chain),
                         .span = held->span,
                         .advice = "Make one blend of several of them."});
    if (const auto& like = context.nesting.like)
        report(context, {.code = Code::nesting_too_deep,
                         .message = fmt::format("{} ends a chain of {} blocks, each like the one "
                                                "before; {} are the most.",
                                                context.written(like->span), longest_chain + 1,
                                                longest_chain),
                         .span = like->span,
                         .advice = "Let it be like one that is nearer to the first, or give it "
                                   "lines of its own."});
    if (const auto& unit = context.nesting.unit)
        report(context, {.code = Code::nesting_too_deep,
                         .message = fmt::format("{} is told in a chain of {} units, each in the "
                                                "next; {} are the most.",
                                                context.written(unit->span), longest_chain + 1,
                                                longest_chain),
                         .span = unit->span,
                         .advice = "Write its size in g or mL."});
}

bool count_lines(Context& context, std::size_t applied, std::size_t looked, Span where) {
    Nesting& nesting = context.nesting;
    nesting.lines += applied;
    nesting.looked += looked;
    if (nesting.lines <= most_parts && nesting.looked <= 16 * most_parts) return true;
    if (!nesting.lines_said)
        report(context, {.code = Code::formula_too_long,
                         .message = fmt::format("All formulas together, with all that they are "
                                                "like, have more than {} lines.",
                                                most_parts),
                         .span = where,
                         .advice = "Spread it over several files."});
    nesting.lines_said = true;
    return false;
}

}  // namespace levigate::resolving
