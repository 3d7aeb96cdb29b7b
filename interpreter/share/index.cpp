#include "interpreter/share/index.hpp"

#include <algorithm>

namespace levigate::sharing {

namespace {

constexpr std::size_t longest_chain = 200;  // of `like`; resolving lets none be longer

}  // namespace

Index::Index(const Compiled& compiled) : compiled_(compiled) {
    for (std::uint32_t f = 0; f < compiled.files.size(); ++f) {
        const auto& blocks = compiled.files[f].tree.blocks;
        for (std::uint32_t b = 0; b < blocks.size(); ++b) {
            const Place place{f, b};
            const tree::Block& block = blocks[b];
            if (!block.name) continue;
            places_.emplace(std::pair{block.name.span.source, block.name.span.begin}, place);
            const auto [seat, fresh] =
                named_.emplace(std::pair{block.heading, block.name.sym}, place);
            if (!fresh && library(seat->second) && !compiled.files[f].library) seat->second = place;
        }
    }
    const auto& all = compiled.formulary.ingredients;
    for (const bool shades : {false, true})
        for (IngredientId id = 0; id < all.size(); ++id)
            if ((all[id].kind == Ingredient::Kind::shade) == shades && all[id].sym != no_name)
                ingredients_.emplace(all[id].sym, id);
    for (const auto& [sym, id] : compiled.formulary.called) ingredients_.emplace(sym, id);
}

Place Index::at(Span name) const {
    const auto found = places_.find({name.source, name.begin});
    return found == places_.end() ? Place{} : found->second;
}

Place Index::find(Heading heading, Sym name) const {
    const auto found = named_.find({heading, name});
    return found == named_.end() ? Place{} : found->second;
}

IngredientId Index::ingredient(Sym name) const {
    const auto found = ingredients_.find(name);
    return found == ingredients_.end() ? no_ingredient : found->second;
}

std::vector<const tree::Line*> Index::lines(Place place) const {
    std::vector<const tree::Line*> out;
    const tree::Block& whole = block(place);
    for (std::uint32_t i = 0; i < whole.count; ++i)
        out.push_back(&file(place).lines[whole.first + i]);
    return out;
}

std::vector<Place> Index::chain(Place place) const {
    std::vector<Place> out;
    while (place && out.size() < longest_chain) {
        out.push_back(place);
        const tree::Block& child = block(place);
        place = child.like ? find(child.heading, child.like.sym) : Place{};
    }
    std::reverse(out.begin(), out.end());
    return out;
}

std::vector<Span> Index::measures(Place place) const {
    const tree::Block& whole = block(place);
    std::uint32_t end = whole.span.end;
    if (whole.count > 0) end = lines(place).back()->span.end;
    const auto& exprs = file(place).exprs;  // those of one line stand together, lines in order
    auto next = std::partition_point(exprs.begin(), exprs.end(), [&](const tree::Expr& one) {
        return one.span.begin < whole.span.begin;
    });
    std::vector<Span> out;
    for (; next != exprs.end() && next->span.begin < end; ++next)
        if (next->words) out.push_back(next->words);
    return out;
}

const tree::Line* Index::line_at(Span span) const {
    for (const LoadedFile& loaded : compiled_.files) {
        if (loaded.tree.source != span.source) continue;
        const auto& all = loaded.tree.lines;
        auto next = std::partition_point(all.begin(), all.end(), [&](const tree::Line& line) {
            return line.span.begin <= span.begin;
        });
        if (next == all.begin()) return nullptr;
        --next;
        return span.end <= next->span.end ? &*next : nullptr;
    }
    return nullptr;
}

std::vector<Name> names_in(const tree::Line& line) {
    std::vector<Name> out;
    const auto value = [&](const tree::Value& one) { out.push_back(one.name); };
    if (const auto* part = std::get_if<tree::Ingredient>(&line.body)) {
        out.push_back(part->name);
        if (!part->amount.ref.role) out.push_back(part->amount.ref.name);
    } else if (const auto* without = std::get_if<tree::Without>(&line.body)) {
        out.push_back(without->name);
    } else if (const auto* swap = std::get_if<tree::Swap>(&line.body)) {
        out = {swap->old_name, swap->new_name};
    } else if (const auto* scale = std::get_if<tree::Scale>(&line.body)) {
        if (!scale->what.role) out.push_back(scale->what.name);
    } else if (const auto* dilute = std::get_if<tree::Dilute>(&line.body)) {
        out = {dilute->what, dilute->base};
    } else if (const auto* let = std::get_if<tree::Let>(&line.body)) {
        value(let->value);
    } else if (const auto* vary = std::get_if<tree::Vary>(&line.body)) {
        for (const tree::Value& one : vary->values) value(one);
    } else if (const auto* row = std::get_if<tree::Row>(&line.body)) {
        for (const tree::Value& one : row->cells) value(one);
    } else if (const auto* text = std::get_if<tree::Text>(&line.body)) {
        for (const tree::TextPiece& piece : text->pieces) out.push_back(piece.name);
    } else if (const auto* expect = std::get_if<tree::Expect>(&line.body)) {
        if (expect->measure == tree::MeasureKind::name) out.push_back(expect->name);
    } else if (const auto* swatch = std::get_if<tree::Swatch>(&line.body)) {
        out.push_back(swatch->in);
    }
    // A text's braces hold a name or a hole alike: what nothing is called is passed over later.
    std::erase_if(out, [](const Name& name) { return !name; });
    return out;
}

}  // namespace levigate::sharing
