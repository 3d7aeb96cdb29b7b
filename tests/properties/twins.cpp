// Shades that are like another one and should come to the same: with no edits, with an amount set
// to what it is, with a swap there and back. And rebalance, which keeps the ratios of what it
// doesn't stand by.

#include <algorithm>

#include "tests/properties/changes.hpp"
#include "tests/properties/compare.hpp"
#include "tests/properties/random.hpp"
#include "tests/properties/write.hpp"

namespace levigate::testing {
namespace {

using Kind = Amount::Kind;

Id add_like(Book& book, const std::string& name, Id parent) {
    Thing thing;
    thing.kind = Thing::Kind::shade;
    thing.name = name;
    thing.body.like = parent;
    book.things.push_back(thing);
    book.order.push_back(static_cast<Id>(book.things.size()) - 1);
    return book.order.back();
}

void add_set(Book& book, Id shade, const Line& line) {
    Edit edit;
    edit.line = line;
    book.things[add_like(book, "twin by set", shade)].body.edits.push_back(edit);
}

/// Away to a thing of the same role, and back in a shade that is like the first.
void add_swaps(Book& book, Id shade, const Line& line) {
    if (line.amount.spooned || line.amount.kind == Kind::enough) return;
    Thing other;
    other.name = "stand-in stuff";
    other.role = book.things[line.what].role;
    book.things.push_back(other);
    Edit edit;
    edit.kind = Edit::Kind::swap;
    edit.line.what = line.what;
    edit.other = static_cast<Id>(book.things.size()) - 1;
    const Id away = add_like(book, "away", shade);
    book.things[away].body.edits.push_back(edit);
    Reckoner reckoner(book);
    if (!reckoner.mixture(away).refused.empty()) {
        book.things.resize(static_cast<std::size_t>(away) - 1);
        book.order.pop_back();
        return;
    }
    book.order.push_back(edit.other);
    std::swap(edit.line.what, edit.other);
    const Id back = add_like(book, "twin by swaps", away);
    book.things[back].body.edits.push_back(edit);
    // What the stand-in made impossible on the way is none of this property's business.
    for (Id one : {away, back}) book.things[one].properties.fresh_variants = true;
    book.things[back].properties.variants = in_full(book, shade).variants;
    book.things[away].properties.fresh_finishes = true;
    book.things[back].properties.finishes = in_full(book, shade).finishes;
    book.things[away].properties.fresh_batches = true;
    book.things[back].properties.batches = in_full(book, shade).batches;
}

std::vector<SheetSeen> sheets_of(const Answer& answer, const std::string& shade,
                                 const std::string& renamed) {
    std::vector<SheetSeen> sheets;
    for (SheetSeen sheet : answer.sheets) {
        if (sheet.shade != shade) continue;
        sheet.shade = renamed;
        sheet.bowls.back().name = renamed;
        sheets.push_back(std::move(sheet));
    }
    return sheets;
}

/// The shares in a shade's own bowl, as written.
const BowlSeen* own_bowl(const Answer& answer, const std::string& shade) {
    for (const SheetSeen& sheet : answer.sheets)
        if (sheet.shade == shade && sheet.variant.empty() && sheet.finish.empty())
            return &sheet.bowls.back();
    return nullptr;
}

std::string rebalance_of(const Book& written, Id shade, const Line& changed) {
    Book book = written;
    Edit edit;
    edit.kind = Edit::Kind::scale;
    edit.line.what = changed.what;
    edit.factor = Number(1, 2);
    edit.text = "1/2";
    const Id child = add_like(book, "rebalanced", shade);
    book.things[child].body.edits.push_back(edit);
    book.things[child].body.rebalance = true;
    Reckoner reckoner(book);
    if (!reckoner.mixture(child).refused.empty()) return "";
    const Answer answer = ask(write(book), {false});
    const BowlSeen* before = own_bowl(answer, book.things[shade].name);
    const BowlSeen* after = own_bowl(answer, "rebalanced");
    if (before == nullptr || after == nullptr) return "rebalance: no sheet\n" + answer.said;
    Number ratio = 0, sum = 0;
    for (std::size_t i = 0; i < before->rows.size(); ++i) {
        const Row &old = before->rows[i], &now = after->rows[i];
        sum += now.share;
        const Line& line = book.things[shade].body.lines[i];
        if (line.amount.kind != Kind::share || old.share.is_zero()) continue;
        if (line.what == changed.what) {
            if (now.share * 2 != old.share) return "rebalance: moved what stands: " + now.name;
            continue;
        }
        if (!ratio.is_zero() && ratio != now.share / old.share)
            return "rebalance: changed a ratio: " + now.name;
        ratio = now.share / old.share;
    }
    return sum == 1 ? "" : "rebalance: doesn't close to 100 %";
}

bool only_shares(const Body& body) {
    return std::all_of(body.lines.begin(), body.lines.end(), [](const Line& line) {
        return line.amount.kind == Kind::share || line.amount.kind == Kind::as_much;
    });
}

}  // namespace

std::string twins(const Book& written, std::uint64_t seed) {
    Random random(seed);
    std::vector<Id> roots;
    for (Id id : written.order)
        if (written.things[id].kind == Thing::Kind::shade && !written.things[id].body.lines.empty())
            roots.push_back(id);
    if (roots.empty()) return "";
    const Id shade = random.pick(roots);
    const Thing root = written.things[shade];
    for (const SheetSeen& sheet : reckon_sheets(written, {true}))
        if (sheet.shade == root.name && !sheet.refused.empty()) return "";
    const Line line = random.pick(root.body.lines);
    if (only_shares(root.body) && line.amount.kind == Kind::share && line.name_hole.empty())
        if (std::string wrong = rebalance_of(written, shade, line); !wrong.empty()) return wrong;

    Book book = written;
    add_like(book, "twin", shade);
    if (line.name_hole.empty()) {
        add_set(book, shade, line);
        add_swaps(book, shade, line);
    }
    const Answer answer = ask(write(book, seed * 2 + 1), {true});
    const std::vector<SheetSeen> expected = sheets_of(answer, root.name, "one");
    if (expected.empty()) return "twins: no sheets\n" + answer.said;
    for (const char* name : {"twin", "twin by set", "twin by swaps"}) {
        const std::vector<SheetSeen> seen = sheets_of(answer, name, "one");
        const bool due = std::any_of(book.things.begin(), book.things.end(),
                                     [&](const Thing& one) { return one.name == name; });
        if (!due) continue;
        if (std::string wrong = differs(expected, seen); !wrong.empty())
            return std::string(name) + ": " + wrong + "\n" + answer.said;
    }
    return "";
}

}  // namespace levigate::testing
