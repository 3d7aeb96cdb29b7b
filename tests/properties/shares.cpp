// Pages with private lines, comments and sealed blends, shared in whole and in part. The sheets of
// an edition must be those of its source, as the tool answers from both texts; no word that was
// to stay at home may be in any form of it.

#include "tests/properties/shares.hpp"

#include <algorithm>
#include <set>

#include "interpreter/render/csv.hpp"
#include "interpreter/render/edition_document.hpp"
#include "interpreter/render/json.hpp"
#include "interpreter/render/text.hpp"
#include "interpreter/share/share.hpp"
#include "tests/properties/compare.hpp"
#include "tests/properties/random.hpp"
#include "tests/properties/write.hpp"

namespace levigate::testing {
namespace {

struct SharedPage {
    std::string text;
    std::set<std::string> sealed;  // names of blends
};

bool is_liked(const Book& book, Id id) {
    return std::any_of(book.things.begin(), book.things.end(),
                       [&](const Thing& thing) { return thing.body.like == id; });
}

std::set<std::string> choose_sealed(const Book& book, Random& random) {
    std::set<std::string> out;
    if (!random.chance(15)) return out;
    for (Id id = 0; id < static_cast<Id>(book.things.size()); ++id) {
        const Thing& thing = book.things[id];
        const bool plain = thing.kind == Thing::Kind::blend && thing.body.like == none;
        if (plain && !thing.library && !is_liked(book, id) && random.chance(60))
            out.insert(thing.name);
    }
    return out;
}

SharedPage secret_page(const Book& book, std::uint64_t seed) {
    Random random(seed * 7 + 5);
    SharedPage page{{}, choose_sealed(book, random)};
    std::vector<TextBlock> blocks = write_blocks(book, seed);
    const auto insert = [&](TextBlock& block, const std::string& line) {
        block.lines.insert(block.lines.begin() +
                               random.between(0, static_cast<int>(block.lines.size())),
                           {line, false});
    };
    int serial = 0;
    // What is expected of the inside of a sealed blend is refused: mostly there is nothing.
    const bool expects = page.sealed.empty() || random.chance(20);
    for (TextBlock& block : blocks) {
        if (!expects)
            std::erase_if(block.lines, [](const TextLine& line) {
                return line.text.find("expect ") != std::string::npos;
            });
        const bool material = block.heading.starts_with("material ");
        if (material && !page.sealed.empty())
            insert(block, "label \"" + block.heading.substr(9) + " extract\"");
        for (const std::string& name : page.sealed)
            if (block.heading == "blend " + name) insert(block, "sealed");
        const std::string secret = "SECRET" + std::to_string(++serial);
        if (random.chance(30)) insert(block, "private note  From " + secret + " in the harbour.");
        if (material && random.chance(30)) insert(block, "private price  4.13 USD per 31 g");
        if (random.chance(20)) insert(block, "# Not for others: " + secret);
        if (random.chance(20)) insert(block, "## For readers.");
    }
    page.text = "# SECRET at the head\n" + join(blocks);
    return page;
}

/// Blends in sealed ones, at any depth: an edition makes less of them, in the same shares.
std::set<std::string> inside_sealed(const SheetSeen& sheet, const SharedPage& page) {
    std::set<std::string> out;
    for (std::size_t known = 1; known != out.size();) {
        known = out.size();
        for (const BowlSeen& bowl : sheet.bowls)
            if (page.sealed.contains(bowl.name) || out.contains(bowl.name))
                for (const Row& row : bowl.rows) out.insert(row.name);
        if (out.empty()) break;
    }
    return out;
}

bool same_parts(const BowlSeen& a, const BowlSeen& b) {
    const auto all = [](const BowlSeen& bowl) {
        Number out;
        for (const Row& row : bowl.rows) out += row.exact;
        return out;
    };
    const Number of_a = all(a), of_b = all(b);
    return std::equal(a.rows.begin(), a.rows.end(), b.rows.begin(), b.rows.end(),
                      [&](const Row& one, const Row& other) {
                          return one.name == other.name && one.exact * of_b == other.exact * of_a;
                      });
}

/// What a reader of the edition can't see: bowls that are sealed, and those only they need.
void keep_seen(std::vector<SheetSeen>& source, const std::vector<SheetSeen>& edition,
               const SharedPage& page) {
    for (SheetSeen& sheet : source) {
        const auto same = std::find_if(edition.begin(), edition.end(), [&](const SheetSeen& one) {
            return title(one) == title(sheet);
        });
        if (same == edition.end() || page.sealed.empty()) continue;
        const std::set<std::string> inside = inside_sealed(sheet, page);
        std::erase_if(sheet.bowls, [&](const BowlSeen& bowl) {
            return std::none_of(same->bowls.begin(), same->bowls.end(),
                                [&](const BowlSeen& other) { return other.name == bowl.name; });
        });
        sheet.materials.clear();
        for (BowlSeen& bowl : sheet.bowls)
            for (const BowlSeen& other : same->bowls)
                if (bowl.name == other.name && &bowl != &sheet.bowls.back() &&
                    inside.contains(bowl.name) && same_parts(bowl, other))
                    bowl = other;
    }
}

bool sealed_bowl(const std::vector<SheetSeen>& sheets, const SharedPage& page) {
    for (const SheetSeen& sheet : sheets)
        for (const BowlSeen& bowl : sheet.bowls)
            if (page.sealed.contains(bowl.name)) return true;
    return false;
}

/// Every form in which an edition comes.
std::string all_forms(const Compiled& edition, const std::string& text) {
    Choice choice;
    choice.all = true;
    std::vector<Sheet> sheets;
    std::string out = text;
    CsvWriter csv(edition.formulary);
    SheetsJson json(edition.formulary, edition.sources);
    expand_each(edition.formulary, edition.names, choice, [&](Sheet& sheet) {
        csv.append(sheet, out);
        json.append(sheet, out);
        sheets.push_back(sheet);
    });
    append_markdown(out, edition_document(edition.formulary, sheets, {}));
    return out;
}

std::string same_answers(const SharedPage& page, const std::string& edition,
                         const std::vector<std::string>& chosen) {
    Answer was = ask(page.text, {true});
    Answer is = ask(edition, {true});
    if (!chosen.empty())
        std::erase_if(was.sheets, [&](const SheetSeen& sheet) {
            return std::find(chosen.begin(), chosen.end(), sheet.shade) == chosen.end();
        });
    if (sealed_bowl(is.sheets, page)) return "secret: a sealed bowl came out";
    keep_seen(was.sheets, is.sheets, page);
    if (!page.sealed.empty())
        for (SheetSeen& sheet : is.sheets) sheet.materials.clear();
    return differs_as_sets(was.sheets, is.sheets);
}

}  // namespace

SharesSeen& shares_seen() {
    static SharesSeen seen;
    return seen;
}

std::string shares(const Book& book, std::uint64_t seed) {
    const SharedPage page = secret_page(book, seed);
    Compiled source = compile(memory_world({{"a.shade", page.text}}), "a.shade",
                              page.sealed.empty() ? Library::plain : Library::with_rules);
    SharesSeen& seen = shares_seen();
    if (any_error(source.findings)) return ++seen.broken, "";
    Random random(seed * 11 + 3);
    ShareOrder order;
    order.otherwise = "A page";
    if (random.chance(50))
        for (const Shade& shade : source.formulary.shades)
            if (random.chance(40)) order.shades.push_back(shade.name);
    Outcome<Shared> made = share_edition(source, order);
    for (const Finding& finding : made.findings) {
        if (finding.severity != Severity::error) continue;
        const bool of_sealed = finding.code == Code::share_rests ||
                               finding.code == Code::share_narrow ||
                               finding.code == Code::share_leaks;
        const bool foreseen =
            (of_sealed && !page.sealed.empty()) ||
            (finding.code == Code::share_differs &&
             (!page.sealed.empty() || !order.shades.empty()));
        if (!foreseen)
            return "refused " + std::string(row_of(finding.code).name) + ": " + finding.message +
                   "\n" + page.text;
        return ++seen.refused, "";
    }
    ++seen.shared;
    seen.sealed += page.sealed.empty() ? 0 : 1;
    seen.part += order.shades.empty() ? 0 : 1;
    if (all_forms(made.value.edition, made.value.text).find("SECRET") != std::string::npos)
        return "secret: it came out";
    const std::string complaint = same_answers(page, made.value.text, order.shades);
    return complaint.empty() ? "" : complaint + "\n" + page.text + "\n----\n" + made.value.text;
}

}  // namespace levigate::testing
