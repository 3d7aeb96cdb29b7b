// Files that are beyond a limit a thousand times over: made by a program gone wrong, and not worth
// the time and the memory that resolving the rest would take. What is counted here is only what is
// sure whatever edits and holes make of it, and hangs on no order.

#include <algorithm>

#include "interpreter/resolve/context.hpp"

namespace levigate::resolving {

namespace {

constexpr std::size_t most_beyond = 1000;

struct Frame {
    At at;
    std::vector<At> below;
    std::size_t next = 0;
    std::uint32_t deepest = 0;
};

/// Blends and shades that aren't like others, and hold what their plain lines name.
struct Depths {
    Context& context;
    std::unordered_map<std::uint64_t, std::uint32_t> depth{};  ///< by At::key; 0: on the way
    std::vector<Frame> open{};
    std::size_t beyond = 0;

    void enter(At at) {
        depth[at.key()] = 0;
        open.push_back({at, held_by(context, at)});
    }

    void leave() {
        const Frame top = std::move(open.back());
        open.pop_back();
        const std::uint32_t own = top.deepest + 1;
        depth[top.at.key()] = own;
        if (own == longest_chain + 1)
            note_deep(context, context.nesting.held, context.block(top.at).name);
        beyond += own > longest_chain ? 1 : 0;
        if (!open.empty()) open.back().deepest = std::max(open.back().deepest, own);
    }

    /// True if the blocks need each other in a ring of so many that nothing is to be done; said.
    bool is_long_ring(At to) {
        std::vector<At> ring;
        for (auto at = open.rbegin(); at != open.rend(); ++at) {
            ring.push_back(at->at);
            if (at->at.is(to)) break;
        }
        if (ring.size() <= most_beyond) return false;
        refuse_ring(context, ring);
        return true;
    }

    /// False if a long ring was met.
    bool run(At from) {
        if (depth.contains(from.key())) return true;
        enter(from);
        while (!open.empty()) {
            Frame& top = open.back();
            if (top.next == top.below.size()) {
                leave();
                continue;
            }
            const At to = top.below[top.next++];
            const auto known = depth.find(to.key());
            if (known == depth.end())
                enter(to);
            else if (known->second != 0)
                top.deepest = std::max(top.deepest, known->second);
            else if (is_long_ring(to))
                return false;
        }
        return true;
    }
};

bool holds_too_much(Context& context) {
    Depths depths{context};
    for (const Heading heading : {Heading::blend, Heading::shade}) {
        bool ring = false;
        each_block(context, heading, [&](At at) { ring = ring || !depths.run(at); });
        if (ring) return true;
    }
    if (depths.beyond > most_beyond) return true;
    context.nesting.held.reset();  // it is told again, with what edits make of it
    return false;
}

bool is_like_too_much(Context& context) {
    std::size_t beyond = 0;
    for (const Heading heading : {Heading::blend, Heading::shade})
        each_block(context, heading, [&](At at) {
            if (!context.block(at).like) return;
            const std::uint32_t blocks = count_likes(context, at, table_of(context, heading));
            beyond += blocks == 0 || blocks > longest_chain ? 1 : 0;
        });
    return beyond > most_beyond;
}

}  // namespace

bool is_hopeless(Context& context) {
    if (!is_like_too_much(context) && !holds_too_much(context)) return false;
    report_depths(context);
    return true;
}

}  // namespace levigate::resolving
