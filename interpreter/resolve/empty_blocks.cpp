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
        case Heading::record:  // in a file of records it was cut off: its reader says so
            return first == last && at.block > 0 &&
                   context.file(at.file).blocks[at.block - 1].heading == Heading::shade;
        case Heading::plan:
            return std::none_of(first, last,
                                [](const tree::Line& line) { return line.form == Form::make; });
        default: return false;
    }
}

/// The first shade of the file, as a person knows it.
std::string first_shade(const Context& context, At at) {
    for (const tree::Block& block : context.file(at.file).blocks)
        if (block.heading == Heading::shade && block.name)
            return shown(context.sources.text(with_quotes(context, block.name.span)));
    return "Quince";
}

std::string line_to_add(const Context& context, At at) {
    switch (context.block(at).heading) {
        case Heading::finish: return "write its lines below it, or a `note` if it adds nothing.";
        case Heading::plan:
            return fmt::format("add a line such as `make  12 g of {}`.", first_shade(context, at));
        case Heading::shelf: return "add a line such as `have  120 g copper mica`.";
        case Heading::edition: return "add a line such as `number  1`.";
        default: return "write its lines below it, or take the heading out.";
    }
}

/// True where another block of the kind has the name, so that a list may hold it.
bool known_elsewhere(const Context& context, At at) {
    const tree::Block& own = context.block(at);
    for (const LoadedFile& file : context.files)
        for (const tree::Block& block : file.tree.blocks)
            if (&block != &own && block.heading == own.heading && block.name.sym == own.name.sym)
                return true;
    return false;
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
                    .advice = line_to_add(context, at)};
    if (block.heading == Heading::plan && block.count > 0)
        finding.message = named + " makes nothing: it has no `make` line.";
    const tree::File& file = context.file(at.file);
    const std::string_view meant = list_meant(file, at.block);
    const bool known = known_elsewhere(context, at);
    if (!meant.empty()) {
        const tree::Block& shade = shade_before(file, at.block);
        const Span heading{block.span.source, block.span.begin,
                           block.span.begin + static_cast<std::uint32_t>(kind.size())};
        const Span quoted = with_quotes(context, name);
        finding.advice =
            fmt::format("If it is for the shade {}, write `{} {}`{}. Otherwise {}",
                        shown(context.written(shade.name.span)), meant,
                        shown(context.sources.text(quoted)),
                        known ? "" : fmt::format(" and give the {} lines of its own", kind),
                        finding.advice);
        if (known) finding.fixes = {possible_fix(heading, std::string(meant))};
    } else {
        finding.advice.front() = static_cast<char>(finding.advice.front() & ~0x20);
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
