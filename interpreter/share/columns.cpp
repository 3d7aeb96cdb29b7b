#include "interpreter/share/columns.hpp"

#include <algorithm>
#include <map>

#include "interpreter/formulary/say.hpp"
#include "interpreter/share/bands.hpp"

namespace levigate::sharing {

namespace {

using linear::Relation;
using linear::Row;

Exact dot(const Linear& a, const Linear& b) {
    Exact out;
    for (std::size_t i = 0; i < a.size(); ++i) out += a[i] * b[i];
    return out;
}

class Builder {
public:
    Builder(const Formulary& formulary, const Seal& seal, const GoesOut& out)
        : formulary_(formulary), seal_(seal), goes_out_(out) {
        for (std::size_t i = 0; i < seal.materials.size(); ++i) place_[seal.materials[i]] = i;
    }

    Columns operator()() {
        std::vector<IngredientId> due{seal_.id};
        std::set<IngredientId> seen;
        while (!due.empty()) {
            const Mix* mix = mix_of(formulary_, due.back());
            due.pop_back();
            for (const Part& part : mix->formula.parts) {
                if (!seen.insert(part.what).second) continue;
                if (!mix_of(formulary_, part.what))
                    material(part.what);
                else if (const Seal* inner = seal_of(part.what))
                    sealed(*inner);
                else if (goes_out_.blends.contains(part.what))
                    open(part.what);
                else
                    due.push_back(part.what);
            }
        }
        // Rows of sealed blends were made before all columns were known.
        for (Row& row : out_.rows) row.of.resize(out_.of.size());
        return std::move(out_);
    }

private:
    const Seal* seal_of(IngredientId id) const {
        if (!goes_out_.seals) return nullptr;
        for (const Seal& one : *goes_out_.seals)
            if (one.id == id) return &one;
        return nullptr;
    }
    std::size_t add(Linear of) {
        out_.of.push_back(std::move(of));
        return out_.of.size() - 1;
    }
    Linear none() const { return Linear(seal_.materials.size()); }

    void material(IngredientId id) {
        const auto at = place_.find(id);
        if (at == place_.end()) return;  // there is nothing of it
        Linear one = none();
        one[at->second] = Exact(1);
        add(std::move(one));
    }

    void open(IngredientId id) {
        Linear one = none();
        for (const auto& [what, share] : materials_of(formulary_, id))
            if (const auto at = place_.find(what); at != place_.end())
                one[at->second] = share.value();
        add(std::move(one));
    }

    /// A column for each of its materials, and what is told of them, as shares of their sum.
    void sealed(const Seal& inner) {
        std::vector<std::size_t> columns;
        for (const IngredientId id : inner.materials) {
            Linear one = none();
            if (const auto at = place_.find(id); at != place_.end()) one[at->second] = Exact(1);
            columns.push_back(add(std::move(one)));
        }
        const std::vector<Share> ends = band_ends(inner.within);
        for (const auto* list : {&inner.label, &inner.contains})
            for (const Told& told : *list) {
                if (told.asked_anew) continue;
                const bool one = told.least.size() == 1 && told.most.size() == 1;
                for (const Linear& least : told.least)
                    bound(columns, least, Relation::at_least, told.range.least);
                for (const Linear& most : told.most)
                    bound(columns, most, Relation::at_most, told.range.most);
                if (!one) continue;
                bound(columns, told.least[0], Relation::at_most,
                      band_above(ends, told.truth.least));
                bound(columns, told.most[0], Relation::at_least,
                      band_below(ends, told.truth.most));
            }
    }

    void bound(const std::vector<std::size_t>& columns, const Linear& of, Relation relation,
               const Share& end) {
        Row row{std::vector<Exact>(out_.of.size()), relation, Exact(0)};
        for (std::size_t i = 0; i < columns.size(); ++i) row.of[columns[i]] = of[i] - end.value();
        out_.rows.push_back(std::move(row));
    }

    const Formulary& formulary_;
    const Seal& seal_;
    const GoesOut& goes_out_;
    std::map<IngredientId, std::size_t> place_;
    Columns out_;
};

}  // namespace

Columns columns_of(const Formulary& formulary, const Seal& seal, const GoesOut& out) {
    return Builder(formulary, seal, out)();
}

Row over_columns(const Columns& columns, const Row& row) {
    Row out{{}, row.relation, row.bound};
    for (const Linear& column : columns.of) out.of.push_back(dot(column, row.of));
    return out;
}

}  // namespace levigate::sharing
