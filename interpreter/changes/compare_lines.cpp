#include "interpreter/changes/compare_lines.hpp"

#include <algorithm>

namespace levigate::changing {
namespace {

using Lines = std::vector<const Item*>;

/// Lines that speak of one thing: one each, or a row of steps.
struct Topic {
    Lines before, now;
};

bool same(const Item& before, const Item& now, const Renames& renames) {
    return before.is_private == now.is_private &&
           (renamed(before.written, renames) == now.written ||
            renamed(before.meaning, renames) == now.meaning);
}

enum class Reach : std::uint8_t { words, cost, box, sheets };

/// How far a line's change can reach.
Reach reach(const BlockView& block, Form form) {
    if (block.heading == Heading::rule || block.heading == Heading::region) return Reach::box;
    if (block.heading == Heading::market) return Reach::box;
    if (block.heading == Heading::rate) return Reach::cost;
    switch (form) {
        case Form::price: return Reach::cost;
        case Form::note:
        case Form::step:
        case Form::have:
        case Form::on:
        case Form::swatch:
        case Form::hazard:
        case Form::dilute:
        case Form::source:
        case Form::expect: return Reach::words;
        case Form::label:
        case Form::colourant:
        case Form::contains:
        case Form::certified:
        case Form::market: return Reach::box;
        default: return Reach::sheets;
    }
}

/// How many lines at the start, or at the end, are the same.
std::size_t alike(const Lines& before, const Lines& now, const Renames& renames, bool at_end) {
    const std::size_t most = std::min(before.size(), now.size());
    std::size_t count = 0;
    const auto at = [&](const Lines& lines) {
        return lines[at_end ? lines.size() - 1 - count : count];
    };
    while (count < most && same(*at(before), *at(now), renames)) ++count;
    return count;
}

/// The longest row of lines that both have in the same order, by the usual table.
std::vector<std::pair<std::size_t, std::size_t>> common(const Lines& before, const Lines& now,
                                                        const Renames& renames) {
    constexpr std::size_t most_cells = 1u << 20;
    std::vector<std::pair<std::size_t, std::size_t>> out;
    const std::size_t width = now.size() + 1;
    if ((before.size() + 1) * width > most_cells) return out;
    std::vector<std::uint32_t> length((before.size() + 1) * width);
    for (std::size_t i = before.size(); i-- > 0;)
        for (std::size_t k = now.size(); k-- > 0;)
            length[i * width + k] =
                same(*before[i], *now[k], renames)
                    ? length[(i + 1) * width + k + 1] + 1
                    : std::max(length[(i + 1) * width + k], length[i * width + k + 1]);
    for (std::size_t i = 0, k = 0; i < before.size() && k < now.size();) {
        if (same(*before[i], *now[k], renames))
            out.emplace_back(i++, k++);
        else if (length[(i + 1) * width + k] >= length[i * width + k + 1])
            ++i;
        else
            ++k;
    }
    return out;
}

struct LineComparer {
    const BlockView& block;
    const Renames& renames;
    LinesCompared out{};

    void tell(const Item* before, const Item* now) {
        const Item& one = now ? *now : *before;
        out.any = true;
        const Reach far = reach(block, one.form);
        out.to_sheets = out.to_sheets || far == Reach::sheets;
        out.to_box = out.to_box || far == Reach::box || far == Reach::sheets;
        out.to_cost = out.to_cost || far == Reach::cost || far == Reach::sheets;
        if (before && now) {
            const bool other = before->is_private != now->is_private;
            out.lines.push_back({Turn::changed, one.label,
                                 (other && before->is_private ? "private " : "") + before->shown,
                                 (other && now->is_private ? "private " : "") + now->shown});
            return;
        }
        const std::string line = (one.is_private ? "private " : "") + one.line;
        out.lines.push_back(
            {now ? Turn::added : Turn::gone, one.label, now ? "" : line, now ? line : ""});
    }

    /// Between two lines that stayed: what can be paired was changed, the rest is new or gone.
    void tell_gap(const Lines& before, const Lines& now) {
        for (std::size_t i = 0; i < std::max(before.size(), now.size()); ++i)
            tell(i < before.size() ? before[i] : nullptr, i < now.size() ? now[i] : nullptr);
    }

    void compare(Topic topic) {
        const std::size_t head = alike(topic.before, topic.now, renames, false);
        topic.before.erase(topic.before.begin(), topic.before.begin() + static_cast<long>(head));
        topic.now.erase(topic.now.begin(), topic.now.begin() + static_cast<long>(head));
        const std::size_t tail = alike(topic.before, topic.now, renames, true);
        topic.before.resize(topic.before.size() - tail);
        topic.now.resize(topic.now.size() - tail);
        auto stayed = common(topic.before, topic.now, renames);
        stayed.emplace_back(topic.before.size(), topic.now.size());
        std::size_t i = 0, k = 0;
        for (const auto& [next, then] : stayed) {
            tell_gap({topic.before.begin() + static_cast<long>(i),
                      topic.before.begin() + static_cast<long>(next)},
                     {topic.now.begin() + static_cast<long>(k),
                      topic.now.begin() + static_cast<long>(then)});
            i = next + 1, k = then + 1;
        }
    }
};

}  // namespace

LinesCompared compare_lines(const BlockView& before, const BlockView& now, const Renames& renames) {
    std::map<std::string, Topic> topics;
    std::vector<std::string> order;
    for (const Item& item : now.items) {
        Topic& topic = topics[item.topic];
        if (topic.now.empty()) order.push_back(item.topic);
        topic.now.push_back(&item);
    }
    for (const Item& item : before.items) {
        const std::string key = renamed(item.topic, renames);
        Topic& topic = topics[key];
        if (topic.now.empty() && topic.before.empty()) order.push_back(key);
        topic.before.push_back(&item);
    }
    LineComparer comparer{now, renames};
    for (const std::string& key : order) comparer.compare(std::move(topics[key]));
    return std::move(comparer.out);
}

}  // namespace levigate::changing
