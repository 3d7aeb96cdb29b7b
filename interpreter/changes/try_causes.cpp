#include <algorithm>
#include <set>

#include "interpreter/changes/causes.hpp"

namespace levigate::changing {
namespace {

/// Texts are read again for each edit that may be a cause: so many bytes of them altogether.
constexpr std::size_t most_bytes = 8u << 20;

/// The texts that a file is made of, by their paths.
std::map<std::string, std::string> texts_of(const Compiled& compiled) {
    std::map<std::string, std::string> out;
    for (SourceId id = 0; id < compiled.sources.size(); ++id)
        if (!compiled.sources[id].library)
            out[compiled.sources[id].name] = compiled.sources[id].text;
    return out;
}

/// Takes one edit back in today's texts. False where that can't be done.
bool take_back(const Edits& edits, const Edit& edit, const std::string& root,
               std::map<std::string, std::string>& texts) {
    if (edit.change.turn == Turn::renamed) return false;  // others name it
    const std::string before =
        edit.before == nowhere ? "" : std::string(edits.before[edit.before].text) + '\n';
    if (edit.now == nowhere) {
        texts[root] += '\n' + before;
        return true;
    }
    const BlockView& now = edits.now[edit.now];
    const auto found = texts.find(now.source);
    if (found == texts.end() || now.span.end > found->second.size()) return false;
    found->second.replace(now.span.begin, now.span.end - now.span.begin, before);
    return true;
}

struct Trial {
    const Comparing& how;
    const Edits& edits;
    std::map<std::pair<const StateFile*, std::size_t>, std::optional<Facts>> made{};
    std::size_t bytes = 0;

    /// What would come of the file without the edit; nothing where it can't be told.
    const std::optional<Facts>& without(const StateFile& file, std::size_t edit) {
        const auto [place, fresh] = made.try_emplace({&file, edit});
        if (!fresh) return place->second;
        auto texts = texts_of(file.compiled);
        for (const auto& [path, text] : texts) bytes += text.size();
        const std::string root = file.compiled.sources[file.compiled.formulary.file].name;
        if (bytes > most_bytes || !take_back(edits, edits.edits[edit], root, texts))
            return place->second;
        State state;
        StateFile& tried = add_file(state, memory_world(std::move(texts)), root, file.path);
        if (tried.compiled.unreadable || any_error(tried.compiled.findings)) return place->second;
        add_facts(tried, how, place->second.emplace());
        return place->second;
    }

    /// True where the shade would come out as it does even without the edit.
    bool idle(const StateFile& file, const Effect& effect, std::size_t edit) {
        if (edit == nowhere || effect.now == nullptr) return false;
        const std::optional<Facts>& facts = without(file, edit);
        if (!facts) return false;
        const auto same =
            std::find_if(facts->shades.begin(), facts->shades.end(), [&](const ShadeFact& shade) {
                return shade.name.key == effect.now->name.key;
            });
        return same != facts->shades.end() && !differs(*same, *effect.now);
    }

    void operator()(const StateFile& file, Effect& effect) {
        std::vector<Cause> kept;
        std::vector<std::size_t> of;
        for (std::size_t i = 0; i < effect.edits.size(); ++i) {
            if (idle(file, effect, effect.edits[i])) continue;
            kept.push_back(effect.told.causes[i]);
            of.push_back(effect.edits[i]);
        }
        if (kept.empty()) return;  // only together do they change it
        effect.told.causes = std::move(kept);
        effect.edits = std::move(of);
    }
};

}  // namespace

void try_causes(const State& now, const Comparing& how, const Edits& edits,
                std::vector<Effect>& effects) {
    Trial trial{how, edits};
    for (Effect& effect : effects) {
        if (effect.told.turn != Turn::changed || effect.edits.size() < 2) continue;
        for (const StateFile& file : now.files)
            if (file.path == effect.told.file && !file.compiled.unreadable) trial(file, effect);
    }
}

}  // namespace levigate::changing
