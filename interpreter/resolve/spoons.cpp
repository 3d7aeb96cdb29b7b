// "1/4 tsp, 1/8 tsp, drop": the measures that are at hand.

#include <fmt/format.h>

#include <algorithm>

#include "grammar/read.hpp"
#include "interpreter/resolve/context.hpp"
#include "interpreter/resolve/resolve.hpp"

namespace levigate {

using namespace resolving;

namespace {

std::string folded_at(const Context& context, Span words) {
    std::string folded;
    fold_name(context.sources.text(words), folded);
    return folded;
}

/// `drop` itself, or a `unit` that is written in such: `unit pipette = 20 drops`.
bool in_drops(Context& context, std::string folded) {
    for (std::size_t depth = 0; depth < longest_chain; ++depth) {
        const Measure* known = measure(context, folded);
        if (!known) return false;
        fold_name(known->name, folded);
        if (folded == "drop") return true;
        const At at = look(context.scope.unit, context.names.find_folded(folded));
        if (!at || context.block(at).value == tree::no_expr) return false;
        const tree::Expr& written = context.file(at.file).exprs[context.block(at).value];
        if (written.kind != tree::ExprKind::quantity || !written.words) return false;
        folded = folded_at(context, written.words);
    }
    return false;
}

Finding no_spoon(std::string message, Span span) {
    return {.code = Code::quantity_kind,
            .message = std::move(message),
            .span = span,
            .example = "1/4 tsp, 1/8 tsp, drop"};
}

std::optional<Spoon> spoon(Context& context, std::uint32_t file, tree::ExprId id, Span all) {
    const tree::Expr& written = context.file(file).exprs[id];
    Env none;
    const auto value = evaluate(context, file, id, none);
    if (!value) return std::nullopt;
    if (value->kind != Kind::volume || value->value.sign() <= 0 ||
        written.kind != tree::ExprKind::quantity || !written.words) {
        report(context, no_spoon("A spoon or another measure of volume is due here, such as 1/4 "
                                 "tsp or drop.",
                                 all));
        return std::nullopt;
    }
    const std::string folded = folded_at(context, written.words);
    Spoon out;
    out.volume = millilitres(value->value);
    out.number = read_number(context.sources.text(written.number)).value_or(Exact(1));
    out.written = canonical_number(context.sources.text(written.number));
    out.measure = measure(context, folded)->name;
    out.in_drops = in_drops(context, folded);
    return out;
}

}  // namespace

Outcome<std::optional<Spoon>> resolve_spoon(const Sources& sources, SourceId source, Names& names,
                                            const std::vector<LoadedFile>& files) {
    Outcome<std::optional<Spoon>> out;
    auto text = read_size_text(sources, source, names);
    out.findings = std::move(text.findings);
    if (!out.findings.empty()) return out;
    const Span all{source, 0, static_cast<std::uint32_t>(sources[source].text.size())};
    if (text.value.overage != tree::no_expr || text.value.holdback != tree::no_expr) {
        out.findings.push_back(no_spoon("A spoon has no overage and no holdback.", all));
        return out;
    }
    std::vector<LoadedFile> joined = files;
    joined.push_back({std::move(text.value.file), false, false});
    Formulary tables;
    Context context{sources, names, joined, tables, out.findings};
    fill_scope(context);
    add_containers_and_balances(context);
    out.findings.clear();
    context.said.clear();
    out.value =
        spoon(context, static_cast<std::uint32_t>(joined.size() - 1), text.value.quantity, all);
    return out;
}

}  // namespace levigate
