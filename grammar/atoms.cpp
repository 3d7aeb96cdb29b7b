#include "grammar/atoms.hpp"

#include <algorithm>
#include <tuple>
#include <type_traits>

#include "grammar/lines.hpp"

namespace levigate {

namespace {

// The fields of each struct of the tree, but for spans that only repeat others.
template <typename T>
auto fields(const T&) = delete;
auto fields(const tree::Ref& x) { return std::tie(x.name, x.role); }
auto fields(const tree::Amount& x) { return std::tie(x.kind, x.expr, x.times, x.over, x.ref); }
auto fields(const tree::Ingredient& x) { return std::tie(x.amount, x.name, x.open); }
auto fields(const tree::Without& x) { return std::tie(x.name); }
auto fields(const tree::Swap& x) { return std::tie(x.old_name, x.new_name); }
auto fields(const tree::Scale& x) { return std::tie(x.what, x.factor); }
auto fields(const tree::Fresh& x) { return std::tie(x.what); }
auto fields(const tree::Dilute& x) { return std::tie(x.what, x.strength, x.base); }
auto fields(const tree::Value& x) { return std::tie(x.expr, x.name); }
auto fields(const tree::Let& x) { return std::tie(x.hole, x.value); }
auto fields(const tree::NameList& x) { return std::tie(x.names); }
auto fields(const tree::BatchLine& x) {
    return std::tie(x.name, x.quantity, x.overage, x.holdback);  // `sum of weights` is words
}
auto fields(const tree::Reference& x) { return std::tie(x.name); }
auto fields(const tree::Expect& x) { return std::tie(x.measure, x.name, x.compare, x.low, x.high); }
auto fields(const tree::Text& x) { return std::tie(x.pieces); }
auto fields(const tree::LabelPart& x) { return std::tie(x.name, x.share, x.most); }
auto fields(const tree::LabelLine& x) { return std::tie(x.parts); }
auto fields(const tree::Colourant& x) { return std::tie(x.indices, x.strength); }
auto fields(const tree::QuantityLine& x) { return std::tie(x.expr, x.ends); }
auto fields(const tree::Swatch& x) { return std::tie(x.lab, x.at, x.in); }
auto fields(const tree::Vary& x) { return std::tie(x.hole, x.values); }
auto fields(const tree::Between& x) { return std::tie(x.first, x.last, x.steps); }
auto fields(const tree::Row& x) { return std::tie(x.cells); }
auto fields(const tree::LipsLine& x) { return std::tie(x.lips, x.limit); }
auto fields(const tree::Colourants& x) { return std::tie(x.by_number); }
auto fields(const tree::Bound& x) { return std::tie(x.compare, x.expr); }
auto fields(const tree::Contents& x) { return std::tie(x.from, x.metric); }
auto fields(const tree::Have& x) {
    return std::tie(x.quantity, x.name, x.open, x.lot, x.best_before);
}
auto fields(const tree::Day& x) { return std::tie(x.date); }
auto fields(const tree::Make& x) {
    return std::tie(x.quantity, x.batch, x.shade, x.variant_or_finish, x.finish, x.open);
}
auto fields(const tree::PourList& x) { return std::tie(x.pours); }
auto fields(const std::monostate&) { return std::tuple<>(); }
auto fields(const tree::Rebalance&) { return std::tuple<>(); }
auto fields(const tree::Sealed& x) { return std::tie(x.within); }

struct Flattener {
    std::string_view text;
    const tree::File& file;
    Atoms& out;

    template <typename T>
    void see(const T& value) {
        if constexpr (std::is_same_v<T, tree::ExprId>)
            expression(value);
        else if constexpr (std::is_enum_v<T> || std::is_integral_v<T>)
            flag(static_cast<std::size_t>(value));
        else
            std::apply([&](const auto&... each) { (see(each), ...); }, fields(value));
    }
    template <typename T>
    void see(const std::vector<T>& values) {
        flag(values.size());
        for (const T& value : values) see(value);
    }
    template <typename T, std::size_t count>
    void see(const std::array<T, count>& values) {
        for (const T& value : values) see(value);
    }
    void see(const Name& name) {
        if (!name) return flag(0);
        if (!name.hole) return push_quoted(Atom::Part::name, name.span, name.sym);
        push(Atom::Part::hole, braces(name.span), name.sym);
    }
    /// A date, which is all digits and signs.
    void see(const Span& date) {
        flag(date ? 1 : 0);
        push(Atom::Part::number, date);
    }
    /// `name` among the columns is a word of the language.
    void see(const tree::Columns& listed) {
        flag(listed.columns.size());
        for (const Name& column : listed.columns) {
            const std::string_view word = text.substr(column.span.begin, 4);
            const bool ours = column.span.end - column.span.begin == 4 &&
                              std::equal(word.begin(), word.end(), "name",
                                         [](char a, char b) { return (a | 0x20) == b; });
            if (column.hole || !ours) see(column);
        }
    }
    void see(const tree::TextPiece& piece) {
        if (piece.text) return push(Atom::Part::literal, piece.text);
        see(piece.name);
        see(piece.expr);
    }

    /// Its words hold measure and name; which is which tells nothing apart.
    void see(const tree::Pour& pour) {
        push(Atom::Part::number, pour.number);
        push(Atom::Part::measure, pour.words);
        for (const Name& name : {pour.name, pour.lot, pour.bowl}) see(name);
    }

    void flag(std::size_t value) { out.push_back({.flag = value}); }
    void push(Atom::Part part, Span span, Sym name = no_name) {
        if (span) out.push_back({part, span, 0, name});
    }
    /// With its quotes, where it stands in quotes.
    void push_quoted(Atom::Part part, Span span, Sym name = no_name) {
        const std::uint32_t behind = span.end < text.size() ? quote_at(text, span.end) : 0;
        const bool one = span.begin >= 1 && quote_at(text, span.begin - 1) == 1;
        const bool three = span.begin >= 3 && quote_at(text, span.begin - 3) == 3;
        if (span && behind > 0 && (one || three)) {
            span.begin -= one ? 1 : 3;
            span.end += behind;
        }
        push(part, span, name);
    }
    /// A hole's name stands in its braces, maybe with blanks.
    Span braces(Span name) const {
        while (name.begin > 0 && text[name.begin] != '{') --name.begin;
        while (name.end < text.size() && text[name.end - 1] != '}') ++name.end;
        return name;
    }
    void minus(const tree::Expr& expr) {
        const bool one = text[expr.span.begin] == '-';
        push(Atom::Part::minus,
             {expr.span.source, expr.span.begin, expr.span.begin + (one ? 1u : 3u)});
    }
    /// By a stack: sums of thousands of terms lean far to the left.
    void expression(tree::ExprId root) {
        std::vector<tree::ExprId> due = {root};
        while (!due.empty()) {
            const tree::ExprId id = due.back();
            due.pop_back();
            if (id == tree::no_expr) {
                flag(0);
                continue;
            }
            const tree::Expr& expr = file.exprs[id];
            flag(1 + static_cast<std::size_t>(expr.kind));
            const bool sign = expr.number && expr.number.begin != expr.span.begin;
            if (sign || expr.kind == tree::ExprKind::negate) minus(expr);
            if (expr.kind == tree::ExprKind::hole) push(Atom::Part::hole, expr.span, expr.hole);
            push(Atom::Part::number, expr.number);
            push_quoted(Atom::Part::measure, expr.words);
            if (expr.right != tree::no_expr) due.push_back(expr.right);
            if (expr.left != tree::no_expr) due.push_back(expr.left);
        }
    }
};

}  // namespace

Atoms atoms_of(std::string_view text, const tree::File& file, const tree::Line& line) {
    Atoms out;
    Flattener flat{text, file, out};
    flat.see(line.form);
    flat.see(line.is_private);
    std::visit([&](const auto& body) { flat.see(body); }, line.body);
    return out;
}

Atoms atoms_of(std::string_view text, const tree::File& file, const tree::Block& block) {
    Atoms out;
    Flattener flat{text, file, out};
    flat.see(block.heading);
    if (block.path)
        flat.push_quoted(Atom::Part::path, block.name.span, block.name.sym);
    else
        flat.see(block.name);
    flat.see(block.like);
    flat.see(block.region);
    flat.see(block.listed);
    flat.see(block.value);
    flat.see(block.date);
    if (block.made != tree::no_expr) flat.see(file.makes[block.made]);
    flat.see(block.damaged);
    flat.see(block.formula_lost);
    flat.flag(block.count);
    return out;
}

Span open_words(const tree::File& file, const tree::Body& body) {
    const auto* part = std::get_if<tree::Ingredient>(&body);
    const auto* make = std::get_if<tree::Make>(&body);
    if (make && make->open) return file.exprs[make->quantity].words;
    const auto* have = std::get_if<tree::Have>(&body);
    if (have && have->open) return file.exprs[have->quantity].words;
    if (!part || !part->open) return {};
    const tree::Expr& whole = file.exprs[part->amount.expr];
    return whole.kind == tree::ExprKind::per ? file.exprs[whole.right].words : whole.words;
}

}  // namespace levigate
