#pragma once
// The scratch of one line while it is read: names and quantities in the order in which they were
// met. It is thrown away where the line turns out wrong, so a failed line leaves no trace.
// Private to the room.

#include <string_view>
#include <vector>

#include "grammar/names.hpp"
#include "grammar/tree.hpp"

namespace levigate {

struct Draft {
    Names& names;
    tree::File& file;
    std::string_view text;  ///< the whole source
    const char* origin;     ///< where it begins

    std::vector<Name> met{};            ///< names, in order
    std::vector<tree::ExprId> exprs{};  ///< quantities, innermost last
    std::vector<tree::Ref> refs{};
    std::vector<tree::Value> values{};
    std::vector<tree::LabelPart> labels{};
    std::vector<tree::TextPiece> pieces{};
    std::vector<tree::Pour> pours{};
    tree::Amount amount{};
    bool open = false;
    bool path = false;
    Span number{}, words{}, words_measured{}, date{};
    Name region{};
    Name like{};
    Name lot{};
    tree::Inherited inherited{};
    tree::MeasureKind measure{};
    tree::Compare compare{};
    tree::Lips lips{};
    bool by_number = false;
    bool metric = false;
    Span sum_of_weights{};
    tree::ExprId overage = tree::no_expr, holdback = tree::no_expr;

    void clear();
    Span span(const char* begin, const char* end) const {
        return {file.source, static_cast<std::uint32_t>(begin - origin),
                static_cast<std::uint32_t>(end - origin)};
    }
    std::string_view at(Span s) const { return text.substr(s.begin, s.end - s.begin); }

    Name name(Span s) { return {names.intern(at(s)), s, false}; }
    tree::ExprId push(tree::Expr expr) {
        file.exprs.push_back(expr);
        exprs.push_back(static_cast<tree::ExprId>(file.exprs.size() - 1));
        return exprs.back();
    }
    tree::ExprId pop() {
        const tree::ExprId last = exprs.back();
        exprs.pop_back();
        return last;
    }
    Name pop_name() {
        const Name last = met.back();
        met.pop_back();
        return last;
    }
    /// Joins the two last quantities by an operation.
    void join(tree::ExprKind kind);
};

}  // namespace levigate
