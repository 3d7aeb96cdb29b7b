#include "interpreter/share/share.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "interpreter/expand/size.hpp"
#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/solve.hpp"
#include "interpreter/resolve/resolve.hpp"
#include "interpreter/share/digest.hpp"
#include "interpreter/share/prove.hpp"
#include "interpreter/share/write.hpp"

namespace levigate {

namespace {

using namespace sharing;

constexpr int most_steps = 3;  // by which a range is made narrower
constexpr std::string_view digest_line = "    digest      ";

class Sharing {
public:
    Sharing(Compiled& source, const ShareOrder& order)
        : source_(source), order_(order), index_(source) {}

    Outcome<Shared> operator()() {
        Outcome<Picked> picked = pick(source_, index_, order_.shades);
        take(std::move(picked.findings));
        picked_ = std::move(picked.value);
        if (is_too_much()) return std::move(out_);
        for (const PickedMix& mix : picked_.mixes) add_seal(mix);
        tells_less_ =
            !seals_.empty() || std::any_of(picked_.materials.begin(), picked_.materials.end(),
                                           [&](Place place) { return keeps_label(place); });
        if (any_error(out_.findings)) return std::move(out_);
        write();
        narrow();
        take(same_sheets(source_, index_, out_.value.edition, picked_));
        if (!any_error(out_.findings))
            take(leaks(source_, index_, picked_, seals_, out_.value.text));
        if (any_error(out_.findings)) out_.value.text.clear();
        return std::move(out_);
    }

private:
    void take(Findings findings) {
        for (Finding& one : findings) out_.findings.push_back(std::move(one));
    }
    /// What comes of the shades that go out is made several times: to prove, and to look for leaks.
    bool is_too_much();
    void add_seal(const PickedMix& mix);
    bool keeps_label(Place material) const;
    void write();
    void narrow();
    void narrow_for(const std::vector<OtherLabel>& others);
    bool holds(ShadeId shade, IngredientId blend) const;
    Title title() const;

    Compiled& source_;
    const ShareOrder& order_;
    const Index index_;
    Picked picked_;
    std::vector<Seal> seals_;
    bool tells_less_ = false;  ///< of what labels rest on: something is sealed, or private
    Outcome<Shared> out_;
};

bool Sharing::is_too_much() {
    Choice all;
    all.all = true;
    Selection selection = select(source_.formulary, source_.names, all);
    std::erase_if(selection.shades,
                  [&](const Selected& one) { return !picked_.chosen[one.shade]; });
    auto finding = too_much_work(source_.formulary, selection);
    if (finding) out_.findings.push_back(std::move(*finding));
    return finding.has_value();
}

void Sharing::add_seal(const PickedMix& mix) {
    if (mix.way != Way::sealed) return;
    Outcome<Seal> made = seal(source_.formulary, source_.names, mix.id);
    for (const Place place : index_.chain(mix.place))
        for (const tree::Line* line : index_.lines(place)) {
            if (line->form == Form::role) made.value.keeps_role = line->is_private;
            if (line->form == Form::density) made.value.keeps_density = line->is_private;
            if (line->form == Form::bulk) made.value.keeps_bulk = line->is_private;
        }
    if (!made.value.keeps_role)
        std::erase_if(made.value.contains, [](const Told& told) { return told.asked_anew; });
    take(std::move(made.findings));
    seals_.push_back(std::move(made.value));
}

/// Something by which its label is made, or rules judge it, is private.
bool Sharing::keeps_label(Place material) const {
    for (const tree::Line* line : index_.lines(material))
        if (line->is_private && (line->form == Form::role || line->form == Form::label ||
                                 line->form == Form::colourant || line->form == Form::contains))
            return true;
    return false;
}

Title Sharing::title() const {
    Title out{order_.otherwise, {}, {}};
    if (const auto& edition = source_.formulary.edition) {
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
    with_measures(source_.sources, source_.names, source_.files, [&](const MeasureSplit& split) {
        text = write_edition(source_, index_, picked_, seals_, title(), split);
    });
    text = canonical(text);
    add_digest(text);
    out_.value.edition =
        compile(memory_world({{"edition.shade", text}}), "edition.shade",
                order_.rules || tells_less_ ? Library::with_rules : Library::plain);
    out_.value.text = std::move(text);
}

bool Sharing::holds(ShadeId shade, IngredientId blend) const {
    for (const Version& version : source_.formulary.shades[shade].versions)
        if (!(content_of(source_.formulary, version.formula, blend) == Share())) return true;
    for (const ShadeFinish& finish : source_.formulary.shades[shade].finishes) {
        if (finish.finishing == nothing) continue;
        for (const Addition& one : source_.formulary.finishings[finish.finishing].additions)
            if (one.what == blend) return true;
    }
    return false;
}

/// Where only an order is open, the names that it hangs on; else all that is told.
void Sharing::narrow_for(const std::vector<OtherLabel>& others) {
    for (Seal& seal : seals_) {
        std::set<std::string> open;
        bool concerned = false, all = false;
        for (const OtherLabel& other : others) {
            if (!holds(other.shade, seal.id)) continue;
            concerned = true;
            all = all || other.open.empty();
            open.insert(other.open.begin(), other.open.end());
        }
        if (!concerned) continue;
        const auto hangs = [&](const Told& told) {
            return open.contains(std::string(source_.names.folded(told.name.sym)));
        };
        all = all || std::none_of(seal.label.begin(), seal.label.end(), hangs);
        for (auto* list : {&seal.label, &seal.contains})
            for (Told& told : *list)
                if (all || hangs(told)) told.range = narrowed(told);
    }
}

/// Where members could not make the label that the source has, ranges become narrower until they
/// can; where that doesn't help, the secret is kept.
void Sharing::narrow() {
    if (!tells_less_ || any_error(out_.value.edition.findings)) return;
    const std::vector<Seal> wide = seals_;
    const std::vector<OtherLabel> first = other_labels(source_, out_.value.edition, picked_);
    std::vector<OtherLabel> open = first;
    for (int step = 0; step < most_steps && !open.empty() && !seals_.empty(); ++step) {
        narrow_for(open);
        write();
        open = other_labels(source_, out_.value.edition, picked_);
    }
    if (open.empty()) return;
    if (open.size() == first.size() && !seals_.empty()) {
        seals_ = wide;
        write();
    }
    std::vector<std::string> names;
    for (const OtherLabel& other : open)
        names.push_back(source_.formulary.shades[other.shade].name);
    out_.findings.push_back(
        {Code::share_undecided,
         fmt::format("Whoever has the edition alone can't make the label of {} as you can, or is "
                     "told other things of its colourants: what is sealed or private leaves it "
                     "open.",
                     list_words(names)),
         source_.formulary.shades[open.front().shade].span,
         "Give the ingredient list with it, leave that blend unsealed, or let what is private go "
         "out."});
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
