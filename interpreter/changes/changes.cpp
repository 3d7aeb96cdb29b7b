#include "interpreter/changes/changes.hpp"

#include <algorithm>
#include <set>
#include <unordered_map>

#include "interpreter/changes/causes.hpp"
#include "interpreter/changes/edits.hpp"
#include "interpreter/changes/effects.hpp"
#include "interpreter/expand/size.hpp"

namespace levigate {

using namespace changing;

namespace {

Facts facts_of(State& state, const Comparing& how) {
    Facts out;
    for (StateFile& file : state.files) add_facts(file, how, out);
    return out;
}

void leave_out_half_merged(State& before, State& now) {
    std::set<std::string> out;
    for (const State* state : {&before, &now})
        for (const StateFile& file : state->files)
            if (half_merged(file)) out.insert(file.path);
    for (State* state : {&before, &now})
        std::erase_if(state->files, [&](const StateFile& file) { return out.contains(file.path); });
}

}  // namespace

StateFile& add_file(State& state, const World& world, const std::string& opened,
                    const std::string& path) {
    StateFile& file = state.files.emplace_back();
    file.path = path;
    file.compiled = compile(world, opened, Library::with_rules);
    if (too_much_to_compare(file.compiled)) {
        file.compiled.files = {};  // it is refused: room for the other state
        return file;
    }
    file.meanings = meanings_of(file.compiled.sources, file.compiled.names, file.compiled.files);
    return file;
}

bool half_merged(const StateFile& file) {
    const Findings& all = file.compiled.findings;
    return std::any_of(all.begin(), all.end(),
                       [](const Finding& one) { return one.code == Code::text_merge_marker; });
}

Changes compare(State& before, State& now, const Comparing& how) {
    leave_out_half_merged(before, now);
    Changes out;
    out.before = before.shown;
    out.now = now.shown;
    Edits edits = find_edits(before, now);
    const Facts then = facts_of(before, how), today = facts_of(now, how);
    std::vector<Effect> effects = find_effects(then, today, edits.renames, how);
    find_causes(edits, effects);
    try_causes(now, how, edits, effects);
    out.lips = find_lip_effects(then, today);
    for (Edit& edit : edits.edits) out.blocks.push_back(std::move(edit.change));
    if (how.editions)
        for (const std::size_t now_at : edits.reworded) {
            const BlockView& block = edits.now[now_at];
            const std::string kind(word(block.heading));
            out.reworded.push_back(kind == block.name ? kind : kind + " " + block.name);
        }
    for (Effect& effect : effects) out.shades.push_back(std::move(effect.told));
    return out;
}

std::optional<Finding> too_much_to_compare(const Compiled& compiled) {
    // Of a file that is far too deep nothing was resolved.
    if (compiled.formulary.ingredients.empty())
        for (const Finding& one : compiled.findings)
            if (one.code == Code::nesting_too_deep || one.code == Code::blend_loop ||
                one.code == Code::like_loop)
                return one;
    auto out = too_much_work(compiled.formulary, compiled.names);
    if (out) out->span = compiled.formulary.shades.front().span;
    return out;
}

}  // namespace levigate
