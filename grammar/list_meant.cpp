#include "grammar/list_meant.hpp"

#include <fmt/format.h>

#include <string>

#include "grammar/lines.hpp"
#include "grammar/source.hpp"

namespace levigate {

namespace {

bool like_a_list(Heading heading) {
    return heading == Heading::finish || heading == Heading::variant || heading == Heading::region;
}

std::string_view list_of(Heading heading) {
    if (heading == Heading::finish) return entry(Form::finishes).word;
    if (heading == Heading::variant) return entry(Form::variants).word;
    return entry(Form::market).word;
}

/// The last block before this one that is no such heading without lines itself.
std::size_t owner(const tree::File& file, std::size_t block) {
    while (block > 0) {
        const tree::Block& before = file.blocks[--block];
        if (!like_a_list(before.heading) || before.count > 0) break;
    }
    return block;
}

}  // namespace

std::string_view list_meant(const tree::File& file, std::size_t block) {
    const tree::Block& here = file.blocks[block];
    if (block == 0 || here.count > 0 || !like_a_list(here.heading)) return {};
    const tree::Block& shade = shade_before(file, block);
    if (shade.heading != Heading::shade) return {};
    const std::string_view list = list_of(here.heading);
    for (std::uint32_t i = shade.first; i < shade.first + shade.count; ++i) {
        const auto* names = std::get_if<tree::NameList>(&file.lines[i].body);
        if (names == nullptr || entry(file.lines[i].form).word != list) continue;
        for (const Name& name : names->names)
            if (name.sym == here.name.sym) return {};  // it is there
    }
    return list;
}

const tree::Block& shade_before(const tree::File& file, std::size_t block) {
    return file.blocks[owner(file, block)];
}

void add_list_meant(std::string_view text, const tree::File& file, Finding& finding) {
    const std::size_t last = file.blocks.size() - 1;
    const std::string_view list = list_meant(file, last);
    if (list.empty()) return;
    const tree::Block& block = file.blocks[last];
    const std::string_view kind = word(block.heading);
    const Span name = shade_before(file, last).name.span;
    finding.advice = fmt::format(
        "`{}` begins a block of its own here. If this is for the shade {}, write `{}`.", kind,
        shown(tidy_name(text.substr(name.begin, name.end - name.begin))), list);
    finding.example.clear();
    auto size = static_cast<std::uint32_t>(kind.size());
    if (text.substr(block.span.begin + size, 1) == ":") ++size;  // `finish: matte`
    finding.fixes = {possible_fix(
        {block.span.source, block.span.begin, block.span.begin + size}, std::string(list))};
    if (finding.span.begin > block.span.end)
        finding.notes.push_back({block.span, "the block begins here"});
}

}  // namespace levigate
