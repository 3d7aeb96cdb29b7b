#include "tests/properties/compare.hpp"

#include <algorithm>
#include <set>
#include <tuple>

namespace levigate::testing {
namespace {

std::string both(const std::string& what, const Number& due, const Number& came) {
    return what + ": " + due.str() + " is due, " + came.str() + " came";
}

/// A line of nothing may be kept or left out.
void drop_nothing(std::vector<Row>& rows) {
    rows.erase(std::remove_if(rows.begin(), rows.end(),
                              [](const Row& row) { return row.exact.is_zero(); }),
               rows.end());
}

void drop_nothing(SheetSeen& sheet) {
    for (BowlSeen& bowl : sheet.bowls) drop_nothing(bowl.rows);
    drop_nothing(sheet.materials);
    sheet.bowls.erase(std::remove_if(sheet.bowls.begin(), sheet.bowls.end(),
                                     [](const BowlSeen& bowl) { return bowl.rows.empty(); }),
                      sheet.bowls.end());
}

std::string rows_differ(const std::string& where, const std::vector<Row>& due,
                        const std::vector<Row>& came, bool readings) {
    if (due.size() != came.size())
        return "lines: " + std::to_string(due.size()) + " are due in " + where + ", " +
               std::to_string(came.size()) + " came";
    for (std::size_t i = 0; i < due.size(); ++i) {
        const std::string line = where + ", " + due[i].name;
        if (due[i].name != came[i].name)
            return "names: " + line + " is due, " + came[i].name + " came";
        if (due[i].share != came[i].share)
            return both("share of " + line, due[i].share, came[i].share);
        if (due[i].exact != came[i].exact)
            return both("exact of " + line, due[i].exact, came[i].exact);
        if (readings && due[i].grams != came[i].grams)
            return both("reading of " + line, due[i].grams, came[i].grams);
    }
    return "";
}

std::string sheet_differs(const SheetSeen& due, const SheetSeen& came) {
    const std::string name = title(due);
    if (due.total != came.total) return both("total of " + name, due.total, came.total);
    if (due.step != came.step) return both("balance of " + name, due.step, came.step);
    if (due.bowls.size() != came.bowls.size())
        return "bowls: " + std::to_string(due.bowls.size()) + " are due in " + name + ", " +
               std::to_string(came.bowls.size()) + " came";
    for (std::size_t i = 0; i < due.bowls.size(); ++i) {
        const BowlSeen& a = due.bowls[i];
        const BowlSeen& b = came.bowls[i];
        if (a.name != b.name) return "bowl order: " + a.name + " is due, " + b.name + " came";
        const std::string where = name + ", bowl " + a.name;
        if (std::string wrong = rows_differ(where, a.rows, b.rows, true); !wrong.empty())
            return wrong;
        if (a.grams != b.grams) return both("foot of " + where, a.grams, b.grams);
    }
    return rows_differ(name + ", materials", due.materials, came.materials, false);
}

bool reads_nothing(const SheetSeen& sheet) {
    for (const BowlSeen& bowl : sheet.bowls)
        for (const Row& row : bowl.rows)
            if (row.grams.is_zero() && !row.exact.is_zero()) return true;
    return false;
}

auto row_key(const Row& row) { return std::tie(row.name, row.exact, row.grams); }

void sort_rows(std::vector<Row>& rows) {
    std::sort(rows.begin(), rows.end(),
              [](const Row& a, const Row& b) { return row_key(a) < row_key(b); });
}

void sort_all(std::vector<SheetSeen>& sheets) {
    for (SheetSeen& sheet : sheets) {
        for (BowlSeen& bowl : sheet.bowls) sort_rows(bowl.rows);
        std::stable_sort(sheet.bowls.begin(), sheet.bowls.end(),
                         [](const BowlSeen& a, const BowlSeen& b) { return a.name < b.name; });
        sort_rows(sheet.materials);
    }
    std::sort(sheets.begin(), sheets.end(),
              [](const SheetSeen& a, const SheetSeen& b) { return title(a) < title(b); });
}

}  // namespace

std::string differs(std::vector<SheetSeen> expected, std::vector<SheetSeen> seen) {
    for (std::size_t i = 0; i < std::max(expected.size(), seen.size()); ++i) {
        if (i == seen.size()) return "missing sheet: " + title(expected[i]);
        if (i == expected.size()) return "sheet too many: " + title(seen[i]);
        if (title(expected[i]) != title(seen[i]))
            return "sheet order: " + title(expected[i]) + " is due, " + title(seen[i]) + " came";
        drop_nothing(expected[i]);
        drop_nothing(seen[i]);
        if (std::string wrong = sheet_differs(expected[i], seen[i]); !wrong.empty()) return wrong;
        for (std::size_t k = 0; k < expected[i].steps.size(); ++k)
            if (k >= seen[i].steps.size() || expected[i].steps[k] != seen[i].steps[k])
                return "step: " + expected[i].steps[k] + " is due in " + title(seen[i]) +
                       (k < seen[i].steps.size() ? ", " + seen[i].steps[k] + " came" : "");
        const auto count = [](const SheetSeen& sheet, const char* code) {
            return std::count(sheet.errors.begin(), sheet.errors.end(), code);
        };
        const auto nothing = count(seen[i], "weigh-nothing"),
                   failed = count(seen[i], "expect-failed");
        if (failed != count(expected[i], "expect-failed"))
            return "expectations: " + std::to_string(failed) + " failed on " + title(seen[i]);
        if (nothing + failed != static_cast<std::ptrdiff_t>(seen[i].errors.size()))
            return "finding: an unforeseen one on " + title(seen[i]);
        if (reads_nothing(expected[i]) != (nothing != 0))
            return "weigh-nothing: missing or uncalled for on " + title(seen[i]);
    }
    return "";
}

std::string differs_as_sets(std::vector<SheetSeen> expected, std::vector<SheetSeen> seen) {
    sort_all(expected);
    sort_all(seen);
    return differs(std::move(expected), std::move(seen));
}

std::vector<SheetSeen> without_refused(const std::vector<SheetSeen>& expected,
                                       std::vector<SheetSeen> sheets) {
    std::set<std::string> whole;
    for (const SheetSeen& sheet : expected)
        if (sheet.no_bulk && sheet.variant.empty()) whole.insert(sheet.shade);
    sheets.erase(std::remove_if(sheets.begin(), sheets.end(),
                                [&](const SheetSeen& sheet) {
                                    return whole.count(sheet.shade) != 0 || !sheet.refused.empty();
                                }),
                 sheets.end());
    return sheets;
}

std::string refusals_differ(const Book& book, const std::vector<SheetSeen>& expected,
                            const Answer& answer) {
    std::set<std::string> foreseen;  // under any variant and finish: a page is read whole
    for (const auto& sheets : {reckon_sheets(book, {true}), expected})
        for (const SheetSeen& sheet : sheets) {
            foreseen.insert(sheet.refused);
            foreseen.insert(sheet.also.begin(), sheet.also.end());
        }
    for (const std::string& code : answer.errors)
        if (foreseen.count(code) == 0) return "unforeseen " + code + ":\n" + answer.said;
    for (const SheetSeen& sheet : expected) {
        if (sheet.refused.empty()) continue;
        // A variant of what can't be made as written is passed over: that is said, and once.
        const bool passed_over =
            !sheet.variant.empty() &&
            std::any_of(expected.begin(), expected.end(), [&](const SheetSeen& other) {
                return other.shade == sheet.shade && other.variant.empty() &&
                       !other.refused.empty();
            });
        if (passed_over) continue;
        // What is wrong with a thing inside it is said where that thing stands.
        const bool said =
            std::any_of(answer.errors.begin(), answer.errors.end(), [&](const std::string& code) {
                return code == sheet.refused || sheet.also.count(code) != 0 ||
                       sheet.refused == "inside";
            });
        if (!said)
            return "not refused, " + sheet.refused + ": " + title(sheet) + "\n" + answer.said;
    }
    return "";
}

namespace {

/// What the other bowls weigh of a mix, and need of it.
Row used_of(const SheetSeen& sheet, const std::string& name) {
    Row used{name, 0, 0, 0};
    for (const BowlSeen& bowl : sheet.bowls)
        for (const Row& row : bowl.rows)
            if (row.name == name) {
                used.exact += row.exact;
                used.grams += row.grams;
            }
    return used;
}

std::string blend_unbalanced(const SheetSeen& sheet, const BowlSeen& bowl) {
    const Row used = used_of(sheet, bowl.name);
    Number exact = 0;
    for (const Row& row : bowl.rows) exact += row.exact;
    if (exact != used.exact) return both("blend mass: " + bowl.name, used.exact, exact);
    if (bowl.asked != used.grams) return both("blend asked: " + bowl.name, used.grams, bowl.asked);
    if (bowl.grams < bowl.asked) return both("blend short: " + bowl.name, bowl.asked, bowl.grams);
    // The first target that is enough, tried one by one from what is asked.
    for (Number target = bowl.asked;; target += sheet.step) {
        Number sum = 0;
        std::string wrong;
        for (const Row& row : bowl.rows) {
            const Number due = half_up(row.exact / exact * target, sheet.step);
            if (due != row.grams) wrong = both("blend line: " + row.name, due, row.grams);
            sum += due;
        }
        if (sum >= bowl.asked) return wrong;
    }
}

std::string own_unbalanced(const SheetSeen& sheet) {
    const BowlSeen& own = sheet.bowls.back();
    Number exact = 0, share = 0, foot = 0;
    for (const Row& row : own.rows) {
        exact += row.exact;
        share += row.share;
        foot += row.grams;
        const Number off = row.grams - row.exact;
        if (2 * off > sheet.step || 2 * off <= -sheet.step)
            return both("half a step: " + row.name, row.exact, row.grams);
        if (row.share * sheet.total != row.exact)
            return both("share and mass: " + row.name, row.share * sheet.total, row.exact);
        for (const Row& other : own.rows)
            if (other.exact == row.exact && other.grams != row.grams)
                return both("equal amounts: " + row.name, row.grams, other.grams);
    }
    if (share != 1) return both("100 %: " + title(sheet), 1, share);
    if (exact != sheet.total) return both("own bowl's mass: " + title(sheet), sheet.total, exact);
    if (foot != own.grams) return both("own foot: " + title(sheet), foot, own.grams);
    return "";
}

}  // namespace

std::string unbalanced(const SheetSeen& sheet) {
    Number materials = 0, before = sheet.total;
    for (const Row& row : sheet.materials) {
        materials += row.exact;
        if (row.exact > before) return both("largest first: " + row.name, before, row.exact);
        before = row.exact;
    }
    if (materials != sheet.total) return both("mass: " + title(sheet), sheet.total, materials);
    if (sheet.bowls.empty()) return "no bowl: " + title(sheet);
    for (std::size_t i = 0; i + 1 < sheet.bowls.size(); ++i)
        if (std::string wrong = blend_unbalanced(sheet, sheet.bowls[i]); !wrong.empty())
            return wrong;
    return own_unbalanced(sheet);
}

}  // namespace levigate::testing
