// Names that nearly fit. The vocabularies are generated; which name is the right one is known from
// how the query is made of it, not from the search.

#include <catch2/catch.hpp>

#include <algorithm>
#include <cctype>
#include <random>
#include <string>
#include <vector>

#include "grammar/near.hpp"

using namespace levigate;

namespace {

std::string first(const std::string& written, const std::vector<std::string>& names) {
    Nearest nearest(written);
    for (std::size_t i = 0; i < names.size(); ++i) nearest.offer(names[i], i);
    const auto best = nearest.best(1);
    return best.empty() ? "" : names[best.front()];
}

std::vector<std::string> split(const std::string& name) {
    std::vector<std::string> out(1);
    for (const char sign : name)
        if (sign == ' ')
            out.emplace_back();
        else
            out.back() += sign;
    return out;
}

std::string joined(const std::vector<std::string>& words) {
    std::string out;
    for (const std::string& word : words) out += (out.empty() ? "" : " ") + word;
    return out;
}

using Random = std::mt19937;

std::size_t below(Random& random, std::size_t count) { return random() % count; }

/// Two syllables and a last letter: words of five letters, of which no one begins another.
std::string word(Random& random) {
    static const std::string soft = "aeiou", hard = "bcdfghklmnprstvwz";
    std::string out;
    for (const bool vowel : {false, true, false, true, false}) {
        const std::string& from = vowel ? soft : hard;
        out += from[below(random, from.size())];
    }
    return out;
}

/// Names of two to four words, numbers among them. No word is in two names, so that each is told by
/// any of its words.
std::vector<std::string> vocabulary(Random& random) {
    std::vector<std::string> names, used;
    for (int i = 0; i < 12; ++i) {
        std::vector<std::string> words;
        while (words.size() < 2 + below(random, 3)) {
            const std::string one = word(random);
            if (std::find(used.begin(), used.end(), one) != used.end()) continue;
            used.push_back(one);
            words.push_back(one);
        }
        if (below(random, 3) == 0) words.insert(words.begin() + 1, std::to_string(10 + i));
        names.push_back(joined(words));
    }
    return names;
}

/// The names of which `start` is the beginning, by the letters alone.
std::size_t beginning_with(const std::string& start, const std::vector<std::string>& names) {
    return static_cast<std::size_t>(
        std::count_if(names.begin(), names.end(),
                      [&](const std::string& name) { return name.starts_with(start); }));
}

}  // namespace

TEST_CASE("a word left out still leads to the name") {
    Random random(13);
    int tried = 0;
    for (int turn = 0; turn < 300; ++turn) {
        std::vector<std::string> names = vocabulary(random);
        const std::string meant = names[below(random, names.size())];
        std::vector<std::string> words = split(meant);
        words.erase(words.begin() + static_cast<long>(below(random, words.size())));
        // What is near by its letters is there as well, and is not what is offered.
        std::string slip = joined(words);
        slip[below(random, slip.size())] = 'x';
        names.push_back(slip);
        std::shuffle(names.begin(), names.end(), random);
        INFO("turn " << turn << ": " << joined(words));
        CHECK(first(joined(words), names) == meant);
        ++tried;
    }
    CHECK(tried == 300);
}

TEST_CASE("a beginning leads to the name") {
    Random random(14);
    int tried = 0;
    for (int turn = 0; turn < 300; ++turn) {
        std::vector<std::string> names = vocabulary(random);
        const std::string meant = names[below(random, names.size())];
        const std::string start = meant.substr(0, 2 + below(random, meant.size() - 2));
        if (start.back() == ' ' || beginning_with(start, names) > 1) continue;
        const bool in_number = std::isdigit(start.back()) != 0 && start.size() < meant.size() &&
                               std::isdigit(meant[start.size()]) != 0;
        INFO("turn " << turn << ": " << start);
        CHECK(first(start, names) == (in_number ? "" : meant));
        ++tried;
    }
    CHECK(tried > 200);
}

TEST_CASE("whole words and beginnings go before letters that nearly fit") {
    CHECK(first("ember", {"umber", "ember mica"}) == "ember mica");
    CHECK(first("embe", {"umbe", "umber", "ember mica"}) == "ember mica");
    CHECK(first("red 7", {"red 7 lake", "red 6"}) == "red 7 lake");
    CHECK(first("lake 7 red", {"red 7 lake"}) == "red 7 lake");
    CHECK(first("coper", {"copper mica", "soft base"}) == "copper mica");
    CHECK(first("soft base wax", {"copper mica", "soft base"}) == "soft base");
    CHECK(first("base", {"copper mica", "soft base"}) == "soft base");
}

TEST_CASE("another number is another thing") {
    CHECK(first("red 6", {"red 27"}).empty());
    CHECK(first("red 2", {"red 27"}).empty());
    CHECK(first("red 6", {"red 7 lake"}).empty());
    CHECK(first("red 27", {"red"}).empty());
    CHECK(first("rose", {"soft base"}).empty());
    CHECK(first("m", {"mica"}).empty());
}

TEST_CASE("several that fit alike are all offered, the likeliest first") {
    const std::vector<std::string> names{"copper mica", "mica", "dusk mica", "gold mica blend"};
    Nearest nearest("mica");
    for (std::size_t i = 0; i < names.size(); ++i)
        if (names[i] != "mica") nearest.offer(names[i], i);
    CHECK(nearest.best() == std::vector<std::size_t>{2, 0, 3});  // 4, 6 and 9 letters are missing
    CHECK(nearest.best(2) == std::vector<std::size_t>{2, 0});
}
