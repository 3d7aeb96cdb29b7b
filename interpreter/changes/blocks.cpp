#include "interpreter/changes/blocks.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "interpreter/changes/item_writer.hpp"

namespace levigate::changing {
namespace {

struct Reader {
    const Compiled& compiled;
    const LoadedFile& file;
    const std::vector<Meaning>& known;

    ItemWriter writer(Item& item) const { return {compiled, file, known, item}; }
    std::string folded_at(const Name& name) const {
        return std::string(compiled.names.folded(name.sym));
    }

    /// What stands in the heading itself, as lines: `like Quince`, `= 0.15 mL`.
    void read_heading(const tree::Block& block, BlockView& view) const {
        if (block.like) {
            Item& item = view.items.emplace_back();
            writer(item).name(block.like);
            item.topic = item.label = "like";
            item.line = "like " + item.shown;
        }
        if (block.value != tree::no_expr) {
            Item& item = view.items.emplace_back();
            item.topic = "=";
            ItemWriter out = writer(item);
            out.expr(block.value);
            if (block.date) out.comma(), out.words_at(block.date);
            const bool unit = block.heading == Heading::unit || block.heading == Heading::rate;
            item.label = unit ? "1 " + view.name : std::string(word(block.heading));
            item.line = item.label + (unit ? " = " : " ") + item.shown;
            view.size = known[block.value].value;
        }
        for (const Name& name : block.listed) {
            Item& item = view.items.emplace_back();
            item.topic = "listed";
            ItemWriter out = writer(item);
            out.name(name);
            item.topic += item.written;
            item.label = item.line = item.shown;
            item.shown.clear();
        }
    }

    /// From its heading to the next one.
    Span whole(const tree::Block& block) const {
        const auto next = std::upper_bound(
            file.tree.blocks.begin(), file.tree.blocks.end(), block.span.begin,
            [](std::uint32_t at, const tree::Block& one) { return at < one.span.begin; });
        Span out = block.span;
        out.end = next != file.tree.blocks.end()
                      ? next->span.begin
                      : static_cast<std::uint32_t>(compiled.sources[out.source].text.size());
        return out;
    }

    BlockView read(const tree::Block& block) const {
        BlockView view;
        view.source = compiled.sources[file.tree.source].name;
        view.span = whole(block);
        view.text = compiled.sources.text(view.span);
        view.heading = block.heading;
        view.own = file.own;
        view.name = block.name ? tidy_name(compiled.sources.text(block.name.span))
                               : std::string(word(block.heading));
        std::string key = block.name ? folded_at(block.name) : "";
        if (block.heading == Heading::rule && block.region) {
            view.name = fmt::format("{} {}", tidy_name(compiled.sources.text(block.region.span)),
                                    view.name);
            key = fmt::format("{} {}", folded_at(block.region), key);
        }
        view.key = key_of(block.heading, key);
        read_heading(block, view);
        for (std::uint32_t i = 0; i < block.count; ++i) {
            const tree::Line& line = file.tree.lines[block.first + i];
            Item& item = view.items.emplace_back();
            ItemWriter out = writer(item);
            write_item(out, line, item);
            note_size(line, view);
        }
        return view;
    }

    void note_size(const tree::Line& line, BlockView& view) const {
        const auto* holds = std::get_if<tree::QuantityLine>(&line.body);
        if (line.form == Form::holds && holds && holds->expr != tree::no_expr)
            view.size = known[holds->expr].value;
    }

    /// Each quantity belongs to the block that it stands in, which is the last to begin before it.
    void note_measures(std::size_t first, std::vector<BlockView>& views) const {
        const std::vector<tree::Block>& blocks = file.tree.blocks;
        for (tree::ExprId id = 0; id < file.tree.exprs.size(); ++id) {
            if (known[id].measure.empty()) continue;
            const std::uint32_t place = file.tree.exprs[id].span.begin;
            const auto behind = std::upper_bound(
                blocks.begin(), blocks.end(), place,
                [](std::uint32_t at, const tree::Block& block) { return at < block.span.begin; });
            if (behind == blocks.begin()) continue;
            auto at = static_cast<std::size_t>(behind - blocks.begin()) - 1;
            views[first + at].measures.push_back(folded(known[id].measure));
        }
    }
};

}  // namespace

std::string key_of(Heading heading, std::string_view folded) {
    return fmt::format("{} {}{}{}", word(heading), name_begins, folded, name_ends);
}

std::vector<BlockView> blocks_of(const Compiled& compiled, const Meanings& meanings) {
    std::vector<BlockView> out;
    for (std::size_t f = 0; f < compiled.files.size(); ++f) {
        const LoadedFile& file = compiled.files[f];
        if (file.library) continue;
        const Reader reader{compiled, file, meanings.files[f]};
        const std::size_t first = out.size();
        for (const tree::Block& block : file.tree.blocks) out.push_back(reader.read(block));
        reader.note_measures(first, out);
    }
    return out;
}

}  // namespace levigate::changing
