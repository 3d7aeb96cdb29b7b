#include "interpreter/rules/range.hpp"

#include <algorithm>
#include <map>

#include <fmt/format.h>

namespace levigate {
namespace {

const Listed* find(const Declaration& declaration, const Listed& wanted) {
    for (const Listed& one : declaration.list)
        if (one.name.sym == wanted.name.sym && one.colours() == wanted.colours()) return &one;
    return nullptr;
}

/// Widens what is known of an ingredient by what another shade holds of it.
void widen(Listed& all, const Listed& one) {
    if (one.least < all.least) all.least = one.least;
    if (one.most > all.most) all.most = one.most;
    all.group = std::min(all.group, one.group);  // one of free will is named only if all are
    for (const IngredientId what : one.from)
        if (std::find(all.from.begin(), all.from.end(), what) == all.from.end())
            all.from.push_back(what);
}

class Range {
public:
    Range(const Region& region, const Names& names, const std::vector<RangeMember>& members)
        : region_(region), names_(names), members_(members) {}

    RangeList operator()() {
        gather();
        if (!apart_.empty()) return {{}, apart_};
        order();
        if (!apart_.empty()) return {{}, apart_};
        add_colours();
        return {std::move(out_), {}};
    }

private:
    void gather();
    void order();
    void add_colours();
    bool before(const Declaration& in, const Listed& a, const Listed& b) const;
    const RangeMember* needs_before(const Listed& a, const Listed& b) const;
    std::vector<Listed>::iterator next_in_order();

    const Region& region_;
    const Names& names_;
    const std::vector<RangeMember>& members_;
    std::vector<Listed> others_, colours_;
    Declaration out_;
    std::string apart_;
};

/// All ingredients of all shades. One that a shade lacks is let pass only where it is named of
/// free will there: what must be named in one shade may be named in all.
void Range::gather() {
    for (const RangeMember& member : members_) {
        for (const std::uint32_t rule : member.declaration.rules)
            if (std::find(out_.rules.begin(), out_.rules.end(), rule) == out_.rules.end())
                out_.rules.push_back(rule);
        for (const Listed& one : member.declaration.list) {
            std::vector<Listed>& list = one.colours() ? colours_ : others_;
            const auto there = std::find_if(list.begin(), list.end(), [&](const Listed& other) {
                return other.name.sym == one.name.sym;
            });
            if (there == list.end())
                list.push_back(one);
            else
                widen(*there, one);
        }
    }
    for (Listed& one : others_)
        for (const RangeMember& member : members_) {
            if (find(member.declaration, one)) continue;
            one.least = Share();
            if (one.group == Listed::Group::named) continue;
            const auto holds =
                std::find_if(members_.begin(), members_.end(), [&](const RangeMember& other) {
                    return find(other.declaration, one);
                });
            apart_ =
                fmt::format("{} is in {} and not in {}", one.name.name, holds->title, member.title);
            return;
        }
}

/// True where one shade's own list must have `a` before `b`.
bool Range::before(const Declaration& in, const Listed& a, const Listed& b) const {
    const Listed *first = find(in, a), *second = find(in, b);
    return first && second && first->least > second->least && !in_minor_group(region_, first->most);
}

const RangeMember* Range::needs_before(const Listed& a, const Listed& b) const {
    for (const RangeMember& member : members_)
        if (before(member.declaration, a, b)) return &member;
    return nullptr;
}

/// Of those that nothing left must precede the one with the most; the end where there is none.
std::vector<Listed>::iterator Range::next_in_order() {
    auto best = others_.end();
    for (auto one = others_.begin(); one != others_.end(); ++one) {
        const bool free = std::none_of(others_.begin(), others_.end(), [&](const Listed& other) {
            return &other != &*one && needs_before(other, *one);
        });
        if (!free) continue;
        if (best == others_.end() || one->most > best->most ||
            (one->most == best->most &&
             names_.folded(one->name.sym) < names_.folded(best->name.sym)))
            best = one;
    }
    return best;
}

void Range::order() {
    while (!others_.empty()) {
        const auto next = next_in_order();
        if (next != others_.end()) {
            out_.list.push_back(std::move(*next));
            others_.erase(next);
            continue;
        }
        apart_ = "no one order is right for all of them";
        for (const Listed& a : others_)
            for (const Listed& b : others_) {
                const RangeMember *one = needs_before(a, b), *other = needs_before(b, a);
                if (!one || !other) continue;
                apart_ = fmt::format("{} stands before {} in {} and behind it in {}", a.name.name,
                                     b.name.name, one->title, other->title);
                return;
            }
        return;
    }
}

void Range::add_colours() {
    for (Listed& one : colours_) {
        const bool everywhere =
            std::all_of(members_.begin(), members_.end(),
                        [&](const RangeMember& member) { return find(member.declaration, one); });
        one.group = everywhere ? Listed::Group::colourant : Listed::Group::may_contain;
        if (!everywhere) one.least = Share();
    }
    std::sort(colours_.begin(), colours_.end(), [&](const Listed& a, const Listed& b) {
        if (a.group != b.group) return a.group < b.group;
        return names_.folded(a.name.sym) < names_.folded(b.name.sym);
    });
    for (Listed& one : colours_) out_.list.push_back(std::move(one));
}

}  // namespace

RangeList list_of_range(const Region& region, const Names& names,
                        const std::vector<RangeMember>& members) {
    RangeList out = Range(region, names, members)();
    for (const RangeMember& member : members)
        for (const std::string& words : member.declaration.undecided)
            if (std::find(out.declaration.undecided.begin(), out.declaration.undecided.end(),
                          words) == out.declaration.undecided.end())
                out.declaration.undecided.push_back(words);
    return out;
}

std::vector<std::vector<std::size_t>>
alike_but_for_colour(const std::vector<RangeMember>& members) {
    std::vector<std::vector<std::size_t>> out;
    std::map<std::vector<Sym>, std::size_t> seats;
    for (std::size_t i = 0; i < members.size(); ++i) {
        std::vector<Sym> held;
        for (const Listed& one : members[i].declaration.list)
            if (!one.colours() && one.group != Listed::Group::named) held.push_back(one.name.sym);
        std::sort(held.begin(), held.end());
        const auto [seat, fresh] = seats.emplace(std::move(held), out.size());
        if (fresh) out.emplace_back();
        out[seat->second].push_back(i);
    }
    return out;
}

}  // namespace levigate
