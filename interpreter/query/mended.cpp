#include "interpreter/query/mended.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "interpreter/render/amounts.hpp"
#include "interpreter/render/csv.hpp"

namespace levigate {
namespace {

/// A fix and the finding that it belongs to.
struct Offer {
    const Finding* finding;
    Fix fix;
};

World with_text(const World& world, const std::string& path, const std::string& text) {
    World out = world;
    out.open = [&world, path, text](const std::string& asked) -> FileText {
        FileText file = world.open(asked);
        if (asked == path) file.text = text;
        return file;
    };
    return out;
}

const std::string& text_of(const CheckedFile& file) { return file.compiled.sources[0].text; }

// ---- What is promised --------------------------------------------------------------------------

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

/// A trial: a text, the same with fixes made, and how lines moved.
struct Trial {
    const CheckedFile& before;
    const CheckedFile& after;
    const std::vector<Offer>& tried;

    std::uint32_t line_of(Span span) const { return before.compiled.sources.position(span).line; }

    /// Lines that the fix takes out (negative) or brings.
    std::int64_t grows_by(const Fix& fix) const {
        const Fix made = as_made(text_of(before), fix);
        const auto lines = [](std::string_view text) {
            return std::count(text.begin(), text.end(), '\n');
        };
        return lines(made.text) - lines(before.compiled.sources.text(made.span));
    }

    /// Where a line of the old text stands in the new one.
    std::int64_t moved(std::uint32_t line) const {
        std::int64_t to = line;
        for (const Offer& offer : tried)
            if (line_of(offer.fix.span) < line) to += grows_by(offer.fix);
        return to;
    }

    /// What is said of a line, by code.
    static std::multiset<Code> said_of(const CheckedFile& file, std::int64_t line) {
        std::multiset<Code> out;
        for (const Finding& one : file.findings)
            if (one.span.source == 0 && file.compiled.sources.position(one.span).line == line)
                out.insert(one.code);
        return out;
    }

    /// True where all that is said of the line now was said before, and is not what was to go.
    bool kept(std::uint32_t line) const {
        std::multiset<Code> allowed = said_of(before, line);
        for (const Offer& offer : tried) {
            if (line_of(offer.finding->span) != line) continue;
            const auto gone = allowed.find(offer.finding->code);
            if (gone != allowed.end()) allowed.erase(gone);
        }
        const std::multiset<Code> now = said_of(after, moved(line));
        return std::includes(allowed.begin(), allowed.end(), now.begin(), now.end());
    }

    bool promises_kept() const {
        return std::all_of(tried.begin(), tried.end(), [&](const Offer& offer) {
            const std::uint32_t line = line_of(offer.fix.span);
            const std::uint32_t said = line_of(offer.finding->span);
            const Fix made = as_made(text_of(before), offer.fix);
            const bool line_gone = made.span != offer.fix.span;
            return (line_gone || kept(line)) && ((line_gone && said == line) || kept(said));
        });
    }
};

// ---- The file, again and again -----------------------------------------------------------------

class Mender {
public:
    Mender(const World& world, const std::string& path, const std::vector<std::string>& regions)
        : world_(world), path_(path), regions_(regions) {
        out_.before = checked(world, path, regions);
        out_.after = checked(world, path, regions);
    }

    Mended run() {
        if (out_.unreadable()) return std::move(out_);
        if (const auto why = untouchable()) {
            for (const Offer& offer : offers()) leave(offer, *why);
            return std::move(out_);
        }
        if (!offers().empty()) sheets_ = sheets_of(out_.after);
        while (step()) {
        }
        std::sort(out_.made.begin(), out_.made.end(),
                  [](const Mending& a, const Mending& b) { return a.span.begin < b.span.begin; });
        return std::move(out_);
    }

private:
    CheckedFile again(const std::string& text) const {
        return checked(with_text(world_, path_, text), path_, regions_);
    }

    std::optional<LeftBecause> untouchable() const {
        const Compiled& compiled = out_.before.compiled;
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

    /// The certain fixes of FILE that were not yet refused, in the order of the text, none over
    /// another.
    std::vector<Offer> offers() const {
        std::vector<Offer> out;
        for (const Finding& finding : out_.after.findings)
            for (const Fix& fix : finding.fixes)
                if (fix.certain && fix.span.source == 0 && !refused(finding, fix))
                    out.push_back({&finding, fix});
        std::stable_sort(out.begin(), out.end(), [](const Offer& a, const Offer& b) {
            return a.fix.span.begin < b.fix.span.begin;
        });
        std::vector<Offer> apart;
        for (const Offer& offer : out)
            if (apart.empty() || offer.fix.span.begin >= apart.back().fix.span.end)
                if (apart.empty() || offer.fix.span != apart.back().fix.span)
                    apart.push_back(offer);
        return apart;
    }

    bool refused(const Finding& finding, const Fix& fix) const {
        return std::any_of(out_.left.begin(), out_.left.end(), [&](const LeftAlone& one) {
            return one.fix.code == finding.code && one.fix.text == fix.text &&
                   one.fix.span == home(fix.span);
        });
    }

    Mending mending(const Offer& offer) const {
        return {offer.finding->code, home(offer.fix.span), offer.fix.text};
    }

    void leave(const Offer& offer, LeftBecause why, std::string sheet = {}) {
        out_.left.push_back({mending(offer), why, std::move(sheet)});
    }

    /// All fixes at hand at once; if that fails, the first of them that keeps its promise alone.
    /// False where nothing was made.
    bool step() {
        const std::vector<Offer> all = offers();
        if (all.empty()) return false;
        if (try_out(all, false)) return true;
        for (const Offer& offer : all) {
            if (out_.left.size() >= most_failures)
                leave(offer, LeftBecause::too_many);
            else if (try_out({offer}, true))
                return true;
        }
        return false;
    }

    bool try_out(const std::vector<Offer>& tried, bool alone) {
        std::vector<Fix> fixes;
        for (const Offer& offer : tried) fixes.push_back(offer.fix);
        CheckedFile next = again(with_fixes(text_of(out_.after), fixes));
        if (!Trial{out_.after, next, tried}.promises_kept()) {
            if (alone) leave(tried.front(), LeftBecause::broken_promise);
            return false;
        }
        SheetRows sheets = sheets_of(next);
        if (std::string sheet = changed_sheet(sheets_, sheets); !sheet.empty()) {
            if (alone) leave(tried.front(), LeftBecause::changes_a_sheet, std::move(sheet));
            return false;
        }
        take(tried, std::move(next), std::move(sheets));
        return true;
    }

    void take(const std::vector<Offer>& tried, CheckedFile next, SheetRows sheets) {
        std::vector<Mending> made;
        for (const Offer& offer : tried) made.push_back(mending(offer));
        out_.made.insert(out_.made.end(), made.begin(), made.end());
        for (std::size_t i = tried.size(); i-- > 0;)
            edits_.push_back(as_made(text_of(out_.after), tried[i].fix));
        out_.after = std::move(next);
        sheets_ = std::move(sheets);
    }

    /// A place of the text as it is now, in the text as it was read.
    Span home(Span span) const {
        const auto back = [&](std::uint32_t at) {
            for (auto edit = edits_.rbegin(); edit != edits_.rend(); ++edit) {
                const auto added = static_cast<std::uint32_t>(edit->text.size());
                const std::uint32_t begin = edit->span.begin;
                if (at >= begin + added)
                    at = at - added + (edit->span.end - begin);
                else if (at > begin)
                    at = begin;
            }
            return at;
        };
        return {span.source, back(span.begin), back(span.end)};
    }

    static constexpr std::size_t most_failures = 40;

    const World& world_;
    const std::string& path_;
    const std::vector<std::string>& regions_;
    Mended out_;
    SheetRows sheets_;
    std::vector<Fix> edits_;  ///< in the order in which they were made
};

}  // namespace

Mended mended(const World& world, const std::string& path,
              const std::vector<std::string>& regions) {
    return Mender(world, path, regions).run();
}

}  // namespace levigate
