#include "tests/properties/sheets.hpp"

#include <algorithm>

#include "tests/properties/write.hpp"

namespace levigate::testing {

std::string title(const SheetSeen& sheet) {
    return sheet.shade + " / " + sheet.variant + " / " + sheet.finish + " / " + sheet.batch;
}

Number half_up(const Number& value, const Number& step) {
    using boost::multiprecision::cpp_int;
    const Number steps = value / step + Number(1, 2);
    const cpp_int whole = numerator(steps) / denominator(steps);  // never negative here
    return Number(whole) * step;
}

Properties in_full(const Book& book, Id shade) {
    const Thing& thing = book.things[shade];
    const Properties& own = thing.properties;
    Properties all = thing.body.like == none ? Properties() : in_full(book, thing.body.like);
    if (own.fresh_batches) all.batches.clear();
    if (own.fresh_finishes) all.finishes.reset();
    if (own.fresh_variants) all.variants.reset();
    if (own.fresh_expects) all.expects.clear();
    all.expects.insert(all.expects.end(), own.expects.begin(), own.expects.end());
    if (own.variants) all.variants = own.variants;
    if (own.finishes) all.finishes = own.finishes;
    for (const Batch& batch : own.batches) {
        auto same = std::find_if(all.batches.begin(), all.batches.end(),
                                 [&](const Batch& old) { return old.name == batch.name; });
        if (same == all.batches.end())
            all.batches.push_back(batch);
        else
            *same = batch;
    }
    if (own.balance >= 0) all.balance = own.balance;
    return all;
}

namespace {

/// The bowls of one sheet: who holds what, and how deep it lies.
struct Bowls {
    const Book& book;
    Reckoner& reckoner;
    std::vector<Id> met{};  // mixes and materials, in the order of the lines, all the way down
    std::map<Id, int> depth{};
    std::map<Id, Number> need{};

    void walk(Id what, const Number& share, int level) {
        if (share.is_zero()) return;
        if (depth.find(what) == depth.end()) met.push_back(what);
        depth[what] = std::max(depth[what], level);
        need[what] += share;
        if (!is_mix(book.things[what])) return;
        for (const auto& [inner, part] : reckoner.mixture(what).parts)
            walk(inner, share * part, level + 1);
    }
};

Row row(const Book& book, Id what, const Number& share, const Number& whole) {
    return {book.things[what].name, share, share * whole, 0};
}

/// The first target at and above what was asked whose rounded lines are enough.
void round_blend(BowlSeen& bowl, const Mixture& mixture, const Number& step) {
    Number target = bowl.asked;
    for (int tries = 0; tries < 1000; ++tries, target += step) {
        bowl.grams = 0;
        for (std::size_t i = 0; i < bowl.rows.size(); ++i) {
            bowl.rows[i].grams = half_up(mixture.parts[i].second * target, step);
            bowl.grams += bowl.rows[i].grams;
        }
        if (bowl.grams >= bowl.asked) return;
    }
}

/// Fills bowls and materials for so much of the finished whole.
void fill(const Book& book, Reckoner& reckoner, const Mixture& whole, SheetSeen& sheet) {
    Bowls bowls{book, reckoner};
    for (const auto& [what, share] : whole.parts) bowls.walk(what, share, 1);
    std::vector<Id> making;
    for (Id what : bowls.met)
        if (is_mix(book.things[what]) && !bowls.need[what].is_zero()) making.push_back(what);
    std::stable_sort(making.begin(), making.end(),
                     [&](Id a, Id b) { return bowls.depth[a] > bowls.depth[b]; });
    BowlSeen own{sheet.shade, 0, 0, {}};
    std::map<Id, Number> asked;
    for (const auto& [what, share] : whole.parts) {
        own.rows.push_back(row(book, what, share, sheet.total));
        own.rows.back().grams = half_up(own.rows.back().exact, sheet.step);
        own.grams += own.rows.back().grams;
        asked[what] += own.rows.back().grams;
    }
    sheet.bowls = {own};
    for (auto what = making.rbegin(); what != making.rend(); ++what) {  // users first
        BowlSeen bowl{book.things[*what].name, asked[*what], 0, {}};
        const Mixture& mixture = reckoner.mixture(*what);
        for (const auto& [inner, part] : mixture.parts)
            bowl.rows.push_back(row(book, inner, bowls.need[*what] * part, sheet.total));
        round_blend(bowl, mixture, sheet.step);
        for (std::size_t i = 0; i < bowl.rows.size(); ++i)
            asked[mixture.parts[i].first] += bowl.rows[i].grams;
        sheet.bowls.insert(sheet.bowls.begin(), bowl);
    }
    for (Id what : bowls.met)
        if (!is_mix(book.things[what]) && !bowls.need[what].is_zero())
            sheet.materials.push_back(row(book, what, bowls.need[what], sheet.total));
    std::stable_sort(sheet.materials.begin(), sheet.materials.end(),
                     [](const Row& a, const Row& b) { return b.share < a.share; });
}

/// What of the finished product is made; nothing where a density is lacking.
std::optional<Number> size_of(const Book& book, Reckoner& reckoner, const Mixture& whole,
                              const Batch& batch) {
    const auto density = reckoner.density(whole, false);
    Number size = batch.size;
    bool volume = batch.kind == Batch::Kind::volume;
    if (batch.kind == Batch::Kind::count) {
        const Container& container = book.containers[static_cast<std::size_t>(batch.container)];
        size *= container.holds;
        volume = container.volume;
    }
    if ((volume || (batch.poured && !batch.holdback.is_zero())) && !density) return std::nullopt;
    size *= 1 + batch.overage;
    if (volume) size *= *density;
    return size + (batch.poured ? batch.holdback * *density : batch.holdback);
}

/// As a balance shows it.
std::string reading_text(const Number& grams, const Number& step) {
    const auto places = [](const std::string& text) {
        const auto dot = text.find('.');
        return dot == std::string::npos ? 0 : text.size() - dot - 1;
    };
    std::string text = number_text(grams);
    const std::size_t due = places(number_text(step));
    if (due > 0 && places(text) == 0) text += '.';
    while (places(text) < due) text += '0';
    return text + " g";
}

/// Whether some of a thing is in the bowl of this name, at any depth.
bool is_inside(const SheetSeen& sheet, const std::string& blend, const std::string& wanted) {
    for (auto bowl = sheet.bowls.begin(); bowl + 1 != sheet.bowls.end(); ++bowl)
        if (bowl->name == blend)
            for (const Row& row : bowl->rows)
                if (!row.exact.is_zero() &&
                    (row.name == wanted || is_inside(sheet, row.name, wanted)))
                    return true;
    return false;
}

std::string inside_text(const SheetSeen& sheet, const std::string& wanted) {
    std::set<std::string> lines;
    for (const Row& row : sheet.bowls.back().rows)
        if (!row.exact.is_zero() && is_inside(sheet, row.name, wanted)) lines.insert(row.name);
    if (lines.empty()) return "";
    std::vector<std::string> told(lines.begin(), lines.end());
    const std::size_t count = told.size();
    if (count > 6)
        told = {told.begin(), told.begin() + 5},
        told.push_back(std::to_string(count - 5) + " more");
    std::string out = " (in " + told.front();
    for (std::size_t i = 1; i < told.size(); ++i)
        out += (i + 1 < told.size() ? ", " : " and ") + told[i];
    return out + ")";
}

/// What to weigh of it in the shade's own bowl; where it is no line there, in which lines it is.
std::string step_text(const Book& book, const Step& step, const Values& values,
                      const SheetSeen& sheet) {
    const std::string number = std::to_string(step.serial) + ".";
    if (!step.hole.empty())
        return "Keep " + number_text(values.at(step.hole).value * 100) + " % for " + number;
    const std::string& name = book.things[step.thing].name;
    std::string there = inside_text(sheet, name);
    for (const Row& row : sheet.bowls.back().rows)
        if (row.name == name) there = " " + reading_text(row.grams, sheet.step);
    return "Work " + name + there + " in, " + number;
}

struct Version {
    std::string shade, variant;
    Mixture bulk;
    const Plains& plains;
    const Values& values;
};

bool holds(const Expect& expect, const Number& value) {
    switch (expect.compare) {
        case Expect::Compare::at_most: return value <= expect.low;
        case Expect::Compare::at_least: return value >= expect.low;
        case Expect::Compare::under: return value < expect.low;
        case Expect::Compare::over: return value > expect.low;
        case Expect::Compare::is: return value == expect.low;
        case Expect::Compare::between: return value >= expect.low && value <= expect.high;
    }
    return false;
}

/// What became of an expectation so far.
struct Told {
    int serial = 0;
    bool failed = false, unknown = false;
};

struct Writer {
    const Book& book;
    Reckoner& reckoner;
    const Question& question;
    std::vector<SheetSeen> sheets{};
    std::vector<Told> told{};

    Told& told_of(const Expect& expect) {
        for (Told& one : told)
            if (one.serial == expect.serial) return one;
        told.push_back({expect.serial});
        return told.back();
    }

    /// How many of the expectations fail there: those of the whole, or all others.
    int judge(const Properties& settled, bool of_whole, const std::optional<Number>& total,
              const Mixture& mix) {
        int failed = 0;
        for (const Expect& expect : settled.expects) {
            if ((expect.measure == Expect::Measure::whole) != of_whole) continue;
            Told& one = told_of(expect);
            Number value = total.value_or(0);
            for (const auto& [what, share] : mix.parts)
                if (expect.measure == Expect::Measure::thing)
                    value += share * reckoner.content_in(what, expect.thing);
                else if (expect.measure == Expect::Measure::role)
                    value += share * reckoner.role_in(what, expect.role);
            if (of_whole ? !total : !mix.refused.empty())
                one.unknown = true;
            else if (!holds(expect, value))
                one.failed = true, ++failed;
        }
        return failed;
    }

    Number step(int balance) const {
        if (balance < 0 && book.balances.size() == 1) balance = 0;
        return balance < 0 ? Number(1, 100) : book.balances[static_cast<std::size_t>(balance)].step;
    }

    /// The finished product, or what is added to so much of the bulk.
    void make(const Mixture& whole, const Number& size, SheetSeen& sheet) {
        sheet.total = size;
        if (!question.onto) return fill(book, reckoner, whole, sheet);
        Number bulk = 1;
        for (const auto& [what, share] : whole.added) bulk -= share;
        sheet.total = size / bulk;
        fill(book, reckoner, {whole.added, "", {}, {}}, sheet);
    }

    void batches(const Version& version, const std::string& finish, const Mixture& whole,
                 const Properties& settled) {
        std::vector<Batch> wanted = settled.batches;
        const auto given = question.make ? question.make : question.onto;
        if (given) wanted = {Batch{Batch::Kind::mass, "", *given, -1, 0, 0, false, ""}};
        // Judged is what the shade names; on the way, so that the lines keep their order.
        for (const Expect& expect : settled.expects) told_of(expect);
        const bool judged = !finish.empty() || !settled.finishes;
        const int failed = judged ? judge(settled, false, {}, whole) : 0;
        for (const Batch& batch : wanted) {
            SheetSeen sheet;
            sheet.shade = version.shade;
            sheet.variant = version.variant;
            sheet.finish = finish;
            sheet.batch = batch.name;
            sheet.refused = whole.refused;
            sheet.also = whole.also;
            sheet.no_bulk = !version.bulk.refused.empty();
            sheet.step = step(settled.balance);
            std::optional<Number> size;
            if (whole.refused.empty()) {
                size = size_of(book, reckoner, whole, batch);
                if (!size) sheet.refused = "density-missing";
                if (size) make(whole, *size, sheet);
                if (size && !question.onto)
                    for (const Step& step : version.plains.steps)
                        sheet.steps.push_back(step_text(book, step, version.values, sheet));
            }
            int fails = failed;
            if (judged && !given) fails += judge(settled, true, size, {});
            sheet.errors.assign(static_cast<std::size_t>(fails), "expect-failed");
            sheets.push_back(std::move(sheet));
        }
    }

    void finishes(const Version& version, const Properties& settled) {
        if (question.onto && !settled.finishes) return;
        if (!question.all || !settled.finishes) return batches(version, "", version.bulk, settled);
        for (int finish : *settled.finishes) {
            const Finish& entry = book.finishes[static_cast<std::size_t>(finish)];
            const Mixture whole = version.bulk.refused.empty()
                                      ? reckoner.finished(version.bulk, entry)
                                      : version.bulk;
            batches(version, entry.name, whole, settled);
        }
    }

    void versions(const std::string& name, const Plains& plains, const Values& values,
                  const Properties& settled) {
        const Version written{name, "", reckoner.solve(plains), plains, values};
        finishes(written, settled);
        if (!question.all || !settled.variants) return;
        for (int variant : *settled.variants) {
            const Variant& entry = book.variants[static_cast<std::size_t>(variant)];
            const Plains changed = reckoner.edited(plains, entry.body, values);
            finishes({name, entry.name, reckoner.solve(changed), changed, values}, settled);
        }
    }

    void family(const Family& family) {
        const Body& from = book.things[family.from].body;
        const Properties settled = in_full(book, family.from);
        const int steps = static_cast<int>(family.members.size());
        for (int i = 0; i < steps; ++i) {
            const Family::Member& member = family.members[static_cast<std::size_t>(i)];
            if (family.kind != Family::Kind::between) {
                Values values = values_of(book, from);
                for (const Let& let : member.lets) values[let.hole] = let;
                versions(member.name, reckoner.lines(from, values), values, settled);
                continue;
            }
            Plains plains;
            plains.steps = reckoner.lines(from).steps;
            const Mixture made = reckoner.between(reckoner.mixture(family.from),
                                                  reckoner.mixture(family.to), i + 1, steps);
            for (const auto& [what, share] : made.parts)
                plains.lines.push_back({what, Amount::Kind::share, share, {}, false});
            versions(member.name, plains, values_of(book, from), settled);
        }
    }
};

Writer written(const Book& book, Reckoner& reckoner, const Question& question) {
    Writer writer{book, reckoner, question};
    for (Id id : book.order) {
        const Thing& thing = book.things[id];
        if (thing.kind == Thing::Kind::family) writer.family(thing.family);
        if (thing.kind != Thing::Kind::shade) continue;
        writer.versions(thing.name, reckoner.lines(thing.body), values_of(book, thing.body),
                        in_full(book, id));
    }
    return writer;
}

}  // namespace

std::vector<SheetSeen> reckon_sheets(const Book& book, const Question& question) {
    Reckoner reckoner(book);
    return std::move(written(book, reckoner, question).sheets);
}

std::vector<std::string> reckon_expects(const Book& book) {
    Reckoner reckoner(book);
    const Question every{true};
    std::vector<std::string> verdicts;
    for (const Told& one : written(book, reckoner, every).told)
        verdicts.push_back(one.failed ? "fails" : one.unknown ? "unknown" : "holds");
    return verdicts;
}

}  // namespace levigate::testing
