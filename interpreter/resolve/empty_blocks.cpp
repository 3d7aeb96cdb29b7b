#include "interpreter/resolve/empty_blocks.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "grammar/list_meant.hpp"
#include "grammar/words.hpp"

namespace levigate::resolving {

namespace {

// Most often an empty block was to be a line of the block above: `finish matte` in a shade for
// `finishes matte`.


/// True where such a block means nothing as it is. The others are judged where they are read: a
/// formula without ingredients, a container that holds nothing. A material may be bare.
bool says_nothing(const Context& context, At at) {
    const tree::Block& block = context.block(at);
    if (block.damaged || (!block.name && block.heading != Heading::shelf)) return false;
    const auto [first, last] = lines_of(context, at);
    switch (block.heading) {
        case Heading::finish:
        case Heading::variant:
        case Heading::edition:
        case Heading::shelf:
        case Heading::region: return first == last;
        case Heading::plan:
            return std::none_of(first, last,
                                [](const tree::Line& line) { return line.form == Form::make; });
        default: return false;
    }
}

std::string_view line_to_add(Heading heading) {
    switch (heading) {
        case Heading::finish: return "Write its lines below it, or a `note` if it adds nothing.";
        case Heading::plan: return "Add a line such as `make  12 g of Quince`.";
        case Heading::shelf: return "Add a line such as `have  120 g copper mica`.";
        case Heading::edition: return "Add a line such as `number  1`.";
        default: return "Write its lines below it, or take the heading out.";
    }
}

void report_empty(Context& context, At at) {
    const tree::Block& block = context.block(at);
    const std::string_view kind = word(block.heading);
    const Span name = block.name ? block.name.span : block.span;
    const std::string named =
        block.name ? fmt::format("The {} {}", kind, shown(context.written(name)))
                   : fmt::format("This {}", kind);
    Finding finding{.code = Code::block_empty,
                    .message = named + " says nothing: there is no line below it.",
                    .span = name,
                    .advice = std::string(line_to_add(block.heading))};
    if (block.heading == Heading::plan && block.count > 0)
        finding.message = named + " makes nothing: it has no `make` line.";
    const tree::File& file = context.file(at.file);
    if (const std::string_view meant = list_meant(file, at.block); !meant.empty()) {
        const tree::Block& shade = shade_before(file, at.block);
        const Span heading{block.span.source, block.span.begin,
                           block.span.begin + static_cast<std::uint32_t>(kind.size())};
        const Span quoted = with_quotes(context, name);
        finding.advice =
            fmt::format("If it is for the shade {}, write `{} {}`. Otherwise: {}",
                        shown(context.written(shade.name.span)), meant,
                        shown(context.sources.text(quoted)), finding.advice);
        finding.fixes = {possible_fix(heading, std::string(meant))};
    }
    report(context, std::move(finding));
}

}  // namespace

void report_empty_blocks(Context& context) {
    for (std::uint32_t f = 0; f < context.files.size(); ++f) {
        if (context.files[f].library) continue;
        const auto blocks = static_cast<std::uint32_t>(context.files[f].tree.blocks.size());
        for (std::uint32_t b = 0; b < blocks; ++b)
            if (says_nothing(context, {f, b})) report_empty(context, {f, b});
    }
}

}  // namespace levigate::resolving
