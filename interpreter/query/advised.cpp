#include "interpreter/query/advised.hpp"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "grammar/words.hpp"
#include "interpreter/expand/batch.hpp"
#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/sum_of_weights.hpp"

namespace levigate {
namespace {

/// Headings whose names stand in one another's place.
bool one_kind(Heading a, Heading b) {
    const auto measure = in(Heading::unit) | in(Heading::container);
    const auto material = in(Heading::material) | in(Heading::blend);
    for (const auto kind : {measure, material})
        if ((kind & in(a)) != 0) return (kind & in(b)) != 0;
    return a == b;
}

bool in_library(const Compiled& compiled, Heading heading, Sym name) {
    for (const LoadedFile& file : compiled.files) {
        if (!file.library) continue;
        for (const tree::Block& block : file.tree.blocks)
            if (one_kind(block.heading, heading) && block.name && block.name.sym == name)
                return true;
    }
    return false;
}

/// An edition that was shared stands alone: what it holds of the library is there on purpose.
bool is_edition(const LoadedFile& file) {
    return std::any_of(file.tree.lines.begin(), file.tree.lines.end(),
                       [](const tree::Line& line) { return line.form == Form::digest; });
}

/// All of one kind in a file are one finding: who prices thirty materials knows of it.
Finding hidden(const Compiled& compiled, std::string_view kind, const std::vector<Name>& found) {
    const auto name = [&](const Name& one) { return shown(compiled.sources.text(one.span)); };
    Finding out{.code = Code::library_hidden,
                .message = fmt::format("This {} {} is used in place of the library's.", kind,
                                       name(found.front())),
                .span = found.front().span,
                .advice = "If both are needed, give this one another name."};
    if (found.size() == 1) return out;
    std::vector<std::string> names;
    for (const Name& one : found) names.push_back(name(one));
    out.message = fmt::format("{} {} here are used in place of the library's: {}.", names.size(),
                              counted(std::string(kind), Exact(2)), list_words(names));
    out.advice = "If one of the library's is needed too, give yours another name.";
    for (std::size_t i = 1; i < found.size() && i < 6; ++i)
        out.notes.push_back({found[i].span, "used in place of the library's"});
    return out;
}

/// What is wrong with it is said: it was probably no block at all.
bool empty(const tree::Block& block) {
    const bool one_line = block.heading == Heading::unit || block.heading == Heading::material;
    return block.damaged || (block.count == 0 && !one_line);
}

std::vector<Name> other_names(const tree::File& file, const tree::Block& block) {
    std::vector<Name> out;
    for (std::uint32_t i = block.first; i < block.first + block.count; ++i)
        if (file.lines[i].form == Form::also_called)
            for (const Name& name : std::get<tree::NameList>(file.lines[i].body).names)
                out.push_back(name);
    return out;
}

std::string_view word_of_list(Heading heading) {
    return entry(heading == Heading::finish ? Form::finishes : Form::variants).word;
}

/// True where some shade, or what is made of one, takes the finish or variant.
bool is_named(const Compiled& compiled, const tree::Block& block) {
    for (const LoadedFile& file : compiled.files)
        for (const tree::Line& line : file.tree.lines) {
            if (line.form != Form::finishes && line.form != Form::variants) continue;
            for (const Name& name : std::get<tree::NameList>(line.body).names)
                if (name.sym == block.name.sym) return true;
        }
    return false;
}

}  // namespace

Findings hidden_blocks(const Compiled& compiled) {
    Findings out;
    for (const LoadedFile& file : compiled.files) {
        if (file.library || is_edition(file)) continue;
        std::map<Heading, std::vector<Name>> found;
        for (const tree::Block& block : file.tree.blocks) {
            if (!block.name || empty(block) || block.heading == Heading::rule ||
                block.heading == Heading::use)
                continue;
            if (in_library(compiled, block.heading, block.name.sym))
                found[block.heading].push_back(block.name);
            for (const Name& other : other_names(file.tree, block))
                if (in_library(compiled, block.heading, other.sym))
                    found[block.heading].push_back(other);
        }
        for (const auto& [heading, names] : found)
            out.push_back(hidden(compiled, word(heading), names));
    }
    return out;
}

Findings unnamed_blocks(const Compiled& compiled, const Findings& said) {
    Findings out;
    if (any_error(said)) return out;
    for (const LoadedFile& file : compiled.files) {
        const auto& blocks = file.tree.blocks;
        for (std::size_t i = 1; i < blocks.size() && !file.library; ++i) {
            const tree::Block& block = blocks[i];
            const bool list =
                block.heading == Heading::finish || block.heading == Heading::variant;
            if (!list || !block.name || empty(block) || blocks[i - 1].heading != Heading::shade ||
                is_named(compiled, block))
                continue;
            const std::string_view kind = word(block.heading);
            const std::string name = shown(compiled.sources.text(block.name.span));
            out.push_back(
                {.code = Code::block_unnamed,
                 .message = fmt::format("No shade names the {} {}, so the lines below it do "
                                        "nothing.",
                                        kind, name),
                 .span = block.name.span,
                 .advice = fmt::format("If it belongs to the shade {} above, write `{} {}` there, "
                                       "and its lines before this one.",
                                       shown(compiled.sources.text(blocks[i - 1].name.span)),
                                       word_of_list(block.heading), name)});
        }
    }
    return out;
}

namespace {

/// A batch that is nearly what the weights come to, so that each is scaled by a hair: either may
/// be a slip of the pen.
void look_at_batch(const Compiled& compiled, const Shade& shade, const Batch& batch,
                   const Mass& sum, Findings& out) {
    const Formulary& formulary = compiled.formulary;
    if ((compiled.sources.text(batch.size.span).front() | 0x20) == 's') return;  // it is the sum
    if (needs_density(formulary, batch.size)) return;
    const auto whole = batch_mass(formulary, batch.size, std::nullopt);
    if (!whole || *whole == sum) return;
    const Exact apart = (in_grams(sum) - in_grams(*whole)).abs();
    if (in_grams(*whole) * Exact(1, 20) < apart) return;
    Finding finding{
        .code = Code::batch_near_sum,
        .message = fmt::format("The weights in {} come to {}, but the batch {} is {}, so each "
                               "weight is scaled to fit.",
                               shade.name, gram_words(sum), batch.name, gram_words(*whole)),
        .span = batch.size.span,
        .advice = "To weigh the amounts as they are written, write `sum of weights` in place of "
                  "the batch's size."};
    const bool plain = as_fraction(batch.size.overage).is_zero() &&
                       std::holds_alternative<std::monostate>(batch.size.holdback);
    if (plain) finding.fixes = {possible_fix(batch.size.span, "sum of weights")};
    out.push_back(std::move(finding));
}

}  // namespace

Findings batches_near_sums(const Compiled& compiled) {
    Findings out;
    for (const Shade& shade : compiled.formulary.shades) {
        if (!shade.own || shade.member || shade.broken) continue;
        const auto sum = sum_of_weights(shade.versions[0].formula);
        if (!sum) continue;
        for (const Batch& batch : shade.batches) look_at_batch(compiled, shade, batch, *sum, out);
    }
    return out;
}

}  // namespace levigate
