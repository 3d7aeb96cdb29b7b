#include "interpreter/plan/join.hpp"

#include <algorithm>

#include "interpreter/expand/marks.hpp"

namespace levigate {
namespace {

/// A blend wherever it is met: the first of its bowls, and the longest way from a batch's own.
struct Place {
    std::size_t batch = 0;
    std::uint32_t bowl = 0;
    std::uint32_t depth = 0;
};

class Joiner {
public:
    Joiner(const Formulary& formulary, const std::vector<Drawn>& batches, const Mass& all)
        : formulary_(formulary), batches_(batches), all_(all) {
        place_.clear(formulary.ingredients.size());
        seat_.clear(formulary.ingredients.size());
    }

    Blueprint operator()() {
        for (std::size_t i = 0; i < batches_.size(); ++i) find_blends(i);
        std::stable_sort(blends_.begin(), blends_.end(), [&](IngredientId a, IngredientId b) {
            return place_[a].depth > place_[b].depth;
        });
        for (std::uint32_t i = 0; i < blends_.size(); ++i) seat_[blends_[i]] = i;
        for (IngredientId blend : blends_) add_blend(blend);
        for (const Drawn& batch : batches_) add_bowl(batch, batch.blueprint.bowls.back());
        add_needs();
        list_materials();
        return std::move(out_);
    }

private:
    Exact part_of(const Drawn& batch) const { return in_grams(batch.whole) / in_grams(all_); }

    /// Users stand behind what they hold, so that depths are known from the last bowl on.
    void find_blends(std::size_t i) {
        const Blueprint& from = batches_[i].blueprint;
        std::vector<std::uint32_t> depth(from.bowls.size());
        for (std::size_t k = from.bowls.size(); k-- > 0;) {
            const BlueprintBowl& bowl = from.bowls[k];
            for (std::uint32_t n = bowl.first; n < bowl.first + bowl.count; ++n)
                if (const std::uint32_t inner = from.lines[n].bowl; inner != nothing)
                    depth[inner] = std::max(depth[inner], depth[k] + 1);
        }
        for (std::uint32_t k = 0; k + 1 < from.bowls.size(); ++k) {
            const IngredientId mix = from.bowls[k].mix;
            if (!place_.has(mix)) {
                place_[mix] = {i, k, 0};
                blends_.push_back(mix);
            }
            place_[mix].depth = std::max(place_[mix].depth, depth[k]);
        }
    }

    void add_blend(IngredientId blend) {
        const Place& place = place_[blend];
        const Drawn& from = batches_[place.batch];
        add_bowl(from, from.blueprint.bowls[place.bowl]);
        BlueprintBowl& bowl = out_.bowls.back();
        for (std::uint32_t n = bowl.first; n < bowl.first + bowl.count; ++n)
            out_.lines[n].share = {};  // all who use it are added up below
        bowl.need = {};
    }

    void add_bowl(const Drawn& from, const BlueprintBowl& bowl) {
        const Exact part = part_of(from);
        out_.bowls.push_back({bowl.mix, share(as_fraction(bowl.need) * part),
                              static_cast<std::uint32_t>(out_.lines.size()), bowl.count,
                              bowl.dilution});
        for (std::uint32_t n = bowl.first; n < bowl.first + bowl.count; ++n) {
            BlueprintLine line = from.blueprint.lines[n];
            line.share = share(as_fraction(line.share) * part);
            if (line.bowl != nothing) line.bowl = seat_[from.blueprint.bowls[line.bowl].mix];
            out_.lines.push_back(line);
        }
    }

    void add_needs() {
        for (const Drawn& batch : batches_) {
            const Exact part = part_of(batch);
            const Blueprint& from = batch.blueprint;
            for (std::size_t k = 0; k + 1 < from.bowls.size(); ++k) {
                BlueprintBowl& bowl = out_.bowls[seat_[from.bowls[k].mix]];
                bowl.need += share(as_fraction(from.bowls[k].need) * part);
                for (std::uint32_t n = 0; n < bowl.count; ++n)
                    out_.lines[bowl.first + n].share +=
                        share(as_fraction(from.lines[from.bowls[k].first + n].share) * part);
            }
        }
    }

    void list_materials() {
        Marks<std::size_t> at;
        at.clear(formulary_.ingredients.size());
        for (const Drawn& batch : batches_) {
            for (const BlueprintMaterial& material : batch.blueprint.materials) {
                if (!at.has(material.what)) {
                    at[material.what] = out_.materials.size();
                    out_.materials.push_back({material.what, {}});
                }
                out_.materials[at[material.what]].share +=
                    share(as_fraction(material.share) * part_of(batch));
            }
        }
        std::stable_sort(out_.materials.begin(), out_.materials.end(),
                         [](const BlueprintMaterial& a, const BlueprintMaterial& b) {
                             return b.share < a.share;
                         });
    }

    const Formulary& formulary_;
    const std::vector<Drawn>& batches_;
    const Mass& all_;
    Marks<Place> place_;         ///< by IngredientId
    Marks<std::uint32_t> seat_;  ///< by IngredientId: the blend's bowl in what comes out
    std::vector<IngredientId> blends_;
    Blueprint out_;
};

}  // namespace

Blueprint join(const Formulary& formulary, const std::vector<Drawn>& batches, const Mass& all) {
    return Joiner(formulary, batches, all)();
}

}  // namespace levigate
