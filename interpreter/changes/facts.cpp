#include "interpreter/changes/facts.hpp"

#include <set>
#include <tuple>

#include <fmt/format.h>

#include "interpreter/changes/blocks.hpp"
#include "interpreter/changes/cost_effects.hpp"
#include "interpreter/expand/expand.hpp"
#include "interpreter/render/amounts.hpp"
#include "interpreter/rules/label.hpp"
#include "interpreter/rules/lips.hpp"

namespace levigate::changing {
namespace {

/// What a line expects, whichever of its names a thing is called by.
std::string asked(const Formulary& formulary, const Names& names, const Expectation& expect) {
    std::string of;
    if (expect.ingredient != no_ingredient) of = formulary.name(expect.ingredient);
    if (expect.container != nothing) of = formulary.containers[expect.container].name;
    return fmt::format("{} {}{}{} {} {} {} {}", static_cast<int>(expect.measure), name_begins,
                       folded(of), name_ends, names.folded(expect.role),
                       static_cast<int>(expect.compare), expect.low.value.fraction(),
                       expect.high.value.fraction());
}

Word word_of(std::string_view name) { return {std::string(name), folded(name)}; }

using ProductKey = std::tuple<ShadeId, std::uint32_t, FinishingId>;

struct Gatherer {
    StateFile& file;
    const Comparing& how;
    Facts& facts;
    std::map<ShadeId, std::size_t> places{};
    std::map<ProductKey, std::size_t> products{};
    bool told_of_money = false;

    const Formulary& formulary() const { return file.compiled.formulary; }
    const Names& names() const { return file.compiled.names; }

    ShadeFact& fact(ShadeId id) { return facts.shades[places.at(id)]; }

    std::vector<Called> markets() {
        std::vector<Called> out;
        for (const std::string& name : how.markets)
            out.push_back({name, file.compiled.names.intern(name)});
        return out;
    }

    void add_shades() {
        for (ShadeId id = 0; id < formulary().shades.size(); ++id) {
            const Shade& shade = formulary().shades[id];
            if (!shade.own) continue;
            places[id] = facts.shades.size();
            ShadeFact& made = facts.shades.emplace_back();
            made.name = word_of(shade.name);
            if (shade.member) made.family = word_of(shade.family.name);
            made.file = file.path;
        }
    }

    ProductFact& product(const Sheet& sheet, bool& fresh) {
        ShadeFact& shade = fact(sheet.shade);
        const auto [place, is_new] = products.emplace(
            ProductKey{sheet.shade, sheet.version, sheet.finishing}, shade.products.size());
        fresh = is_new;
        if (!is_new) return shade.products[place->second];
        const SheetNames called = names_of(formulary(), sheet);
        ProductFact& made = shade.products.emplace_back();
        made.variant = word_of(called.variant);
        made.finish = word_of(called.finish);
        return made;
    }

    void add_sheet(const Sheet& sheet) {
        bool fresh = false;
        ProductFact& made = product(sheet, fresh);
        const GramsWriter grams(sheet.reading);
        BatchFact batch;
        for (const Bowl& bowl : sheet.bowls) {
            const bool blend = bowl.mix != no_ingredient;
            for (const SheetLine& line : bowl.lines) {
                if (fresh)
                    made.rows.push_back({blend ? word_of(formulary().name(bowl.mix)) : Word(),
                                         word_of(formulary().name(line.what)), line.share});
                batch.grams.push_back(grams.text(line.steps));
            }
        }
        if (sheet.batch == nothing) return;
        batch.name = word_of(formulary().shades[sheet.shade].batches[sheet.batch].name);
        batch.total = grams.text(sheet.foot);
        if (told_of_money) batch.cost = cost_seen(formulary(), sheet);
        made.batches.push_back(std::move(batch));
    }

    void add_sheets(const std::set<ProductKey>& due) {
        Choice choice;
        choice.all = true;
        choice.words = choice.expectations = false;
        choice.materials = told_of_money;
        choice.dilutions = false;  // how a line is weighed changes nothing of what a shade is
        expand_each(formulary(), names(), choice, [&](Sheet& sheet) { add_sheet(sheet); });
        bool lacking = false;
        for (const ProductKey& key : due) lacking = lacking || !products.contains(key);
        if (!lacking) return;
        // What has no batch, or none that can be made, still has its shares: as 100 g show them.
        choice.make.emplace();
        choice.make->amount = grams(100);
        expand_each(formulary(), names(), choice, [&](Sheet& sheet) {
            if (!products.contains({sheet.shade, sheet.version, sheet.finishing})) add_sheet(sheet);
        });
    }

    void add_verdicts(const Verdicts& verdicts) {
        for (const auto& [id, place] : places) {
            const Shade& shade = formulary().shades[id];
            const bool told = id < verdicts.size() && verdicts[id].size() == shade.expects.size();
            for (std::size_t i = 0; i < shade.expects.size(); ++i) {
                const Expectation& one = shade.expects[i];
                facts.shades[place].expects.push_back(
                    {{one.wording, asked(formulary(), names(), one)},
                     told ? verdicts[id][i] : Verdict::unknown});
            }
        }
    }

    void add_labels(const std::vector<BoxLabel>& labels) {
        std::map<std::string, std::size_t> by_name;
        for (const auto& [id, place] : places) by_name[formulary().shades[id].name] = place;
        for (const BoxLabel& label : labels) {
            if (label.shades.empty() || label.region == nullptr) continue;
            const auto found = by_name.find(label.shades.front());
            if (found == by_name.end()) continue;
            facts.shades[found->second].labels.push_back({word_of(label.region->name.name),
                                                          word_of(label.variant),
                                                          word_of(label.finish), label.text});
        }
    }

    void operator()() {
        add_shades();
        told_of_money = any_price(formulary());
        LipJudge judge(formulary(), names(), markets());
        Labeller labeller(formulary(), names(), {markets(), false, no_name});
        std::set<ProductKey> due;
        Checked checked = check_all(formulary(), names(), {}, [&](const Product& product) {
            judge.add(product);
            labeller.add(product);
            due.insert({product.shade, product.version, product.finishing});
        });
        add_sheets(due);
        add_labels(labeller.make().labels);
        add_verdicts(checked.verdicts);
        for (const Finding& finding : judge.findings())
            facts.lips.emplace_back(finding.code, finding.message);
    }
};

}  // namespace

void add_facts(StateFile& file, const Comparing& how, Facts& facts) {
    if (file.compiled.unreadable) return;
    Gatherer{file, how, facts}();
}

}  // namespace levigate::changing
