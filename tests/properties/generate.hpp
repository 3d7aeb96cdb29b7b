#pragma once
// Random books, nearly all of them valid. What a formula comes to is reckoned on the way, so that
// the generator knows of each refusal beforehand.

#include <map>
#include <set>
#include <string>
#include <vector>

#include "tests/properties/book.hpp"
#include "tests/properties/random.hpp"
#include "tests/properties/reckon.hpp"

namespace levigate::testing {

Book generate(Random& random);

/// What the generator's files share.
struct Maker {
    Random& random;
    Book& book;
    Reckoner reckoner;
    std::vector<std::string> first_words, last_words;  // of names not used yet
    std::size_t names_used = 0;

    Maker(Random& chance, Book& made);
    std::string fresh_name(const std::string& last);
    Id add(Thing thing);

    // amounts.cpp
    Amount share(Id what, int most_permille);
    Amount hole_share(const Let& let);
    Amount parts();
    Amount grams(Id what);
    Amount as_much(const Ref& ref);
    /// A percentage and how it is written: {1/20, "5 %"}.
    Let percentage(const std::string& hole, int most);

    // formulas.cpp
    std::vector<Id> pool();  // what may stand as an ingredient
    Body formula(bool holes, bool simple);
    bool add_relative(Body& body, const std::vector<Id>& from);

    // edit_lines.cpp
    Body edits(const Plains& start, Body body, int most);
};

/// True where a `rebalance` stands somewhere in what the body is like.
bool rebalances(const Book& book, const Body& body);

}  // namespace levigate::testing
