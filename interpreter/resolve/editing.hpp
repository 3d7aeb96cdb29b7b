#pragma once
// A block's edits while they are applied, line by line. Shared by the sources of the edits.

#include "interpreter/resolve/context.hpp"

namespace levigate::resolving {

struct Done {
    Form form;
    Ref what;  ///< a name or, of `scale`, a role
    Span span;
};

struct Editing {
    Context& context;
    At at;
    Env& env;
    Recipe& recipe;
    bool edits;
    std::string whose;
    std::vector<Done> done{};
    std::vector<IngredientId> touched{};  ///< set, added or scaled here: they stand in a rebalance
    Span rebalance{};

    WorkPart* find(IngredientId what) {
        for (WorkPart& part : recipe.parts)
            if (part.part.what == what) return &part;
        return nullptr;
    }
    void broken() { recipe.broken = true; }
    /// What a variant does to one shade says nothing of the next that takes it.
    void say(Finding finding) {
        report_of(context, std::move(finding), whose, variant() ? context.taker : 0);
    }
    bool variant() const { return context.block(at).heading == Heading::variant; }
    /// Tells apart for whom the formula is worked out; all that go wrong as one does are one.
    std::uint64_t which() const {
        if (variant()) return context.taker;
        return std::hash<std::string>{}(context.blamed.empty() ? whose : context.blamed);
    }
};

/// The same edit twice on one name is a slip: says so, and is true.
bool twice(Editing& editing, Form form, const Ref& what, Span span);
bool twice(Editing& editing, Form form, IngredientId what, Span span);
/// An edit of a line that isn't there. `instead`: another edit that would do, with its fix.
void report_missing(Editing& editing, IngredientId what, Span span, std::string_view instead = {},
                    std::vector<Fix> fixes = {});

void swap_line(Editing& editing, const tree::Line& line);
void scale_line(Editing& editing, const tree::Line& line);
void dilute_line(Editing& editing, const tree::Line& line);

}  // namespace levigate::resolving
