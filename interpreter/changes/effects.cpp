#include "interpreter/changes/effects.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "interpreter/changes/cost_effects.hpp"
#include "interpreter/render/amounts.hpp"

namespace levigate::changing {
namespace {

/// Pairs two lists by key, today's order first, then what is gone. `key_before` speaks today's
/// names already.
template <typename T, typename KeyBefore, typename Key, typename Take>
void lay_side_by_side(const std::vector<T>& before, const std::vector<T>& now, KeyBefore key_before,
                      Key key, Take take) {
    std::map<std::string, std::vector<const T*>> then;
    for (auto one = before.rbegin(); one != before.rend(); ++one)
        then[key_before(*one)].push_back(&*one);
    std::set<const T*> met;
    for (const T& one : now) {
        auto& same = then[key(one)];
        const T* partner = same.empty() ? nullptr : same.back();
        if (partner) same.pop_back(), met.insert(partner);
        take(partner, &one);
    }
    for (const T& one : before)
        if (!met.contains(&one)) take(&one, nullptr);
}

struct ShadeComparer {
    const Renames& renames;
    const Comparing& how;

    std::string now(const Word& word) const { return name_now(word.key, renames); }

    /// One batch on both days; nothing where it isn't made.
    struct Both {
        const BatchFact *before, *now;
    };

    static std::vector<Both> batches_of(const ProductFact& before, const ProductFact& now) {
        std::vector<Both> out;
        const auto key = [](const BatchFact& batch) { return batch.name.key; };
        lay_side_by_side(before.batches, now.batches, key, key,
                         [&](const BatchFact* then, const BatchFact* today) {
                             out.push_back({then, today});
                         });
        return out;
    }

    /// A batch in which something changes; of one that is new, or gone, that is told as such.
    static void add_batches(const std::vector<Both>& batches, ProductEffect& out) {
        std::vector<std::size_t> kept;
        for (std::size_t i = 0; i < batches.size(); ++i) {
            const auto& [then, today] = batches[i];
            const auto changed = [i](const RowEffect& row) {
                return row.grams_before[i] != row.grams_now[i];
            };
            if (then && today && then->total == today->total &&
                std::none_of(out.rows.begin(), out.rows.end(), changed))
                continue;
            kept.push_back(i);
            out.batches.push_back({(today ? today : then)->name.shown, then ? then->total : "",
                                   today ? today->total : ""});
        }
        for (RowEffect& row : out.rows)
            for (std::vector<std::string>* grams : {&row.grams_before, &row.grams_now}) {
                std::vector<std::string> left;
                for (const std::size_t i : kept) left.push_back(std::move((*grams)[i]));
                *grams = std::move(left);
            }
    }

    static std::string row_key(const std::string& bowl, const std::string& what) {
        return bowl + '\n' + what;
    }

    std::optional<ProductEffect> compare_product(const ProductFact& before,
                                                 const ProductFact& now) const {
        ProductEffect out;
        out.variant = now.variant.shown;
        out.finish = now.finish.shown;
        const std::vector<Both> batches = batches_of(before, now);
        const auto grams = [](const BatchFact* batch, const auto& rows, const RowFact* row) {
            const auto place = row ? static_cast<std::size_t>(row - rows.data()) : 0;
            return batch && row && place < batch->grams.size() ? batch->grams[place] : "";
        };
        lay_side_by_side(
            before.rows, now.rows,
            [&](const RowFact& row) { return row_key(this->now(row.bowl), this->now(row.what)); },
            [](const RowFact& row) { return row_key(row.bowl.key, row.what.key); },
            [&](const RowFact* then, const RowFact* today) {
                const RowFact& named = today ? *today : *then;
                RowEffect row{named.bowl.shown, named.what.shown, "", "", {}, {}};
                if (then) row.percent_before = percent_text(then->share);
                if (today) row.percent_now = percent_text(today->share);
                bool differs = !then || !today || !(then->share == today->share);
                for (const auto& [old_batch, new_batch] : batches) {
                    row.grams_before.push_back(grams(old_batch, before.rows, then));
                    row.grams_now.push_back(grams(new_batch, now.rows, today));
                    differs = differs || (old_batch && new_batch &&
                                          row.grams_before.back() != row.grams_now.back());
                }
                if (differs) out.rows.push_back(std::move(row));
            });
        add_batches(batches, out);
        if (out.rows.empty() && out.batches.empty()) return std::nullopt;
        return out;
    }

    void compare_products(const ShadeFact& before, const ShadeFact& now, ShadeEffect& out) const {
        lay_side_by_side(
            before.products, now.products,
            [&](const ProductFact& one) {
                return row_key(this->now(one.variant), this->now(one.finish));
            },
            [](const ProductFact& one) { return row_key(one.variant.key, one.finish.key); },
            [&](const ProductFact* then, const ProductFact* today) {
                if (then && today) {
                    if (auto effect = compare_product(*then, *today))
                        out.products.push_back(std::move(*effect));
                    return;
                }
                const ProductFact& one = today ? *today : *then;
                ProductEffect effect;
                effect.turn = today ? Turn::added : Turn::gone;
                effect.variant = one.variant.shown;
                effect.finish = one.finish.shown;
                out.products.push_back(std::move(effect));
            });
    }

    void compare_labels(const ShadeFact& before, const ShadeFact& now, ShadeEffect& out) const {
        lay_side_by_side(
            before.labels, now.labels,
            [&](const LabelFact& one) {
                return one.region.key + '\n' +
                       row_key(this->now(one.variant), this->now(one.finish));
            },
            [](const LabelFact& one) {
                return one.region.key + '\n' + row_key(one.variant.key, one.finish.key);
            },
            [&](const LabelFact* then, const LabelFact* today) {
                if (then && today && then->text == today->text) return;
                const LabelFact& one = today ? *today : *then;
                out.labels.push_back({one.region.shown, one.variant.shown, one.finish.shown,
                                      then ? then->text : "", today ? today->text : ""});
            });
        // The list of a product that is new or gone is no change of a list.
        std::erase_if(out.labels, [&](const LabelEffect& label) {
            return std::any_of(
                out.products.begin(), out.products.end(), [&](const ProductEffect& one) {
                    return one.turn != Turn::changed && one.variant == label.variant &&
                           one.finish == label.finish;
                });
        });
    }

    /// Of batches that are there in both states.
    void compare_costs(const ShadeFact& before, const ShadeFact& now, ShadeEffect& out) const {
        lay_side_by_side(
            before.products, now.products,
            [&](const ProductFact& one) {
                return row_key(this->now(one.variant), this->now(one.finish));
            },
            [](const ProductFact& one) { return row_key(one.variant.key, one.finish.key); },
            [&](const ProductFact* then, const ProductFact* today) {
                if (!then || !today) return;
                for (const auto& [old_batch, new_batch] : batches_of(*then, *today))
                    if (old_batch && new_batch && !cost_alike(old_batch->cost, new_batch->cost))
                        out.costs.push_back({today->variant.shown, today->finish.shown,
                                             new_batch->name.shown, old_batch->cost,
                                             new_batch->cost});
            });
    }

    void compare_expects(const ShadeFact& before, const ShadeFact& now, ShadeEffect& out) const {
        const auto key = [](const ExpectFact& one) { return one.wording.key; };
        lay_side_by_side(before.expects, now.expects, key, key,
                         [&](const ExpectFact* then, const ExpectFact* today) {
                             if (!today) return;
                             if (then && then->verdict == today->verdict) return;
                             if (!then && today->verdict != Verdict::fails) return;
                             out.expects.push_back(
                                 {today->wording.shown,
                                  then ? std::optional(then->verdict) : std::nullopt,
                                  today->verdict});
                         });
    }

    std::optional<Effect> compare_shade(const ShadeFact* before, const ShadeFact* now) const {
        const ShadeFact& named = now ? *now : *before;
        Effect out;
        out.told.name = named.name.shown;
        out.told.file = named.file;
        out.told.family = named.family.shown;
        const auto key = [](const ShadeFact& shade) {
            return shade.family.key.empty() ? key_of(Heading::shade, shade.name.key)
                                            : key_of(Heading::family, shade.family.key);
        };
        if (before) out.key_before = key(*before);
        if (now) out.key = key(*now);
        out.now = now;
        if (!before || !now) {
            // A shade's own block tells of itself; a member has none.
            if (named.family.key.empty()) return std::nullopt;
            out.told.turn = now ? Turn::added : Turn::gone;
            return out;
        }
        compare_products(*before, *now, out.told);
        compare_labels(*before, *now, out.told);
        compare_costs(*before, *now, out.told);
        compare_expects(*before, *now, out.told);
        out.weighed = !out.told.products.empty();
        out.on_box = !out.told.labels.empty() || !out.told.expects.empty();
        out.money = !out.told.costs.empty() || !out.told.expects.empty();
        if (!out.weighed && !out.on_box && !out.money) return std::nullopt;
        return out;
    }
};

}  // namespace

bool differs(const ShadeFact& before, const ShadeFact& now) {
    return ShadeComparer{{}, {}}.compare_shade(&before, &now).has_value();
}

std::vector<Effect> find_effects(const Facts& before, const Facts& now, const Renames& renames,
                                 const Comparing& how) {
    std::vector<Effect> out;
    const ShadeComparer comparer{renames, how};
    // By file and name where that is there, else by name across files.
    std::set<std::string> places;
    for (const ShadeFact& shade : now.shades) places.insert(shade.file + '\n' + shade.name.key);
    const auto key = [&](const std::string& file, const std::string& name) {
        const std::string full = file + '\n' + name;
        return places.contains(full) ? full : name;
    };
    std::set<std::string> then;
    for (const ShadeFact& shade : before.shades)
        then.insert(shade.file + '\n' + comparer.now(shade.name));
    lay_side_by_side(
        before.shades, now.shades,
        [&](const ShadeFact& shade) { return key(shade.file, comparer.now(shade.name)); },
        [&](const ShadeFact& shade) {
            const std::string full = shade.file + '\n' + shade.name.key;
            return then.contains(full) ? full : shade.name.key;
        },
        [&](const ShadeFact* old_shade, const ShadeFact* new_shade) {
            if (auto effect = comparer.compare_shade(old_shade, new_shade))
                out.push_back(std::move(*effect));
        });
    return out;
}

std::vector<LipEffect> find_lip_effects(const Facts& before, const Facts& now) {
    std::vector<LipEffect> out;
    const auto tell = [&](const auto& from, const auto& others, bool gone) {
        const std::set<std::pair<Code, std::string>> known(others.begin(), others.end());
        std::set<std::pair<Code, std::string>> said;
        for (const auto& one : from)
            if (!known.contains(one) && said.insert(one).second)
                out.push_back({gone, one.first, one.second});
    };
    tell(now.lips, before.lips, false);
    tell(before.lips, now.lips, true);
    return out;
}

}  // namespace levigate::changing
