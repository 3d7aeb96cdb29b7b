#include "interpreter/expand/stock.hpp"

#include <algorithm>

#include "interpreter/expand/remedies.hpp"
#include "interpreter/expand/words.hpp"
#include "interpreter/formulary/written_name.hpp"

namespace levigate {

StockDilutions::Want& StockDilutions::want(IngredientId of, IngredientId in,
                                           const Reading& reading) {
    const auto same = [&](const Want& want) {
        return want.of == of && want.in == in && want.reading.balance == reading.balance &&
               in_grams(want.reading.step) == in_grams(reading.step);
    };
    auto found = std::find_if(wants_.begin(), wants_.end(), same);
    if (found != wants_.end()) return *found;
    Want& fresh = wants_.emplace_back();
    fresh.of = of;
    fresh.in = in;
    fresh.reading = reading;
    return fresh;
}

void StockDilutions::add(const Sheet& sheet) {
    for (const Remedy& remedy : sheet.remedies) {
        if (remedy.diluent == nothing) continue;
        const Bowl& bowl = sheet.bowls[remedy.bowl];
        const SheetLine& small = bowl.lines[remedy.line];
        const SheetLine& diluent = bowl.lines[remedy.diluent];
        const Scale scale{sheet.reading.step, remedy.least, sheet.reading.up_to};
        Want& into = want(small.what, diluent.what, sheet.reading);
        if (in_grams(into.least) < in_grams(remedy.least)) into.least = remedy.least;
        Use use{{sheet.shade, sheet.version, sheet.finishing, sheet.batch, bowl.mix}};
        for (std::size_t n = 0; n < stock_strengths.size(); ++n) {
            const auto taken =
                taken_of_stock(small.exact, diluent.exact, stock_strengths[n], scale);
            if (!taken) continue;
            use.works = static_cast<Strengths>(use.works | 1u << n);
            into.taken[n] += *taken;
            ++into.served[n];
        }
        into.uses.push_back(use);
    }
}

/// The strongest that serves the most lines.
std::optional<StockDilution> StockDilutions::settle(const Want& want) {
    const Scale scale{want.reading.step, want.least, want.reading.up_to};
    const auto most = std::max_element(want.served.begin(), want.served.end());
    if (*most == 0) return std::nullopt;
    const auto n = static_cast<std::size_t>(most - want.served.begin());
    StockDilution out;
    out.of = want.of;
    out.in = want.in;
    out.parts = stock_strengths[n];
    out.reading = want.reading;
    const auto weigh = stock_to_prepare(scale.mass(want.taken[n]), out.parts, scale);
    if (!weigh) return std::nullopt;
    out.weigh = *weigh;
    out.with = *weigh * (out.parts - 1);
    for (const Use& use : want.uses)
        (use.works >> n & 1u ? out.serves : out.leaves).push_back(use.where);
    return out;
}

std::vector<StockDilution> StockDilutions::settle() const {
    std::vector<StockDilution> out;
    for (const Want& want : wants_)
        if (auto stock = settle(want)) out.push_back(std::move(*stock));
    return out;
}

std::string dilute_line(const Formulary& formulary, const StockDilution& stock) {
    return "dilute " + written_name(formulary.name(stock.of)) + " to " +
           (Exact(100) / stock.parts).exactly() + " % in " + written_name(formulary.name(stock.in));
}

std::string use_words(const Formulary& formulary, const StockUse& use) {
    const Shade& shade = formulary.shades[use.shade];
    std::string out = sheet_title(formulary, shade, shade.versions[use.version], use.finishing);
    if (use.batch != nothing) out += ", " + shade.batches[use.batch].name;
    if (use.mix != no_ingredient) out += ": " + formulary.name(use.mix);
    return out;
}

}  // namespace levigate
