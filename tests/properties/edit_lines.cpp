// Edits that fit the lines on which they act: for `like` and for variants.

#include <algorithm>

#include "tests/properties/generate.hpp"
#include "tests/properties/write.hpp"

namespace levigate::testing {

using Kind = Amount::Kind;

namespace {

struct Editor {
    Maker& maker;
    const std::vector<Plain>& lines;
    const std::set<Id>& left_alone;
    const std::set<EditKey>& done;  // never the same edit twice on one name

    bool has(Kind kind) const {
        return std::any_of(lines.begin(), lines.end(),
                           [kind](const Plain& line) { return line.kind == kind; });
    }
    bool holds(Id what) const {
        return std::any_of(lines.begin(), lines.end(),
                           [what](const Plain& line) { return line.what == what; });
    }
    bool referred(Id what) const {
        return std::any_of(lines.begin(), lines.end(), [what](const Plain& line) {
            return line.ref.kind == Ref::Kind::thing && line.ref.thing == what;
        });
    }
    bool did(const Edit& edit) const { return done.count(key_of(edit)) != 0; }
    bool added(Id what) const { return done.count({Edit::Kind::add, what, ""}) != 0; }
    Id newcomer() const {
        for (Id what : maker.pool())
            if (!holds(what) && left_alone.count(what) == 0 && !added(what)) return what;
        return none;
    }
    /// An amount of a kind that the formula's other lines go with.
    Amount amount(Id what, Kind kind) const {
        if (kind == Kind::parts) return maker.parts();
        if (kind == Kind::grams) return maker.grams(what);
        return maker.share(what, 80);
    }

    bool set(const Plain& line, Edit& edit) const {
        if (line.kind != Kind::share && line.kind != Kind::parts && line.kind != Kind::grams)
            return false;
        edit.kind = Edit::Kind::set;
        edit.line.amount = amount(line.what, line.kind);
        return true;
    }
    bool add(Edit& edit) const {
        edit.kind = Edit::Kind::add;
        edit.line.what = newcomer();
        if (edit.line.what == none) return false;
        const Plain& seen = maker.random.pick(lines);
        if (maker.random.chance(30) && !has(Kind::enough)) {
            Ref ref{Ref::Kind::thing, seen.what, ""};
            const std::string& role = maker.book.things[seen.what].role;
            if (maker.random.chance(50) && !role.empty()) ref = {Ref::Kind::role, none, role};
            edit.line.amount = maker.as_much(ref);
            return true;
        }
        const bool grams = has(Kind::grams) && (has(Kind::enough) || maker.random.chance(50));
        const bool parts = has(Kind::parts) && maker.random.chance(50);
        edit.line.amount = amount(edit.line.what, grams   ? Kind::grams
                                                  : parts ? Kind::parts
                                                          : Kind::share);
        return true;
    }
    bool without(const Plain& line, Edit& edit) const {
        edit.kind = Edit::Kind::without;
        return lines.size() > 2 && line.kind != Kind::rest && line.kind != Kind::enough &&
               !referred(line.what);
    }
    bool swap(const Plain& line, Edit& edit) const {
        edit.kind = Edit::Kind::swap;
        edit.other = newcomer();
        return edit.other != none && line.kind != Kind::enough;
    }
    bool scale(const Plain& line, Edit& edit) const {
        static const std::vector<std::pair<Number, std::string>> factors{
            {Number(1, 2), "1/2"}, {Number(1, 2), "50 %"}, {2, "2"},
            {Number(3, 2), "1.5"}, {Number(4, 5), "80 %"}, {Number(2, 3), "2/3"}};
        const auto& [factor, text] = maker.random.pick(factors);
        edit.factor = factor;
        edit.text = text;
        edit.kind = Edit::Kind::scale;
        const std::string& role = maker.book.things[line.what].role;
        if (maker.random.chance(40) && !role.empty()) {
            edit.kind = Edit::Kind::scale_role;
            edit.role = role;
            return std::none_of(lines.begin(), lines.end(), [&](const Plain& other) {
                return maker.book.things[other.what].role == role &&
                       (other.kind == Kind::rest || left_alone.count(other.what) != 0);
            });
        }
        return line.kind != Kind::rest && line.kind != Kind::enough;
    }
    bool any(Edit& edit) const {
        const Plain& line = maker.random.pick(lines);
        edit.line.what = line.what;
        const int which = maker.random.between(0, 9);
        if (which >= 8) return add(edit);
        if (left_alone.count(line.what) != 0) return false;
        if (which < 2) return set(line, edit) && !did(edit);
        if (which < 4) return without(line, edit) && !did(edit);
        if (which < 6) return swap(line, edit) && !did(edit);
        return scale(line, edit) && !did(edit);
    }
};

bool only_shares(const std::vector<Plain>& lines) {
    return std::all_of(lines.begin(), lines.end(), [](const Plain& line) {
        return line.kind == Kind::share || line.kind == Kind::as_much;
    });
}

}  // namespace

/// Up to `most` edits behind those that the body has, in any order, also several of one line and of
/// what came in its place. What is refused is tried in another way; what
/// comes out may still not add up (the caller asks).
Body Maker::edits(const Plains& start, Body body, int most) {
    std::set<Id> left_alone;
    std::set<EditKey> done;
    // A name that comes out of a hole is left alone: it may be another one in another shade.
    for (const Let& let : body.lets)
        if (let.thing != none) left_alone.insert(let.thing);
    for (const auto& [hole, let] : values_of(book, body))
        if (let.thing != none) left_alone.insert(let.thing);
    Plains now = start;
    for (int tries = 0, made = 0; tries < 14 && made < most; ++tries) {
        Edit edit;
        const Editor editor{*this, now.lines, left_alone, done};
        if (!editor.any(edit)) continue;
        Body one;
        one.edits = {edit};
        const Plains changed = reckoner.edited(now, one);
        if (!changed.refused.empty()) continue;
        const std::string why = reckoner.solve(changed).refused;
        if (!why.empty() && why != "total-off" && why != "total-over") continue;
        done.insert(key_of(edit));
        now = changed;
        body.edits.push_back(edit);
        ++made;
    }
    if (!body.edits.empty() && only_shares(now.lines) &&
        (!reckoner.solve(now).refused.empty() || random.chance(30)))
        body.rebalance = true;
    return body;
}

}  // namespace levigate::testing
