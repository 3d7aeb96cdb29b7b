#include "interpreter/changes/causes.hpp"

#include <algorithm>
#include <set>
#include <unordered_map>

namespace levigate::changing {
namespace {

/// From a block to one that it goes by.
struct Link {
    Cause::By by = Cause::By::like;
    std::size_t to = nowhere;
};

/// Every marked name in a compared text.
template <typename Take>
void each_name(std::string_view text, Take take) {
    for (std::size_t begin = text.find(name_begins); begin != std::string_view::npos;
         begin = text.find(name_begins, begin + 1)) {
        const std::size_t end = text.find(name_ends, begin);
        if (end == std::string_view::npos) return;
        take(text.substr(begin + 1, end - begin - 1));
    }
}

/// The blocks of one state and what each goes by.
class Graph {
public:
    explicit Graph(const std::vector<BlockView>& blocks) : blocks_(blocks), links_(blocks.size()) {
        for (std::size_t i = 0; i < blocks.size(); ++i) {
            places_[blocks[i].key].push_back(i);
            if (blocks[i].heading == Heading::balance && blocks[i].own) balances_.push_back(i);
        }
        for (std::size_t i = 0; i < blocks.size(); ++i) link(i);
    }

    /// The block of that key, that of the file itself first.
    std::size_t find(const std::string& key, const std::string& file) const {
        const auto found = places_.find(key);
        if (found == places_.end()) return nowhere;
        for (const std::size_t place : found->second)
            if (blocks_[place].file == file) return place;
        return found->second.front();
    }
    const std::vector<Link>& links(std::size_t block) const { return links_[block]; }
    const BlockView& block(std::size_t place) const { return blocks_[place]; }

private:
    void add(std::size_t from, Cause::By by, Heading heading, std::string_view name) {
        const std::size_t to = find(key_of(heading, name), blocks_[from].file);
        if (to != nowhere && to != from) links_[from].push_back({by, to});
    }

    void link_item(std::size_t from, const Item& item) {
        const std::string all = item.topic + item.written;
        const auto go = [&](Cause::By by, std::initializer_list<Heading> headings) {
            each_name(all, [&](std::string_view name) {
                for (const Heading heading : headings) add(from, by, heading, name);
            });
        };
        switch (item.form) {
            case Form::variants: return go(Cause::By::variant, {Heading::variant});
            case Form::finishes: return go(Cause::By::finish, {Heading::finish});
            case Form::weigh_on: return go(Cause::By::balance, {Heading::balance});
            case Form::from:
            case Form::between: return go(Cause::By::from, {Heading::shade});
            case Form::note:
            case Form::step:
            case Form::expect: return;
            default:
                return go(Cause::By::inside, {Heading::material, Heading::blend, Heading::shade});
        }
    }

    void link(std::size_t from) {
        const BlockView& block = blocks_[from];
        bool weighs_on = false;
        for (const Item& item : block.items) {
            if (item.topic == "like")
                each_name(item.written, [&](std::string_view name) {
                    add(from, Cause::By::like, block.heading, name);
                });
            else
                link_item(from, item);
            weighs_on = weighs_on || item.form == Form::weigh_on;
        }
        for (const std::string& measure : block.measures) {
            add(from, Cause::By::unit, Heading::unit, measure);
            add(from, Cause::By::container, Heading::container, measure);
        }
        if (block.heading != Heading::shade || weighs_on) return;
        for (const std::size_t balance : balances_)
            links_[from].push_back({Cause::By::balance, balance});
    }

    const std::vector<BlockView>& blocks_;
    std::vector<std::vector<Link>> links_;
    std::vector<std::size_t> balances_;  ///< the file's own: of shades that name none
    std::unordered_map<std::string, std::vector<std::size_t>> places_;
};

bool has_price(const BlockView& block) {
    return std::any_of(block.items.begin(), block.items.end(),
                       [](const Item& item) { return item.form == Form::price; });
}

/// Of a block in which nothing but its price changed.
std::string price_how(const BlockView& before, const BlockView& now) {
    if (now.heading == Heading::rate) return "is another";
    if (!has_price(now)) return "has no price now";
    return has_price(before) ? "has another price now" : "has a price now";
}

std::string how_of(const Edits& edits, const Edit& edit) {
    if (edit.change.turn == Turn::added) return "is new";
    if (edit.change.turn == Turn::gone) return "is gone";
    if (edit.to_cost && !edit.to_sheets && !edit.to_box)
        return price_how(edits.before[edit.before], edits.now[edit.now]);
    const auto& before = edits.before[edit.before].size;
    const auto& now = edits.now[edit.now].size;
    if (!before || !now || before->kind != now->kind) return "changed";
    const bool container = edits.now[edit.now].heading == Heading::container;
    if (before->value < now->value) return container ? "holds more now" : "is more now";
    if (now->value < before->value) return container ? "holds less now" : "is less now";
    return "changed";
}

bool reaches(const Edit& edit, const Effect& effect) {
    if (effect.money && edit.to_cost) return true;
    return effect.weighed ? edit.to_sheets : effect.on_box && edit.to_box;
}

struct Step {
    std::size_t at = nowhere;
    bool first = true;
    Cause::By by = Cause::By::itself;
    std::string via = {};
};

/// Looks from a shade's block along its links, past what was not edited, to what was.
class Search {
public:
    Search(const Edits& edits, const Graph& graph, bool today) : edits_(edits), graph_(graph) {
        for (std::size_t i = 0; i < edits.edits.size(); ++i) {
            const Edit& edit = edits.edits[i];
            if (const std::size_t at = today ? edit.now : edit.before; at != nowhere)
                edited_[at] = i;
        }
        if (today) reordered_ = {edits.reordered.begin(), edits.reordered.end()};
    }

    /// `order`: seek what merely has its lines in another order.
    void operator()(Effect& effect, const std::string& key, bool order) const {
        const std::size_t start = graph_.find(key, effect.told.file);
        if (start == nowhere) return;
        std::set<std::size_t> seen{start};
        std::vector<Step> open{{start}};
        for (std::size_t i = 0; i < open.size(); ++i) {
            const Step step = open[i];
            order ? meet_reordered(step, effect) : meet(step, effect);
            for (const Link& link : graph_.links(step.at))
                if (seen.insert(link.to).second) open.push_back(next(step, link));
        }
    }

private:
    Step next(const Step& step, const Link& link) const {
        const bool like = link.by == Cause::By::like;
        Step out{link.to, false, like && !step.first ? step.by : link.by, step.via};
        if (like && step.by == Cause::By::inside && out.via.empty())
            out.via = graph_.block(step.at).name;
        if (!like) out.via.clear();
        return out;
    }

    void meet(const Step& step, Effect& effect) const {
        const auto found = edited_.find(step.at);
        if (found == edited_.end()) return;
        const Edit& edit = edits_.edits[found->second];
        if (!reaches(edit, effect)) return;
        add(effect, {step.by, graph_.block(step.at).name, how_of(edits_, edit), via(effect, step)},
            found->second);
    }

    /// True where a block's like-chain leads to another.
    bool is_like(std::size_t block, std::size_t other) const {
        for (std::size_t steps = 0; block != nowhere && steps < 200; ++steps) {
            std::size_t up = nowhere;
            for (const Link& link : graph_.links(block))
                if (link.by == Cause::By::like) up = link.to;
            if (up == other) return true;
            block = up;
        }
        return false;
    }

    /// What in the shade is like the thing that was edited, where it doesn't hold that itself: a
    /// swap may have put another in its place.
    std::string via(const Effect& effect, const Step& step) const {
        if (step.by != Cause::By::inside || effect.now == nullptr) return step.via;
        const std::string name = folded(graph_.block(step.at).name);
        std::string out = step.via;
        for (const ProductFact& product : effect.now->products) {
            for (const RowFact& row : product.rows) {
                if (row.what.key == name) return {};
                const std::size_t blend =
                    graph_.find(key_of(Heading::blend, row.what.key), effect.told.file);
                if (out.empty() && is_like(blend, step.at)) out = row.what.shown;
            }
        }
        return out;
    }

    void meet_reordered(const Step& step, Effect& effect) const {
        if (!reordered_.contains(step.at)) return;
        add(effect,
            {step.by, graph_.block(step.at).name, "has its lines in another order", step.via},
            nowhere);
    }

    static void add(Effect& effect, Cause cause, std::size_t edit) {
        std::vector<Cause>& causes = effect.told.causes;
        const bool known = std::find(causes.begin(), causes.end(), cause) != causes.end() ||
                           (edit != nowhere && std::find(effect.edits.begin(), effect.edits.end(),
                                                         edit) != effect.edits.end());
        if (known) return;
        causes.push_back(std::move(cause));
        effect.edits.push_back(edit);
    }

    const Edits& edits_;
    const Graph& graph_;
    std::unordered_map<std::size_t, std::size_t> edited_;  ///< block to edit
    std::set<std::size_t> reordered_;
};

/// What no link leads to, since it concerns all shades alike: rules, and rates of money.
void add_rules(const Edits& edits, Effect& effect) {
    for (std::size_t i = 0; i < edits.edits.size(); ++i) {
        const Edit& edit = edits.edits[i];
        const std::string& kind = edit.change.kind;
        const bool rule = kind == "rule" || kind == "region" || kind == "market";
        const bool rate = kind == "rate" && !effect.told.expects.empty();
        if (!rate && (!rule || effect.told.labels.empty())) continue;
        effect.told.causes.push_back(
            {rate ? Cause::By::rate : Cause::By::rules, edit.change.name, how_of(edits, edit)});
        effect.edits.push_back(i);
    }
}

}  // namespace

void find_causes(const Edits& edits, std::vector<Effect>& effects) {
    const Graph before(edits.before), now(edits.now);
    const Search then(edits, before, false), today(edits, now, true);
    for (Effect& effect : effects) {
        if (effect.told.turn != Turn::changed) continue;
        today(effect, effect.key, false);
        then(effect, effect.key_before, false);
        add_rules(edits, effect);
        if (effect.told.causes.empty()) today(effect, effect.key, true);
    }
}

}  // namespace levigate::changing
