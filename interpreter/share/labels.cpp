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
    std::map<std::string, std::set<std::string>> open;  ///< by shade: names of unknown order
};

/// Between which ingredients it can't be told which comes first, in some region.
void note_open(const Compiled& compiled, std::map<Sym, Declarer>& declarers, const Product& product,
               std::set<std::string>& out) {
    for (const Region& region : compiled.formulary.regions) {
        if (region.damaged) continue;
        Declarer& declarer =
            declarers.try_emplace(region.name.sym, compiled.formulary, compiled.names, region)
                .first->second;
        const std::vector<Listed> list = declarer.declare(product).list;
        for (const Listed& a : list)
            for (const Listed& b : list)
                if (&a != &b && !a.colours() && !b.colours() && !order_known(region, a, b))
                    out.insert(std::string(compiled.names.folded(a.name.sym)));
    }
}

template <typename Wanted>
LabelsSeen labels_of(const Compiled& compiled, Wanted wanted, bool opens) {
    LabelsSeen out;
    const Formulary& formulary = compiled.formulary;
    Choice choice;
    choice.all = true;
    choice.words = choice.materials = choice.expectations = false;
    Labeller labeller(formulary, compiled.names, {});
    std::map<ShadeId, LipJudge> judges;
    std::map<Sym, Declarer> declarers;
    each_product(formulary, compiled.names, choice, [&](const Product& product) {
        if (!wanted(product.shade)) return;
        labeller.add(product);
        judges.try_emplace(product.shade, formulary, compiled.names, std::vector<Called>())
            .first->second.add(product);
        if (opens)
            note_open(compiled, declarers, product, out.open[formulary.shades[product.shade].name]);
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

std::vector<OtherLabel> other_labels(const Compiled& source, const Compiled& edition,
                                     const Picked& picked) {
    const LabelsSeen was = labels_of(
        source, [&](ShadeId id) { return static_cast<bool>(picked.chosen[id]); }, false);
    const LabelsSeen is = labels_of(
        edition, [](ShadeId) { return true; }, true);
    std::vector<OtherLabel> out;
    for (ShadeId id = 0; id < picked.chosen.size(); ++id) {
        if (!picked.chosen[id]) continue;
        const std::string& name = source.formulary.shades[id].name;
        const auto before = was.said.find(name), after = is.said.find(name);
        bool other = (before == was.said.end() ? std::set<Code>() : before->second) !=
                     (after == is.said.end() ? std::set<Code>() : after->second);
        for (const auto& [key, text] : was.lists) {
            if (key.first != name && !key.first.starts_with(name + " / ")) continue;
            const auto same = is.lists.find(key);
            other = other || same == is.lists.end() || same->second != text;
        }
        if (!other) continue;
        const auto open = is.open.find(name);
        out.push_back({id, open == is.open.end() ? std::set<std::string>() : open->second});
    }
    return out;
}

}  // namespace levigate::sharing
