// Units that are told in other units: the last of them first, so that no walk goes deep. How many
// stand behind a unit is a property of the file, and so is what is said of too many.

#include <fmt/format.h>

#include <algorithm>

#include "interpreter/resolve/context.hpp"

namespace levigate::resolving {

namespace {

std::vector<At> units_in(Context& context, At at) {
    const tree::File& file = context.file(at.file);
    std::vector<At> out;
    std::string folded;
    std::vector<tree::ExprId> todo{context.block(at).value};
    while (!todo.empty()) {
        const tree::ExprId id = todo.back();
        todo.pop_back();
        if (id == tree::no_expr) continue;
        const tree::Expr& expr = file.exprs[id];
        todo.push_back(expr.left);
        todo.push_back(expr.right);
        if (!expr.words) continue;
        fold_name(context.sources.text(expr.words), folded);
        for (const At& unit : units_called(context, folded)) out.push_back(unit);
    }
    return out;
}

struct Frame {
    At at;
    std::vector<At> from;
    std::size_t next = 0;
    std::uint32_t deepest = 0;
};

struct Order {
    Context& context;
    std::vector<Frame> open{};
    std::unordered_map<std::uint64_t, std::size_t> on_way{};  ///< by At::key: place in `open`

    std::string_view folded(At at) const {
        return context.names.folded(context.block(at).name.sym);
    }

    void enter(At at) {
        on_way[at.key()] = open.size();
        open.push_back({at, units_in(context, at)});
    }

    /// No line has a size in it, and what is wrong was said.
    void spoil(At at) {
        context.nesting.units[at.key()] = 0;
        context.measures.insert_or_assign(std::string(folded(at)), std::nullopt);
    }

    /// Units from `begin` on are told in each other: said of the one whose name comes first.
    void meet_ring(std::size_t begin) {
        At first = open[begin].at;
        for (std::size_t i = begin; i < open.size(); ++i) {
            spoil(open[i].at);
            if (folded(open[i].at) < folded(first)) first = open[i].at;
        }
        const Span name = context.block(first).name.span;
        report(context, {.code = Code::unit_loop,
                         .message = fmt::format("The measure {} is reckoned from itself.",
                                                context.written(name)),
                         .span = name,
                         .advice = "Write an amount in a measure that is known, as in `0.15 mL`."});
    }

    void leave() {
        const Frame top = std::move(open.back());
        open.pop_back();
        on_way.erase(top.at.key());
        std::uint32_t depth = top.deepest + 1;
        const auto [known, fresh] = context.nesting.units.emplace(top.at.key(), depth);
        if (!fresh) return;  // it is spoilt
        if (depth > longest_chain) {
            if (depth == longest_chain + 1)
                note_deep(context, context.nesting.unit, context.block(top.at).name);
            spoil(top.at);
        } else {
            measure(context, folded(top.at));
        }
        if (!open.empty()) open.back().deepest = std::max(open.back().deepest, depth);
    }

    void run(At first) {
        enter(first);
        while (!open.empty()) {
            Frame& top = open.back();
            if (top.next == top.from.size()) {
                leave();
                continue;
            }
            const At to = top.from[top.next++];
            if (const auto known = context.nesting.units.find(to.key());
                known != context.nesting.units.end()) {
                const std::uint32_t depth = known->second == 0 ? longest_chain + 1 : known->second;
                top.deepest = std::max(top.deepest, depth);
            } else if (const auto there = on_way.find(to.key()); there != on_way.end()) {
                meet_ring(there->second);
            } else {
                enter(to);
            }
        }
    }
};

}  // namespace

bool prepare_unit(Context& context, At at) {
    if (!context.nesting.units.contains(at.key())) Order{context}.run(at);
    return context.nesting.units[at.key()] != 0;
}

}  // namespace levigate::resolving
