#include "interpreter/resolve/meanings.hpp"

#include "interpreter/resolve/context.hpp"
#include "interpreter/resolve/slips.hpp"

namespace levigate {

using namespace resolving;

namespace {

void note_measure(Context& context, Span words, Meaning& out) {
    std::string folded;
    fold_name(context.sources.text(words), folded);
    if (const Measure* known = measure(context, folded)) out.measure = known->name;
}

/// From the values of both sides, if they are known: they come first in the table, and a long sum
/// is worked out once, not once for each of its beginnings.
void note_value(Context& context, std::uint32_t file, tree::ExprId id,
                std::vector<Meaning>& known) {
    Env none;
    const tree::Expr& expr = context.file(file).exprs[id];
    Meaning& out = known[id];
    if (expr.left < id && expr.right < id) {
        const auto &left = known[expr.left].value, &right = known[expr.right].value;
        if (left && right) out.value = join_values(context, file, id, *left, *right);
        return;
    }
    const bool counted = expr.kind == tree::ExprKind::quantity || expr.kind == tree::ExprKind::unit;
    if (counted && expr.words) note_measure(context, expr.words, out);
    out.value = evaluate(context, file, id, none);
}

/// A line whose last quantity holds measure and name: both are parted, and the line's own value
/// reckoned from that.
void note_open(Context& context, std::uint32_t file, const tree::Ingredient& line,
               std::vector<Meaning>& out) {
    const tree::Expr& whole = context.file(file).exprs[line.amount.expr];
    const bool per = whole.kind == tree::ExprKind::per;
    const tree::ExprId last = per ? whole.right : line.amount.expr;
    const tree::Expr& open = context.file(file).exprs[last];
    const auto split = split_measure(context, open.words);
    out[last] = out[line.amount.expr] = {};
    if (!split) return;
    Meaning& parted = out[last];
    note_measure(context, split->measure, parted);
    parted.measure_span = split->measure;
    parted.name_span = split->name;
    parted.value = so_many(context, open.number, split->one);
    if (!per || !parted.value || !out[whole.left].value) return;
    const auto joined = combine(Op::per, *out[whole.left].value, *parted.value);
    if (const auto* value = std::get_if<Quantity>(&joined)) out[line.amount.expr].value = *value;
}

}  // namespace

Meanings meanings_of(const Sources& sources, Names& names, const std::vector<LoadedFile>& files) {
    Meanings out;
    Formulary tables;
    Findings said_already;
    Context context{sources, names, files, tables, said_already};
    fill_scope(context);
    add_containers_and_balances(context);
    for (std::uint32_t f = 0; f < files.size(); ++f) {
        const tree::File& file = files[f].tree;
        std::vector<Meaning>& known = out.files.emplace_back(file.exprs.size());
        if (files[f].library) continue;
        for (tree::ExprId id = 0; id < file.exprs.size(); ++id)
            note_value(context, f, id, known);
        for (const tree::Line& line : file.lines)
            if (const auto* part = std::get_if<tree::Ingredient>(&line.body))
                if (part->open) note_open(context, f, *part, known);
    }
    for (const Container& container : tables.containers) out.containers.push_back(container.name);
    return out;
}

}  // namespace levigate
