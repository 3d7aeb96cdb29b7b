#include "tests/properties/changes.hpp"

#include <algorithm>

#include "tests/properties/compare.hpp"
#include "tests/properties/random.hpp"
#include "tests/properties/write.hpp"

namespace levigate::testing {
namespace {

std::uint64_t noise(std::uint64_t seed) { return seed * 2 + 1; }

bool any_refused(const std::vector<SheetSeen>& sheets) {
    return std::any_of(sheets.begin(), sheets.end(),
                       [](const SheetSeen& sheet) { return !sheet.refused.empty(); });
}

/// A line of nothing is there for what refers to it, but on no sheet.
bool holds_nothing(const std::vector<SheetSeen>& sheets) {
    for (const SheetSeen& sheet : sheets)
        for (const Row& row : sheet.bowls.back().rows)
            if (row.share.is_zero()) return true;
    return false;
}

std::string unexpected(const Answer& answer) {
    return answer.errors.empty() ? "" : "unforeseen " + answer.errors[0] + ":\n" + answer.said;
}

}  // namespace

std::string reckoned_alike(const Book& book, std::uint64_t seed) {
    const bool all = seed % 2 == 0;
    const std::vector<SheetSeen> expected = reckon_sheets(book, {all});
    const Answer answer = ask(write(book, noise(seed)), {all});
    if (std::string wrong = refusals_differ(book, expected, answer); !wrong.empty()) return wrong;
    return differs(without_refused(expected, expected), without_refused(expected, answer.sheets));
}

std::string added_onto(const Book& book, std::uint64_t seed) {
    Random random(seed);
    const Question question{true, {}, Number(random.between(1, 4000), 10)};
    const std::vector<SheetSeen> expected = reckon_sheets(book, question);
    const Answer answer = ask(write(book, noise(seed)), question);
    if (std::string wrong = refusals_differ(book, expected, answer); !wrong.empty()) return wrong;
    return differs(without_refused(expected, expected), without_refused(expected, answer.sheets));
}

std::string told_alike(const Book& book, std::uint64_t seed) {
    const std::string text = write(book, noise(seed));
    const std::vector<std::string> due = reckon_expects(book), told = ask_expects(text);
    if (due.size() != told.size())
        return "expected lines: " + std::to_string(due.size()) + " are due, " +
               std::to_string(told.size()) + " came";
    for (std::size_t i = 0; i < due.size(); ++i)
        if (due[i] != told[i])
            return "verdict " + std::to_string(i + 1) + ": " + due[i] + " is due, " + told[i] +
                   " came\n" + ask(text, {true}).said;
    return "";
}

std::string balanced(const Book& book, std::uint64_t seed) {
    const Answer answer = ask(write(book, noise(seed)), {true});
    if (answer.sheets.empty() && !any_refused(reckon_sheets(book, {true})))
        return "no sheets\n" + answer.said;
    for (const SheetSeen& sheet : answer.sheets)
        if (std::string wrong = unbalanced(sheet); !wrong.empty()) return wrong;
    return "";
}

std::string scales(const Book& book, std::uint64_t seed) {
    Random random(seed);
    const Number size(random.between(1, 4000), 10), times(random.between(2, 90), 8);
    const std::string text = write(book, noise(seed));
    const Answer once = ask(text, {true, size}), more = ask(text, {true, size * times});
    if (once.sheets.size() != more.sheets.size() || once.errors != more.errors)
        return "scaled sheets: they differ in number";
    for (std::size_t i = 0; i < once.sheets.size(); ++i) {
        const SheetSeen &a = once.sheets[i], &b = more.sheets[i];
        if (title(a) != title(b) || a.bowls.size() != b.bowls.size() ||
            a.materials.size() != b.materials.size())
            return "scaled shape: " + title(a);
        if (a.total != size || b.total != size * times) return "scaled total: " + title(a);
        for (std::size_t k = 0; k < a.materials.size(); ++k)
            if (a.materials[k].exact * times != b.materials[k].exact)
                return "scaled material: " + a.materials[k].name;
        for (std::size_t k = 0; k < a.bowls.size(); ++k)
            for (std::size_t n = 0; n < a.bowls[k].rows.size(); ++n)
                if (a.bowls[k].rows[n].exact * times != b.bowls[k].rows[n].exact)
                    return "scaled line: " + a.bowls[k].rows[n].name;
    }
    return "";
}

std::string order_free(const Book& book, std::uint64_t seed) {
    std::vector<TextBlock> blocks = write_blocks(book, 0);
    const Answer before = ask(join(blocks), {true});
    Random random(seed);
    random.shuffle(blocks);
    for (TextBlock& block : blocks) {
        std::vector<TextLine> free;
        for (const TextLine& line : block.lines)
            if (line.ingredient) free.push_back(line);
        random.shuffle(free);
        for (TextLine& line : block.lines) {
            if (!line.ingredient) continue;
            line = free.back();
            free.pop_back();
        }
    }
    const Answer after = ask(join(blocks), {true});
    if (before.errors.empty() != after.errors.empty())
        return "shuffled errors: only one order has any\n" + before.said + "---\n" + after.said;
    std::string wrong = differs_as_sets(before.sheets, after.sheets);
    return wrong.empty() ? "" : "shuffled " + wrong + "\n" + join(blocks);
}

namespace {

/// Every shade and member as plain shares: what the first expansion says of it.
Book flat(const Book& book, const std::vector<SheetSeen>& sheets) {
    Book made = book;
    made.order.clear();
    auto write_out = [&](Id place, const std::string& name, Id from, bool append) {
        auto sheet = std::find_if(sheets.begin(), sheets.end(), [&](const SheetSeen& one) {
            return one.shade == name && one.variant.empty() && one.finish.empty();
        });
        if (sheet == sheets.end()) return;
        Thing thing;
        thing.kind = Thing::Kind::shade;
        thing.name = name;
        thing.properties = in_full(book, from);
        for (const Row& row : sheet->bowls.back().rows) {
            auto what = std::find_if(book.things.begin(), book.things.end(),
                                     [&](const Thing& one) { return one.name == row.name; });
            Line line;
            line.what = static_cast<Id>(what - book.things.begin());
            line.amount.number = row.share;
            line.amount.text = share_text(row.share);
            thing.body.lines.push_back(line);
        }
        if (append) {
            made.things.push_back(thing);
            place = static_cast<Id>(made.things.size()) - 1;
        } else {
            made.things[place] = thing;
        }
        made.order.push_back(place);
    };
    for (Id id : book.order) {
        const Thing& thing = book.things[id];
        if (thing.kind == Thing::Kind::shade)
            write_out(id, thing.name, id, false);
        else if (thing.kind != Thing::Kind::family)
            made.order.push_back(id);
        else
            for (const Family::Member& member : thing.family.members)
                write_out(none, member.name, thing.family.from, true);
    }
    return made;
}

}  // namespace

std::string flattens(const Book& written, std::uint64_t seed) {
    Book book = written;  // variants need the rest or the weights that a flat shade hasn't
    for (Thing& thing : book.things) thing.properties.variants.reset(), thing.body.steps.clear();
    const std::vector<SheetSeen> expected = reckon_sheets(book, {true});
    if (any_refused(expected) || holds_nothing(expected)) return "";
    const std::string text = write(book, noise(seed));
    const Answer plain = ask(text, {false}), inherited = ask(text, {true});
    if (std::string wrong = unexpected(plain); !wrong.empty()) return wrong;
    const std::string flat_text = write(flat(book, plain.sheets), noise(seed));
    const Answer flattened = ask(flat_text, {true});
    if (std::string wrong = unexpected(flattened); !wrong.empty()) return wrong + flat_text;
    std::string wrong = differs(inherited.sheets, flattened.sheets);
    return wrong.empty() ? "" : "flattened " + wrong + "\n" + flat_text;
}

}  // namespace levigate::testing
