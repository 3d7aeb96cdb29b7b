#include "interpreter/query/mended.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <utility>

#include "interpreter/query/trial.hpp"
#include "interpreter/render/amounts.hpp"
#include "interpreter/render/csv.hpp"

namespace levigate {
namespace {

using namespace mending;

/// Of each sheet its rows, by its title.
using SheetRows = std::map<std::string, std::string>;

SheetRows sheets_of(const CheckedFile& file) {
    const Formulary& formulary = file.compiled.formulary;
    SheetRows out;
    CsvWriter rows(formulary);
    Choice choice;
    choice.all = true;
    choice.words = choice.materials = choice.expectations = false;
    expand_each(formulary, file.compiled.names, choice, [&](Sheet& sheet) {
        const SheetNames names = names_of(formulary, sheet);
        std::string title(names.shade);
        for (const std::string_view part : {names.variant, names.finish, names.batch})
            if (!part.empty()) title.append(" · ").append(part);
        std::string& text = out[title];
        rows.append(sheet, text);
        text += in_grams(sheet.total).fraction();
    });
    return out;
}

/// The first sheet of `before` that is another one in `after`, or none there; empty if all are
/// kept.
std::string changed_sheet(const SheetRows& before, const SheetRows& after) {
    for (const auto& [title, rows] : before) {
        const auto found = after.find(title);
        if (found == after.end() || found->second != rows) return title;
    }
    return {};
}

std::optional<LeftBecause> untouchable(const Compiled& compiled) {
    if (compiled.formulary.edition && !compiled.formulary.edition->digest.empty())
        return LeftBecause::edition;
    for (const Finding& one : compiled.findings)
        if (one.code == Code::text_merge_marker && one.span.source == 0)
            return LeftBecause::unmerged;
    for (const LoadedFile& file : compiled.files)
        for (const tree::Block& block : file.tree.blocks)
            if (file.tree.source == 0 && block.heading == Heading::record)
                return LeftBecause::records;
    return std::nullopt;
}

class Mender {
public:
    Mender(const World& world, const std::vector<std::string>& paths,
           const std::vector<std::string>& regions)
        : desk_(world, paths, regions), edits_(paths.size()) {
        for (std::size_t file = 0; file < paths.size(); ++file) {
            out_.emplace_back().path = paths[file];
            closed_.push_back(untouchable(desk_.state[file].compiled));
        }
    }

    std::vector<MendedFile> run() {
        if (!open_offers().empty())
            for (const CheckedFile& state : desk_.state) sheets_.push_back(sheets_of(state));
        while (attempt(open_offers())) {
        }
        hold_promises_left();
        for (std::size_t file = 0; file < out_.size(); ++file) {
            out_[file].after = std::move(desk_.state[file]);
            std::sort(
                out_[file].made.begin(), out_[file].made.end(),
                [](const Mending& a, const Mending& b) { return a.span.begin < b.span.begin; });
        }
        return std::move(out_);
    }

private:
    /// Those that nothing has been decided about; what may not be changed is left at once.
    std::vector<Offer> open_offers() {
        std::vector<Offer> out;
        for (const Offer& offer : offers(desk_)) {
            if (refused(offer)) continue;
            if (closed_[offer.file])
                leave(offer, *closed_[offer.file], {});
            else
                out.push_back(offer);
        }
        return out;
    }

    bool refused(const Offer& offer) const {
        const auto& left = out_[offer.file].left;
        return std::any_of(left.begin(), left.end(), [&](const LeftAlone& one) {
            return one.fix.text == offer.fix.text && one.fix.span == home(offer);
        });
    }

    void leave(const Offer& offer, LeftBecause why, std::string words) {
        out_[offer.file].left.push_back(
            {{offer.finding->code, home(offer), offer.fix.text}, why, std::move(words)});
    }

    /// Makes or refuses at least one of the fixes; false where there is none.
    bool attempt(std::vector<Offer> set) {
        if (set.empty()) return false;
        States after = tried(desk_, set);
        std::vector<Offer> good;
        for (const Offer& offer : set) {
            std::string said;
            if (keeps_promise(desk_, set, offer, after, said))
                good.push_back(offer);
            else
                leave(offer, LeftBecause::broken_promise, std::move(said));
        }
        if (good.size() < set.size()) return true;  // without those it may look otherwise
        std::vector<SheetRows> sheets = sheets_;
        std::string changed;
        for (std::size_t file = 0; file < out_.size() && changed.empty(); ++file) {
            if (!after[file]) continue;
            sheets[file] = sheets_of(*after[file]);
            changed = changed_sheet(sheets_[file], sheets[file]);
        }
        if (changed.empty()) {
            take(set, std::move(after), std::move(sheets));
            return true;
        }
        if (set.size() > 1)
            return attempt(
                {set.begin(), set.begin() + static_cast<std::ptrdiff_t>(set.size() / 2)});
        leave(set.front(), LeftBecause::changes_a_sheet, std::move(changed));
        return true;
    }

    void take(const std::vector<Offer>& set, States after, std::vector<SheetRows> sheets) {
        std::vector<std::vector<Fix>> made(out_.size());
        std::vector<bool> first;
        for (const MendedFile& one : out_) first.push_back(one.made.empty());
        for (const Offer& offer : set) {
            out_[offer.file].made.push_back({offer.finding->code, home(offer), offer.fix.text});
            made[offer.file].push_back(as_made(desk_.text(offer.file), offer.fix));
        }
        for (std::size_t file = 0; file < out_.size(); ++file) {
            edits_[file].insert(edits_[file].end(), made[file].rbegin(), made[file].rend());
            if (first[file] && !made[file].empty())
                out_[file].before = std::move(desk_.state[file]);
            if (after[file]) desk_.state[file] = std::move(*after[file]);
        }
        sheets_ = std::move(sheets);
    }

    /// The place of a fix in the text as it was read.
    Span home(const Offer& offer) const {
        const auto back = [&](std::uint32_t at) {
            const std::vector<Fix>& edits = edits_[offer.file];
            for (auto edit = edits.rbegin(); edit != edits.rend(); ++edit) {
                const auto added = static_cast<std::uint32_t>(edit->text.size());
                const std::uint32_t begin = edit->span.begin;
                if (at >= begin + added)
                    at = at - added + (edit->span.end - begin);
                else if (at > begin)
                    at = begin;
            }
            return at;
        };
        return {0, back(offer.fix.span.begin), back(offer.fix.span.end)};
    }

    /// What failed its trial is not certain.
    void hold_promises_left() {
        for (const Offer& offer : offers(desk_)) {
            if (closed_[offer.file] || !refused(offer)) continue;
            for (Finding& finding : desk_.state[offer.by].findings)
                for (Fix& fix : finding.fixes)
                    if (fix.span == offer.fix.span && fix.text == offer.fix.text)
                        fix.certain = false;
        }
    }

    Desk desk_;
    std::vector<MendedFile> out_;
    std::vector<std::optional<LeftBecause>> closed_;
    std::vector<SheetRows> sheets_;
    std::vector<std::vector<Fix>> edits_;  ///< of each file, in the order in which they were made
};

}  // namespace

std::vector<MendedFile> mended(const World& world, const std::vector<std::string>& paths,
                               const std::vector<std::string>& regions) {
    return Mender(world, paths, regions).run();
}

void hold_promises(const World& world, const std::string& path,
                   const std::vector<std::string>& regions, CheckedFile& file) {
    const auto any =
        std::any_of(file.findings.begin(), file.findings.end(), [](const Finding& one) {
            return std::any_of(one.fixes.begin(), one.fixes.end(),
                               [](const Fix& fix) { return fix.certain && fix.span.source == 0; });
        });
    if (!any) return;
    const Desk desk(world, {path}, regions);
    const std::vector<Offer> set = offers(desk);
    const States after = tried(desk, set);
    for (const Offer& offer : set) {
        std::string said;
        if (keeps_promise(desk, set, offer, after, said)) continue;
        for (Finding& finding : file.findings)
            for (Fix& fix : finding.fixes)
                if (fix.span == offer.fix.span && fix.text == offer.fix.text) fix.certain = false;
    }
}

}  // namespace levigate
