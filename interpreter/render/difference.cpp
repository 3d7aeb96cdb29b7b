// The greedy algorithm of Myers, "An O(ND) Difference Algorithm and Its Variations" (1986, from
// memory): how far one gets on each diagonal with so many edits. Where it takes too many, the way
// that got furthest is taken, and the search begins anew at its end.
#include "interpreter/render/difference.hpp"

#include <algorithm>
#include <vector>

#include <fmt/format.h>

namespace levigate {
namespace {

constexpr int most_edits = 200;  ///< in one search: its time and memory grow with their square
constexpr std::size_t context_lines = 3;

using Lines = std::vector<std::string_view>;

/// Each with its line end.
Lines lines_of(std::string_view text) {
    Lines out;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size() - 1) + 1;
        out.push_back(text.substr(0, end));
        text.remove_prefix(end);
    }
    return out;
}

enum class Edit : char { keep = ' ', remove = '-', add = '+' };

struct Search {
    const Lines &before, &after;
    int x = 0, y = 0;  ///< lines that are done with
    std::vector<Edit> script{};

    int before_left() const { return static_cast<int>(before.size()) - x; }
    int after_left() const { return static_cast<int>(after.size()) - y; }
    bool same(int i, int j) const {
        return before[static_cast<std::size_t>(x + i)] == after[static_cast<std::size_t>(y + j)];
    }

    /// On diagonal k, x - y = k, the furthest x; `reached[d]` for up to d edits.
    using Reach = std::vector<int>;
    static int& on(Reach& reach, int k) {
        return reach[static_cast<std::size_t>(k + most_edits + 1)];
    }

    int step(Reach& reach, int k, int d) const {
        const bool down = k == -d || (k != d && on(reach, k - 1) < on(reach, k + 1));
        int i = down ? on(reach, k + 1) : on(reach, k - 1) + 1;
        while (i < before_left() && i - k < after_left() && i >= 0 && i - k >= 0 && same(i, i - k))
            ++i;
        return i;
    }

    /// One search, from where the last one ended.
    void advance() {
        Reach reach(2 * most_edits + 3, 0);
        std::vector<Reach> passed;
        for (int d = 0;; ++d) {
            passed.push_back(reach);
            int best = 0, best_sum = -1;
            for (int k = -d; k <= d; k += 2) {
                const int i = on(reach, k) = step(reach, k, d);
                const bool inside = i <= before_left() && i - k <= after_left();
                if (inside && 2 * i - k > best_sum) best = k, best_sum = 2 * i - k;
                if (inside && i == before_left() && i - k == after_left())
                    return walk_back(passed, k, i, d);
            }
            if (d == most_edits) return walk_back(passed, best, on(reach, best), d);
        }
    }

    void walk_back(std::vector<Reach>& passed, int k, int end, int d) {
        std::vector<Edit> back;
        int i = end;
        for (; d > 0; --d) {
            Reach& reach = passed[static_cast<std::size_t>(d)];
            const bool down = k == -d || (k != d && on(reach, k - 1) < on(reach, k + 1));
            const int from = down ? on(reach, k + 1) : on(reach, k - 1);
            const int met = down ? from : from + 1;
            for (; i > met; --i) back.push_back(Edit::keep);
            back.push_back(down ? Edit::add : Edit::remove);
            k += down ? 1 : -1;
            i = from;
        }
        for (; i > 0; --i) back.push_back(Edit::keep);
        script.insert(script.end(), back.rbegin(), back.rend());
        for (const Edit edit : back) {
            if (edit != Edit::add) ++x;
            if (edit != Edit::remove) ++y;
        }
    }
};

std::vector<Edit> script_of(const Lines& before, const Lines& after) {
    Search search{before, after};
    while (search.before_left() > 0 || search.after_left() > 0) search.advance();
    return std::move(search.script);
}

std::string range(std::size_t first, std::size_t count) {
    return count == 1 ? fmt::format("{}", first + 1)
                      : fmt::format("{},{}", count == 0 ? first : first + 1, count);
}

void append_line(std::string& out, Edit edit, std::string_view line) {
    out += static_cast<char>(edit);
    out += line;
    if (!line.ends_with('\n')) out += "\n\\ No newline at end of file\n";
}

}  // namespace

std::string unified_difference(std::string_view name, std::string_view before,
                               std::string_view after) {
    if (before == after) return {};
    const Lines old_lines = lines_of(before), new_lines = lines_of(after);
    const std::vector<Edit> script = script_of(old_lines, new_lines);
    std::string out = fmt::format("--- {0}\n+++ {0}\n", name);
    std::size_t i = 0, j = 0;  // lines that are behind us
    for (std::size_t at = 0; at < script.size();) {
        if (script[at] == Edit::keep) {
            ++at, ++i, ++j;
            continue;
        }
        // A hunk ends where more unchanged lines follow than two neighbours would share.
        const std::size_t lead = std::min(context_lines, i);
        std::size_t end = at, kept = 0;
        for (std::size_t k = at; k < script.size() && kept <= 2 * context_lines; ++k) {
            kept = script[k] == Edit::keep ? kept + 1 : 0;
            if (kept == 0) end = k + 1;
        }
        end = std::min(script.size(), end + context_lines);
        std::string body;
        std::size_t old_first = i - lead, new_first = j - lead;
        for (std::size_t k = i - lead; k < i; ++k) append_line(body, Edit::keep, old_lines[k]);
        for (; at < end; ++at) {
            const bool add = script[at] == Edit::add;
            append_line(body, script[at], add ? new_lines[j] : old_lines[i]);
            if (script[at] != Edit::add) ++i;
            if (script[at] != Edit::remove) ++j;
        }
        out += fmt::format("@@ -{} +{} @@\n{}", range(old_first, i - old_first),
                           range(new_first, j - new_first), body);
    }
    return out;
}

}  // namespace levigate
