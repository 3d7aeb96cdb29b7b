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

EditKey key_of(const Edit& edit) {
    const bool role = edit.kind == Edit::Kind::scale_role;
    return {edit.kind, role ? none : edit.line.what, role ? edit.role : std::string()};
}

std::vector<Id> names_of(const Book& book, const Edit& edit, const std::vector<Plain>& lines) {
    if (edit.kind != Edit::Kind::scale_role) return {edit.line.what};
    std::vector<Id> names;
    for (const Plain& line : lines)
        if (book.things[line.what].role == edit.role) names.push_back(line.what);
    return names;
}

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
        made.steps = body.steps;
        return made;
    }
    // What it is like is read again with the holes as they are filled here.
    return edited(lines(book_.things[body.like].body, values), body, given);
}

Plains Reckoner::edited(Plains plains, const Body& body, const Values& given) {
    const Values values = values_of(book_, body, given);
    std::vector<Id> stand;
    std::set<EditKey> done;
    for (const Edit& edit : body.edits) {
        // An edit that was refused may be missed by the next ones, whatever they are.
        if (!plains.refused.empty())
            plains.also.insert(
                {"edit-missing", "edit-present", "swap-present", "scale-rest", "role-empty"});
        std::string why = edit_refused(edit, plains.lines);
        if (!done.insert(key_of(edit)).second) {
            if (!why.empty()) plains.also.insert(why);
            why = "edit-twice";
        }
        if (why.empty() && plains.refused.empty())
            apply(edit, values, plains, stand);
        else if (plains.refused.empty())
            plains.refused = why;
        if (!why.empty()) plains.also.insert(why);
    }
    plains.steps.insert(plains.steps.end(), body.steps.begin(), body.steps.end());
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

/// What may not be edited so.
std::string Reckoner::edit_refused(const Edit& edit, const std::vector<Plain>& lines) {
    const auto there = [&](Id what) {
        return std::any_of(lines.begin(), lines.end(),
                           [what](const Plain& line) { return line.what == what; });
    };
    if (edit.kind == Edit::Kind::scale_role)
        return names_of(book_, edit, lines).empty() ? "role-empty" : "";
    if (edit.kind == Edit::Kind::add) return there(edit.line.what) ? "edit-present" : "";
    if (!there(edit.line.what)) return "edit-missing";
    return edit.kind == Edit::Kind::swap && there(edit.other) ? "swap-present" : "";
}

void Reckoner::apply(const Edit& edit, const Values& values, Plains& plains,
                     std::vector<Id>& stand) {
    std::vector<Plain>& lines = plains.lines;
    auto line = find(lines, edit.line.what);
    if (edit.kind == Edit::Kind::add) {
        lines.push_back(plain(edit.line, values, plains.refused));
        stand.push_back(edit.line.what);
    } else if (edit.kind == Edit::Kind::set) {
        *line = plain(edit.line, values, plains.refused);
        stand.push_back(line->what);
    } else if (edit.kind == Edit::Kind::without) {
        lines.erase(line);
        stand.erase(std::remove(stand.begin(), stand.end(), edit.line.what), stand.end());
    } else if (edit.kind == Edit::Kind::swap) {
        // It stays the same line: what stands in a rebalance stands under its new name.
        std::replace(stand.begin(), stand.end(), edit.line.what, edit.other);
        if (line->spooned) respoon(*line, edit.other, plains.refused);
        line->what = edit.other;
        for (Step& step : plains.steps)
            if (step.thing == edit.line.what) step.thing = edit.other;
        for (Plain& follows : lines)
            if (follows.ref.kind == Ref::Kind::thing && follows.ref.thing == edit.line.what)
                follows.ref.thing = edit.other;
    } else {
        const std::vector<Id> names = names_of(book_, edit, lines);
        std::vector<bool> hit;
        for (const Plain& one : lines)
            hit.push_back(std::find(names.begin(), names.end(), one.what) != names.end());
        stand.insert(stand.end(), names.begin(), names.end());
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
    plains.also = made.also;
    if (!made.refused.empty()) return;
    for (std::size_t i = 0; i < plains.lines.size(); ++i) {
        Plain& line = plains.lines[i];
        if (weighed.lines[i].kind != Kind::parts) continue;  // what stands stays as it is written
        line.number = made.parts[i].second;
        line.spooned = false;
    }
}

}  // namespace levigate::testing
