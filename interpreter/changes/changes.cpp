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

/// The names that a block is made from by its heading or its `from` line.
std::vector<std::string> comes_from(const BlockView& block) {
    std::vector<std::string> out;
    for (const Item& item : block.items) {
        if (item.topic != "like" && item.form != Form::from && item.form != Form::between)
            continue;
        const std::string& text = item.written;
        for (std::size_t at = text.find(name_begins); at != std::string::npos;
             at = text.find(name_begins, at + 1)) {
            const std::size_t end = text.find(name_ends, at);
            if (end == std::string::npos) break;
            out.push_back(text.substr(at + 1, end - at - 1));
        }
    }
    return out;
}

/// Names of blocks whose inside is not for everybody, before or now, and of all that is like them:
/// along who is like whom, each name once.
std::set<std::string> concealed_blocks(const Edits& edits) {
    std::unordered_map<std::string, std::vector<std::string>> children;
    std::set<std::string> out;
    std::vector<std::string> due;
    const auto meet = [&](const std::string& name) {
        if (out.insert(name).second) due.push_back(name);
    };
    for (const std::vector<BlockView>* blocks : {&edits.before, &edits.now})
        for (const BlockView& block : *blocks) {
            const std::string name = folded(block.name);
            for (const std::string& parent : comes_from(block)) children[parent].push_back(name);
            if (is_concealed(block)) meet(name);
        }
    while (!due.empty()) {
        const std::string parent = std::move(due.back());
        due.pop_back();
        for (const std::string& child : children[parent]) meet(child);
    }
    return out;
}

bool any_private(const Edits& edits) {
    const auto hidden = [](const BlockView& block) {
        return block.sealed || std::any_of(block.items.begin(), block.items.end(),
                                           [](const Item& item) { return item.is_private; });
    };
    return std::any_of(edits.before.begin(), edits.before.end(), hidden) ||
           std::any_of(edits.now.begin(), edits.now.end(), hidden);
}

bool says_nothing(const ProductEffect& product) {
    return product.turn == Turn::changed && product.rows.empty() &&
           std::all_of(product.batches.begin(), product.batches.end(),
                       [](const BatchEffect& one) { return one.total_before == one.total_now; });
}

/// What a shade made with private lines, or a sealed bowl, comes to isn't told. Nor is what is
/// reckoned about lips where anything is private: such a sentence holds its arithmetic.
void conceal(const Edits& edits, std::vector<Effect>& effects, std::vector<LipEffect>& lips) {
    if (!any_private(edits)) return;
    const std::set<std::string> concealed = concealed_blocks(edits);
    for (Effect& effect : effects) {
        ShadeEffect& told = effect.told;
        if (concealed.contains(folded(told.name)) || concealed.contains(folded(told.family))) {
            told.concealed = true;
            told.products.clear(), told.labels.clear(), told.expects.clear();
            continue;
        }
        for (ProductEffect& product : told.products)
            std::erase_if(product.rows, [&](const RowEffect& row) {
                return concealed.contains(folded(row.bowl));
            });
        if (std::erase_if(told.products, says_nothing) != 0 && told.products.empty() &&
            told.labels.empty() && told.expects.empty())
            told.concealed = true;
    }
    // Without its sentence, the same finding with other figures is no other finding.
    std::set<std::pair<Code, bool>> codes;
    for (LipEffect& lip : lips) {
        lip.message.clear();
        codes.emplace(lip.code, lip.gone);
    }
    std::set<std::pair<Code, bool>> told;
    std::erase_if(lips, [&](const LipEffect& lip) {
        return codes.contains({lip.code, !lip.gone}) || !told.emplace(lip.code, lip.gone).second;
    });
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
    Edits edits = find_edits(before, now, how);
    const Facts then = facts_of(before, how), today = facts_of(now, how);
    std::vector<Effect> effects = find_effects(then, today, edits.renames, how);
    find_causes(edits, effects);
    try_causes(now, how, edits, effects);
    out.lips = find_lip_effects(then, today);
    if (how.for_members) conceal(edits, effects, out.lips);
    for (Edit& edit : edits.edits)
        if (!edit.change.kind.empty()) out.blocks.push_back(std::move(edit.change));
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
