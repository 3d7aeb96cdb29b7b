// Whether an edition's labels are those of its source.

#include <map>

#include "interpreter/rules/label.hpp"
#include "interpreter/rules/lips.hpp"
#include "interpreter/share/prove.hpp"

namespace levigate::sharing {

namespace {

struct LabelsSeen {
    std::map<std::pair<std::string, std::string>, std::string> lists;  ///< by title and region
    std::map<std::string, std::set<Code>> said;                        ///< by shade: codes
};

template <typename Wanted>
LabelsSeen labels_of(const Compiled& compiled, Wanted wanted) {
    LabelsSeen out;
    const Formulary& formulary = compiled.formulary;
    Choice choice;
    choice.all = true;
    choice.words = choice.materials = choice.expectations = false;
    Labeller labeller(formulary, compiled.names, {});
    std::map<ShadeId, LipJudge> judges;
    each_product(formulary, compiled.names, choice, [&](const Product& product) {
        if (!wanted(product.shade)) return;
        labeller.add(product);
        judges.try_emplace(product.shade, formulary, compiled.names, std::vector<Called>())
            .first->second.add(product);
    });
    for (const BoxLabel& label : labeller.make().labels)
        out.lists[{label.title, label.region->name.name}] = label.text;
    for (const auto& [shade, judge] : judges)
        for (const Finding& finding : judge.findings())
            if (finding.severity != Severity::advice)
                out.said[formulary.shades[shade].name].insert(finding.code);
    return out;
}

}  // namespace

std::vector<ShadeId> other_labels(const Compiled& source, const std::vector<bool>& chosen,
                                  const Compiled& edition) {
    const LabelsSeen was =
        labels_of(source, [&](ShadeId id) { return static_cast<bool>(chosen[id]); });
    const LabelsSeen is = labels_of(edition, [](ShadeId) { return true; });
    std::vector<ShadeId> out;
    for (ShadeId id = 0; id < chosen.size(); ++id) {
        if (!chosen[id]) continue;
        const std::string& name = source.formulary.shades[id].name;
        const auto before = was.said.find(name), after = is.said.find(name);
        bool other = (before == was.said.end() ? std::set<Code>() : before->second) !=
                     (after == is.said.end() ? std::set<Code>() : after->second);
        for (const auto& [key, text] : was.lists) {
            if (key.first != name && !key.first.starts_with(name + " / ")) continue;
            const auto same = is.lists.find(key);
            other = other || same == is.lists.end() || same->second != text;
        }
        if (other) out.push_back(id);
    }
    return out;
}

}  // namespace levigate::sharing
