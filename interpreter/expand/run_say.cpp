// What a run says of what it can't make, each thing once.
#include <algorithm>

#include "interpreter/expand/run.hpp"
#include "interpreter/expand/words.hpp"
#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/written_name.hpp"

namespace levigate {

namespace {

/// A container that is held against what it holds in millilitres; none where a weight of one that
/// was filled would not be enough.
const Container* weighable_container(const Formulary& formulary, const BatchSize& size) {
    const auto* count = std::get_if<ContainerCount>(&size.amount);
    if (!count || count->container >= formulary.containers.size()) return nullptr;
    if (std::holds_alternative<Volume>(size.holdback)) return nullptr;
    const Container& container = formulary.containers[count->container];
    return std::holds_alternative<Volume>(container.holds) ? &container : nullptr;
}

/// A container that was filled and weighed says more than densities do.
std::string filled_advice(const Formulary& formulary, const BatchSize& size,
                          const std::vector<IngredientId>& lacking) {
    const std::string densities = density_advice(formulary, lacking);
    const Container* container = weighable_container(formulary, size);
    if (!container) return densities;
    return "Fill one " + container->name +
           " and weigh what it holds, and write that under `container " +
           written_name(container->name) +
           "`, as in `holds 3.9 g`. Or: " + static_cast<char>(densities.front() | 0x20) +
           densities.substr(1);
}

}  // namespace

/// Once for all shades: FILE has no balance, and the files that it uses have several.
void Run::say_unchosen(const Shade& shade) {
    for (const Finding& said : out_)
        if (said.code == Code::balance_unchosen) return;
    out_.push_back({Code::balance_unchosen,
                    "The files used here have several balances (" + balances_words(formulary_) +
                        "), so none is chosen.",
                    shade.span,
                    "Add a line `weigh on " + formulary_.balances.front().name +
                        "`, or another of them."});
}

/// Once for each material and shade, whatever batches and finishes want to know.
void Run::say_lacking(const BatchSize& size, const std::string& batch) {
    std::vector<IngredientId> fresh;
    for (IngredientId what : density_->lacking)
        if (std::find(lacking_said_.begin(), lacking_said_.end(), what) == lacking_said_.end())
            fresh.push_back(what);
    if (fresh.empty()) return;
    lacking_said_.insert(lacking_said_.end(), fresh.begin(), fresh.end());
    const Shade& shade = formulary_.shades[shade_];
    Finding finding{Code::density_missing,
                    title() + (batch.empty() ? "" : ", " + batch) +
                        " is made by volume, and its grams can't be told: " +
                        lacking_words(formulary_, fresh) + ".",
                    size.span ? size.span : shade.span, filled_advice(formulary_, size, fresh)};
    for (std::size_t i = 0; i < fresh.size() && i < 6; ++i)
        finding.notes.push_back({formulary_.ingredients[fresh[i]].span, "no density here"});
    out_.push_back(std::move(finding));
}

void Run::say_nothing_made(const BatchSize& size, const std::string& batch) {
    if (std::find(nothing_said_.begin(), nothing_said_.end(), size.span) != nothing_said_.end())
        return;
    nothing_said_.push_back(size.span);
    out_.push_back({Code::batch_nothing,
                    (batch.empty() ? "What is to be made" : "The batch " + batch) +
                        " comes to nothing, or less.",
                    size.span, "Write an amount above 0."});
}

std::string Run::title() const {
    const Shade& shade = formulary_.shades[shade_];
    return sheet_title(formulary_, shade, shade.versions[version_], finishing_);
}

std::string Run::title(std::uint32_t batch) const {
    if (batch == nothing) return title();
    return title() + ", " + formulary_.shades[shade_].batches[batch].name;
}

void Run::say_once(Finding finding, FinishingId finishing) {
    for (const Said& said : said_)
        if (said.code == finding.code && said.finishing == finishing && said.span == finding.span)
            return;
    said_.push_back({finding.code, finishing, finding.span});
    out_.push_back(std::move(finding));
}

}  // namespace levigate
