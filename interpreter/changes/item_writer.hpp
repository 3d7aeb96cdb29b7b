#pragma once
// Writes one line's item, piece by piece, in its three forms at once. The inside of blocks.cpp.

#include <string>
#include <string_view>

#include "interpreter/changes/blocks.hpp"

namespace levigate::changing {

class ItemWriter {
public:
    ItemWriter(const Compiled& compiled, const LoadedFile& file, const std::vector<Meaning>& known,
               Item& item)
        : compiled_(compiled), file_(file.tree), known_(known), item_(item) {}

    void word(std::string_view text);
    void comma();
    void name(const Name& name);
    /// Of an ingredient: its other names stand for it.
    void ingredient(const Name& name);
    void ingredient_at(Span span);
    void ref(const tree::Ref& ref);
    void expr(tree::ExprId id);
    /// A factor: half and 50 % are the same.
    void factor(tree::ExprId id);
    /// What stands behind `±`: 2 % of a figure and as much of its own kind are the same.
    void ends(tree::ExprId figure, tree::ExprId by);
    /// What was reckoned by the caller, shown as it is written.
    void amount(std::string shown, const std::optional<Quantity>& value);
    void value(const tree::Value& value);
    /// As it stands, compared without regard to case and blanks.
    void words_at(Span span);
    /// Prose and its holes: compared letter by letter, blanks aside.
    void prose(const tree::Text& text);

    /// What was written so far is what the line speaks of; what follows is what it says.
    void end_topic();

    std::string shown_at(Span span) const;
    const Meaning& known(tree::ExprId id) const { return known_[id]; }
    const tree::Expr& at(tree::ExprId id) const { return file_.exprs[id]; }
    std::string_view name_text(const Name& name) const { return compiled_.names.folded(name.sym); }

private:
    void put(std::string_view shown, std::string_view written, std::string_view meaning,
             bool glue = false);
    void put_ingredient(std::string shown, Sym sym, std::string_view otherwise);
    std::string role_of(Sym sym) const;
    std::string value_words(const Quantity& value) const;

    const Compiled& compiled_;
    const tree::File& file_;
    const std::vector<Meaning>& known_;
    Item& item_;
};

/// Fills the item by its line.
void write_item(ItemWriter& out, const tree::Line& line, Item& item);

}  // namespace levigate::changing
