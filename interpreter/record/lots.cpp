#include "interpreter/record/lots.hpp"

#include <fmt/format.h>

namespace levigate {

Findings lots_over(const Formulary& formulary, const Names& names,
                   const std::vector<Pour>& weighed) {
    Findings findings;
    for (const Stock& stock : formulary.shelf) {
        if (stock.material == no_ingredient || stock.lot.sym == no_name) continue;
        Exact taken;
        Span last;
        for (const Pour& pour : weighed) {
            if (pour.what != stock.material || names.find(pour.lot) != stock.lot.sym) continue;
            taken += in_grams(pour.mass);
            last = pour.span;
        }
        if (!(taken > stock.amount)) continue;
        findings.push_back({"lot-over", Severity::warning,
                            fmt::format("{} g of lot {} of {} were weighed, and the shelf has {} g "
                                        "of it.",
                                        taken.fixed(2), stock.lot.name,
                                        formulary.name(stock.material), stock.amount.fixed(2)),
                            last,
                            "Look at the tubs again: which lot was it, and how much is left?"});
        findings.back().labels.push_back({stock.span, "on the shelf"});
    }
    return findings;
}

}  // namespace levigate
