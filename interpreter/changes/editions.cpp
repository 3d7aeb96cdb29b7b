#include "interpreter/changes/editions.hpp"

#include <algorithm>
#include <filesystem>
#include <iterator>
#include <set>

#include "interpreter/share/share.hpp"

namespace levigate {
namespace {

constexpr const char* edition_path = "edition.shade";

bool makes_nothing(const Compiled& compiled) {
    const auto& shades = compiled.formulary.shades;
    return std::none_of(shades.begin(), shades.end(), [](const Shade& one) { return one.own; });
}

Findings only_errors(Findings findings) {
    std::erase_if(findings, [](const Finding& one) { return one.severity != Severity::error; });
    return findings;
}

/// It changes with every word, and says nothing of its own.
std::string without_digest(const std::string& text) {
    const std::size_t at = text.find("\n    digest ");
    if (at == std::string::npos) return text;
    const std::size_t end = std::min(text.find('\n', at + 1), text.size());
    return text.substr(0, at) + text.substr(end);
}

using Remarks = std::multiset<std::string>;

/// The lines that begin with `##`, without those at the head that repeat the `edition` block.
Remarks remarks_of(const EditionState& state) {
    Remarks out;
    for (std::size_t i = 0; i < state.texts.size(); ++i) {
        const auto& edition = state.state.files[i].compiled.formulary.edition;
        const bool dated = edition && (edition->number.sign() > 0 || !edition->date.empty());
        std::size_t at_head = dated ? 2 : 1;
        std::string_view rest = state.texts[i];
        while (!rest.empty()) {
            const std::string_view line = rest.substr(0, rest.find('\n'));
            rest.remove_prefix(std::min(line.size() + 1, rest.size()));
            if (at_head > 0) {
                --at_head;
                continue;
            }
            const std::size_t begin = line.find_first_not_of(' ');
            if (begin != line.npos && line.substr(begin).starts_with("##"))
                out.emplace(line.substr(begin));
        }
    }
    return out;
}

std::vector<std::string> only_in(const Remarks& one, const Remarks& other) {
    std::vector<std::string> out;
    std::set_difference(one.begin(), one.end(), other.begin(), other.end(),
                        std::back_inserter(out));
    return out;
}

}  // namespace

Changes compare_editions(EditionState& before, EditionState& now,
                         const std::vector<std::string>& markets) {
    const Remarks then = remarks_of(before), today = remarks_of(now);
    Changes out = compare(before.state, now.state, {markets, true});
    for (const std::string& one : only_in(then, today))
        out.remarks.push_back({Turn::gone, "remark", one, ""});
    for (const std::string& one : only_in(today, then))
        out.remarks.push_back({Turn::added, "remark", "", one});
    out.reordered = !out.any() && before.texts != now.texts;
    return out;
}

EditionState editions_of(State& state) {
    EditionState out;
    out.state.shown = state.shown;
    for (StateFile& file : state.files) {
        Findings errors = only_errors(file.compiled.findings);
        if (errors.empty() && state.files.size() > 1 && makes_nothing(file.compiled)) continue;
        Outcome<Shared> shared;
        if (errors.empty()) {
            ShareOrder order;
            order.otherwise = std::filesystem::path(file.path).stem().string();
            shared = share_edition(file.compiled, order);
            errors = only_errors(std::move(shared.findings));
        }
        if (!errors.empty()) {
            out.refused.push_back({&file.compiled.sources, std::move(errors)});
            continue;
        }
        std::string text = without_digest(shared.value.text);
        add_file(out.state, memory_world({{edition_path, text}}), edition_path, file.path);
        out.texts.push_back(std::move(text));
    }
    return out;
}

}  // namespace levigate
