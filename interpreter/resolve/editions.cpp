// What a file says of itself where it goes out, and blends whose amounts stay at home.

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <chrono>

#include "interpreter/resolve/context.hpp"
#include "interpreter/resolve/resolve.hpp"
#include "interpreter/resolve/unknown.hpp"

namespace levigate {

namespace {

int digits(std::string_view text, std::size_t from, std::size_t count) {
    int value = -1;
    const char* end = text.data() + from + count;
    const auto read = std::from_chars(text.data() + from, end, value);
    return read.ec == std::errc() && read.ptr == end ? value : -1;
}

}  // namespace

bool is_date(std::string_view text) {
    if (text.size() != 10 || text[4] != '-' || text[7] != '-') return false;
    const int year = digits(text, 0, 4), month = digits(text, 5, 2), day = digits(text, 8, 2);
    if (year < 0 || month < 0 || day < 0) return false;
    return std::chrono::year_month_day(std::chrono::year(year),
                                       std::chrono::month(static_cast<unsigned>(month)),
                                       std::chrono::day(static_cast<unsigned>(day)))
        .ok();
}

}  // namespace levigate

namespace levigate::resolving {

namespace {

void shade_names(Context& context, const tree::NameList& list, Edition& out) {
    for (const Name& name : list.names) {
        const bool member = std::any_of(context.out.shades.begin(), context.out.shades.end(),
                                        [&](const Shade& one) { return one.sym == name.sym; });
        if (member || look(context.scope.shade, name.sym) || look(context.scope.family, name.sym)) {
            out.shades.push_back(name.sym);
            continue;
        }
        report_unknown(context, {Code::shade_unknown,
                                 "shade or family",
                                 name,
                                 {&context.scope.shade, &context.scope.family},
                                 in(Heading::shade) | in(Heading::family),
                                 "Write the name of a shade of this file."});
    }
}

void number_line(Context& context, std::uint32_t file, tree::ExprId expr, Edition& out) {
    Env none;
    const auto value = evaluate(context, file, expr, none);
    if (!value) return;
    if (value->kind == Kind::number && value->value.is_integer() && value->value.sign() > 0)
        out.number = value->value;
    else
        report(context, {.code = Code::edition_malformed,
                         .message = "Editions are counted: 1, 2, 3 and so on.",
                         .span = context.file(file).exprs[expr].span,
                         .example = "number 3"});
}

void date_line(Context& context, const tree::Line& line, Edition& out) {
    const Span span = std::get<tree::Reference>(line.body).name.span;
    out.date = context.written(span);
    if (is_date(out.date)) return;
    const std::string meant = day_meant(out.date);
    out.date.clear();
    Finding finding{.code = Code::edition_malformed,
                    .message = "This is no day of the calendar, written as year-month-day.",
                    .span = span,
                    .example = "date 2026-10-01"};
    if (!meant.empty()) finding.fixes = {certain_fix(with_quotes(context, span), meant)};
    report(context, std::move(finding));
}

void digest_line(Context& context, const tree::Line& line, Edition& out) {
    out.digest_span = line.span;
    const Span span = std::get<tree::Reference>(line.body).name.span;
    out.digest = context.written(span);
    const auto hex = [](char sign) {
        return (sign >= '0' && sign <= '9') || (sign >= 'a' && sign <= 'f');
    };
    constexpr std::string_view kind = "sha256 ";
    const std::string_view text = out.digest;
    if (text.starts_with(kind) && text.size() == kind.size() + 64 &&
        std::all_of(text.begin() + kind.size(), text.end(), hex))
        return;
    out.digest.clear();
    // Never certain: without its digest nobody can tell whether the edition was altered.
    report(context, {.code = Code::edition_malformed,
                     .message = "This is no digest: 64 signs from 0 to 9 and a to f are due.",
                     .span = span,
                     .advice = "Leave this line out: `share` writes it.",
                     .fixes = {possible_fix(line.span, "")}});
}

void edition_line(Context& context, std::uint32_t file, const tree::Line& line, Edition& out) {
    Env none;
    switch (line.form) {
        case Form::number:
            number_line(context, file, std::get<tree::QuantityLine>(line.body).expr, out);
            break;
        case Form::date: date_line(context, line, out); break;
        case Form::shades: shade_names(context, std::get<tree::NameList>(line.body), out); break;
        case Form::note: out.notes.push_back(make_text(context, file, line, none)); break;
        case Form::digest: digest_line(context, line, out); break;
        default: break;
    }
}

}  // namespace

void add_edition(Context& context) {
    if (context.files.empty()) return;
    Span first{};
    for (std::uint32_t b = 0; b < context.file(0).blocks.size(); ++b) {
        const At at{0, b};
        const tree::Block& block = context.block(at);
        if (block.heading != Heading::edition) continue;
        const Span word{block.span.source, block.span.begin,
                        block.span.begin + static_cast<std::uint32_t>(sizeof "edition" - 1)};
        if (first) {
            report(context, {.code = Code::line_twice,
                             .message = "`edition` stands in this file twice.",
                             .span = word,
                             .advice = "Take one of the two out.",
                             .notes = {{first, "already there"}},
                             .here = "again here"});
            continue;
        }
        first = word;
        Edition& out = context.out.edition.emplace();
        out.title = context.written(block.name.span);
        out.span = block.span;
        const auto [line, last] = lines_of(context, at);
        for (const tree::Line* one = line; one != last; ++one) edition_line(context, 0, *one, out);
    }
}

/// What is like a sealed blend gives its amounts away by its edits.
void check_sealed(Context& context) {
    for (IngredientId id = 0; id < context.blend_at.size(); ++id) {
        const Ingredient& blend = context.out.ingredients[id];
        if (blend.kind != Ingredient::Kind::blend || blend.sealed || !context.blend_at[id])
            continue;
        const Name like = context.block(context.blend_at[id]).like;
        if (!like || like.sym >= context.ingredient_of.size()) continue;
        const IngredientId parent = context.ingredient_of[like.sym];
        if (parent == no_ingredient || !context.out.ingredients[parent].sealed) continue;
        report(context, {.code = Code::sealed_open,
                         .message = fmt::format("{} is sealed, and the edits of {} would tell what "
                                                "is in it.",
                                                context.out.name(parent), blend.name),
                         .span = like.span,
                         .advice = fmt::format("Add a line `sealed` to {} too.", blend.name)});
    }
}

}  // namespace levigate::resolving
