#pragma once
// `shades`: what a file holds, at a glance.

#include <string>
#include <string_view>
#include <vector>

#include "interpreter/expand/sheet.hpp"
#include "interpreter/formulary/formulary.hpp"
#include "interpreter/render/document.hpp"

namespace levigate {

struct BatchTotal {
    std::string_view batch;
    Mass total;         ///< exact
    std::string grams;  ///< as the balance reads it
    bool estimated = false;
};

struct RoleTotal {
    std::string_view role;  ///< empty: everything without a role
    Share share;            ///< of the finished whole
};

/// A shade under one variant and one finish. Names are empty where there is none.
struct OverviewRow {
    std::string_view variant, finish;
    std::vector<BatchTotal> totals;
    std::vector<RoleTotal> roles;  ///< in the order in which the bowl meets them
};

struct ShadeOverview {
    const Shade* shade = nullptr;
    std::vector<OverviewRow> rows;
};

/// Makes the overview of FILE's own shades from the sheets of every variant, finish and batch,
/// which it takes one by one and doesn't keep.
class Overviews {
public:
    explicit Overviews(const Formulary& formulary);
    void add(const Sheet& sheet);
    /// At the end: a shade without a sheet is told from its formula.
    std::vector<ShadeOverview> take();

private:
    const Formulary& formulary_;
    std::vector<ShadeOverview> shades_;
    std::vector<std::size_t> at_;  ///< in `shades_`, by the shade's number
};

document::Document overview_document(const std::vector<ShadeOverview>& shades);

}  // namespace levigate
