// How many lines the members of all families have, counted before any member is made.

#include <fmt/format.h>

#include <algorithm>

#include "interpreter/resolve/context.hpp"

namespace levigate::resolving {

namespace {

constexpr std::size_t of_member = 8;  ///< what a member takes beside its lines, as lines

struct Counted {
    std::size_t members = 1, rows = 0;
    bool varied = false;
    Name shade{};
};

Counted count(const Context& context, At family) {
    Counted out;
    const auto [first, last] = lines_of(context, family);
    for (const tree::Line* line = first; line != last; ++line) {
        if (line->form == Form::from) out.shade = std::get<tree::Reference>(line->body).name;
        if (line->form == Form::row) ++out.rows;
        if (const auto* vary = std::get_if<tree::Vary>(&line->body)) {
            out.varied = true;
            out.members = std::min(most_members, out.members * vary->values.size());
        }
    }
    if (!out.varied) out.members = std::min(most_members, out.rows);
    return out;
}

/// Lines of the shade and of all that it is like.
std::size_t lines_behind(const Context& context, const Name& shade) {
    At at = look(context.scope.shade, shade.sym);
    std::size_t lines = 0;
    for (std::size_t i = 0; at && i < longest_chain; ++i) {
        const tree::Block& block = context.block(at);
        lines += block.count;
        at = block.like ? look(context.scope.shade, block.like.sym) : At{};
    }
    return lines;
}

}  // namespace

bool families_fit(Context& context) {
    std::size_t lines = 0;
    std::optional<TooDeep> first;
    each_block(context, Heading::family, [&](At at) {
        const Counted counted = count(context, at);
        if (counted.members == 0 || !counted.shade) return;
        lines += counted.members * (of_member + lines_behind(context, counted.shade));
        note_deep(context, first, context.block(at).name);
    });
    if (lines <= most_parts) return true;
    report(context, {.code = Code::formula_too_long,
                     .message = fmt::format("The members of all families together have more than "
                                            "{} lines, with all that they are like.",
                                            most_parts),
                     .span = first->span,
                     .advice = "Spread the families over several files, or give them fewer "
                               "members."});
    return false;
}

}  // namespace levigate::resolving
