// The guard behind the writer: nothing that was to stay at home stands in the text.

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>

#include "interpreter/share/prove.hpp"

namespace levigate::sharing {

namespace {

constexpr std::size_t shortest = 5;  // shorter words stand anywhere by chance

std::string folded(std::string_view text) {
    std::string out;
    fold_name(text, out);
    return out;
}

/// For words that are looked for: `harbour-wax` is found where harbour wax is meant.
std::string loose(std::string text) {
    std::replace(text.begin(), text.end(), '-', ' ');
    return text;
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

/// The lines among those that go out.
std::vector<const tree::Line*> outgoing(const Index& index, const Picked& picked) {
    std::vector<Place> places = picked.versions;
    places.insert(places.end(), picked.materials.begin(), picked.materials.end());
    const auto add_chain = [&](Place place) {
        for (const Place one : index.chain(place)) places.push_back(one);
    };
    for (const PickedMix& mix : picked.mixes) add_chain(mix.place);
    for (const PickedShade& shade : picked.shades) add_chain(shade.place);
    std::vector<const tree::Line*> out;
    for (const Place place : places)
        for (const tree::Line* line : index.lines(place)) out.push_back(line);
    return out;
}

/// The first of them in whose words it is named.
const tree::Line* naming_line(const Compiled& open, const std::vector<const tree::Line*>& lines,
                              const std::string& name) {
    for (const tree::Line* line : lines)
        if (holds_words(loose(folded(open.sources.text(line->span))), loose(name))) return line;
    return nullptr;
}

/// For each name the first of them that means an ingredient of that name.
std::map<Sym, const tree::Line*> meaning_lines(const std::vector<const tree::Line*>& lines) {
    std::map<Sym, const tree::Line*> out;
    for (const tree::Line* line : lines)
        for (const Name& name : names_in(*line))
            if (!name.hole) out.emplace(name.sym, line);
    return out;
}

/// So many words in a row are no chance.
constexpr std::size_t telling_run = 4;

std::vector<std::string> words_of(std::string_view text) {
    std::vector<std::string> out;
    std::string word;
    for (const char one : text) {
        if (in_word(one)) {
            word += one;
            continue;
        }
        if (!word.empty()) out.push_back(std::move(word));
        word.clear();
    }
    if (!word.empty()) out.push_back(std::move(word));
    return out;
}

std::set<std::vector<std::string>> runs_of(const std::vector<std::string>& words) {
    std::set<std::vector<std::string>> out;
    for (std::size_t i = 0; i + telling_run <= words.size(); ++i)
        out.emplace(words.begin() + static_cast<std::ptrdiff_t>(i),
                    words.begin() + static_cast<std::ptrdiff_t>(i + telling_run));
    return out;
}

/// Private notes and steps of which some words are in the edition all the same.
Findings said_twice(const Compiled& source, const Findings& refused, std::string_view all) {
    Findings out;
    std::optional<std::set<std::vector<std::string>>> there;
    for (const LoadedFile& loaded : source.files)
        for (const tree::Line& line : loaded.tree.lines) {
            if (!line.is_private || (line.form != Form::note && line.form != Form::step)) continue;
            const std::string value = value_of(source, line);
            if (!there) there = runs_of(words_of(all));
            bool again = value.size() >= shortest && holds_words(all, value);
            for (const auto& run : runs_of(words_of(value))) again = again || there->contains(run);
            const bool said = std::any_of(refused.begin(), refused.end(), [&](const Finding& one) {
                return one.span == line.span;
            });
            if (again && !said)
                out.push_back({Code::share_words,
                               "This is private, but some of its words go out in another line.",
                               line.span,
                               "Change the other line if these words are a secret."});
        }
    return out;
}

}  // namespace

Findings leaks(const Compiled& source, const Open& open, const Index& index, const Picked& picked,
               const std::vector<Seal>& seals, std::string_view text) {
    Findings out;
    const Said said = said_in(source);
    const std::string all = folded(text);
    for (const auto& [words, span] : said.secret)
        if (words.size() >= shortest && holds_words(all, words) && !holds_words(said.open, words))
            out.push_back({Code::share_leaks,
                           "This is private, and the same words would stand in the edition.", span,
                           "Change the other place, or let this line go out."});
    for (Finding& one : said_twice(source, out, all)) out.push_back(std::move(one));
    const std::string told = told_text(text);
    const Names& names = open.compiled.names;
    const auto open_name = [&](Sym name) {
        const auto& roles = open.compiled.formulary.role_names;
        if (name < roles.size() && !roles[name].empty()) return true;
        for (const Seal& seal : seals)
            for (const Told& one : seal.label)
                if (source.names.folded(one.name.sym) == names.folded(name)) return true;
        return false;
    };
    const Formulary& formulary = open.compiled.formulary;
    const std::vector<const tree::Line*> lines = outgoing(index, picked);
    const std::map<Sym, const tree::Line*> meaning = meaning_lines(lines);
    std::map<IngredientId, std::vector<std::string>> called;
    for (const auto& [sym, id] : formulary.called)
        if (picked.hidden[id]) called[id].emplace_back(names.folded(sym));
    const std::string loosely = loose(told);
    for (IngredientId id = 0; id < picked.hidden.size(); ++id) {
        const Ingredient& one = formulary.ingredients[id];
        if (!picked.hidden[id]) continue;
        std::vector<std::string>& all_names = called[id];
        std::sort(all_names.begin(), all_names.end());
        if (!open_name(one.sym)) all_names.insert(all_names.begin(), folded(one.name));
        const auto meant = meaning.find(one.sym);
        const tree::Line* line = meant == meaning.end() ? nullptr : meant->second;
        bool named = line != nullptr;
        for (const std::string& name : all_names) {
            if (named || !holds_words(loosely, loose(name))) continue;
            named = true;
            line = naming_line(open.compiled, lines, name);
        }
        if (!named) continue;
        Finding found{Code::share_leaks,
                      fmt::format("Only a sealed blend holds {}, and {} names it.", one.name,
                                  line ? "a line that goes out"
                                       : "a comment, a title, a heading or a rule that goes out"),
                      line ? line->span : one.span,
                      line ? "Write that line without the name, or make it private."
                           : "Write that place without the name."};
        if (line) found.notes.push_back({one.span, "only a sealed blend holds it"});
        out.push_back(std::move(found));
    }
    return out;
}

}  // namespace levigate::sharing
