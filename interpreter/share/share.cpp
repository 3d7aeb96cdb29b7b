#include "interpreter/share/share.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "interpreter/expand/size.hpp"
#include "interpreter/formulary/say.hpp"
#include "interpreter/resolve/resolve.hpp"
#include "interpreter/share/digest.hpp"
#include "interpreter/share/prove.hpp"
#include "interpreter/share/told.hpp"
#include "interpreter/share/write.hpp"

namespace levigate {

namespace {

using namespace sharing;

constexpr std::string_view digest_line = "    digest      ";

class Sharing {
public:
    Sharing(Compiled& source, const ShareOrder& order)
        : source_(source), order_(order), own_(source), open_(open_part(source, {})),
          index_(open_.compiled) {}

    Outcome<Shared> operator()() {
        choose();
        if (any_error(out_.findings) || is_too_much()) return std::move(out_);
        seal_blends();
        take(rests_on_secrets(source_, open_, *index_, picked_));
        if (any_error(out_.findings)) return std::move(out_);
        take(told_to_members(source_, own_, seals_, order_.since, goes_out()));
        write();
        // Whatever is wrong besides: all of it is told at once.
        Findings wrong = leaks(source_, open_, *index_, picked_, seals_, out_.value.text);
        if (!any_error(wrong)) take(same_sheets(open_.compiled, out_.value.edition, picked_));
        take(std::move(wrong));
        if (!any_error(out_.findings)) compare_labels();
        if (any_error(out_.findings)) out_.value.text.clear();
        return std::move(out_);
    }

private:
    void take(Findings findings) {
        for (Finding& one : findings) out_.findings.push_back(std::move(one));
    }
    void choose();
    /// What comes of the shades that go out is made several times: to prove, and to look for leaks.
    bool is_too_much();
    void seal_blends();
    GoesOut goes_out() const;
    bool keeps_label(Place material) const;
    void write();
    void compare_labels();
    Title title() const;

    Compiled& source_;
    const ShareOrder& order_;
    const Index own_;  ///< of the source
    Open open_;
    std::optional<Index> index_;  ///< of its public part
    Picked picked_;
    std::vector<Seal> seals_;
    SealedBlocks blocks_;
    Outcome<Shared> out_;
};

bool Sharing::is_too_much() {
    Choice all;
    all.all = true;
    const Compiled& open = open_.compiled;
    Selection selection = select(open.formulary, open.names, all);
    std::erase_if(selection.shades,
                  [&](const Selected& one) { return !picked_.chosen[one.shade]; });
    auto finding = too_much_work(open.formulary, selection);
    if (finding) out_.findings.push_back(std::move(*finding));
    return finding.has_value();
}

void Sharing::choose() {
    const std::set<std::string> inside = inside_sealed(source_);
    Outcome<Picked> picked = pick(open_.compiled, *index_, order_.shades, inside);
    if (!any_error(picked.findings)) {
        const std::vector<Span> stays = lines_that_stay(source_, open_, picked.value);
        if (!stays.empty()) {
            std::vector<Span> lines;
            for (const Span span : stays)
                if (const tree::Line* line = index_->line_at(span)) lines.push_back(line->span);
            index_.reset();
            open_ = open_part(source_, lines);
            index_.emplace(open_.compiled);
            picked = pick(open_.compiled, *index_, order_.shades, inside);
            for (const Span line : lines)
                picked.findings.push_back(
                    {Code::share_stays,
                     "This expectation stays at home: a price that it needs is private or sealed.",
                     line, {}});
        }
    }
    // A shade that isn't there, since nobody could make it without what is private.
    const auto is_none = [](const Finding& one) { return one.code == Code::choice_none; };
    if (std::any_of(picked.findings.begin(), picked.findings.end(), is_none))
        for (const Finding& one : open_.compiled.findings)
            if (one.severity == Severity::error && one.code != Code::block_empty) {
                picked.findings = {rests_on(one)};
                break;
            }
    take(std::move(picked.findings));
    picked_ = std::move(picked.value);
}

/// Those that go out. Their blocks are told in place of what the public part has of them.
void Sharing::seal_blends() {
    blocks_.page = open_.sealed_page;
    for (const Place place : picked_.materials) {
        if (index_->file(place).source != open_.sealed_page) continue;
        const SealedBlend& blend = open_.sealed[place.block];
        Outcome<Seal> made = seal(source_.formulary, source_.names, blend.id);
        take(std::move(made.findings));
        blocks_.blocks[place.block] =
            sealed_block(source_.formulary, made.value, blend.openly);
        blocks_.powder = blocks_.powder || made.value.powder;
        blocks_.flammable = blocks_.flammable || made.value.flammable;
        const Ingredient& one = source_.formulary.ingredients[blend.id];
        made.value.tells_density =
            (one.density && blend.openly.density) || (one.bulk && blend.openly.bulk);
        seals_.push_back(std::move(made.value));
    }
}

/// Beside each sealed blend.
GoesOut Sharing::goes_out() const {
    GoesOut out{{}, &seals_};
    std::set<std::pair<SourceId, std::uint32_t>> open;
    for (const PickedMix& mix : picked_.mixes) {
        const Span span = open_.compiled.formulary.ingredients[mix.id].span;
        open.emplace(span.source, span.begin);
    }
    const auto& all = source_.formulary.ingredients;
    for (IngredientId id = 0; id < all.size(); ++id)
        if (all[id].kind != Ingredient::Kind::material &&
            open.contains({all[id].span.source, all[id].span.begin}))
            out.blends.insert(id);
    return out;
}

/// Something by which its label is made, or rules judge it, is private.
bool Sharing::keeps_label(Place material) const {
    const Place own = own_.at(index_->block(material).name.span);
    if (!own) return false;
    for (const tree::Line* line : own_.lines(own))
        if (line->is_private && (line->form == Form::role || line->form == Form::label ||
                                 line->form == Form::colourant || line->form == Form::contains))
            return true;
    return false;
}

Title Sharing::title() const {
    Title out{order_.otherwise, {}, {}};
    if (const auto& edition = open_.compiled.formulary.edition) {
        out.title = edition->title;
        if (edition->number.sign() > 0) out.number = edition->number.exactly();
        out.date = edition->date;
    }
    return {order_.title.value_or(out.title), order_.number.value_or(out.number),
            order_.date.value_or(out.date)};
}

std::string canonical(const std::string& text) {
    Sources sources;
    Names names;
    const Loaded loaded =
        load(memory_world({{"edition.shade", text}}), "edition.shade", sources, names);
    std::string out;
    with_measures(sources, names, loaded.files, [&](const MeasureSplit& split) {
        out = tidy(sources, loaded.files.front().tree.source, names, split).text;
    });
    return out;
}

/// At the end of the edition's block.
void add_digest(std::string& text) {
    const std::string digest = edition_digest(text);
    std::size_t at = text.starts_with("edition ") ? 0 : text.find("\nedition ") + 1;
    at = std::min(text.find("\n\n", at), text.size() - 1);
    text.insert(at + 1, fmt::format("{}{}\n", digest_line, digest));
}

void Sharing::write() {
    std::string text;
    const Compiled& open = open_.compiled;
    with_measures(open.sources, open_.compiled.names, open.files, [&](const MeasureSplit& split) {
        text = write_edition(open, *index_, picked_, blocks_, title(), split);
    });
    text = canonical(text);
    add_digest(text);
    const bool less = !seals_.empty() ||
                      std::any_of(picked_.materials.begin(), picked_.materials.end(),
                                  [&](Place place) { return keeps_label(place); });
    // With rules whatever is private: whether a label is compared must not show in any form.
    out_.value.edition =
        compile(memory_world({{"edition.shade", text}}), "edition.shade", Library::with_rules);
    out_.value.tells_less = less;
    out_.value.text = std::move(text);
}

/// What labels rest on is private or sealed in part: then members may not be able to make them.
void Sharing::compare_labels() {
    if (!out_.value.tells_less) return;
    std::vector<bool> chosen(source_.formulary.shades.size());
    const std::vector<ShadeId> twin = twins(source_, open_.compiled);
    for (ShadeId id = 0; id < picked_.chosen.size(); ++id)
        if (picked_.chosen[id] && twin[id] != nothing) chosen[twin[id]] = true;
    const std::vector<ShadeId> other = other_labels(source_, chosen, out_.value.edition);
    if (other.empty()) return;
    std::vector<std::string> names;
    for (const ShadeId id : other) names.push_back(source_.formulary.shades[id].name);
    out_.findings.push_back(
        {Code::share_undecided,
         fmt::format("From the edition alone members can't write the label of {} as you can, or "
                     "get other findings about its colourants, because what is sealed or private "
                     "is missing.",
                     list_words(names)),
         source_.formulary.shades[other.front()].span,
         "Give the ingredient list with it, tell narrower ranges with `sealed within 1 %`, or let "
         "what is private go out."});
}

}  // namespace

std::string wrong_order(const ShareOrder& order) {
    if (order.title && (tidy_name(*order.title).empty() ||
                        order.title->find_first_of("\"\r\n") != std::string::npos))
        return "Behind --title a title of one line is due, without double quotes in it.";
    const auto digit = [](char sign) { return sign >= '0' && sign <= '9'; };
    if (order.number &&
        (order.number->empty() || order.number->size() > 9 || order.number->front() == '0' ||
         !std::all_of(order.number->begin(), order.number->end(), digit)))
        return fmt::format("Behind --edition stands \"{}\", but editions are counted: "
                           "--edition 3.",
                           *order.number);
    if (order.date && !is_date(*order.date))
        return fmt::format("Behind --date stands \"{}\", but a day is due: --date 2026-10-01.",
                           *order.date);
    return {};
}

Outcome<Shared> share_edition(Compiled& source, const ShareOrder& order) {
    return Sharing(source, order)();
}

}  // namespace levigate
