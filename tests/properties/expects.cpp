// What is expected of shades: some of it holds, some just so, some fails. And steps of making.

#include <algorithm>

#include "tests/properties/book_maker.hpp"
#include "tests/properties/sheets.hpp"

namespace levigate::testing {

using Measure = Expect::Measure;

namespace {

/// Everything that is in it, all the way down.
void contents(const Book& book, Reckoner& reckoner, const Mixture& mixture, std::vector<Id>& out) {
    for (const auto& [what, share] : mixture.parts) {
        if (std::find(out.begin(), out.end(), what) != out.end()) continue;
        out.push_back(what);
        if (is_mix(book.things[what])) contents(book, reckoner, reckoner.mixture(what), out);
    }
}

}  // namespace

/// Bounds at, under and over what the bulk as made comes to, or one of its finishes.
void BookMaker::expects(Thing& thing) {
    Mixture mixture = reckoner.solve(reckoner.lines(thing.body));
    if (!mixture.refused.empty()) return;
    std::vector<Id> held;
    contents(book, reckoner, mixture, held);
    const auto& finishes = thing.properties.finishes;
    if (finishes && random.chance(70)) {
        const Finish& finish = book.finishes[static_cast<std::size_t>(random.pick(*finishes))];
        const Mixture finished = reckoner.finished(mixture, finish);
        if (finished.refused.empty()) mixture = finished;
    }
    for (int i = random.between(0, 3); i > 0; --i) {
        Expect expect;
        expect.serial = ++expected;
        expect.thing = random.pick(held);
        expect.role = book.things[expect.thing].role;
        Number value = 0;
        if (random.chance(20) && !thing.properties.batches.empty()) {
            expect.measure = Measure::whole;
            value = random.pick(thing.properties.batches).size;
        } else if (random.chance(50) && !expect.role.empty()) {
            expect.measure = Measure::role;
            for (const auto& [what, share] : mixture.parts)
                value += share * reckoner.role_in(what, expect.role);
        } else {
            for (const auto& [what, share] : mixture.parts)
                value += share * reckoner.content_in(what, expect.thing);
        }
        if (expect.measure != Measure::thing) expect.thing = none;
        expect.compare = static_cast<Expect::Compare>(random.between(0, 5));
        static const std::vector<Number> factors{1, 1, Number(9, 10), Number(11, 10), Number(1, 2)};
        expect.low = value * random.pick(factors);
        expect.high = expect.low * random.pick(std::vector<Number>{1, Number(5, 4), 2});
        thing.properties.expects.push_back(expect);
    }
}

/// Of what stands in the formula, of what is inside it, or of a value.
void BookMaker::steps(const Plains& plains, Body& body) {
    const Mixture mixture = reckoner.solve(plains);
    if (!mixture.refused.empty()) return;
    std::vector<Id> held;
    contents(book, reckoner, mixture, held);
    for (int i = random.between(0, 2); i > 0; --i) {
        Step step;
        step.serial = ++steps_made;
        step.thing = random.chance(70) ? random.pick(mixture.parts).first : random.pick(held);
        if (random.chance(20) && values_of(book, body).count("depth") != 0) step.hole = "depth";
        body.steps.push_back(step);
    }
}

}  // namespace levigate::testing
