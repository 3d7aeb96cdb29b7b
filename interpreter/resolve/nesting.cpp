// Depth by the graph of what blocks name, not by the walk: blocks are resolved from the innermost
// on, rings are found before anything follows them, and each limit is told by a property of the
// file. Tarjan's algorithm, with a stack of its own.

#include "interpreter/resolve/nesting.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "interpreter/resolve/context.hpp"

namespace levigate::resolving {

namespace {

// ---- What a block names ------------------------------------------------------------------------

/// The blend or shade that a name leads to, by the order in which names are looked up.
At mix_called(const Context& context, Sym sym) {
    if (sym == no_name) return {};
    if (const At found = look(context.scope.material_or_blend, sym))
        return context.block(found).heading == Heading::blend ? found : At{};
    return look(context.scope.shade, sym);
}

struct Below {
    Context& context;
    const tree::File& file;
    std::vector<At> out{};

    void add(Sym sym) {
        if (const At at = mix_called(context, sym)) out.push_back(at);
    }
    void add(const Name& name) {
        if (!name.hole) add(name.sym);
    }
    void add(const tree::Ref& ref) {
        add(ref.name);
        if (ref.role) add(context.names.find(context.sources.text(ref.span)));
    }
    void add(const tree::Ingredient& line) {
        add(line.amount.ref);
        add(line.name);
        add_open(line);
    }
    void add_open(const tree::Ingredient& line) {
        if (!line.open || line.amount.expr == tree::no_expr) return;
        if (const auto split = split_measure(context, file.exprs[line.amount.expr].words))
            add(context.names.find(context.sources.text(split->name)));
    }
    void see(const tree::Line& line) {
        const tree::Body& body = line.body;
        if (const auto* part = std::get_if<tree::Ingredient>(&body)) return add(*part);
        if (const auto* without = std::get_if<tree::Without>(&body)) return add(without->name);
        if (const auto* swap = std::get_if<tree::Swap>(&body))
            return add(swap->old_name), add(swap->new_name);
        if (const auto* scale = std::get_if<tree::Scale>(&body)) return add(scale->what);
        if (const auto* dilute = std::get_if<tree::Dilute>(&body))
            return add(dilute->what), add(dilute->base);
        if (const auto* let = std::get_if<tree::Let>(&body)) return add(let->value.name);
        if (const auto* text = std::get_if<tree::Text>(&body))
            for (const tree::TextPiece& piece : text->pieces) add(piece.name.sym);
    }
};

}  // namespace

At parent_of(const Context& context, const tree::Block& block) {
    if (!block.like) return {};
    const At parent = look(table_of(context, block.heading), block.like.sym);
    return parent && context.block(parent).heading == block.heading ? parent : At{};
}

const Table& table_of(const Context& context, Heading heading) {
    return heading == Heading::shade ? context.scope.shade : context.scope.material_or_blend;
}

std::vector<At> held_by(Context& context, At at) {
    Below found{context, context.file(at.file)};
    if (context.block(at).like) return {};
    const auto [first, last] = lines_of(context, at);
    for (const tree::Line* line = first; line != last; ++line)
        if (line->form == Form::ingredient)
            if (const auto* part = std::get_if<tree::Ingredient>(&line->body)) {
                found.add(part->name);
                found.add_open(*part);
            }
    return std::move(found.out);
}

namespace {

/// In the order of the lines; a block that is named twice stands there twice.
std::vector<At> below(Context& context, At at) {
    Below found{context, context.file(at.file)};
    if (const At parent = parent_of(context, context.block(at))) found.out.push_back(parent);
    const auto [first, last] = lines_of(context, at);
    for (const tree::Line* line = first; line != last; ++line) found.see(*line);
    return std::move(found.out);
}

// ---- Rings -------------------------------------------------------------------------------------

std::string_view folded(const Context& context, At at) {
    return context.names.folded(context.block(at).name.sym);
}

/// True of a block that is like others in a ring: nothing of it is resolved, so nothing is needed.
bool is_like_lost(Context& context, At at) {
    const tree::Block& block = context.block(at);
    return block.like && count_likes(context, at, table_of(context, block.heading)) == 0;
}

/// What a formula surely needs: the lines that are written or edited into it, and what it is like.
std::vector<At> needed(Context& context, At at) {
    Below found{context, context.file(at.file)};
    if (is_like_lost(context, at)) return {};
    if (const At parent = parent_of(context, context.block(at))) found.out.push_back(parent);
    const auto [first, last] = lines_of(context, at);
    for (const tree::Line* line = first; line != last; ++line)
        if (line->form == Form::ingredient || line->form == Form::set || line->form == Form::add)
            found.see(*line);
    return std::move(found.out);
}

/// The shortest way from a block back to itself among the blocks of its group; empty for none.
std::vector<At> ring_through(Context& context, At from, const std::vector<At>& group) {
    std::unordered_map<std::uint64_t, At> came{};
    for (const At& one : group) came[one.key()] = At{};
    std::vector<At> next{from};
    for (std::size_t i = 0; i < next.size(); ++i) {
        for (const At& to : needed(context, next[i])) {
            const auto known = came.find(to.key());
            if (known == came.end() || known->second) continue;
            known->second = next[i];
            if (!to.is(from)) {
                next.push_back(to);
                continue;
            }
            std::vector<At> ring;
            for (At at = next[i]; !at.is(from); at = came.at(at.key())) ring.push_back(at);
            ring.push_back(from);
            std::reverse(ring.begin(), ring.end());
            return ring;
        }
    }
    return {};
}

/// Where a block names another: the name in its line, or behind `like`.
Span mention(Context& context, At in, At what) {
    const auto [first, last] = lines_of(context, in);
    for (const tree::Line* line = first; line != last; ++line) {
        const auto* part = std::get_if<tree::Ingredient>(&line->body);
        if (!part) continue;
        Below found{context, context.file(in.file)};
        found.add(part->name);
        if (!found.out.empty() && found.out.front().is(what)) return part->name.span;
        if (!part->open || part->amount.expr == tree::no_expr) continue;
        const Span words = context.file(in.file).exprs[part->amount.expr].words;
        const auto split = split_measure(context, words);
        if (!split) continue;
        found.add(context.names.find(context.sources.text(split->name)));
        if (!found.out.empty() && found.out.back().is(what)) return split->name;
    }
    const Name like = context.block(in).like;
    return like ? like.span : context.block(what).name.span;
}

}  // namespace

bool refuse_ring(Context& context, std::vector<At> group) {
    std::sort(group.begin(), group.end(),
              [&](At a, At b) { return folded(context, a) < folded(context, b); });
    std::vector<At> ring;
    for (std::size_t i = 0; i < group.size() && i < longest_ring && ring.empty(); ++i)
        ring = ring_through(context, group[i], group);
    const bool lost = std::all_of(group.begin(), group.end(),
                                  [&](At at) { return is_like_lost(context, at); });
    if (ring.empty() && (lost || group.size() <= longest_ring)) return false;
    if (ring.empty()) ring = {group.front()};
    std::string words;
    for (std::size_t i = 0; i < ring.size() && i < longest_ring; ++i)
        words += context.written(context.block(ring[i]).name.span) + " holds ";
    if (ring.size() > longest_ring)
        words += fmt::format("… ({} more) holds ", ring.size() - longest_ring);
    report(context, {.code = Code::blend_loop,
                     .message = fmt::format("These hold each other in a ring: {}{}.", words,
                                            context.written(context.block(ring[0]).name.span)),
                     .span = mention(context, ring.back(), ring.front()),
                     .advice = "Take one of these lines out."});
    for (const At& at : group) {
        if (context.block(at).heading == Heading::shade) {
            ShadeState& state = context.shades[at.file][at.block];
            state.state = ShadeState::State::done;
            state.recipe.broken = true;
            continue;
        }
        const Sym sym = context.block(at).name.sym;
        if (sym >= context.ingredient_of.size()) continue;  // nothing is looked up yet
        const IngredientId id = context.ingredient_of[sym];
        if (id == no_ingredient || !context.blend_at[id].is(at)) continue;
        context.out.ingredients[id].damaged = true;
        context.mix_state[id] = 2;
    }
    return true;
}

namespace {

void resolve_one(Context& context, At at) {
    if (context.block(at).heading == Heading::shade) {
        ensure_shade(context, at);
        return;
    }
    const IngredientId id = context.ingredient_of[context.block(at).name.sym];
    if (id != no_ingredient && context.blend_at[id].is(at)) ensure_mix(context, id);
}

// ---- From the innermost on ---------------------------------------------------------------------

struct Frame {
    At at;
    std::vector<At> below;
    std::size_t next = 0;
};

struct Search {
    Context& context;
    std::vector<Frame> frames{};
    std::vector<At> waiting{};  ///< whose group isn't known yet, in the order they were reached

    Nesting::Node& node(At at) { return context.nesting.nodes[at.key()]; }

    void reach(At at) {
        const auto index = static_cast<std::uint32_t>(context.nesting.nodes.size() + 1);
        node(at) = {index, index, true};
        waiting.push_back(at);
        frames.push_back({at, below(context, at)});
    }

    /// All that the block on top leads to was seen.
    void leave() {
        const At at = frames.back().at;
        frames.pop_back();
        const Nesting::Node own = node(at);
        if (!frames.empty()) {
            Nesting::Node& above = node(frames.back().at);
            above.low = std::min(above.low, own.low);
        }
        if (own.low != own.index) return;
        std::vector<At> group;
        do {
            group.push_back(waiting.back());
            waiting.pop_back();
            node(group.back()).open = false;
        } while (!group.back().is(at));
        // What may be no ring, once holes are filled, is followed from where it was reached.
        if (group.size() == 1 || !refuse_ring(context, group)) resolve_one(context, at);
    }

    void run(At from) {
        reach(from);
        while (!frames.empty()) {
            Frame& top = frames.back();
            if (top.next == top.below.size()) {
                leave();
                continue;
            }
            const At to = top.below[top.next++];
            const Nesting::Node there = node(to);
            if (there.index == 0) {
                reach(to);
            } else if (there.open) {
                Nesting::Node& own = node(top.at);
                own.low = std::min(own.low, there.index);
            }
        }
    }
};

}  // namespace

void prepare(Context& context, At at) {
    if (!context.nesting.nodes.contains(at.key())) Search{context}.run(at);
}

}  // namespace levigate::resolving
