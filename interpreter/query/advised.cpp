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

bool in_library(const Compiled& compiled, const tree::Block& own) {
    for (const LoadedFile& file : compiled.files) {
        if (!file.library) continue;
        for (const tree::Block& block : file.tree.blocks)
            if (block.heading == own.heading && block.name && block.name.sym == own.name.sym)
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
Finding hidden(const Compiled& compiled, std::string_view kind,
               const std::vector<const tree::Block*>& blocks) {
    const auto name = [&](const tree::Block* block) {
        return shown(compiled.sources.text(block->name.span));
    };
    Finding out{.code = Code::library_hidden,
                .message = fmt::format("This {} {} is used in place of the library's.", kind,
                                       name(blocks.front())),
                .span = blocks.front()->name.span,
                .advice = "If both are needed, give this one another name."};
    if (blocks.size() == 1) return out;
    std::vector<std::string> names;
    for (const tree::Block* block : blocks) names.push_back(name(block));
    out.message = fmt::format("{} {} here are used in place of the library's: {}.", names.size(),
                              counted(std::string(kind), Exact(2)), list_words(names));
    out.advice = "If one of the library's is needed too, give yours another name.";
    for (std::size_t i = 1; i < blocks.size() && i < 6; ++i)
        out.notes.push_back({blocks[i]->name.span, "used in place of the library's"});
    return out;
}

/// What is wrong with it is said: it was probably no block at all.
bool empty(const tree::Block& block) {
    const bool one_line = block.heading == Heading::unit || block.heading == Heading::material;
    return block.damaged || (block.count == 0 && !one_line);
}

}  // namespace

Findings hidden_blocks(const Compiled& compiled) {
    Findings out;
    for (const LoadedFile& file : compiled.files) {
        if (file.library || is_edition(file)) continue;
        std::map<Heading, std::vector<const tree::Block*>> found;
        for (const tree::Block& block : file.tree.blocks)
            if (block.name && !empty(block) && block.heading != Heading::rule &&
                block.heading != Heading::use && in_library(compiled, block))
                found[block.heading].push_back(&block);
        for (const auto& [heading, blocks] : found)
            out.push_back(hidden(compiled, word(heading), blocks));
    }
    return out;
}

namespace {

/// A batch that is nearly what the weights come to, so that each is scaled by a hair: either may
/// be a slip of the pen.
void look_at_batch(const Formulary& formulary, const Shade& shade, const Batch& batch,
                   const Mass& sum, Findings& out) {
    if (needs_density(formulary, batch.size)) return;
    const auto whole = batch_mass(formulary, batch.size, std::nullopt);
    if (!whole || *whole == sum) return;
    const Exact apart = (in_grams(sum) - in_grams(*whole)).abs();
    if (in_grams(*whole) * Exact(1, 20) < apart) return;
    Finding finding{
        .code = Code::batch_near_sum,
        .message = fmt::format("The weights in {} come to {}, and the batch {} is {}: each weight "
                               "is scaled to fit.",
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

Findings batches_near_sums(const Formulary& formulary) {
    Findings out;
    for (const Shade& shade : formulary.shades) {
        if (!shade.own || shade.member || shade.broken) continue;
        const auto sum = sum_of_weights(shade.versions[0].formula);
        if (!sum) continue;
        for (const Batch& batch : shade.batches) look_at_batch(formulary, shade, batch, *sum, out);
    }
    return out;
}

}  // namespace levigate
