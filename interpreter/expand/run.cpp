#include "interpreter/expand/run.hpp"

#include <algorithm>

#include "interpreter/expand/batch.hpp"
#include "interpreter/expand/expectations.hpp"
#include "interpreter/expand/judge_cost.hpp"
#include "interpreter/expand/remedies.hpp"
#include "interpreter/expand/rounding.hpp"
#include "interpreter/expand/size.hpp"
#include "interpreter/expand/weighed.hpp"
#include "interpreter/expand/words.hpp"
#include "interpreter/formulary/say.hpp"

namespace levigate {
namespace {

/// So many sheets that nobody reads them: a stated budget, so that no file takes hours.
constexpr std::size_t most_sheets = 200000;
constexpr std::size_t most_findings = 1000;

/// -1, 0 or 1; also 0 for a number that is not known.
int amount_sign(const BatchSize& size) {
    if (const Mass* mass = std::get_if<Mass>(&size.amount)) return in_grams(*mass).sign();
    if (const Volume* volume = std::get_if<Volume>(&size.amount))
        return in_millilitres(*volume).sign();
    return std::get<ContainerCount>(size.amount).count.sign();
}

void move_findings(Findings& from, Findings& to) {
    to.insert(to.end(), std::make_move_iterator(from.begin()), std::make_move_iterator(from.end()));
    from.clear();
}

}  // namespace

Run::Run(const Formulary& formulary, const Names& names, const Choice& choice, Takers takers)
    : formulary_(formulary), names_(names), choice_(choice), takers_(std::move(takers)),
      checking_(!takers_.sheet), draughtsman_(formulary), densities_(formulary),
      figures_(formulary) {}

Findings Run::operator()() {
    if (!start()) return std::move(out_);
    Selection selection = select(formulary_, names_, choice_);
    move_findings(selection.findings, out_);
    const std::size_t most = std::min(choice_.most.value_or(most_sheets), most_sheets);
    if (selection.sheets > most) {
        out_.push_back({Code::too_many_sheets,
                        "More than " + std::to_string(most) + " sheets would come of this.", Span{},
                        "Ask for fewer variants, finishes or batches, or for one shade at a time "
                        "with --shade."});
        return std::move(out_);
    }
    if (auto too_much = too_much_work(formulary_, selection)) {
        out_.push_back(std::move(*too_much));
        return std::move(out_);
    }
    if (checking_) verdicts_.resize(formulary_.shades.size());
    for (const Selected& selected : selection.shades) {
        if (out_.size() >= most_findings) break;
        do_shade(selected);
    }
    return std::move(out_);
}

/// What the command line asks for, before any shade is looked at.
bool Run::start() {
    const auto there = [](const auto& amount) { return amount.value().sign(); };
    if (choice_.onto && std::visit(there, *choice_.onto) <= 0) {
        out_.push_back({Code::batch_nothing, "There is nothing to add a finish to.", Span{},
                        "Say how much of the made bulk is there."});
        return false;
    }
    if (choice_.make && choice_.make->broken) return false;
    if (choice_.make && amount_sign(*choice_.make) <= 0) {
        say_nothing_made(*choice_.make, {});
        return false;
    }
    return true;
}

void Run::do_shade(const Selected& selected) {
    const Shade& shade = formulary_.shades[selected.shade];
    shade_ = selected.shade;
    reading_.reset();
    said_.clear();
    lacking_said_.clear();
    tallies_.assign(shade.expects.size(), {});
    if (!takers_.batches) {
        // no batch is looked at
    } else if (shade.batches.empty() && selected.batches.empty()) {
        // The members of a family stand in one place and lack the same line.
        const Findings& said = out_;
        if (said.empty() || said.back().code != Code::shade_without_batch ||
            !(said.back().span == shade.span))
            out_.push_back({Code::shade_without_batch,
                            shade.name + " has no batch, so there is no sheet for it.",
                            shade.span, "Add a line such as `batch trial 6 g`."});
    } else if (!settle_reading(shade)) {
        if (!checking_) return;
    }
    if (selected.batches.empty() && !checking_) return;
    for (std::uint32_t version : selected.versions)
        for (FinishingId finishing : selected.finishings) do_version(selected, version, finishing);
    if (checking_) verdicts_[shade_] = levigate::verdicts(shade, tallies_);
}

bool Run::settle_reading(const Shade& shade) {
    if (!settle_balance(shade)) return false;
    if (choice_.strict.error) reading_->error = choice_.strict.error;
    reading_->usp41 = choice_.strict.usp41;
    return true;
}

/// Sets the reading that the shade is rounded for; none where it can't be told.
bool Run::settle_balance(const Shade& shade) {
    reading_ = choice_.reading;
    if (reading_) return true;
    if (shade.balance_lost) return false;
    BalanceId id = shade.balance != nothing ? shade.balance : formulary_.only_balance;
    if (id != nothing) {
        const Balance& balance = formulary_.balances[id];
        if (balance.damaged) return false;  // said before
        reading_ = {balance.step,          balance.places, balance.up_to,
                    balance.least,         balance.name,   balance.error,
                    balance.repeatability, false,          balance.reads_by};
        return true;
    }
    if (formulary_.own_balances.size() < 2) {
        if (formulary_.balances.size() > 1) say_unchosen(shade);
        reading_ = Reading{};
        return true;
    }
    const Findings& said = out_;
    if (!said.empty() && said.back().code == Code::balance_choice && said.back().span == shade.span)
        return false;
    std::vector<std::string> names;
    Finding finding{Code::balance_choice, {}, shade.span};
    for (BalanceId own : formulary_.own_balances) {
        names.push_back(formulary_.balances[own].name);
        if (finding.notes.size() < 4)
            finding.notes.push_back({formulary_.balances[own].span, "one balance"});
    }
    finding.message = shade.name +
                      " doesn't say which balance it is weighed on. There are "
                      "several: " +
                      list_words(names) + ".";
    finding.advice = "Add a line `weigh on " + names.front() + "`, or another of them.";
    out_.push_back(std::move(finding));
    return false;
}

void Run::do_version(const Selected& selected, std::uint32_t version, FinishingId finishing) {
    const Shade& shade = formulary_.shades[shade_];
    version_ = version;
    finishing_ = finishing;
    density_.reset();
    mix_ends_.reset();
    Findings found;
    const Finishing* adds = finishing == nothing ? nullptr : &formulary_.finishings[finishing];
    bool fine = finish(formulary_, names_, shade.versions[version].formula, adds,
                       sheet_title(formulary_, shade, shade.versions[version], nothing), shade.span,
                       scratch_, finished_, found);
    for (Finding& finding : found) say_once(std::move(finding), finishing);
    if (!fine || !draw()) return;
    if (takers_.product) hand_product();
    if (!takers_.batches || !draw_weighed()) return;
    if (checking_) blueprint_.materials.clear();  // no sheet lists them
    if (checking_) move_findings(of_mix_, out_);
    if (!reading_) return;
    for (std::uint32_t batch : selected.batches) do_batch(batch);
}

/// Draws the blueprint and judges what is the same in all its batches.
bool Run::draw() {
    const Shade& shade = formulary_.shades[shade_];
    judges_ = choice_.expectations && is_judged(shade, finishing_);
    const bool judge = judges_ && expects_of_mix(shade);
    const bool costs = judges_ && expects_of_cost(shade);
    of_mix_.clear();
    draughtsman_.draw(finished_.lines, choice_.materials || judge || costs, blueprint_);
    if (!blueprint_.exact) {
        say_once(
            {Code::number_too_long,
             "The numbers of " + title() + " grow beyond " + std::to_string(digit_cap) + " digits.",
             shade.span, "Use rounder numbers, or fewer blends within blends."});
        return false;
    }
    if (judge)
        of_mix_ = judge_mix({formulary_, names_, shade, finished_.lines, draughtsman_, densities_},
                            title(), tallies_);
    of_gram_.clear();
    if (costs) price_mix();
    if (choice_.onto) {
        weighed_.clear();
        for (const FinishedLine& line : finished_.lines) {
            if (!line.addition) continue;
            weighed_.push_back(line);
            weighed_.back().share = line.added;
        }
        draughtsman_.draw(weighed_, choice_.materials, blueprint_);
    }
    if (!choice_.materials) blueprint_.materials.clear();
    return true;
}

/// Bowls as they are weighed. What a finish adds to a bulk that is there is weighed as it is, its
/// base went into the bulk; a blend that is added is made as ever.
bool Run::draw_weighed() {
    if (!choice_.dilutions || formulary_.dilutions.empty()) return true;
    if (!choice_.onto) {
        const auto& dilutions = formulary_.shades[shade_].versions[version_].dilutions;
        weighed_ = finished_.lines;
        if (const auto little = weigh_diluted(formulary_, dilutions, weighed_)) {
            say_once(say_little(formulary_, dilutions, *little, title()), finishing_);
            return false;
        }
    }
    draughtsman_.draw_weighed(weighed_, blueprint_);
    return true;
}

/// Notes what a gram of the mix is made of, by which its batches are priced, and judges what is the
/// same in all of them.
void Run::price_mix() {
    for (const BlueprintMaterial& material : blueprint_.materials)
        of_gram_.push_back({material.what, nothing, as_fraction(material.share)});
    Findings found = judge_mix_cost(
        {formulary_, formulary_.shades[shade_], of_gram_}, [&] { return density()->density; },
        title(), tallies_);
    move_findings(found, of_mix_);
}

void Run::do_batch(std::uint32_t batch) {
    if (choice_.onto) {
        const std::optional<Mass> there = bulk_there();
        if (!there) return;
        start_sheet(batch, *there / finished_.bulk);
        sheet_.onto = there;
        sheet_.estimated = std::holds_alternative<Volume>(*choice_.onto);
        finish_sheet(batch);
        return;
    }
    const bool by_density = needs_density(formulary_, size_of(batch));
    std::optional<Mass> whole = size_batch(batch, by_density);
    if (!whole) return;
    start_sheet(batch, *whole);
    sheet_.estimated = by_density;
    finish_sheet(batch);
}

void Run::hand_product() {
    brought_.clear(formulary_.ingredients.size());
    for (const BlueprintLine& line : blueprint_.lines)
        if (!brought_.has(line.what))
            brought_[line.what] = line.name_span ? line.name_span : line.span;
    product_.shade = shade_;
    product_.version = version_;
    product_.finishing = finishing_;
    product_.materials.clear();
    for (const BlueprintMaterial& material : blueprint_.materials)
        product_.materials.push_back({material.what, material.share, brought_[material.what]});
    if (choice_.density) {
        product_.density = density()->density;
        product_.lacking = density()->lacking;
    }
    takers_.product(product_);
}

/// In the place of the last one, whose space it takes over.
void Run::start_sheet(std::uint32_t batch, const Mass& whole) {
    sheet_.shade = shade_;
    sheet_.version = version_;
    sheet_.finishing = finishing_;
    sheet_.batch = batch;
    sheet_.reading = *reading_;
    sheet_.total = whole;
    sheet_.estimated = false;
    sheet_.onto.reset();
    sheet_.findings.clear();
    sheet_.remedies.clear();
    make_bowls(blueprint_, whole, sheet_, asked_);
}

void Run::finish_sheet(std::uint32_t batch) {
    const Shade& shade = formulary_.shades[shade_];
    Sheet& sheet = sheet_;
    if (formulary_.has_ends && !checking_) reckon_ends(batch);
    if (choice_.words) fill_words(formulary_, sheet);
    if (!weighs_well(sheet)) {
        Span span = choice_.onto ? Span{} : size_of(batch).span;
        const BatchSize* size = choice_.onto ? nullptr : &size_of(batch);
        find_remedies({formulary_, names_.find("base"), blueprint_, size,
                       density_ ? density_->density : std::nullopt},
                      sheet);
        judge_weighing(formulary_, blueprint_, title(batch), span ? span : shade.span, sheet);
    }
    if (!of_mix_.empty())
        sheet.findings.insert(sheet.findings.end(), of_mix_.begin(), of_mix_.end());
    if (judges_ && batch != nothing && expects_of_batch(shade))
        judge_batch(shade, sheet.total, title(batch), tallies_, sheet.findings);
    if (!of_gram_.empty() && batch != nothing) {
        Findings found = judge_batch_cost({formulary_, shade, of_gram_}, size_of(batch),
                                          sheet.total, title(batch), tallies_);
        move_findings(found, sheet.findings);
    }
    if (takers_.drawn) takers_.drawn(sheet, blueprint_);
    if (checking_)
        move_findings(sheet.findings, out_);
    else
        takers_.sheet(sheet);
}

void Run::reckon_ends(std::uint32_t batch) {
    EndsFrom from{formulary_.shades[shade_].versions[version_].formula,
                  finishing_ == nothing ? nullptr : &formulary_.finishings[finishing_],
                  finished_,
                  choice_.onto ? nullptr : &size_of(batch),
                  {}};
    if (choice_.onto)
        if (const Volume* volume = std::get_if<Volume>(&*choice_.onto)) from.there = *volume;
    if (!mix_ends_) mix_ends_ = mix_ends(figures_, formulary_, from, sheet_);
    sheet_.ends = sheet_ends(formulary_, from, *mix_ends_, sheet_);
}

const BatchSize& Run::size_of(std::uint32_t batch) const {
    return batch == nothing ? *choice_.make : formulary_.shades[shade_].batches[batch].size;
}

std::optional<Mass> Run::size_batch(std::uint32_t batch, bool by_density) {
    const BatchSize& size = size_of(batch);
    if (size.broken) return std::nullopt;
    const std::string name =
        batch == nothing ? std::string() : formulary_.shades[shade_].batches[batch].name;
    std::optional<Density> density;
    if (by_density) {
        density = this->density()->density;
        if (!density) {
            say_lacking(size, name);
            return std::nullopt;
        }
    }
    std::optional<Mass> whole = batch_mass(formulary_, size, density);
    if (!whole) return whole;
    const Exact& mass = in_grams(*whole);
    if (!mass.known()) {
        say_once({Code::number_too_long,
                  "The mass of " + title(batch) + " grows beyond " + std::to_string(digit_cap) +
                      " digits.",
                  size.span ? size.span : formulary_.shades[shade_].span, "Use a rounder number."});
        return std::nullopt;
    }
    if (mass.sign() > 0 && amount_sign(size) > 0) return whole;
    say_nothing_made(size, name);
    return std::nullopt;
}

/// The bulk that is there under --onto: a volume of it weighs what the bulk's own mix does.
std::optional<Mass> Run::bulk_there() {
    if (const Mass* mass = std::get_if<Mass>(&*choice_.onto)) return *mass;
    std::vector<FinishedLine> bulk = finished_.lines;
    for (FinishedLine& line : bulk)
        line.share = share(as_fraction(line.share - line.added) / as_fraction(finished_.bulk));
    density_ = densities_.of(bulk);
    if (density_->density)
        return grams(in_millilitres(std::get<Volume>(*choice_.onto)) *
                     in_grams_per_millilitre(*density_->density));
    say_lacking({}, {});
    return std::nullopt;
}

const std::optional<DensityAnswer>& Run::density() {
    if (!density_) density_ = densities_.of(finished_.lines);
    return density_;
}

}  // namespace levigate
