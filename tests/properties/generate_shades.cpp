// Shades, what they are made in, and families of them.

#include <algorithm>

#include "tests/properties/book_maker.hpp"
#include "tests/properties/sheets.hpp"
#include "tests/properties/write.hpp"

namespace levigate::testing {

using Kind = Amount::Kind;

Batch BookMaker::batch(const std::string& name, bool pourable) {
    Batch made;
    made.name = name;
    const int size = random.between(5, 400);
    made.size = size;
    made.text = std::to_string(size) + " g";
    switch (random.between(0, 5)) {
        case 0:
            made.size = Number(size) * Number(28349523125, 1000000000);
            made.text = std::to_string(size) + " oz";
            break;
        case 1: made.text = "(2 × " + number_text(Number(size, 2)) + " g)"; break;
        case 2:
            if (!pourable) break;
            made.kind = Batch::Kind::volume;
            made.text = std::to_string(size) + " mL";
            break;
        default: {
            if (book.containers.empty()) break;
            const int which = random.between(0, static_cast<int>(book.containers.size()) - 1);
            const Container& container = book.containers[static_cast<std::size_t>(which)];
            if (container.volume && !pourable) break;
            made.kind = Batch::Kind::count;
            made.container = which;
            made.size = size / 4 + 1;
            made.text =
                number_text(made.size) + " " + (made.size == 1 ? container.name : container.plural);
        }
    }
    std::vector<std::string> options;
    if (random.chance(30)) {
        const Let over = percentage("", 15);
        made.overage = over.value;
        options.push_back(", overage " + over.text);
    }
    if (random.chance(30)) {
        made.poured = pourable && random.chance(40);
        made.holdback = Number(random.between(1, 40), 10);
        options.push_back(", holdback " + number_text(made.holdback) +
                          (made.poured ? " mL" : " g"));
    }
    random.shuffle(options);
    for (const std::string& option : options) made.text += option;
    return made;
}

bool BookMaker::pourable(const Body& body, const Indices& variants, const Indices& finishes) {
    const Plains plains = reckoner.lines(body);
    std::vector<Plains> all{plains};
    for (int variant : variants)
        all.push_back(
            reckoner.edited(plains, book.variants[static_cast<std::size_t>(variant)].body));
    for (const Plains& one : all) {
        const Mixture bulk = reckoner.solve(one);
        if (!bulk.refused.empty() || !reckoner.density(bulk, false)) return false;
        for (int finish : finishes) {
            const Finish& entry = book.finishes[static_cast<std::size_t>(finish)];
            if (!reckoner.density(reckoner.finished(bulk, entry), false)) return false;
        }
    }
    return true;
}

/// Now and then a shade that can't be made, on purpose.
void BookMaker::spoil(Thing& thing) {
    for (Line& line : thing.body.lines) {
        if (line.amount.kind != Kind::share || !line.amount.hole.empty() || line.amount.spooned)
            continue;
        line.amount.number = Number(131, 100);
        line.amount.text = "131 %";
        thing.refused = true;
        return;
    }
}

/// An edit that can't be: of what isn't there, or of what is, or twice.
void BookMaker::slip(Thing& thing) {
    const Plains plains = reckoner.lines(thing.body);
    const Id there = random.pick(plains.lines).what;
    Id missing = none;
    for (Id what : pool())
        if (std::none_of(plains.lines.begin(), plains.lines.end(),
                         [what](const Plain& line) { return line.what == what; }))
            missing = what;
    if (missing == none) return;
    Edit edit;
    edit.kind =
        random.pick(std::vector<Edit::Kind>{Edit::Kind::set, Edit::Kind::add, Edit::Kind::without,
                                            Edit::Kind::swap, Edit::Kind::scale});
    edit.line.what =
        edit.kind == Edit::Kind::add || edit.kind == Edit::Kind::swap ? there : missing;
    edit.other = random.pick(plains.lines).what;
    if (edit.kind == Edit::Kind::swap && edit.other == there) return;
    edit.line.amount = share(edit.line.what, 20);
    edit.text = "2";
    thing.body.edits.push_back(edit);
    thing.refused = true;
}

void BookMaker::root_shade() {
    Thing thing;
    thing.kind = Thing::Kind::shade;
    thing.name = fresh_name("shade");
    thing.body = formula(true, false);
    Properties& own = thing.properties;
    const Indices variants = variants_for(thing.body);
    const Indices finishes = finishes_for(thing.body, variants);
    if (!variants.empty()) own.variants = variants;
    if (!finishes.empty()) own.finishes = finishes;
    const bool pours = pourable(thing.body, variants, finishes);
    own.batches.push_back(batch("trial", pours));
    if (random.chance(50)) own.batches.push_back(batch("shop order", pours));
    if (book.balances.size() > 1 || (book.balances.size() == 1 && random.chance(20)))
        own.balance = random.between(0, static_cast<int>(book.balances.size()) - 1);
    steps(reckoner.lines(thing.body), thing.body);
    if (random.chance(1)) spoil(thing);
    expects(thing);
    shades.push_back(add(thing));
}

void BookMaker::like_shade() {
    Thing thing;
    thing.kind = Thing::Kind::shade;
    thing.name = fresh_name("shade");
    thing.body.like = random.pick(shades);
    if (book.things[thing.body.like].refused) return root_shade();
    const Values values = values_of(book, thing.body);
    if (values.count("depth") != 0 && !rebalances(book, thing.body) && random.chance(60))
        thing.body.lets.push_back(percentage("depth", 12));
    const Body before = thing.body;
    thing.body = edits(reckoner.lines(thing.body), thing.body, random.between(0, 5));
    if (!fits(thing.body, {}, nullptr)) thing.body = before;
    if (!fits(thing.body, {}, nullptr)) thing.body.lets.clear();
    if (!fits(thing.body, {}, nullptr)) return root_shade();
    Properties& own = thing.properties;
    const Indices variants = variants_for(thing.body);
    const Indices finishes = finishes_for(thing.body, variants);
    // What is inherited may not fit here: so both are said anew.
    if (variants.empty())
        own.fresh_variants = true;
    else
        own.variants = variants;
    if (finishes.empty())
        own.fresh_finishes = true;
    else
        own.finishes = finishes;
    const bool pours = pourable(thing.body, variants, finishes);
    if (!pours) own.fresh_batches = true;
    if (!pours || random.chance(50)) own.batches.push_back(batch("trial", pours));
    if (random.chance(30)) own.batches.push_back(batch("gift", pours));
    steps(reckoner.lines(thing.body), thing.body);
    if (random.chance(2)) slip(thing);
    own.fresh_expects = random.chance(20);
    expects(thing);
    shades.push_back(add(thing));
}

void BookMaker::vary(Id from, const std::string& hole) {
    Thing thing;
    thing.kind = Thing::Kind::family;
    thing.name = fresh_name("ladder");
    Family& family = thing.family;
    family.from = from;
    family.columns = {hole};
    const std::string stem = fresh_name("rung");
    family.pattern = stem + " {" + hole + "}";
    std::vector<int> seen;
    for (int i = random.between(2, 4); i > 0; --i) {
        const Let let = percentage(hole, 10);
        const int halves = static_cast<int>(numerator(Number(let.value * 200)));
        if (std::find(seen.begin(), seen.end(), halves) != seen.end()) continue;
        seen.push_back(halves);
        family.members.push_back({stem + " " + let.text, {let}});
    }
    add(thing);
}

void BookMaker::table(Id from, const std::vector<std::string>& holes) {
    Thing thing;
    thing.kind = Thing::Kind::family;
    thing.name = fresh_name("table");
    Family& family = thing.family;
    family.kind = Family::Kind::table;
    family.from = from;
    family.columns = holes;
    const Values values = values_of(book, book.things[from].body);
    const std::vector<Plain> held = reckoner.lines(book.things[from].body).lines;
    for (int i = random.between(1, 3); i > 0; --i) {
        Family::Member member{fresh_name("row"), {}};
        for (const std::string& hole : holes) {
            Let let = values.at(hole);
            if (let.thing == none) let = percentage(hole, 10);
            for (Id other : pool()) {  // another thing that isn't there already
                const bool there = std::any_of(held.begin(), held.end(), [other](const Plain& one) {
                    return one.what == other;
                });
                if (let.thing != none && !there && other != from && random.chance(70))
                    let.thing = other;
            }
            member.lets.push_back(let);
        }
        family.members.push_back(member);
    }
    add(thing);
}

void BookMaker::between(Id from, Id to) {
    Thing thing;
    thing.kind = Thing::Kind::family;
    thing.name = fresh_name("way");
    Family& family = thing.family;
    family.kind = Family::Kind::between;
    family.from = from;
    family.to = to;
    const std::string stem = fresh_name("pace");
    family.pattern = stem + " {step}";
    const int steps = random.between(2, 5);
    for (int i = 1; i <= steps; ++i) family.members.push_back({stem + " " + std::to_string(i), {}});
    add(thing);
}

void BookMaker::families() {
    for (Id from : shades) {
        const Thing& shade = book.things[from];
        if (shade.refused || !random.chance(30)) continue;
        const Values values = values_of(book, shade.body);
        // Variants that fit the shade seldom fit members that hold other things.
        const bool varied = in_full(book, from).variants.has_value();
        if (values.empty() || rebalances(book, shade.body)) {
            const Id to = random.pick(shades);
            if (to != from && !book.things[to].refused && !varied) between(from, to);
        } else if (values.count("tone") != 0 && !varied) {
            std::vector<std::string> holes{"tone"};
            if (values.count("depth") != 0 && random.chance(50))
                holes.insert(holes.begin(), "depth");
            table(from, holes);
        } else if (values.count("depth") != 0) {
            vary(from, "depth");
        }
    }
}

Book generate(Random& random) {
    Book book;
    BookMaker maker(random, book);
    maker.materials();
    maker.tools();
    maker.blends();
    maker.library_finishes();
    const int count = random.between(1, 4);
    for (int i = 0; i < count; ++i) {
        if (i > 0 && random.chance(55))
            maker.like_shade();
        else
            maker.root_shade();
    }
    maker.families();
    for (Id id = 0; id < static_cast<Id>(book.things.size()); ++id) book.order.push_back(id);
    if (random.chance(50)) random.shuffle(book.order);
    return book;
}

}  // namespace levigate::testing
