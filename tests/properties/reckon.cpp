#include "tests/properties/reckon.hpp"

#include <algorithm>

namespace levigate::testing {

using Kind = Amount::Kind;

std::optional<std::vector<Number>> eliminate(std::vector<std::vector<Number>> rows) {
    const std::size_t unknowns = rows.empty() ? 0 : rows[0].size() - 1;
    std::size_t done = 0;
    for (std::size_t column = 0; column < unknowns; ++column) {
        std::size_t pivot = done;
        while (pivot < rows.size() && rows[pivot][column].is_zero()) ++pivot;
        if (pivot == rows.size()) return std::nullopt;
        std::swap(rows[pivot], rows[done]);
        for (std::size_t i = 0; i < rows.size(); ++i) {
            if (i == done || rows[i][column].is_zero()) continue;
            const Number times = rows[i][column] / rows[done][column];
            for (std::size_t j = column; j <= unknowns; ++j)
                if (!rows[done][j].is_zero()) rows[i][j] -= times * rows[done][j];
        }
        ++done;
    }
    for (std::size_t i = done; i < rows.size(); ++i)
        if (!rows[i][unknowns].is_zero()) return std::nullopt;
    std::vector<Number> answer(unknowns);
    for (std::size_t i = 0; i < unknowns; ++i) answer[i] = rows[i][unknowns] / rows[i][i];
    return answer;
}

namespace {

bool is_weight(Kind kind) { return kind == Kind::parts || kind == Kind::grams; }

bool has(const std::vector<Plain>& lines, Kind kind) {
    return std::any_of(lines.begin(), lines.end(),
                       [kind](const Plain& line) { return line.kind == kind; });
}

}  // namespace

/// How much of each thing is what REF means.
std::vector<Number> Reckoner::of_ref(const std::vector<Id>& lines, const Ref& ref) {
    std::vector<Number> parts;
    for (Id what : lines) {
        if (ref.kind == Ref::Kind::role)
            parts.push_back(role_in(what, ref.role));
        else
            parts.push_back(what == ref.thing ? 1 : 0);
    }
    return parts;
}

/// Unknowns: the share of every line, then u, what one weight comes to (or the rest).
std::vector<std::vector<Number>> Reckoner::equations(const std::vector<Plain>& lines) {
    const std::size_t n = lines.size();
    std::vector<Id> names;
    for (const Plain& line : lines) names.push_back(line.what);
    std::vector<std::vector<Number>> rows;
    std::vector<Number> whole(n + 2, Number(1));
    whole[n] = 0;
    rows.push_back(whole);
    bool unknown = false;
    for (std::size_t i = 0; i < n; ++i) {
        const Plain& line = lines[i];
        std::vector<Number> row(n + 2, Number(0));
        if (line.kind == Kind::enough) {
            for (std::size_t j = 0; j < n; ++j)
                row[j] = line.ref.kind == Ref::Kind::role ? role_in(names[j], line.ref.role)
                                                          : content_in(names[j], line.ref.thing);
            row[n + 1] = line.number;
        } else {
            row[i] = 1;
            if (line.kind == Kind::share) row[n + 1] = line.number;
            if (is_weight(line.kind)) row[n] = -line.number;
            if (line.kind == Kind::rest) row[n] = -1;
            unknown = unknown || is_weight(line.kind) || line.kind == Kind::rest;
        }
        if (line.kind == Kind::as_much) {
            const std::vector<Number> parts = of_ref(names, line.ref);
            for (std::size_t j = 0; j < n; ++j) row[j] -= line.number * parts[j];
        }
        rows.push_back(row);
    }
    if (!unknown) {  // u is no part of it
        std::vector<Number> row(n + 2, Number(0));
        row[n] = 1;
        rows.push_back(row);
    }
    return rows;
}

/// Amounts that don't stand together.
std::string Reckoner::mismatched(const std::vector<Plain>& lines) {
    const bool parts = has(lines, Kind::parts), grams = has(lines, Kind::grams);
    if (parts && grams) return "parts-beside-grams";
    if (has(lines, Kind::rest) && (parts || grams)) return "rest-beside-weights";
    if (has(lines, Kind::enough) && (has(lines, Kind::share) || has(lines, Kind::rest)))
        return "enough-misplaced";
    return "";
}

/// Lines that are as much as something that isn't there, or as each other: each for itself.
Mixture Reckoner::unsound(const std::vector<Plain>& lines) {
    Mixture wrong;
    std::vector<Id> names;
    for (const Plain& line : lines) names.push_back(line.what);
    for (std::size_t i = 0; i < lines.size(); ++i) {
        if (lines[i].kind != Kind::as_much && lines[i].kind != Kind::enough) continue;
        bool any = false;
        const std::vector<Number> parts = of_ref(names, lines[i].ref);
        for (std::size_t j = 0; j < lines.size(); ++j) {
            const bool seen = lines[i].kind == Kind::enough && lines[i].ref.thing != none
                                  ? !content_in(names[j], lines[i].ref.thing).is_zero()
                                  : !parts[j].is_zero();
            any = any || seen;
        }
        if (!any)
            wrong.also.insert(lines[i].ref.thing == none ? "role-empty" : "reference-unknown");
    }
    if (is_loop(lines)) wrong.also.insert("relative-loop");
    if (!wrong.also.empty()) wrong.refused = *wrong.also.begin();
    return wrong;
}

bool Reckoner::is_loop(const std::vector<Plain>& lines) {
    std::vector<Id> names;
    for (const Plain& line : lines) names.push_back(line.what);
    std::vector<std::vector<std::size_t>> looks(lines.size());
    for (std::size_t i = 0; i < lines.size(); ++i) {
        if (lines[i].kind != Kind::as_much) continue;
        const std::vector<Number> parts = of_ref(names, lines[i].ref);
        for (std::size_t j = 0; j < lines.size(); ++j)
            if (!parts[j].is_zero()) looks[i].push_back(j);
    }
    // As many rounds as there are lines: one that still looks at something then is in a loop.
    for (std::size_t round = 0; round < lines.size(); ++round)
        for (std::size_t i = 0; i < lines.size(); ++i)
            looks[i].erase(std::remove_if(looks[i].begin(), looks[i].end(),
                                          [&](std::size_t j) { return looks[j].empty(); }),
                           looks[i].end());
    return std::any_of(looks.begin(), looks.end(), [](const auto& seen) { return !seen.empty(); });
}

Mixture Reckoner::solve(const Plains& plains) {
    Mixture mixture;
    if (!plains.refused.empty()) return {{}, plains.refused, plains.also};
    const std::vector<Plain>& lines = plains.lines;
    if (lines.empty()) return {{}, "formula-empty"};
    for (const Plain& line : lines)
        if (is_mix(book_.things[line.what]) && !this->mixture(line.what).refused.empty())
            return {{}, "inside"};
    if (const std::string why = mismatched(lines); !why.empty()) return {{}, why};
    if (Mixture wrong = unsound(lines); !wrong.refused.empty()) return wrong;
    const bool enough = has(lines, Kind::enough);
    auto answer = eliminate(equations(lines));
    const bool weights = has(lines, Kind::parts) || has(lines, Kind::grams);
    if (!answer) {
        if (enough) return {{}, "enough-impossible"};
        return {{}, weights || has(lines, Kind::rest) ? "total-over" : "total-off"};
    }
    const Number& u = answer->back();
    if (weights && u <= 0) return {{}, enough ? "enough-impossible" : "total-over"};
    if (has(lines, Kind::rest) && u < 0) return {{}, "total-over"};
    for (std::size_t i = 0; i < lines.size(); ++i) {
        if ((*answer)[i] < 0) return {{}, enough ? "enough-impossible" : "amount-negative"};
        mixture.parts.push_back({lines[i].what, (*answer)[i]});
    }
    return mixture;
}

namespace {

/// An addition that is as much as another one of these, and so on, and comes back to itself.
bool in_a_loop(const Finish& finish, const std::vector<Id>& held) {
    for (const Line& first : finish.additions) {
        const Line* line = &first;
        for (std::size_t steps = 0; line != nullptr; ++steps) {
            if (steps > finish.additions.size()) return true;
            const Id seen = line->amount.ref.thing;
            const bool bulk = std::find(held.begin(), held.end(), seen) != held.end();
            auto next = std::find_if(finish.additions.begin(), finish.additions.end(),
                                     [seen](const Line& other) { return other.what == seen; });
            line = bulk || next == finish.additions.end() ? nullptr : &*next;
        }
    }
    return false;
}

}  // namespace

Mixture Reckoner::finished(const Mixture& bulk, const Finish& finish) {
    const std::size_t n = finish.additions.size();
    std::vector<Id> held;
    for (const auto& [what, share] : bulk.parts) held.push_back(what);
    std::set<std::string> wrong;  // which of them is told first is left to the tool
    if (in_a_loop(finish, held)) wrong.insert("relative-loop");
    std::vector<std::vector<Number>> rows;
    rows.push_back(std::vector<Number>(n + 2, Number(1)));  // all additions and the bulk: 1
    for (std::size_t i = 0; i < n; ++i) {
        const Amount& amount = finish.additions[i].amount;
        std::vector<Number> row(n + 2, Number(0));
        row[i] = 1;
        if (amount.kind == Kind::share) {
            row[n + 1] = amount.spooned
                             ? amount.number * density(finish.additions[i].what, true).value()
                             : amount.number;
        } else if (amount.ref.kind == Ref::Kind::bulk) {
            row[n] = -amount.number;
        } else {
            const std::vector<Number> parts = of_ref(held, amount.ref);
            Number sum = 0;
            for (std::size_t k = 0; k < parts.size(); ++k) sum += parts[k] * bulk.parts[k].second;
            if (sum.is_zero() && amount.ref.kind == Ref::Kind::role) wrong.insert("role-empty");
            row[n] = -amount.number * sum;
            bool seen = std::find(held.begin(), held.end(), amount.ref.thing) != held.end();
            for (std::size_t j = 0; j < n && !seen && amount.ref.thing != none; ++j) {
                seen = finish.additions[j].what == amount.ref.thing;
                if (seen) row[j] -= amount.number;
            }
            if (!seen && amount.ref.thing != none) wrong.insert("reference-unknown");
        }
        rows.push_back(row);
    }
    if (!wrong.empty()) return {{}, *wrong.begin(), wrong};
    auto answer = eliminate(std::move(rows));
    if (!answer || (*answer)[n] <= 0) return {{}, "finish-over"};
    Mixture out;
    for (const auto& [what, share] : bulk.parts) out.parts.push_back({what, share * (*answer)[n]});
    for (std::size_t i = 0; i < n; ++i) {
        const Id what = finish.additions[i].what;
        out.added.push_back({what, (*answer)[i]});
        auto line = std::find_if(out.parts.begin(), out.parts.end(),
                                 [what](const auto& part) { return part.first == what; });
        if (line != out.parts.end())
            line->second += (*answer)[i];
        else
            out.parts.push_back({what, (*answer)[i]});
    }
    // Alone they keep the order that they have on the finished sheet.
    const auto place = [&](const auto& one) {
        return std::find_if(out.parts.begin(), out.parts.end(),
                            [&](const auto& part) { return part.first == one.first; });
    };
    std::sort(out.added.begin(), out.added.end(),
              [&](const auto& a, const auto& b) { return place(a) < place(b); });
    return out;
}

Mixture Reckoner::between(const Mixture& first, const Mixture& last, int step, int steps) {
    const Number way = Number(step - 1) / (steps - 1);
    Mixture out;
    for (const auto& [what, share] : first.parts) out.parts.push_back({what, share * (1 - way)});
    for (const auto& [what, share] : last.parts) {
        auto line = std::find_if(out.parts.begin(), out.parts.end(),
                                 [w = what](const auto& part) { return part.first == w; });
        if (line != out.parts.end())
            line->second += share * way;
        else
            out.parts.push_back({what, share * way});
    }
    // An end of the family is made like the shade there: what comes to nothing isn't a line of it.
    out.parts.erase(std::remove_if(out.parts.begin(), out.parts.end(),
                                   [](const auto& part) { return part.second.is_zero(); }),
                    out.parts.end());
    return out;
}

const Mixture& Reckoner::mixture(Id thing) {
    auto known = mixtures_.find(thing);
    if (known != mixtures_.end()) return known->second;
    Mixture made = solve(lines(book_.things[thing].body));
    return mixtures_.emplace(thing, std::move(made)).first->second;
}

Number Reckoner::role_in(Id thing, const std::string& role) {
    if (book_.things[thing].role == role) return 1;
    if (!is_mix(book_.things[thing])) return 0;
    Number sum = 0;
    for (const auto& [what, share] : mixture(thing).parts) sum += share * role_in(what, role);
    return sum;
}

Number Reckoner::content_in(Id thing, Id wanted) {
    if (thing == wanted) return 1;
    if (!is_mix(book_.things[thing])) return 0;
    Number sum = 0;
    for (const auto& [what, share] : mixture(thing).parts) sum += share * content_in(what, wanted);
    return sum;
}

std::optional<Number> Reckoner::density(const Mixture& mixture, bool spooned) {
    Number volume = 0;
    for (const auto& [what, share] : mixture.parts) {
        if (share.is_zero()) continue;
        const auto part = density(what, spooned);
        if (!part) return std::nullopt;
        volume += share / *part;
    }
    if (volume.is_zero()) return std::nullopt;
    return 1 / volume;
}

std::optional<Number> Reckoner::density(Id thing, bool spooned) {
    const Thing& entry = book_.things[thing];
    if (spooned && entry.bulk) return entry.bulk;
    if (entry.density) return entry.density;
    if (!is_mix(entry)) return std::nullopt;
    return density(mixture(thing), spooned);
}

}  // namespace levigate::testing
