// Names that look alike and are two: in a file from elsewhere a trap, in one's own a slip.

#include <fmt/format.h>

#include <algorithm>
#include <bit>

#include "grammar/words.hpp"
#include "interpreter/lookalike/lookalike.hpp"
#include "interpreter/resolve/context.hpp"

namespace levigate::resolving {

namespace {

constexpr std::uint32_t naming = in(Heading::unit) | in(Heading::material) | in(Heading::blend) |
                                 in(Heading::shade) | in(Heading::variant) | in(Heading::finish) |
                                 in(Heading::family) | in(Heading::container) |
                                 in(Heading::balance) | in(Heading::region) | in(Heading::plan);

/// All names that blocks give, each once, in the order of the files.
std::vector<Name> given_names(const Context& context) {
    std::vector<Name> names;
    std::vector<bool> seen(context.names.size());
    const auto add = [&](const Name& name) {
        if (!name || seen[name.sym]) return;
        seen[name.sym] = true;
        names.push_back(name);
    };
    for (const LoadedFile& file : context.files)
        for (const tree::Block& block : file.tree.blocks) {
            if (in(block.heading) & naming) add(block.name);
            if (block.heading != Heading::material) continue;
            for (std::uint32_t i = block.first; i < block.first + block.count; ++i)
                if (const tree::Line& line = file.tree.lines[i]; line.form == Form::also_called)
                    for (const Name& name : std::get<tree::NameList>(line.body).names) add(name);
        }
    return names;
}

/// Which name had a look first. Open addressing: a catalogue has tens of thousands of names.
class Looks {
public:
    explicit Looks(std::size_t names) : slots_(std::bit_ceil(2 * names + 1)) {}
    /// The number of the first name of that hash; `name` itself, where it is new.
    std::uint32_t first(std::uint64_t hash, std::uint32_t name) {
        hash = (hash ^ hash >> 32) * 0x9E3779B97F4A7C15u;  // so that all bits count in each half
        const auto tag = static_cast<std::uint32_t>(hash);
        for (std::size_t at = hash >> 32;; ++at) {
            Slot& slot = slots_[at & (slots_.size() - 1)];
            if (slot.behind == 0) slot = {tag, name + 1};
            if (slot.tag == tag) return slot.behind - 1;
        }
    }

private:
    struct Slot {
        std::uint32_t tag = 0, behind = 0;  ///< the number of the name, plus one; 0: empty
    };
    std::vector<Slot> slots_;
};

bool plain_ascii(std::string_view text) {
    return std::all_of(text.begin(), text.end(),
                       [](char byte) { return static_cast<unsigned char>(byte) < 0x80; });
}

/// The form in which two names look alike, if there is one: as they are written, or in small
/// letters as they may be written elsewhere. In plain ASCII only as written: `Rose L` is no `Rose
/// 1`.
std::optional<std::pair<std::string, std::string>> same_look(const Context& context,
                                                             const Name& one, const Name& two) {
    std::pair written{context.written(one.span), context.written(two.span)};
    if (lookalike::look_alike(written.first, written.second)) return written;
    std::pair folded{std::string(context.names.folded(one.sym)),
                     std::string(context.names.folded(two.sym))};
    if (plain_ascii(folded.first) && plain_ascii(folded.second)) return std::nullopt;
    if (lookalike::look_alike(folded.first, folded.second)) return folded;
    return std::nullopt;
}

void report_pair(Context& context, const Name& first, const Name& name) {
    if (first.sym == name.sym) return;
    if (context.library(first.span) && context.library(name.span)) return;
    // A library comes behind, and is not for a person to change.
    const bool turn = context.library(name.span);
    const Name &here = turn ? first : name, &there = turn ? name : first;
    const auto look = same_look(context, here, there);
    if (!look) return;
    const auto signs = lookalike::difference(look->first, look->second);
    report(context, {.code = Code::name_lookalike,
                     .message = fmt::format("{} looks like {} and is another name: it has {} where "
                                            "the other has {}.",
                                            shown(context.written(here.span)),
                                            shown(context.written(there.span)), shown(signs.in_a),
                                            shown(signs.in_b)),
                     .span = here.span,
                     .advice = "If the two are one, write the name once and copy it; if they are "
                               "two, give one of them a name that no eye confuses.",
                     .notes = {{there.span, "looks the same"}}});
}

void report_mixed(Context& context, const Name& name) {
    if (context.library(name.span)) return;
    const auto mixed = lookalike::mixed_word(context.sources.text(name.span));
    if (!mixed) return;
    report(context, {.code = Code::name_lookalike,
                     .message = fmt::format("{} mixes letters that are {} with letters that are "
                                            "{}, so that it may look like a word that it isn't.",
                                            shown(mixed->word), mixed->first, mixed->second),
                     .span = name.span,
                     .advice = "Type the word anew, in the letters of one script."});
}

std::uint64_t hash_of_written(const Context& context, Span span) {
    const std::string_view text = context.sources.text(span);
    const bool tidy = text.find("  ") == std::string_view::npos && text.find('\t') == text.npos;
    return tidy ? lookalike::skeleton_hash(text) : lookalike::skeleton_hash(context.written(span));
}

}  // namespace

void report_lookalikes(Context& context) {
    const std::vector<Name> names = given_names(context);
    Looks looks(names.size());
    bool plain = true;
    for (std::uint32_t i = 0; i < names.size(); ++i) {
        const std::uint64_t look = hash_of_written(context, names[i].span);
        report_pair(context, names[looks.first(look, i)], names[i]);
        plain = plain && plain_ascii(context.sources.text(names[i].span));
    }
    if (plain) return;
    Looks small(names.size());
    for (std::uint32_t i = 0; i < names.size(); ++i) {
        const std::string_view folded = context.names.folded(names[i].sym);
        const std::uint64_t look = lookalike::skeleton_hash(folded);
        report_pair(context, names[small.first(look, i)], names[i]);
        report_mixed(context, names[i]);
    }
}

std::string told_apart(std::string_view written, std::string_view meant) {
    if (!lookalike::look_alike(written, meant)) return {};
    const auto signs = lookalike::difference(written, meant);
    return fmt::format("looks the same, but has {} instead of {}", shown(signs.in_a),
                       shown(signs.in_b));
}

}  // namespace levigate::resolving
