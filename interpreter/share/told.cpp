#include "interpreter/share/told.hpp"

#include <fmt/format.h>

#include "interpreter/formulary/say.hpp"
#include "interpreter/share/bands.hpp"
#include "interpreter/share/print.hpp"

namespace levigate::sharing {

namespace {

/// In tenths of a percent: what else could be asked for, so that wider bands are told …
constexpr int wider[] = {100, 200, 300, 400, 500, 1000};
/// … or so that what can be told is allowed.
constexpr int narrower[] = {200, 100, 50, 40, 30, 20, 10, 5, 1};

std::vector<Concluded> with_within(const Compiled& source, IngredientId blend, const Share& within,
                                   const std::vector<ToldBefore>& before, const GoesOut& out) {
    const Outcome<Seal> made = seal(source.formulary, source.names, blend, within);
    return concluded(source.formulary, source.names, made.value, before, out);
}

/// The line `sealed` of its block.
const tree::Line* sealed_line(const Compiled& source, const Index& index, IngredientId blend) {
    const Place place = index.at(source.formulary.ingredients[blend].span);
    if (!place) return nullptr;
    for (const tree::Line* line : index.lines(place))
        if (line->form == Form::sealed) return line;
    return nullptr;
}

/// What else goes out of it, since safety and law need it.
std::string outright_words(const Seal& seal) {
    std::vector<std::string> holds, contents, all;
    for (const Called& index : seal.indices) holds.push_back(index.name);
    if (seal.powder) holds.emplace_back("a powder");
    if (seal.flammable) holds.emplace_back("something flammable");
    for (const Told& told : seal.contains) contents.push_back(told.name.name);
    if (!holds.empty()) all.push_back("that it holds " + list_words(holds));
    if (!contents.empty()) all.push_back("how much " + list_words(contents) + " it holds");
    if (seal.tells_density) all.emplace_back("its density, which may tell more");
    return all.empty() ? "" : fmt::format(" They are also told {}.", list_words(all));
}

class Teller {
public:
    Teller(const Compiled& source, const Index& index, const Editions& since, const GoesOut& out)
        : source_(source), index_(index), since_(since), goes_out_(out) {}

    Finding operator()(const Seal& seal) const {
        const Formulary& formulary = source_.formulary;
        const tree::Line* line = sealed_line(source_, index_, seal.id);
        const Span span = line ? line->span : formulary.ingredients[seal.id].span;
        std::vector<ToldBefore> before;
        for (const Compiled* one : since_)
            if (auto told = told_before(one->formulary, one->names,
                                        source_.names.folded(formulary.ingredients[seal.id].sym)))
                before.push_back(std::move(*told));
        const std::vector<Concluded> all =
            concluded(formulary, source_.names, seal, before, goes_out_);
        if (all.empty())
            return {Code::share_narrow,
                    fmt::format("What members can tell of {} can't be worked out: it holds {} "
                                "materials, of which {} names are told.",
                                formulary.name(seal.id), seal.materials.size(),
                                seal.label.size() + seal.contains.size()),
                    span, "Seal it in parts, each a blend of its own."};
        const std::string told =
            fmt::format("Of {} members can tell: {}.", formulary.name(seal.id),
                        concluded_words(formulary, all)) +
            outright_words(seal);
        if (!(narrowest(all) < seal.within)) return {Code::share_told, told, span, {}};
        return narrow(seal, before, told, span);
    }

private:
    Finding narrow(const Seal& seal, const std::vector<ToldBefore>& before,
                   const std::string& told, Span span) const;

    const Compiled& source_;
    const Index& index_;
    const Editions& since_;
    const GoesOut& goes_out_;
};

std::string sealed_words(const Share& within) {
    return fmt::format("sealed within {}", exact_share(within));
}

Finding Teller::narrow(const Seal& seal, const std::vector<ToldBefore>& before,
                       const std::string& told, Span span) const {
    const bool asked = source_.formulary.ingredients[seal.id].within.has_value();
    Finding out{Code::share_narrow,
                fmt::format("{} That is closer than {}{}.", told, exact_share(seal.within),
                            asked ? "" : ", which is asked for where nothing is written"),
                span, {}};
    const auto passing = [&](const auto& sizes, bool less) -> std::optional<Share> {
        for (const int size : sizes) {
            const Share within = share(Exact(size, 1000));
            if (less != within < seal.within || within == seal.within) continue;
            const auto all = with_within(source_, seal.id, within, before, goes_out_);
            if (!all.empty() && !(narrowest(all) < within)) return within;
        }
        return std::nullopt;
    };
    if (const auto within = passing(wider, false)) {
        out.advice = fmt::format("Write `{}`: then wider ranges are told.", sealed_words(*within));
        out.fixes.push_back(possible_fix(span, sealed_words(*within)));
    } else if (const auto less = passing(narrower, true)) {
        out.advice = fmt::format("Put more into the blend, or write `{}` if members may tell that "
                                 "much.",
                                 sealed_words(*less));
        out.fixes.push_back(possible_fix(span, sealed_words(*less)));
    } else {
        out.advice = "Put more materials into the blend, or leave `sealed` out: as it is, its "
                     "label tells what is in it.";
    }
    return out;
}

}  // namespace

Findings told_to_members(const Compiled& source, const Index& index,
                         const std::vector<Seal>& seals, const Editions& since,
                         const GoesOut& goes_out) {
    Findings out;
    const Teller tell(source, index, since, goes_out);
    for (const Seal& seal : seals) out.push_back(tell(seal));
    return out;
}

}  // namespace levigate::sharing
