#include "tests/properties/shrink.hpp"

#include <algorithm>
#include <set>

namespace levigate::testing {
namespace {

/// What is spoken of in what is written.
struct Spoken {
    std::set<Id> things;
    std::set<int> variants, finishes;

    void line(const Line& line) {
        things.insert(line.what);
        things.insert(line.amount.ref.thing);
    }
    void body(const Body& body) {
        things.insert(body.like);
        for (const Line& one : body.lines) line(one);
        for (const Step& step : body.steps) things.insert(step.thing);
        for (const Let& let : body.lets) things.insert(let.thing);
        for (const Edit& edit : body.edits) {
            line(edit.line);
            things.insert(edit.other);
        }
    }
    explicit Spoken(const Book& book) {
        for (Id id : book.order) {
            const Thing& thing = book.things[id];
            body(thing.body);
            things.insert(thing.family.from);
            things.insert(thing.family.to);
            for (const Family::Member& member : thing.family.members)
                for (const Let& let : member.lets) things.insert(let.thing);
            const Properties& own = thing.properties;
            if (own.variants) variants.insert(own.variants->begin(), own.variants->end());
            for (const Expect& expect : own.expects) things.insert(expect.thing);
            if (own.finishes) finishes.insert(own.finishes->begin(), own.finishes->end());
        }
        for (const Variant& variant : book.variants)
            if (!variant.hidden) body(variant.body);
        for (const Finish& finish : book.finishes)
            if (!finish.library)
                for (const Line& one : finish.additions) line(one);
    }
};

using Books = std::vector<Book>;

template <typename T, typename Pick>
void drop_each(const Book& book, const Pick& pick, Books& out) {
    Book whole = book;
    const std::vector<T>& items = pick(whole);
    for (std::size_t i = 0; i < items.size(); ++i) {
        Book less = book;
        std::vector<T>& fewer = pick(less);
        fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(i));
        out.push_back(std::move(less));
    }
}

void drop_properties(const Book& book, Id id, Books& out) {
    const auto change = [&](const auto& how) {
        Book less = book;
        how(less.things[id]);
        out.push_back(std::move(less));
    };
    const Thing& thing = book.things[id];
    if (thing.properties.variants) change([](Thing& one) { one.properties.variants.reset(); });
    if (thing.properties.finishes) change([](Thing& one) { one.properties.finishes.reset(); });
    if (thing.body.rebalance) change([](Thing& one) { one.body.rebalance = false; });
    if (!thing.alias.empty()) change([](Thing& one) { one.alias.clear(); });
    if (thing.properties.batches.size() > 1)
        drop_each<Batch>(
            book, [id](Book & b) -> auto& { return b.things[id].properties.batches; }, out);
    drop_each<Step>(
        book, [id](Book & b) -> auto& { return b.things[id].body.steps; }, out);
    drop_each<Expect>(
        book, [id](Book & b) -> auto& { return b.things[id].properties.expects; }, out);
    drop_each<Line>(
        book, [id](Book & b) -> auto& { return b.things[id].body.lines; }, out);
    drop_each<Edit>(
        book, [id](Book & b) -> auto& { return b.things[id].body.edits; }, out);
}

/// Every book that is smaller by one thing.
Books smaller(const Book& book) {
    const Spoken spoken(book);
    Books out;
    for (std::size_t i = 0; i < book.order.size(); ++i) {
        if (spoken.things.count(book.order[i]) != 0) continue;
        Book less = book;
        less.order.erase(less.order.begin() + static_cast<std::ptrdiff_t>(i));
        out.push_back(std::move(less));
    }
    for (std::size_t i = 0; i < book.variants.size(); ++i) {
        if (book.variants[i].hidden || spoken.variants.count(static_cast<int>(i)) != 0) continue;
        out.push_back(book);
        out.back().variants[i].hidden = true;
    }
    for (std::size_t i = 0; i < book.finishes.size(); ++i) {
        if (book.finishes[i].library) continue;
        if (spoken.finishes.count(static_cast<int>(i)) == 0) {
            out.push_back(book);
            out.back().finishes[i].library = true;
        }
        drop_each<Line>(
            book, [i](Book & b) -> auto& { return b.finishes[i].additions; }, out);
    }
    for (Id id : book.order) drop_properties(book, id, out);
    for (std::size_t i = 0; i < book.variants.size(); ++i)
        if (!book.variants[i].hidden)
            drop_each<Edit>(
                book, [i](Book & b) -> auto& { return b.variants[i].body.edits; }, out);
    return out;
}

std::string kind_of(const std::string& complaint) {
    return complaint.substr(0, complaint.find_first_of(":\n"));
}

}  // namespace

Book shrink(Book book, const Property& property, std::uint64_t seed) {
    const std::string kind = kind_of(property(book, seed));
    int patience = 3000;
    for (bool again = true; again;) {
        again = false;
        for (Book& less : smaller(book)) {
            if (--patience < 0) return book;
            if (kind_of(property(less, seed)) != kind) continue;
            book = std::move(less);
            again = true;
            break;
        }
    }
    return book;
}

}  // namespace levigate::testing
