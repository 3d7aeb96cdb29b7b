// Amounts that rest on what stays at home. Members would come to other ones, or to none.

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <tuple>

#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/solve.hpp"
#include "interpreter/share/prove.hpp"
#include "interpreter/share/seen.hpp"

namespace levigate::sharing {

namespace {

constexpr std::size_t most_told = 50;  // findings; more help nobody

constexpr std::string_view or_else =
    "Write the amount as a percentage of the whole, or make the line private.";

/// What to do about a finding that only members would get.
std::string remedy_for(Code code) {
    if (code == Code::density_missing)
        return "Write the amount as a percentage or a weight, or let the density go out; a sealed "
               "blend may state one.";
    if (code == Code::role_empty || code == Code::reference_unknown)
        return "Go by the blend's own name or role, or write the amount as a percentage.";
    if (code == Code::name_unknown || code == Code::hole_unknown)
        return "It is private, or only a sealed blend holds it: name something else, or make the "
               "line that names it private.";
    return "Write the amount as a percentage or a weight, or make what it rests on public.";
}

class Comparer {
public:
    Comparer(const Compiled& source, const Open& open, const Index& index, const Picked& picked)
        : source_(source), open_(open), index_(index), picked_(picked),
          twins_(twins(source, open.compiled)) {
        for (IngredientId id = 0; id < was().ingredients.size(); ++id) {
            const Ingredient& one = was().ingredients[id];
            mixes_.emplace(std::tuple(one.kind, one.span.source, one.span.begin), id);
        }
    }

    Findings operator()() {
        for (ShadeId id = 0; id < picked_.chosen.size(); ++id)
            if (picked_.chosen[id]) expectations(id);
        for (const PickedMix& mix : picked_.mixes) this->mix(mix.id);
        for (ShadeId id = 0; id < picked_.chosen.size(); ++id)
            if (picked_.chosen[id]) shade(id);
        if (out_.empty()) sheets();
        if (out_.empty())
            if (const Finding* finding = cause()) members_get(*finding);
        return std::move(out_);
    }

private:
    const Formulary& was() const { return source_.formulary; }
    const Formulary& is() const { return open_.compiled.formulary; }

    void add(std::string message, Span span, std::string advice) {
        if (out_.size() < most_told && std::none_of(out_.begin(), out_.end(),
                         [&](const Finding& one) { return one.span == span; }))
            out_.push_back({Code::share_rests, std::move(message), span, std::move(advice)});
    }
    void members_get(const Finding& finding, Span line = {});
    void formula(const Formula& mine, const Formula& theirs, const std::string& name, Span span);
    void part(const Formula& mine, const Formula& theirs, std::size_t at);
    void mix(IngredientId id);
    void shade(ShadeId id);
    void expectations(ShadeId id);
    bool counts_inside(const Expectation& expect) const;
    void sheets();
    void sheet(const SeenSheet& mine, const SeenSheet& theirs, ShadeId id);
    const Finding* cause() const;
    std::vector<Place> closure() const;

    const Compiled& source_;
    const Open& open_;
    const Index& index_;
    const Picked& picked_;
    const std::vector<ShadeId> twins_;
    /// Of the source, by the place of their names.
    std::map<std::tuple<Ingredient::Kind, SourceId, std::uint32_t>, IngredientId> mixes_;
    Findings out_;
};

void Comparer::members_get(const Finding& finding, Span line) {
    Finding one = rests_on(finding);
    add(std::move(one.message), line ? line : one.span, std::move(one.advice));
}

/// The blocks that say what goes out, with all that they are like.
std::vector<Place> Comparer::closure() const {
    std::vector<Place> out = picked_.versions;
    out.insert(out.end(), picked_.tables.begin(), picked_.tables.end());
    const auto chain = [&](Place place) {
        for (const Place one : index_.chain(place)) out.push_back(one);
    };
    for (const PickedMix& mix : picked_.mixes) chain(mix.place);
    for (const PickedShade& shade : picked_.shades) {
        chain(shade.place);
        for (const tree::Line* line : index_.lines(shade.place)) {
            std::vector<Name> from;
            if (line->form == Form::from) from = {std::get<tree::Reference>(line->body).name};
            if (const auto* between = std::get_if<tree::Between>(&line->body))
                from = {between->first, between->last};
            for (const Name& name : from) chain(index_.find(Heading::shade, name.sym));
        }
    }
    return out;
}

/// The first error that the public part has, and its source hasn't, in a block that matters.
const Finding* Comparer::cause() const {
    for (const Place place : closure()) {
        if (!place) continue;
        const SourceId file = index_.file(place).source;
        const std::vector<const tree::Line*> lines = index_.lines(place);
        const Span head = index_.block(place).span;
        const std::uint32_t end = lines.empty() ? head.end : lines.back()->span.end;
        for (const Finding& one : open_.compiled.findings)
            if (one.severity == Severity::error && one.code != Code::block_empty &&
                one.span.source == file && head.begin <= one.span.begin && one.span.begin < end)
                return &one;
    }
    return nullptr;
}

void Comparer::part(const Formula& mine, const Formula& theirs, std::size_t at) {
    const Part& line = mine.parts[at];
    if (open_.sealed.empty() || line.estimated)
        return add(fmt::format("{} rests on something private: {} here, but {} for members.",
                               was().name(line.what), percent_words(mine.shares[at]),
                               percent_words(theirs.shares[at])),
                   line.span,
                   "Write the amount as a percentage or a weight, or make what it rests on "
                   "public.");
    add(fmt::format("{} rests on what a sealed blend holds: {} here, but {} for members.",
                    was().name(line.what), percent_words(mine.shares[at]),
                    percent_words(theirs.shares[at])),
        line.span,
        "Go by the blend's own name or role, or write the amount as a percentage.");
}

void Comparer::formula(const Formula& mine, const Formula& theirs, const std::string& name,
                       Span span) {
    if (!mine.solved()) return;
    if (!theirs.solved() || theirs.parts.size() != mine.parts.size()) {
        if (const Finding* finding = cause()) return members_get(*finding);
        return add(fmt::format("{} rests on something private or sealed: members could not make "
                               "it.",
                               name),
                   span, std::string(or_else));
    }
    std::optional<std::size_t> first;
    for (std::size_t i = 0; i < mine.parts.size(); ++i) {
        if (mine.shares[i] == theirs.shares[i]) continue;
        const PartAmount& amount = mine.parts[i].amount;
        if (std::holds_alternative<AsMuch>(amount) || std::holds_alternative<Enough>(amount))
            return part(mine, theirs, i);
        if (!first || std::holds_alternative<Rest>(mine.parts[*first].amount)) first = i;
    }
    if (first) part(mine, theirs, *first);
}

void Comparer::mix(IngredientId id) {
    const Ingredient& theirs = is().ingredients[id];
    const auto found =
        mixes_.find(std::tuple(theirs.kind, theirs.span.source, theirs.span.begin));
    if (found == mixes_.end()) return;
    const Ingredient& mine = was().ingredients[found->second];
    formula(mix_of(was(), found->second)->formula, mix_of(is(), id)->formula, mine.name,
            mine.span);
}

/// It counts containers of which nothing says how much they hold.
bool counts_unknown(const Formulary& formulary, const BatchSize& size) {
    const auto* count = std::get_if<ContainerCount>(&size.amount);
    return count && formulary.containers[count->container].holds.index() == 0;
}

bool same_size(const BatchSize& a, const BatchSize& b) {
    return a.broken == b.broken && a.amount.index() == b.amount.index() &&
           a.holdback.index() == b.holdback.index();
}

void Comparer::shade(ShadeId id) {
    const Shade& theirs = is().shades[id];
    if (twins_[id] == nothing) return;
    const Shade& mine = was().shades[twins_[id]];
    for (const Version& version : theirs.versions)
        for (const Version& other : mine.versions)
            if (other.variant == version.variant)
                formula(other.formula, version.formula, mine.name, mine.span);
    for (const Batch& batch : theirs.batches)
        for (const Batch& other : mine.batches)
            if (other.name == batch.name &&
                (!same_size(other.size, batch.size) || counts_unknown(is(), batch.size))) {
                if (const Finding* finding = cause())
                    members_get(*finding, other.size.span);
                else
                    add("The size of this batch rests on something private.", other.size.span,
                        "Write it as a weight, or make what it rests on public.");
            }
}

/// Whether a sealed blend holds some of what is expected: in the edition nobody could count it.
bool Comparer::counts_inside(const Expectation& expect) const {
    for (const SealedBlend& blend : open_.sealed) {
        const Mix& mix = *mix_of(was(), blend.id);
        if (expect.measure == Expectation::Measure::ingredient &&
            !(content_of(was(), mix.formula, expect.ingredient) == Share()))
            return true;
        if (expect.measure != Expectation::Measure::role ||
            was().ingredients[blend.id].role == expect.role)
            continue;
        for (const RoleShare& one : mix.roles)
            if (one.role == expect.role && !(one.share == Share())) return true;
    }
    return false;
}

void Comparer::expectations(ShadeId id) {
    if (twins_[id] == nothing) return;
    std::vector<Span> there;
    for (const Expectation& expect : is().shades[id].expects) there.push_back(expect.span);
    for (const Expectation& expect : was().shades[twins_[id]].expects)
        if (std::find(there.begin(), there.end(), expect.span) != there.end() &&
            counts_inside(expect))
            add("This expectation counts what a sealed blend holds, and members can't.",
                expect.span,
                "Go by the blend's own name or role, or make the line private.");
}

bool same_amount(const std::vector<SeenLine>& a, const std::vector<SeenLine>& b,
                 const std::string& name) {
    const auto exact = [&](const std::vector<SeenLine>& lines) {
        Exact out;
        for (const SeenLine& line : lines)
            if (line.name == name) out += line.exact;
        return out;
    };
    return exact(a) == exact(b);
}

void Comparer::sheet(const SeenSheet& mine, const SeenSheet& theirs, ShadeId id) {
    const Span span = was().shades[id].span;
    for (const Finding& error : theirs.errors)
        if (!mine.has(error.code)) return members_get(error);
    if (!(mine.total == theirs.total))
        return add(fmt::format("A batch of {} rests on something private: {} g here, but {} g for "
                               "members.",
                               was().shades[id].name, mine.total.decimal(4),
                               theirs.total.decimal(4)),
                   span, "Write the batch as a weight, or make what its size rests on public.");
    if (mine.bowls.empty() || theirs.bowls.empty()) return;
    const std::vector<std::string>& said = mine.bowls.back().steps;
    for (const std::string& step : theirs.bowls.back().steps)
        if (std::find(said.begin(), said.end(), step) == said.end())
            return add(fmt::format("A step of {} names what a sealed blend holds: members would "
                                   "read \"{}\".",
                                   was().shades[id].name, step),
                       span, "Name the blend in that step, or make it private.");
    const auto &ours = mine.bowls.back().lines, &other = theirs.bowls.back().lines;
    if (ours == other) return;
    for (const ShadeFinish& finish : was().shades[id].finishes) {
        if (finish.finishing == nothing) continue;
        for (const Addition& one : was().finishings[finish.finishing].additions)
            if (std::holds_alternative<AsMuch>(one.amount) &&
                !same_amount(ours, other, was().name(one.what)))
                return add(fmt::format("In {}, {} rests on what a sealed blend holds.",
                                       was().shades[id].name, was().name(one.what)),
                           one.span,
                           "Go by the blend's own name or role, or write the amount as a "
                           "percentage.");
    }
    for (std::size_t i = 0; i < std::min(ours.size(), other.size()); ++i)
        if (!(ours[i].exact == other[i].exact))
            return add(fmt::format("{} in {} rests on what a sealed blend holds: {} g here, but "
                                   "{} g for members.",
                                   ours[i].name, was().shades[id].name, ours[i].exact.decimal(4),
                                   other[i].exact.decimal(4)),
                       span, "Write the amounts that it rests on as percentages.");
}

/// What a finish adds, and how much is made, is known on sheets only.
void Comparer::sheets() {
    std::vector<bool> chosen(was().shades.size());
    std::map<std::string, ShadeId> ids;
    for (ShadeId id = 0; id < picked_.chosen.size(); ++id)
        if (picked_.chosen[id] && twins_[id] != nothing) chosen[twins_[id]] = true;
    const Seen mine = sheets_of(source_, chosen, false);
    const Seen theirs = sheets_of(open_.compiled, picked_.chosen, false);
    for (const Finding& finding : theirs.findings) {
        if (finding.severity != Severity::error) continue;
        const auto same = [&](const Finding& one) { return one.code == finding.code; };
        const bool there = std::any_of(mine.findings.begin(), mine.findings.end(), same);
        if (!there) return members_get(finding);
    }
    for (const auto& [title, sheet_there] : theirs.sheets)
        if (const auto own = mine.sheets.find(title); own != mine.sheets.end())
            sheet(own->second, sheet_there, own->second.shade);
}

}  // namespace

Finding rests_on(const Finding& finding) {
    std::string said = finding.message;
    while (said.ends_with('.')) said.pop_back();
    return {Code::share_rests,
            fmt::format("This rests on something private or sealed. In the edition it would be an "
                        "error: {}.",
                        said),
            finding.span, remedy_for(finding.code)};
}

std::vector<ShadeId> twins(const Compiled& source, const Compiled& open) {
    const auto key = [](const Shade& shade) {
        return std::tuple(shade.span.source, shade.span.begin, shade.name);
    };
    std::map<std::tuple<SourceId, std::uint32_t, std::string>, ShadeId> by_key;
    for (ShadeId id = 0; id < source.formulary.shades.size(); ++id)
        by_key.emplace(key(source.formulary.shades[id]), id);
    std::vector<ShadeId> out;
    for (const Shade& shade : open.formulary.shades) {
        const auto found = by_key.find(key(shade));
        out.push_back(found == by_key.end() ? nothing : found->second);
    }
    return out;
}

Findings rests_on_secrets(const Compiled& source, const Open& open, const Index& index,
                          const Picked& picked) {
    return Comparer(source, open, index, picked)();
}

}  // namespace levigate::sharing
