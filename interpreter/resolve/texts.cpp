// Steps and notes: words with names and values in braces.

#include <fmt/format.h>

#include <algorithm>

#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/solve.hpp"
#include "interpreter/resolve/context.hpp"

namespace levigate::resolving {

namespace {

std::optional<TextPiece> hole_piece(Context& context, const tree::TextPiece& written, Env& env) {
    TextPiece piece;
    piece.span = written.span;
    if (env.find(written.name.sym)) {
        Name hole = written.name;
        hole.hole = true;
        Binding* binding = settle(context, hole, env);
        if (!binding) return std::nullopt;
        piece.words = hole_words(context, *binding, env);
        if (binding->name && binding->name.sym < context.ingredient_of.size() &&
            context.ingredient_of[binding->name.sym] != no_ingredient) {
            piece.kind = TextPiece::Kind::ingredient;
            piece.ingredient = context.ingredient_of[binding->name.sym];
        }
        return piece;
    }
    Name plain = written.name;
    plain.hole = false;
    piece.ingredient = find_ingredient(context, plain, env);
    if (piece.ingredient == no_ingredient) return std::nullopt;
    piece.kind = TextPiece::Kind::ingredient;
    return piece;
}

}  // namespace

TextId make_text(Context& context, std::uint32_t file, const tree::Line& line, Env& env) {
    Text text;
    text.span = line.span;
    text.is_private = line.is_private;
    for (const tree::TextPiece& written : std::get<tree::Text>(line.body).pieces) {
        if (written.text) {
            // Blanks beside a hole part it from its neighbours: between two letters they stay.
            const std::string between =
                tidy_name(fmt::format("x{}x", context.sources.text(written.text)));
            text.pieces.push_back({TextPiece::Kind::words, between.substr(1, between.size() - 2),
                                   no_ingredient, written.text});
            continue;
        }
        if (written.expr != tree::no_expr) {
            const bool known = evaluate(context, file, written.expr, env).has_value();
            text.pieces.push_back({TextPiece::Kind::words,
                                   known ? written_words(context, file, written.expr, env)
                                         : context.written(written.span),
                                   no_ingredient, written.span});
            continue;
        }
        // What can't be told stands as it was written: a step with a gap would say something else.
        if (auto piece = hole_piece(context, written, env))
            text.pieces.push_back(std::move(*piece));
        else
            text.pieces.push_back({TextPiece::Kind::words, context.written(written.name.span),
                                   no_ingredient, written.span});
    }
    if (!text.pieces.empty() && !text.pieces.front().words.empty() &&
        text.pieces.front().words.front() == ' ')
        text.pieces.front().words.erase(0, 1);
    context.out.texts.push_back(std::move(text));
    return static_cast<TextId>(context.out.texts.size() - 1);
}

TextId swapped_text(Context& context, TextId id, IngredientId from, IngredientId to) {
    const auto names_it = [&](const TextPiece& piece) { return piece.ingredient == from; };
    const auto& pieces = context.out.texts[id].pieces;
    if (std::none_of(pieces.begin(), pieces.end(), names_it)) return id;
    if (context.out.texts.size() >= most_texts) return id;
    Text swapped = context.out.texts[id];
    for (TextPiece& piece : swapped.pieces)
        if (names_it(piece)) piece.ingredient = to;
    context.out.texts.push_back(std::move(swapped));
    return static_cast<TextId>(context.out.texts.size() - 1);
}

namespace {

/// The lines in which something is that is no line itself.
std::vector<std::string> holders(const Context& context, const Formula& formula,
                                 const std::vector<Addition>* additions, IngredientId what) {
    std::vector<std::string> out;
    const auto look_into = [&](const auto& part) {
        const Mix* mix = mix_of(context.out, part.what);
        if (mix && content_of(context.out, mix->formula, what).value().sign() > 0)
            out.push_back(context.out.name(part.what));
    };
    std::for_each(formula.parts.begin(), formula.parts.end(), look_into);
    if (additions) std::for_each(additions->begin(), additions->end(), look_into);
    return out;
}

}  // namespace

void check_texts(Context& context, const std::vector<TextId>& texts, const Formula& formula,
                 const std::vector<Addition>* additions, const std::string& whose) {
    if (!formula.solved()) return;
    for (const TextId id : texts) {
        for (const TextPiece& piece : context.out.texts[id].pieces) {
            if (piece.kind != TextPiece::Kind::ingredient) continue;
            const auto is_it = [&](const auto& part) { return part.what == piece.ingredient; };
            if (std::any_of(formula.parts.begin(), formula.parts.end(), is_it)) continue;
            if (additions && std::any_of(additions->begin(), additions->end(), is_it)) continue;
            const std::string& name = context.out.name(piece.ingredient);
            const auto inside = holders(context, formula, additions, piece.ingredient);
            std::vector<std::string> lines;
            for (const Part& part : formula.parts) lines.push_back(context.out.name(part.what));
            report(
                context,
                {.code = Code::reference_gone,
                 .message = inside.empty()
                                ? fmt::format("The text names {}, and {} holds none.", name, whose)
                                : fmt::format("The text names {}, and {} has no line of it: it "
                                              "is in {}.",
                                              name, whose, list_words(inside)),
                 .span = piece.span,
                 .advice = fmt::format("Name one of {}{}; or write `fresh steps` and new ones.",
                                       list_words(lines),
                                       inside.empty() ? "" : ", or leave out the braces")});
        }
    }
}

std::string plain_text(const Context& context, const tree::Text& text) {
    std::string out;
    for (const tree::TextPiece& piece : text.pieces) out += context.sources.text(piece.span);
    return tidy_name(out);
}

}  // namespace levigate::resolving
