// What a maker is told to write where a formula can't be solved: the solver knows amounts alone,
// and neither her batch nor which of the lines are edits.

#include <fmt/format.h>

#include <algorithm>

#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/written_name.hpp"
#include "interpreter/resolve/context.hpp"
#include "interpreter/resolve/unknown.hpp"

namespace levigate::resolving {

namespace {

// ---- Weights beside a rest, drops beside parts -------------------------------------------------

/// The weight of the first batch that has one: what her drops are meant for. Else a round number.
std::string batch_weight(Context& context) {
    if (context.traits && context.env)
        for (const auto& [file, line] : context.traits->batches) {
            const auto size =
                batch_size(context, file, std::get<tree::BatchLine>(line.body), *context.env, {});
            if (!size) continue;
            if (const auto* mass = std::get_if<Mass>(&size->amount)) return exact_gram_words(*mass);
            const auto* count = std::get_if<ContainerCount>(&size->amount);
            if (!count || count->container >= context.out.containers.size()) continue;
            const auto& holds = context.out.containers[count->container].holds;
            if (const auto* each = std::get_if<Mass>(&holds))
                return exact_gram_words(grams(count->count * in_grams(*each)));
        }
    return "10 g";
}

/// Each weight as so much per the batch, in the measure that it is written in.
void propose_per(Context& context, const Recipe& recipe, Finding& finding) {
    const bool parts = finding.code == Code::parts_beside_grams;
    const std::string batch = batch_weight(context);
    std::vector<std::string> lines;
    finding.fixes.clear();
    for (const WorkPart& part : recipe.parts) {
        const auto* weight = std::get_if<Weight>(&part.part.amount);
        if (!weight || weight->parts) continue;
        // Of grams beside parts nothing says which of the two is the slip.
        if (parts && !(part.poured && part.poured->kind == Kind::volume)) return;
        const std::string per = fmt::format("{} per {}", context.written(part.part.span), batch);
        finding.fixes.push_back(possible_fix(part.part.span, per));
        lines.push_back(
            fmt::format("`{}   {}`", per, written_name(context.out.name(part.part.what))));
    }
    if (lines.empty()) return;
    finding.example.clear();
    finding.advice = fmt::format("Write how much there is in a batch: {}.", list_words(lines, 4));
}

// ---- Edits that make the sum run over ----------------------------------------------------------

/// An edit of the block, and the parts that it changed.
struct Edit {
    const tree::Line* line;
    std::vector<std::size_t> parts{};
};

bool sizes(OriginKind kind) {
    return kind == OriginKind::set || kind == OriginKind::added || kind == OriginKind::scaled ||
           kind == OriginKind::filled;
}

/// The last edit of the block that changed how much there is of something, or took a line out.
Edit last_edit(const Context& context, At block, const Recipe& recipe) {
    const auto [first, last] = lines_of(context, block);
    Edit out{nullptr};
    for (const tree::Line* line = first; line != last; ++line) {
        std::vector<std::size_t> changed;
        for (std::size_t i = 0; i < recipe.parts.size(); ++i)
            for (OriginId at = recipe.parts[i].part.origin; at < context.out.origins.size();
                 at = context.out.origins[at].before) {
                const Origin& origin = context.out.origins[at];
                if (origin.span != line->span || !sizes(origin.kind)) continue;
                changed.push_back(i);
                break;
            }
        if (changed.empty() && line->form != Form::without) continue;
        out = {line, std::move(changed)};
    }
    return out;
}

/// All shares together; nothing where an amount is no share that is written out.
std::optional<Exact> sum_of_shares(const Recipe& recipe) {
    Exact sum;
    for (const WorkPart& part : recipe.parts) {
        if (std::holds_alternative<AsMuch>(part.part.amount)) return std::nullopt;
        if (const auto* size = std::get_if<Share>(&part.part.amount)) sum += as_fraction(*size);
    }
    return sum;
}

/// What the edit would have to be for the sum to come out. `exactly`: no line takes up the change.
std::string other_size(const Recipe& recipe, const Edit& edit, const Exact& factor, bool exactly) {
    const auto sum = sum_of_shares(recipe);
    if (!sum || edit.parts.empty()) return {};
    Exact own;
    for (const std::size_t i : edit.parts) {
        const auto* size = std::get_if<Share>(&recipe.parts[i].part.amount);
        if (!size) return {};
        own += as_fraction(*size);
    }
    const Exact room = own + 1 - *sum;
    if (room.sign() <= 0 || own.sign() <= 0) return {};
    const std::string_view bound = exactly ? "" : "less than ";
    if (edit.line->form == Form::scale)
        return fmt::format("write {}{} as the factor here", bound,
                           exact_words(factor * room / own));
    if (edit.parts.size() > 1 || edit.line->form == Form::let) return {};
    return fmt::format("write {}{} here", bound, exact_percent_words(share(room)));
}

Exact scale_factor(const Context& context, const Recipe& recipe, const Edit& edit) {
    for (const std::size_t i : edit.parts)
        for (OriginId at = recipe.parts[i].part.origin; at < context.out.origins.size();
             at = context.out.origins[at].before)
            if (context.out.origins[at].span == edit.line->span)
                return context.out.origins[at].value;
    return 1;
}

/// What was solved before the edits is wrong by them: the place is theirs, and so is the cure.
void point_at_edit(const Context& context, const Recipe& recipe, Finding& finding) {
    const At block = context.edited;
    if (!block) return;
    const Edit edit = last_edit(context, block, recipe);
    if (!edit.line) return;
    const Span before = finding.span;
    finding.span = edit.line->span;
    for (const std::size_t i : edit.parts)
        if (const Span amount = recipe.parts[i].part.span;
            edit.parts.size() == 1 && amount.source == finding.span.source &&
            finding.span.begin <= amount.begin && amount.end <= finding.span.end)
            finding.span = amount;
    std::erase_if(finding.notes, [&](const Note& note) { return note.span == finding.span; });
    const bool exactly = finding.code == Code::total_off;
    if (!exactly) finding.notes.insert(finding.notes.begin(), {before, "nothing is left for it"});
    std::string size = other_size(recipe, edit, scale_factor(context, recipe, edit), exactly);
    if (exactly) {
        finding.advice = fmt::format(
            "Add a line `rebalance` to {}, so that its other lines make room{}{}.",
            context.written(context.block(block).name.span), size.empty() ? "" : "; or ", size);
    } else if (!size.empty()) {
        size.front() = 'W';
        finding.advice = size + ".";
    } else {
        finding.advice = fmt::format("Make the amounts that {} sets smaller.",
                                     context.written(context.block(block).name.span));
    }
}

}  // namespace

void name_cure(Context& context, const Recipe& recipe, Finding& finding) {
    switch (finding.code) {
        case Code::parts_beside_grams:
        case Code::rest_beside_weights: return propose_per(context, recipe, finding);
        case Code::total_off:
        case Code::total_over: return point_at_edit(context, recipe, finding);
        default: return;
    }
}

}  // namespace levigate::resolving
