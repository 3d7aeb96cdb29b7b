// The guard behind the writer: nothing that was to stay at home stands in the text.

#include <fmt/format.h>

#include <algorithm>

#include "interpreter/share/prove.hpp"

namespace levigate::sharing {

namespace {

constexpr std::size_t shortest = 5;  // shorter words stand anywhere by chance

std::string folded(std::string_view text) {
    std::string out;
    fold_name(text, out);
    return out;
}

bool in_word(char sign) {
    const auto byte = static_cast<unsigned char>(sign);
    return byte >= 0x80 || (sign >= 'a' && sign <= 'z') || (sign >= '0' && sign <= '9');
}

bool holds_words(std::string_view text, std::string_view words) {
    for (std::size_t at = text.find(words); at != text.npos; at = text.find(words, at + 1)) {
        const std::size_t end = at + words.size();
        const bool starts = at == 0 || !in_word(text[at - 1]) || !in_word(words.front());
        const bool ends = end == text.size() || !in_word(text[end]) || !in_word(words.back());
        if (starts && ends) return true;
    }
    return false;
}

/// All that is open in the files, and what private lines say.
struct Said {
    std::string open;
    std::vector<std::pair<std::string, Span>> secret;
};

/// What stands behind the line's own words.
std::string value_of(const Compiled& source, const tree::Line& line) {
    Span span = line.span;
    if (line.word_end != 0) span.begin = line.word_end;
    return folded(source.sources.text(span));
}

Said said_in(const Compiled& source) {
    Said out;
    for (const LoadedFile& loaded : source.files) {
        if (loaded.library) continue;
        for (const tree::Block& block : loaded.tree.blocks)
            out.open += folded(source.sources.text(block.span)) + '\n';
        for (const tree::Line& line : loaded.tree.lines) {
            if (!line.is_private) {
                out.open += folded(source.sources.text(line.span)) + '\n';
                continue;
            }
            out.secret.emplace_back(value_of(source, line), line.span);
            if (const auto* list = std::get_if<tree::NameList>(&line.body))
                for (const Name& name : list->names)
                    out.secret.emplace_back(source.names.folded(name.sym), name.span);
        }
    }
    return out;
}

/// The edition's lines but for those that tell of a sealed blend what must be told.
std::string told_text(std::string_view text) {
    std::string out;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        const std::string line = folded(text.substr(0, end));
        text.remove_prefix(std::min(text.size(), end + 1));
        const auto is = [&](std::string_view word) { return line.starts_with(word); };
        if (!is("label ") && !is("contains ") && !is("colourant ")) out += line + '\n';
    }
    return out;
}

/// The first line among those that go out in which it is named.
const tree::Line* naming_line(const Compiled& source, const Index& index, const Picked& picked,
                              const std::string& name) {
    std::vector<Place> places = picked.versions;
    places.insert(places.end(), picked.materials.begin(), picked.materials.end());
    const auto add_chain = [&](Place place) {
        for (const Place one : index.chain(place)) places.push_back(one);
    };
    for (const PickedMix& mix : picked.mixes)
        if (mix.way != Way::sealed) add_chain(mix.place);
    for (const PickedShade& shade : picked.shades) add_chain(shade.place);
    for (const Place place : places)
        for (const tree::Line* line : index.lines(place))
            if (!line->is_private && holds_words(folded(source.sources.text(line->span)), name))
                return line;
    return nullptr;
}

}  // namespace

Findings leaks(const Compiled& source, const Index& index, const Picked& picked,
               const std::vector<Seal>& seals, std::string_view text) {
    Findings out;
    const Said said = said_in(source);
    const std::string all = folded(text);
    for (const auto& [words, span] : said.secret)
        if (words.size() >= shortest && holds_words(all, words) && !holds_words(said.open, words))
            out.push_back({Code::share_leaks,
                           "This is private, and the same words would stand in the edition.", span,
                           "Change the other place, or let this line go out."});
    const std::string told = told_text(text);
    const auto open_name = [&](Sym name) {
        const auto& roles = source.formulary.role_names;
        if (name < roles.size() && !roles[name].empty()) return true;
        for (const Seal& seal : seals)
            for (const Told& one : seal.label)
                if (one.name.sym == name) return true;
        return false;
    };
    for (IngredientId id = 0; id < picked.hidden.size(); ++id) {
        const Ingredient& one = source.formulary.ingredients[id];
        if (!picked.hidden[id] || open_name(one.sym)) continue;
        const std::string name = folded(one.name);
        if (!holds_words(told, name)) continue;
        const tree::Line* line = naming_line(source, index, picked, name);
        Finding found{
            Code::share_leaks,
            fmt::format("Only a sealed blend holds {}, and a line that goes out names it.",
                        one.name),
            line ? line->span : one.span, "Write that line without the name, or make it private."};
        if (line) found.notes.push_back({one.span, "only a sealed blend holds it"});
        out.push_back(std::move(found));
    }
    return out;
}

}  // namespace levigate::sharing
