// A whole book: materials, blends, shades and what they are made in.

#include "tests/properties/book_maker.hpp"

#include <algorithm>

namespace levigate::testing {

Maker::Maker(Random& chance, Book& made) : random(chance), book(made), reckoner(made) {
    first_words = {"soft",  "pale",  "dark",    "warm",    "dusk",  "copper", "silver",
                   "amber", "rosé",  "Äpfel",   "d'or",    "No.9",  "A&B",    "fine-ground",
                   "old",   "hedge", "bramble", "Sloe",    "Wren",  "Medlar", "mist",
                   "ember", "ochre", "violet",  "thistle", "larch", "Quince", "haw",
                   "moss",  "ash",   "rowan",   "linnet"};
    random.shuffle(first_words);
}

std::string Maker::fresh_name(const std::string& last) {
    const std::size_t round = names_used / first_words.size();
    std::string name = first_words[names_used++ % first_words.size()] + " " + last;
    if (round > 0) name += " " + std::to_string(round + 1);
    return name;
}

Id Maker::add(Thing thing) {
    book.things.push_back(std::move(thing));
    return static_cast<Id>(book.things.size()) - 1;
}

namespace {

Number hundredths(Random& random, int low, int high) {
    return Number(random.between(low, high), 100);
}

}  // namespace

void BookMaker::materials() {
    static const std::vector<std::string> roles{"base",    "mica",    "lake", "clay",
                                                "thinner", "flavour", "oxide"};
    Thing kaolin;  // the library's own: density and role as stdlib/finishes.shade has them
    kaolin.name = "kaolin";
    kaolin.role = "clay";
    kaolin.density = Number(26, 10);
    kaolin.bulk = Number(35, 100);
    kaolin.library = true;
    add(kaolin);
    const int count = random.between(5, 10);
    for (int i = 0; i < count; ++i) {
        Thing thing;
        thing.role = i == 0 ? "base" : random.pick(roles);
        thing.name = fresh_name(thing.role);
        if (random.chance(75)) thing.density = hundredths(random, 70, 450);
        if (random.chance(30)) thing.bulk = hundredths(random, 15, 90);
        if (random.chance(20)) thing.alias = fresh_name("stuff");
        if (i > 0 && random.chance(10)) thing.role.clear();
        add(thing);
    }
}

void BookMaker::blends() {
    static const std::vector<std::string> roles{"base", "mica", "colour", "clay"};
    const int count = random.between(0, 5);
    std::vector<Id> made;
    for (int i = 0; i < count; ++i) {
        Thing thing;
        thing.kind = Thing::Kind::blend;
        thing.name = fresh_name("blend");
        if (!made.empty() && random.chance(35)) {
            const Id parent = random.pick(made);
            thing.role = book.things[parent].role;  // which it has from there
            thing.body.like = parent;
            thing.body = edits(reckoner.lines(thing.body), thing.body, 3);
        } else {
            if (random.chance(60)) thing.role = random.pick(roles);
            thing.body = formula(false, true);
            if (random.chance(15)) thing.density = hundredths(random, 80, 300);
            if (random.chance(10)) thing.bulk = hundredths(random, 20, 80);
        }
        const Id id = add(thing);
        const bool sound = reckoner.mixture(id).refused.empty();
        if (!sound) retreat(id);
        // A stated density would have to say what becomes of it in one that is like it.
        else if (!thing.density && !thing.bulk)
            made.push_back(id);
    }
}

/// A blend that doesn't add up gives way to a plain one.
void BookMaker::retreat(Id id) {
    Thing thing = book.things[id];
    book.things.pop_back();
    reckoner.forget(id);
    thing.body = formula(false, true);
    add(thing);
}

void BookMaker::tools() {
    if (random.chance(70)) book.containers.push_back({"tiny pot", "tiny pots", 3, false});
    if (random.chance(50))
        book.containers.push_back({"glass vial", "glass vials", Number(9, 2), true});
    static const std::vector<std::pair<Number, std::string>> steps{
        {Number(1, 100), "0.01 g"}, {Number(1, 1000), "0.001 g"}, {Number(1, 10), "0.1 g"},
        {Number(1, 50), "0.02 g"},  {Number(1, 200), "5 mg"},     {Number(1, 1000), "1 mg"}};
    const int balances = random.between(0, 2);
    for (int i = 0; i < balances; ++i) {
        const auto& [step, text] = random.pick(steps);
        book.balances.push_back({i == 0 ? "bench one" : "shelf one", step, text});
    }
    book.unit = random.chance(40);
}

/// The finishes of the library; a page's own matte takes the place of the one there.
void BookMaker::library_finishes() {
    book.finishes.push_back({"satin", {}, true});
    Finish matte{"matte", {}, true};
    Line line;
    line.what = 0;
    line.amount.kind = Amount::Kind::as_much;
    line.amount.ref = {Ref::Kind::role, none, "base"};
    matte.additions.push_back(line);
    book.finishes.push_back(matte);
    own_matte = random.chance(20);
}
Finish BookMaker::own_finish(const Mixture& bulk) {
    Finish finish;
    finish.name = own_matte ? "matte" : fresh_name("finish");
    const int count = random.between(1, 3);
    for (Id what : pool()) {
        if (static_cast<int>(finish.additions.size()) == count) break;
        Ref ref{Ref::Kind::bulk, none, ""};
        const Id seen = random.pick(bulk.parts).first;
        if (random.chance(60)) ref = {Ref::Kind::thing, seen, ""};
        if (random.chance(40) && !book.things[seen].role.empty())
            ref = {Ref::Kind::role, none, book.things[seen].role};
        if (random.chance(15) && !finish.additions.empty())
            ref = {Ref::Kind::thing, finish.additions.back().what, ""};
        finish.additions.push_back({what, random.chance(40) ? share(what, 100) : as_much(ref), ""});
    }
    return finish;
}

bool BookMaker::fits(const Body& body, const Indices& variants, const Finish* finish) {
    const Plains plains = reckoner.lines(body);
    std::vector<Plains> all{plains};
    for (int variant : variants)
        all.push_back(
            reckoner.edited(plains, book.variants[static_cast<std::size_t>(variant)].body));
    return std::all_of(all.begin(), all.end(), [&](const Plains& one) {
        const Mixture bulk = reckoner.solve(one);
        return bulk.refused.empty() &&
               (finish == nullptr || reckoner.finished(bulk, *finish).refused.empty());
    });
}

Indices BookMaker::variants_for(const Body& body) {
    Indices fitting;
    for (int i = 0; i < static_cast<int>(book.variants.size()); ++i)
        if (random.chance(40) && fits(body, {i}, nullptr)) fitting.push_back(i);
    if (book.variants.size() < 4 && random.chance(40)) {
        Variant variant;
        variant.name = fresh_name("variant");
        variant.body = edits(reckoner.lines(body), variant.body, 3);
        steps(reckoner.edited(reckoner.lines(body), variant.body), variant.body);
        const int index = static_cast<int>(book.variants.size());
        book.variants.push_back(variant);
        if (!variant.body.edits.empty() && fits(body, {index}, nullptr))
            fitting.push_back(index);
        else
            book.variants.pop_back();
    }
    return fitting;
}

Indices BookMaker::finishes_for(const Body& body, const Indices& variants) {
    Indices fitting;
    if (book.finishes.size() < 5 && random.chance(30)) {
        const Mixture bulk = reckoner.solve(reckoner.lines(body));
        const Finish finish = own_finish(bulk);
        if (fits(body, variants, &finish)) {
            if (own_matte)
                book.finishes[1] = finish;
            else
                book.finishes.push_back(finish);
            own_matte = false;
        }
    }
    for (int i = 0; i < static_cast<int>(book.finishes.size()); ++i)
        if (random.chance(35) && !(i == 1 && own_matte) &&
            fits(body, variants, &book.finishes[static_cast<std::size_t>(i)]))
            fitting.push_back(i);
    if (random.chance(30)) random.shuffle(fitting);
    return fitting;
}
}  // namespace levigate::testing
