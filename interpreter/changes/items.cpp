// What each form of line speaks of, and what it says of it.
#include <algorithm>

#include <fmt/format.h>

#include "interpreter/changes/item_writer.hpp"

namespace levigate::changing {
namespace {

struct Said {
    int times, over;
    std::string_view words;
};
constexpr Said said_factors[] = {
    {1, 2, "half"},      {2, 1, "twice"},          {1, 3, "a third"},
    {1, 4, "a quarter"}, {3, 4, "three quarters"},
};

/// `half`, `1/4 ×`: the same factor, however it is said, means the same.
void factor(ItemWriter& out, const tree::Amount& amount) {
    if (amount.times == 1 && amount.over == 1 && amount.expr == tree::no_expr) return;
    Quantity value{Kind::number, Exact(amount.times, amount.over), 0};
    for (const Said& said : said_factors)
        if (said.times == amount.times && said.over == amount.over)
            return out.amount(std::string(said.words), value);
    if (amount.expr == tree::no_expr) return;
    auto known = out.known(amount.expr).value;
    if (known && known->kind == Kind::share) known->kind = Kind::number;  // 25 % as much
    out.amount(out.shown_at(out.at(amount.expr).span) + " ×", known);
}

/// The name behind an amount: where both stand in an open line, it was parted before.
void ingredient_name(ItemWriter& out, const tree::Ingredient& part) {
    if (!part.open) return out.ingredient(part.name);
    const tree::Expr& whole = out.at(part.amount.expr);
    const tree::ExprId last = whole.kind == tree::ExprKind::per ? whole.right : part.amount.expr;
    const Span name = out.known(last).name_span;
    out.ingredient_at(name ? name : out.at(last).words);
}

void quantity(ItemWriter& out, const tree::Ingredient& part) {
    if (!part.open) return out.expr(part.amount.expr);
    const tree::Expr& whole = out.at(part.amount.expr);
    const tree::ExprId last = whole.kind == tree::ExprKind::per ? whole.right : part.amount.expr;
    Span span = whole.span;
    const Span measure = out.known(last).measure_span;
    span.end = measure ? measure.end : out.at(last).number.end;
    auto value = out.known(part.amount.expr).value;
    if (value && value->kind == Kind::count) value.reset();  // of which container? by its words
    out.amount(out.shown_at(span), value);
}

void ingredient(ItemWriter& out, const tree::Ingredient& part) {
    ingredient_name(out, part);
    out.end_topic();
    const tree::Amount& amount = part.amount;
    switch (amount.kind) {
        case tree::AmountKind::quantity: return quantity(out, part);
        case tree::AmountKind::rest: return out.word("rest");
        case tree::AmountKind::as_much:
            factor(out, amount);
            out.word("as much as");
            return out.ref(amount.ref);
        case tree::AmountKind::enough:
            out.word("enough to bring");
            out.ref(amount.ref);
            out.word("to");
            return out.expr(amount.expr);
    }
}

void batch(ItemWriter& out, const tree::BatchLine& batch) {
    out.name(batch.name);
    out.end_topic();
    if (batch.sum)
        out.word("sum of weights");
    else
        out.expr(batch.quantity);
    if (batch.overage != tree::no_expr) out.comma(), out.word("overage"), out.expr(batch.overage);
    if (batch.holdback != tree::no_expr)
        out.comma(), out.word("holdback"), out.expr(batch.holdback);
}

std::string_view compare_words(tree::Compare compare) {
    switch (compare) {
        case tree::Compare::at_most: return "at most";
        case tree::Compare::at_least: return "at least";
        case tree::Compare::under: return "under";
        case tree::Compare::over: return "over";
        case tree::Compare::is: return "is";
        case tree::Compare::between: return "between";
    }
    return {};
}

void expect(ItemWriter& out, const tree::Expect& line) {
    const bool role = line.measure == tree::MeasureKind::role;
    if (role || line.measure == tree::MeasureKind::name)
        out.ref({line.name, role, line.measure_span});
    else
        out.words_at(line.measure_span);
    out.end_topic();
    out.word(compare_words(line.compare));
    out.expr(line.low);
    if (line.high != tree::no_expr) out.word("and"), out.expr(line.high);
}

/// The order of a list of names only tells which sheet comes first.
void names(ItemWriter& out, const tree::NameList& list, Item& item) {
    out.end_topic();
    std::vector<std::string> keys;
    std::string shown;
    for (const Name& name : list.names) {
        out.name(name);
        keys.push_back(item.written);
        shown += (shown.empty() ? "" : ", ") + item.shown;
        item.shown.clear(), item.written.clear(), item.meaning.clear();
    }
    std::sort(keys.begin(), keys.end());
    item.shown = shown;
    item.written = item.meaning = fmt::format("{}", fmt::join(keys, ", "));
}

void between(ItemWriter& out, const tree::Between& line) {
    out.end_topic();
    out.name(line.first);
    out.word("and");
    out.name(line.last);
    out.word("in");
    out.expr(line.steps);
    out.word("steps");
}

void vary(ItemWriter& out, const tree::Vary& line) {
    out.name(line.hole);
    out.end_topic();
    for (const tree::Value& value : line.values) out.comma(), out.value(value);
}

void label(ItemWriter& out, const tree::LabelLine& line) {
    out.end_topic();
    for (const tree::LabelPart& part : line.parts) {
        out.comma();
        out.name(part.name);
        out.expr(part.share);
        if (part.most == tree::no_expr) continue;
        out.word("to");
        out.expr(part.most);
    }
}

void colourant(ItemWriter& out, const tree::Colourant& line) {
    out.end_topic();
    for (const Name& index : line.indices) out.comma(), out.name(index);
    if (line.strength == tree::no_expr) return;
    out.comma();
    out.word("strength");
    out.expr(line.strength);
}

/// What needs no more than its words: all that stands behind the first.
void plain(ItemWriter& out, const tree::Line& line) {
    out.end_topic();
    Span rest = line.span;
    if (line.word()) rest.begin = std::min(rest.end, line.word().end);
    out.words_at(rest);
}

void body(ItemWriter& out, const tree::Line& line, Item& item) {
    if (const auto* part = std::get_if<tree::Ingredient>(&line.body)) return ingredient(out, *part);
    if (const auto* one = std::get_if<tree::BatchLine>(&line.body)) return batch(out, *one);
    if (const auto* one = std::get_if<tree::Expect>(&line.body)) return expect(out, *one);
    if (const auto* one = std::get_if<tree::NameList>(&line.body)) return names(out, *one, item);
    if (const auto* one = std::get_if<tree::Between>(&line.body)) return between(out, *one);
    if (const auto* one = std::get_if<tree::Vary>(&line.body)) return vary(out, *one);
    if (const auto* one = std::get_if<tree::LabelLine>(&line.body)) return label(out, *one);
    if (const auto* one = std::get_if<tree::Colourant>(&line.body)) return colourant(out, *one);
    if (const auto* one = std::get_if<tree::Without>(&line.body)) {
        out.ingredient(one->name);
        return out.end_topic();
    }
    if (const auto* one = std::get_if<tree::Swap>(&line.body)) {
        out.ingredient(one->old_name);
        out.end_topic();
        out.word("for");
        return out.ingredient(one->new_name);
    }
    if (const auto* one = std::get_if<tree::Scale>(&line.body)) {
        out.ref(one->what);
        out.end_topic();
        out.word("by");
        return out.factor(one->factor);
    }
    if (const auto* one = std::get_if<tree::Dilute>(&line.body)) {
        out.ingredient(one->what);
        out.end_topic();
        out.word("to");
        out.expr(one->strength);
        out.word("in");
        return out.ingredient(one->base);
    }
    if (const auto* one = std::get_if<tree::Let>(&line.body)) {
        out.name(one->hole);
        out.end_topic();
        return out.value(one->value);
    }
    if (const auto* one = std::get_if<tree::Reference>(&line.body)) {
        out.end_topic();
        return out.name(one->name);
    }
    if (const auto* one = std::get_if<tree::QuantityLine>(&line.body)) {
        out.end_topic();
        out.expr(one->expr);
        if (one->ends == tree::no_expr) return;
        out.word("±");
        return out.ends(one->expr, one->ends);
    }
    if (const auto* one = std::get_if<tree::Text>(&line.body)) {
        out.end_topic();
        return out.prose(*one);
    }
    plain(out, line);
}

}  // namespace

void write_item(ItemWriter& out, const tree::Line& line, Item& item) {
    item.form = line.form;
    item.is_private = line.is_private;
    const std::string_view word = entry(line.form).word;
    // A hole and an amount speak for themselves; all else by its word.
    const bool bare = line.form == Form::let || line.form == Form::ingredient;
    item.topic = word;
    if (!bare) out.word(word);
    body(out, line, item);
    // Lists, lists with a comment inside included, are put together again; an ingredient reads as
    // it was written.
    item.line = item.label + (item.shown.empty() ? "" : " ") + item.shown;
    if (std::holds_alternative<tree::Ingredient>(line.body)) item.line = out.shown_at(line.span);
    if (line.form == Form::let) item.line = fmt::format("let {} = {}", item.label, item.shown);
}

}  // namespace levigate::changing
