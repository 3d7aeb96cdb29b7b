#include "interpreter/changes/edits.hpp"

#include <algorithm>
#include <filesystem>
#include <set>

#include <fmt/format.h>

#include "interpreter/changes/compare_lines.hpp"

namespace levigate::changing {
namespace {

namespace fs = std::filesystem;

/// A source's path as both states know it: what FILE uses is known by its way from FILE.
std::string known_path(const StateFile& file, const std::string& source) {
    const Compiled& compiled = file.compiled;
    if (compiled.formulary.file >= compiled.sources.size()) return source;
    const fs::path root = fs::path(compiled.sources[compiled.formulary.file].name).parent_path();
    const fs::path way = fs::path(source).lexically_normal().lexically_relative(
        (root.empty() ? fs::path(".") : root).lexically_normal());
    return (fs::path(file.path).parent_path() / way).lexically_normal().string();
}

/// All blocks of a state, those of a file that several others use once.
std::vector<BlockView> gather(const State& state) {
    std::vector<BlockView> out;
    std::set<std::string> seen;
    for (const StateFile& file : state.files) {
        std::set<std::string> here;
        for (BlockView& view : blocks_of(file.compiled, file.meanings)) {
            view.file = view.own ? file.path : known_path(file, view.source);
            if (seen.contains(view.file)) continue;
            here.insert(view.file);
            out.push_back(std::move(view));
        }
        seen.merge(here);
    }
    return out;
}

struct Matched {
    std::vector<std::size_t> of_before, of_now;  ///< the partner, or `nowhere`
    void join(std::size_t before, std::size_t now) {
        of_before[before] = now;
        of_now[now] = before;
    }
};

/// Pairs what has the same key, in order; `key` may be empty for what has none.
template <typename Key>
void pair_by(const Edits& edits, Matched& matched, Key key) {
    std::map<std::string, std::vector<std::size_t>> free;
    for (std::size_t i = edits.before.size(); i-- > 0;)
        if (matched.of_before[i] == nowhere)
            if (std::string name = key(edits.before[i]); !name.empty()) free[name].push_back(i);
    for (std::size_t i = 0; i < edits.now.size(); ++i) {
        if (matched.of_now[i] != nowhere) continue;
        const auto found = free.find(key(edits.now[i]));
        if (found == free.end() || found->second.empty()) continue;
        matched.join(found->second.back(), i);
        found->second.pop_back();
    }
}

/// All that a block says, compared: by this a renamed one is known. Empty where it says nothing.
std::string content(const BlockView& view, const Renames& renames) {
    std::vector<std::string> lines;
    for (const Item& item : view.items)
        lines.push_back(renamed(item.topic + " " + item.written, renames));
    std::sort(lines.begin(), lines.end());
    if (lines.empty()) return {};
    return fmt::format("{}\n{}", word(view.heading), fmt::join(lines, "\n"));
}

std::string plain_key(const BlockView& view) {
    const std::size_t begin = view.key.find(name_begins) + 1;
    return view.key.substr(begin, view.key.size() - begin - 1);
}

/// One name that is gone and one that is new, with the same content and no other such: renamed. One
/// renaming may bring the next to light, since names stand in contents.
void pair_renamed(Edits& edits, Matched& matched) {
    for (bool more = true; more;) {
        more = false;
        std::map<std::string, std::vector<std::size_t>> gone, added;
        for (std::size_t i = 0; i < edits.before.size(); ++i)
            if (matched.of_before[i] == nowhere)
                gone[content(edits.before[i], edits.renames)].push_back(i);
        for (std::size_t i = 0; i < edits.now.size(); ++i)
            if (matched.of_now[i] == nowhere) added[content(edits.now[i], {})].push_back(i);
        for (const auto& [what, places] : added) {
            const auto found = gone.find(what);
            if (what.empty() || found == gone.end()) continue;
            if (places.size() != 1 || found->second.size() != 1) continue;
            matched.join(found->second[0], places[0]);
            edits.renames[plain_key(edits.before[found->second[0]])] =
                plain_key(edits.now[places[0]]);
            more = true;
        }
    }
}

bool is_edit(Form form) { return form >= Form::set && form <= Form::rebalance; }

bool same_order(const BlockView& before, const BlockView& now, const Renames& renames) {
    std::vector<std::string> then, today;
    for (const Item& item : before.items)
        if (is_edit(item.form)) then.push_back(renamed(item.topic + item.written, renames));
    for (const Item& item : now.items)
        if (is_edit(item.form)) today.push_back(item.topic + item.written);
    return then == today;
}

Edit new_edit(const BlockView& view, Turn turn) {
    Edit edit;
    edit.change.turn = turn;
    edit.change.kind = word(view.heading);
    edit.change.name = view.name;
    edit.change.file = view.file;
    edit.to_sheets = edit.to_box = edit.to_cost = true;
    return edit;
}

Edit added(const BlockView& view) {
    Edit edit = new_edit(view, Turn::added);
    for (const Item& item : view.items)
        edit.change.lines.push_back(
            {Turn::added, item.label, "", (item.is_private ? "private " : "") + item.line});
    return edit;
}

std::string without_comments(std::string_view text) {
    std::string out;
    while (!text.empty()) {
        const std::string_view line = text.substr(0, text.find('\n'));
        text.remove_prefix(std::min(line.size() + 1, text.size()));
        if (!line.empty() && line.find_first_not_of(' ') != line.find('#'))
            out.append(line).append("\n");
    }
    return out;
}

/// Both are there: an edit where any line says something else.
void compare_pair(Edits& edits, std::size_t before, std::size_t now) {
    const BlockView &then = edits.before[before], &today = edits.now[now];
    Edit edit = new_edit(today, Turn::changed);
    edit.before = before, edit.now = now;
    LinesCompared lines = compare_lines(then, today, edits.renames);
    edit.to_sheets = lines.to_sheets;
    edit.to_box = lines.to_box;
    edit.to_cost = lines.to_cost;
    edit.change.lines = std::move(lines.lines);
    if (then.key != today.key) {
        edit.change.turn = Turn::renamed;
        edit.change.was = then.name;
    } else if (!lines.any) {
        if (!same_order(then, today, edits.renames)) edits.reordered.push_back(now);
        if (without_comments(then.text) != without_comments(today.text))
            edits.reworded.push_back(now);
        return;
    }
    edits.edits.push_back(std::move(edit));
}

}  // namespace

std::string name_now(const std::string& folded, const Renames& renames) {
    const auto found = renames.find(folded);
    return found == renames.end() ? folded : found->second;
}

std::string renamed(std::string_view compared, const Renames& renames) {
    std::string out;
    while (!renames.empty()) {
        const std::size_t begin = compared.find(name_begins);
        const std::size_t end = compared.find(name_ends, begin);
        if (begin == std::string_view::npos || end == std::string_view::npos) break;
        out += compared.substr(0, begin + 1);
        out += name_now(std::string(compared.substr(begin + 1, end - begin - 1)), renames);
        out += name_ends;
        compared.remove_prefix(end + 1);
    }
    return out += compared;
}

Edits find_edits(const State& before, const State& now) {
    Edits out;
    out.before = gather(before);
    out.now = gather(now);
    Matched matched{std::vector<std::size_t>(out.before.size(), nowhere),
                    std::vector<std::size_t>(out.now.size(), nowhere)};
    pair_by(out, matched, [](const BlockView& view) { return view.file + '\n' + view.key; });
    pair_by(out, matched, [](const BlockView& view) { return view.key; });
    pair_renamed(out, matched);
    for (std::size_t i = 0; i < out.now.size(); ++i) {
        if (matched.of_now[i] != nowhere) {
            compare_pair(out, matched.of_now[i], i);
            continue;
        }
        Edit edit = added(out.now[i]);
        edit.now = i;
        out.edits.push_back(std::move(edit));
    }
    for (std::size_t i = 0; i < out.before.size(); ++i) {
        if (matched.of_before[i] != nowhere) continue;
        Edit edit = new_edit(out.before[i], Turn::gone);
        edit.before = i;
        out.edits.push_back(std::move(edit));
    }
    return out;
}

}  // namespace levigate::changing
