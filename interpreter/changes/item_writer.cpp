#include "interpreter/changes/item_writer.hpp"

#include <fmt/format.h>

#include "interpreter/measure/exact.hpp"

namespace levigate::changing {
namespace {

void append(std::string& to, std::string_view text, bool glue) {
    if (!to.empty() && !text.empty() && !glue) to += ' ';
    to += text;
}

/// One sign for each operation, no blanks, lower case.
std::string compared(std::string_view text) {
    static constexpr std::pair<std::string_view, std::string_view> alike[] = {
        {"*", "×"}, {"÷", "/"}, {"−", "-"}, {"–", "-"}, {"—", "-"}};
    std::string out;
    fold_name(text, out);
    std::erase(out, ' ');
    for (const auto& [from, to] : alike)
        for (std::size_t at = out.find(from); at != std::string::npos;
             at = out.find(from, at + to.size()))
            out.replace(at, from.size(), to);
    return out;
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// Blanks single, and one between a number and its `%`.
std::string spaced(std::string_view text) {
    std::string out = tidy_name(text);
    for (std::size_t i = 1; i < out.size(); ++i)
        if (out[i] == '%' && is_digit(out[i - 1])) out.insert(i++, 1, ' ');
    return out;
}

std::string marked(std::string_view folded_name) {
    return fmt::format("{}{}{}", name_begins, folded_name, name_ends);
}

}  // namespace

std::string folded(std::string_view name) {
    std::string out;
    fold_name(name, out);
    return out;
}

void ItemWriter::put(std::string_view shown, std::string_view written, std::string_view meaning,
                     bool glue) {
    append(item_.shown, shown, glue);
    append(item_.written, written, glue);
    append(item_.meaning, meaning, glue);
}

void ItemWriter::word(std::string_view text) { put(text, text, text); }

void ItemWriter::comma() {
    if (!item_.shown.empty()) put(",", ",", ",", true);
}

void ItemWriter::factor(tree::ExprId id) {
    std::optional<Quantity> value = known_[id].value;
    if (value && value->kind == Kind::share) value->kind = Kind::number;
    amount(shown_at(at(id).span), value);
}

void ItemWriter::ends(tree::ExprId figure, tree::ExprId by) {
    std::optional<Quantity> value = known_[by].value;
    const std::optional<Quantity>& of = known_[figure].value;
    if (value && of && value->kind == Kind::share)
        value = Quantity{of->kind, of->value * value->value, of->tag};
    amount(shown_at(at(by).span), value);
}

void ItemWriter::end_topic() {
    item_.topic += item_.written;
    item_.label = item_.shown;
    item_.shown.clear(), item_.written.clear(), item_.meaning.clear();
}

std::string ItemWriter::shown_at(Span span) const { return spaced(compiled_.sources.text(span)); }

void ItemWriter::name(const Name& name) {
    if (!name) return;
    const std::string_view plain = compiled_.names.folded(name.sym);
    if (name.hole) {
        const std::string hole = fmt::format("{{{}}}", plain);
        return put(hole, hole, hole);
    }
    const std::string key = marked(plain);
    put(name.span ? shown_at(name.span) : std::string(plain), key, key);
}

void ItemWriter::put_ingredient(std::string shown, Sym sym, std::string_view otherwise) {
    const auto other = compiled_.formulary.called.find(sym);
    if (other != compiled_.formulary.called.end())
        sym = compiled_.formulary.ingredients[other->second].sym;
    const std::string key = marked(sym == no_name ? otherwise : compiled_.names.folded(sym));
    put(shown, key, key);
}

void ItemWriter::ingredient(const Name& written) {
    if (!written || written.hole) return name(written);
    put_ingredient(written.span ? shown_at(written.span) : std::string(name_text(written)),
                   written.sym, {});
}

void ItemWriter::ingredient_at(Span span) {
    const std::string_view text = compiled_.sources.text(span);
    put_ingredient(tidy_name(text), compiled_.names.find(text), folded(text));
}

/// The role, in the singular too; empty where nothing has it.
std::string ItemWriter::role_of(Sym sym) const {
    const std::vector<std::string>& roles = compiled_.formulary.role_names;
    const auto known = [&](Sym one) { return one < roles.size() && !roles[one].empty(); };
    const std::string_view text = compiled_.names.folded(sym);
    if (known(sym)) return std::string(text);
    if (text == "bulk") return "bulk";
    if (!text.ends_with('s')) return {};
    const Sym single = compiled_.names.find_folded(text.substr(0, text.size() - 1));
    return single != no_name && known(single) ? std::string(compiled_.names.folded(single)) : "";
}

void ItemWriter::ref(const tree::Ref& ref) {
    if (!ref.role || ref.name.hole) return ingredient(ref.name);
    const std::string role = role_of(ref.name.sym);
    if (role.empty()) return ingredient_at(ref.span);  // `The Pink Base` may be a name
    put(shown_at(ref.span), "the " + role, "the " + role);
}

std::string ItemWriter::value_words(const Quantity& value) const {
    std::string out = fmt::format("={}:{}", static_cast<int>(value.kind), value.value.fraction());
    if (value.tag == 0) return out;
    return fmt::format("{}:{}", out, value.kind == Kind::money ? std::to_string(value.tag) : "");
}

void ItemWriter::amount(std::string shown, const std::optional<Quantity>& value) {
    const std::string plain = compared(shown);
    const bool reckoned = value && value->value.known();
    put(shown, plain, reckoned ? value_words(*value) : plain);
}

void ItemWriter::expr(tree::ExprId id) {
    if (id == tree::no_expr) return;
    const Meaning& known = known_[id];
    std::optional<Quantity> value = known.value;
    // A count is so many of one container: the number alone would not tell which.
    if (value && value->kind == Kind::count) value.reset();
    amount(shown_at(at(id).span), value);
    if (value || !known.value || at(id).kind != tree::ExprKind::quantity) return;
    // … so the container is compared by name, and its number reckoned.
    const std::string plain = compared(compiled_.sources.text(at(id).span));
    item_.meaning.resize(item_.meaning.size() - plain.size());
    item_.meaning += fmt::format("{} {}", known.value->value.fraction(), folded(known.measure));
}

void ItemWriter::value(const tree::Value& value) {
    if (value.name && value.expr == tree::no_expr)
        ingredient(value.name);
    else
        expr(value.expr);
}

void ItemWriter::words_at(Span span) {
    const std::string text = spaced(compiled_.sources.text(span));
    const std::string key = folded(text);
    put(text, key, key);
}

void ItemWriter::prose(const tree::Text& text) {
    for (const tree::TextPiece& piece : text.pieces) {
        const bool hole = piece.name || piece.expr != tree::no_expr;
        const std::string_view raw = compiled_.sources.text(hole ? piece.span : piece.text);
        std::string plain = tidy_name(raw);
        if (!hole && !plain.empty()) {
            if (raw.front() == ' ' || raw.front() == '\t') plain.insert(0, 1, ' ');
            if (raw.back() == ' ' || raw.back() == '\t') plain += ' ';
        }
        std::string key = plain;
        if (piece.name && !piece.name.hole) key = marked(name_text(piece.name));
        if (hole && !piece.name) key = compared(plain);
        put(plain, key, key, true);
    }
}

}  // namespace levigate::changing
