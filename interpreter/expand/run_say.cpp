// What a run says of what it can't make, each thing once.
#include <algorithm>

#include "interpreter/expand/run.hpp"
#include "interpreter/expand/words.hpp"
#include "interpreter/formulary/say.hpp"

namespace levigate {

/// Once for all shades: FILE has no balance, and the files that it uses have several.
void Run::say_unchosen(const Shade& shade) {
    for (const Finding& said : out_)
        if (said.code == Code::balance_unchosen) return;
    out_.push_back({Code::balance_unchosen,
                    "The files used know several balances, and none is taken: " +
                        balances_words(formulary_) + ".",
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
                    size.span ? size.span : shade.span, density_advice(formulary_, fresh)};
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
