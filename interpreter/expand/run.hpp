#pragma once
// One run over what was selected: blueprint after blueprint, batch after batch. The inside of
// expand.hpp.

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "interpreter/expand/blueprint.hpp"
#include "interpreter/expand/densities.hpp"
#include "interpreter/expand/expand.hpp"
#include "interpreter/expand/expectations.hpp"
#include "interpreter/expand/finished.hpp"
#include "interpreter/expand/select.hpp"
#include "interpreter/expand/sheet_ends.hpp"
#include "interpreter/formulary/ends.hpp"
#include "interpreter/money/costs.hpp"

namespace levigate {

class Run {
public:
    /// Who takes what is made. Without a taker of sheets it checks: what was found in a sheet goes
    /// to the findings at the top. Without batches only products are made.
    struct Takers {
        TakeSheet sheet = {};
        TakeDrawn drawn = {};  ///< before the sheet
        TakeProduct product = {};
        bool batches = true;
    };
    Run(const Formulary& formulary, const Names& names, const Choice& choice, Takers takers);

    Findings operator()();
    /// What became of the expectations of those shades that were looked at, when checking.
    Verdicts verdicts() && { return std::move(verdicts_); }

private:
    void do_shade(const Selected& selected);
    void do_version(const Selected& selected, std::uint32_t version, FinishingId finishing);
    void do_batch(std::uint32_t batch);
    void price_mix();
    void hand_product();
    void start_sheet(std::uint32_t batch, const Mass& whole);
    void finish_sheet(std::uint32_t batch);
    void reckon_ends(std::uint32_t batch);

    bool start();
    bool settle_reading(const Shade& shade);
    bool settle_balance(const Shade& shade);
    bool draw();
    bool draw_weighed();
    std::optional<Mass> size_batch(std::uint32_t batch, bool by_density);
    std::optional<Mass> bulk_there();
    const std::optional<DensityAnswer>& density();
    void say_lacking(const BatchSize& size, const std::string& batch);
    void say_unchosen(const Shade& shade);
    void say_nothing_made(const BatchSize& size, const std::string& batch);

    const BatchSize& size_of(std::uint32_t batch) const;
    std::string title() const;
    std::string title(std::uint32_t batch) const;
    /// To the findings at the top, once for this shade and finish.
    void say_once(Finding finding, FinishingId finishing = nothing);

    const Formulary& formulary_;
    const Names& names_;
    const Choice& choice_;
    const Takers takers_;
    const bool checking_;
    Findings out_;

    // Kept from one blueprint to the next, to save allocations.
    Draughtsman draughtsman_;
    Densities densities_;
    FigureEnds figures_;
    FinishScratch scratch_;
    Finished finished_;
    std::vector<FinishedLine> weighed_;
    Blueprint blueprint_;
    Sheet sheet_;
    Product product_;
    Marks<Span> brought_;
    std::vector<Exact> asked_;

    // What is being made.
    ShadeId shade_ = nothing;
    std::uint32_t version_ = 0;
    FinishingId finishing_ = nothing;
    std::optional<Reading> reading_;
    std::optional<DensityAnswer> density_;
    std::optional<MixEnds> mix_ends_;
    bool judges_ = false;          ///< expectations are held against it
    std::vector<Needed> of_gram_;  ///< where costs are judged: what a gram of the mix holds
    Findings of_mix_;
    Tallies tallies_;  ///< over the shade

    // What was said of this shade.
    struct Said {
        Code code;
        FinishingId finishing;
        Span span;
    };
    std::vector<Said> said_;
    std::vector<IngredientId> lacking_said_;
    Verdicts verdicts_;
    std::vector<Span> nothing_said_;  ///< batches of nothing, of all shades that inherit them
};

}  // namespace levigate
