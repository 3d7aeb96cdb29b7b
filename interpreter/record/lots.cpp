#include "interpreter/record/lots.hpp"

#include <fmt/format.h>

#include "interpreter/measure/date.hpp"

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
        findings.push_back({Code::lot_over,
                            fmt::format("{} g of lot {} of {} were weighed, and the shelf has {} g "
                                        "of it.",
                                        taken.fixed(2), stock.lot.name,
                                        formulary.name(stock.material), stock.amount.fixed(2)),
                            last,
                            "Look at the tubs again: which lot was it, and how much is left?"});
        findings.back().notes.push_back({stock.span, "on the shelf"});
    }
    return findings;
}

Findings lots_past(const Formulary& formulary, const Names& names, const std::vector<Pour>& weighed,
                   const std::string& day) {
    Findings findings;
    const auto on = read_date(day);
    if (!on) return findings;
    for (const Stock& stock : formulary.shelf) {
        if (stock.material == no_ingredient || stock.lot.sym == no_name || !stock.best_before ||
            !(last_day(*stock.best_before) < *on))
            continue;
        for (const Pour& pour : weighed) {
            if (pour.what != stock.material || names.find(pour.lot) != stock.lot.sym) continue;
            findings.push_back({Code::lot_past,
                                fmt::format("Lot {} of {} is best before {}, and this is recorded "
                                            "for {}.",
                                            stock.lot.name, formulary.name(stock.material),
                                            date_words(*stock.best_before), day),
                                pour.span,
                                "Look at the tub again; if it is so, say in a note why it was "
                                "used."});
            findings.back().notes.push_back({stock.span, "on the shelf"});
            break;
        }
    }
    return findings;
}

}  // namespace levigate
