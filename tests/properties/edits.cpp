// The edits of `like` and of variants, and `rebalance`, on lines whose holes are filled.

#include "tests/properties/reckon.hpp"

#include <algorithm>

namespace levigate::testing {

using Kind = Amount::Kind;

namespace {

std::vector<Plain>::iterator find(std::vector<Plain>& lines, Id what) {
    return std::find_if(lines.begin(), lines.end(),
                        [what](const Plain& line) { return line.what == what; });
}

}  // namespace

Values values_of(const Book& book, const Body& body, const Values& given) {
    Values values = body.like == none ? Values() : values_of(book, book.things[body.like].body);
    for (const Let& let : body.lets) values[let.hole] = let;
    for (const auto& [hole, let] : given) values[hole] = let;
    return values;
}

Plain Reckoner::plain(const Line& line, const Values& values, std::string& refused) {
    Plain made{line.what, line.amount.kind, line.amount.number, line.amount.ref,
               line.amount.spooned};
    auto value = [&](const std::string& hole) -> const Let* {
        auto found = values.find(hole);
        if (found == values.end()) refused = "hole-unknown";
        return found == values.end() ? nullptr : &found->second;
    };
    if (!line.name_hole.empty())
        if (const Let* let = value(line.name_hole)) made.what = let->thing;
    if (!line.amount.hole.empty())
        if (const Let* let = value(line.amount.hole))
            made.number = line.amount.number * let->value + line.amount.more;
    if (line.amount.spooned) {
        if (const auto weight = density(made.what, true))
            made.number *= *weight;
        else
            refused = "density-missing";
    }
    return made;
}

Plains Reckoner::lines(const Body& body, const Values& given) {
    const Values values = values_of(book_, body, given);
    if (body.like == none) {
        Plains made;
        for (const Line& line : body.lines) {
            made.lines.push_back(plain(line, values, made.refused));
            const Id what = made.lines.back().what;
            if (find(made.lines, what) != made.lines.end() - 1) made.refused = "name-twice";
        }
        return made;
    }
    // What it is like is read again with the holes as they are filled here.
    return edited(lines(book_.things[body.like].body, values), body, given);
}

Plains Reckoner::edited(Plains plains, const Body& body, const Values& given) {
    const Values values = values_of(book_, body, given);
    std::vector<Id> stand;
    for (const Edit& edit : body.edits)
        if (plains.refused.empty()) apply(edit, values, plains, stand);
    if (body.rebalance && plains.refused.empty()) rebalance(plains, stand);
    return plains;
}

/// Two spoons of one thing become two spoons of another: the amount stands as it is written.
void Reckoner::respoon(Plain& line, Id other, std::string& refused) {
    const auto density_now = density(other, true);
    if (density_now)
        line.number *= *density_now / density(line.what, true).value();
    else
        refused = "density-missing";
}

void Reckoner::apply(const Edit& edit, const Values& values, Plains& plains,
                     std::vector<Id>& stand) {
    std::vector<Plain>& lines = plains.lines;
    if (edit.kind == Edit::Kind::scale_role) {
        std::vector<bool> hit;
        for (const Plain& line : lines) {
            hit.push_back(book_.things[line.what].role == edit.role);
            if (hit.back()) stand.push_back(line.what);
        }
        if (std::find(hit.begin(), hit.end(), true) == hit.end()) plains.refused = "edit-missing";
        return scale(lines, hit, edit.factor, plains.refused);
    }
    if (edit.kind == Edit::Kind::add) {
        const Plain added = plain(edit.line, values, plains.refused);
        if (find(lines, added.what) != lines.end()) plains.refused = "edit-present";
        lines.push_back(added);
        return stand.push_back(added.what);
    }
    auto line = find(lines, edit.line.what);
    if (line == lines.end()) {
        plains.refused = "edit-missing";
    } else if (edit.kind == Edit::Kind::set) {
        *line = plain(edit.line, values, plains.refused);
        stand.push_back(line->what);
    } else if (edit.kind == Edit::Kind::without) {
        lines.erase(line);
    } else if (edit.kind == Edit::Kind::swap) {
        if (find(lines, edit.other) != lines.end()) plains.refused = "swap-present";
        if (line->spooned) respoon(*line, edit.other, plains.refused);
        line->what = edit.other;
        for (Plain& follows : lines)
            if (follows.ref.kind == Ref::Kind::thing && follows.ref.thing == edit.line.what)
                follows.ref.thing = edit.other;
    } else {
        std::vector<bool> hit(lines.size(), false);
        hit[static_cast<std::size_t>(line - lines.begin())] = true;
        stand.push_back(edit.line.what);
        scale(lines, hit, edit.factor, plains.refused);
    }
}

/// A relative line keeps its factor where all that it looks at moves with the scaled lines: is one
/// of them, stands inside one, or is as much as such a thing. Sought until nothing new is found.
void Reckoner::scale(std::vector<Plain>& lines, const std::vector<bool>& hit, const Number& factor,
                     std::string& refused) {
    std::vector<Id> names;
    for (const Plain& line : lines) names.push_back(line.what);
    std::vector<bool> moves = hit;
    const auto follows = [&](const Plain& line) {
        const std::vector<Number> parts = of_ref(names, line.ref);
        bool any = false, all = true;
        for (std::size_t j = 0; j < lines.size(); ++j) {
            if (parts[j].is_zero()) continue;
            any = true;
            all = all && moves[j];
        }
        return any && all;
    };
    for (std::size_t round = 0; round < lines.size(); ++round)
        for (std::size_t i = 0; i < lines.size(); ++i)
            if (lines[i].kind == Kind::as_much && follows(lines[i])) moves[i] = true;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        if (!hit[i]) continue;
        if (lines[i].kind == Kind::rest) refused = "scale-rest";
        if (lines[i].kind == Kind::enough) refused = "doubtful";
        if (lines[i].kind != Kind::as_much || !follows(lines[i])) lines[i].number *= factor;
    }
}

void Reckoner::rebalance(Plains& plains, const std::vector<Id>& stand) {
    Plains weighed = plains;
    for (Plain& line : weighed.lines) {
        if (line.kind == Kind::as_much) continue;
        if (line.kind != Kind::share) {
            plains.refused = "rebalance-misplaced";
            return;
        }
        if (std::find(stand.begin(), stand.end(), line.what) == stand.end())
            line.kind = Kind::parts;
    }
    const Mixture made = solve(weighed);
    plains.refused = made.refused;
    if (!made.refused.empty()) return;
    for (std::size_t i = 0; i < plains.lines.size(); ++i) {
        Plain& line = plains.lines[i];
        if (weighed.lines[i].kind != Kind::parts) continue;  // what stands stays as it is written
        line.number = made.parts[i].second;
        line.spooned = false;
    }
}

}  // namespace levigate::testing
