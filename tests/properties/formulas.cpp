// Formulas of every kind: shares that close by themselves, by a rest or by weights; parts; grams;
// lines that follow others; mixes that are let down.

#include <algorithm>

#include "tests/properties/generate.hpp"
#include "tests/properties/write.hpp"

namespace levigate::testing {

using Kind = Amount::Kind;

bool rebalances(const Book& book, const Body& body) {
    return body.rebalance || (body.like != none && rebalances(book, book.things[body.like].body));
}

std::vector<Id> Maker::pool() {
    std::vector<Id> all;
    for (Id id = 0; id < static_cast<Id>(book.things.size()); ++id) {
        const Thing& thing = book.things[id];
        if (thing.refused || thing.kind == Thing::Kind::family) continue;
        if (thing.kind == Thing::Kind::shade && !random.chance(20)) continue;
        if (thing.library && !random.chance(30)) continue;
        all.push_back(id);
    }
    random.shuffle(all);
    return all;
}

namespace {

enum class Style { rest, shares, shares_and_parts, shares_and_grams, parts, grams, enough };

Line line(Id what, Amount amount) { return {what, std::move(amount), ""}; }

Amount plain_amount(Kind kind) {
    Amount amount;
    amount.kind = kind;
    return amount;
}

bool holds(const std::vector<Line>& lines, Id what) {
    return std::any_of(lines.begin(), lines.end(),
                       [what](const Line& one) { return one.what == what; });
}

void fill(Maker& maker, Style style, const std::vector<Id>& names, Body& body) {
    const int count = static_cast<int>(names.size());
    for (int i = 0; i < count; ++i) {
        const Id what = names[static_cast<std::size_t>(i)];
        const bool last = i == count - 1;
        const bool share =
            style == Style::rest || style == Style::shares ||
            ((style == Style::shares_and_parts || style == Style::shares_and_grams) &&
             i < count / 2);
        if (share && !last) {
            const bool hole =
                !body.lets.empty() && body.lets[0].thing == none && maker.random.chance(30);
            body.lines.push_back(
                line(what, hole ? maker.hole_share(body.lets[0]) : maker.share(what, 800 / count)));
        } else if (style == Style::rest || style == Style::shares) {
            body.lines.push_back(line(what, plain_amount(Kind::rest)));
        } else if (style == Style::parts || style == Style::shares_and_parts) {
            body.lines.push_back(line(what, maker.parts()));
        } else {
            body.lines.push_back(line(what, maker.grams(what)));
        }
    }
}

/// Writes out what the rest comes to, so that the shares close by themselves.
bool close(Maker& maker, Body& body) {
    const Mixture made = maker.reckoner.solve(maker.reckoner.lines(body));
    if (!made.refused.empty()) return false;
    for (std::size_t i = 0; i < body.lines.size(); ++i) {
        Amount& amount = body.lines[i].amount;
        if (amount.kind != Kind::rest) continue;
        amount.kind = Kind::share;
        amount.number = made.parts[i].second;
        amount.text = share_text(amount.number);
    }
    return true;
}

/// A weaker thing lets down what the weights hold of a role, or of a name.
void let_down(Maker& maker, const std::vector<Id>& pool, Body& body) {
    const Mixture strong = maker.reckoner.solve(maker.reckoner.lines(body));
    if (!strong.refused.empty()) return;
    const Id member = maker.random.pick(body.lines).what;
    Ref ref;
    if (maker.random.chance(50) || maker.book.things[member].role.empty())
        ref.thing = member;
    else
        ref = {Ref::Kind::role, none, maker.book.things[member].role};
    auto inside = [&](Id what) {
        return ref.thing == none ? maker.reckoner.role_in(what, ref.role)
                                 : maker.reckoner.content_in(what, ref.thing);
    };
    Number now = 0;
    for (const auto& [what, share] : strong.parts) now += share * inside(what);
    for (Id what : pool) {
        if (holds(body.lines, what) || inside(what) >= now) continue;
        const Number span = now - inside(what);
        Number due = inside(what) + span * maker.random.between(2, 9) / 10;
        const Number coarse =
            Number(numerator(Number(due * 1000)) / denominator(Number(due * 1000)), 1000);
        if (coarse > inside(what)) due = coarse;
        Amount amount = plain_amount(Kind::enough);
        amount.ref = ref;
        amount.number = due;
        amount.text = denominator(Number(due * 100000)) == 1 ? number_text(due * 100) + " %"
                                                             : share_text(due);
        body.lines.push_back(line(what, amount));
        return;
    }
}

void add_lets(Maker& maker, Body& body) {
    if (maker.random.chance(60)) body.lets.push_back(maker.percentage("depth", 12));
}

/// One line's name comes out of a hole.
void hide_name(Maker& maker, Body& body) {
    for (Line& one : body.lines) {
        const bool seen = std::any_of(body.lines.begin(), body.lines.end(), [&](const Line& other) {
            return other.amount.ref.thing == one.what;
        });
        if (seen || one.amount.spooned || !maker.random.chance(30)) continue;
        one.name_hole = "tone";
        body.lets.push_back({"tone", 0, one.what, ""});
        return;
    }
}

}  // namespace

bool Maker::add_relative(Body& body, const std::vector<Id>& from) {
    for (Id what : from) {
        if (holds(body.lines, what)) continue;
        const Line& seen = random.pick(body.lines);
        Ref ref{Ref::Kind::thing, seen.what, ""};
        const std::string& role = book.things[seen.what].role;
        if (random.chance(50) && !role.empty()) ref = {Ref::Kind::role, none, role};
        body.lines.push_back(line(what, as_much(ref)));
        if (reckoner.solve(reckoner.lines(body)).refused.empty()) return true;
        body.lines.pop_back();
        return false;
    }
    return false;
}

Body Maker::formula(bool holes, bool simple) {
    for (int tries = 0; tries < 30; ++tries) {
        Body body;
        const std::vector<Id> all = pool();
        const auto style = static_cast<Style>(random.between(0, simple ? 5 : 6));
        if (holes && style <= Style::shares) add_lets(*this, body);
        const int most = std::min<int>(static_cast<int>(all.size()), simple ? 4 : 6);
        const int count = random.between(std::min(most, 2), most);
        fill(*this, style, std::vector<Id>(all.begin(), all.begin() + count), body);
        if (style == Style::enough) let_down(*this, all, body);
        for (int i = random.between(0, 2); i > 0 && style != Style::enough; --i)
            add_relative(body, all);
        if (style == Style::shares && !close(*this, body)) continue;
        if (holes && random.chance(25)) hide_name(*this, body);
        if (reckoner.solve(reckoner.lines(body)).refused.empty()) return body;
    }
    Body body;
    Amount amount = plain_amount(Kind::share);
    amount.text = "100 %";
    body.lines.push_back(line(1, amount));
    return body;
}

}  // namespace levigate::testing
