// What members can conclude of a sealed blend, against a search over formulas of which the same is
// told: none of them lies outside the interval, and the interval is no wider than they reach.
#include <catch2/catch.hpp>

#include <fmt/format.h>

#include <cstdlib>
#include <functional>
#include <iostream>
#include <random>

#include "interpreter/compile.hpp"
#include "interpreter/share/bands.hpp"
#include "interpreter/share/concluded.hpp"
#include "interpreter/share/share.hpp"
#include "tests/properties/random.hpp"

using namespace levigate;
using namespace levigate::sharing;

namespace {

/// A page with one sealed blend of these materials, each with its label line.
std::string page_of(const std::vector<std::string>& labels, const std::string& sealed) {
    std::string out = "blend my base\n    " + sealed + "\n";
    for (std::size_t i = 0; i < labels.size(); ++i)
        out += fmt::format("    1 part  m{}\n", i);
    for (std::size_t i = 0; i < labels.size(); ++i)
        out += fmt::format("material m{}\n    label  {}\n", i, labels[i]);
    return out + "shade Quince\n    1 part  my base\n    batch  trial 6 g\n";
}

struct Page {
    explicit Page(const std::string& text)
        : compiled(compile(memory_world({{"a.shade", text}}), "a.shade", Library::with_rules)) {
        for (const Finding& one : compiled.findings) {
            INFO(one.message);
            REQUIRE(one.severity != Severity::error);
        }
        for (IngredientId id = 0; id < compiled.formulary.ingredients.size(); ++id)
            if (compiled.formulary.ingredients[id].sealed) blend = id;
    }
    Formula& formula() {
        return compiled.formulary.mixes[compiled.formulary.ingredients[blend].index].formula;
    }
    /// What is told of this formula, in steps of a 100th.
    Seal told(const std::vector<int>& amounts) {
        for (std::size_t i = 0; i < amounts.size(); ++i)
            formula().shares[i] = share(Exact(amounts[i], 100));
        return seal(compiled.formulary, compiled.names, blend).value;
    }
    std::string block(const std::vector<int>& amounts) {
        return sealed_block(compiled.formulary, told(amounts), {});
    }

    Compiled compiled;
    IngredientId blend = no_ingredient;
};

void each_formula(std::size_t count, int left, std::vector<int>& so_far,
                  const std::function<void(const std::vector<int>&)>& take) {
    if (so_far.size() + 1 == count) {
        if (left == 0) return;
        so_far.push_back(left);
        take(so_far);
        so_far.pop_back();
        return;
    }
    for (int one = 1; one < left; ++one) {
        so_far.push_back(one);
        each_formula(count, left - one, so_far, take);
        so_far.pop_back();
    }
}

std::uint64_t seed() {
    const char* text = std::getenv("LEVIGATE_SEED");
    const std::uint64_t chosen = text != nullptr && *text != '\0' ? std::strtoull(text, nullptr, 10)
                                                                  : std::random_device{}();
    std::cout << "LEVIGATE_SEED=" << chosen << "\n";
    return chosen;
}

std::vector<int> any_formula(std::size_t count, testing::Random& random) {
    std::vector<int> out;
    int left = 100;
    for (std::size_t i = 0; i + 1 < count; ++i) {
        const int most = left - static_cast<int>(count - i) + 1;
        out.push_back(random.between(1, most));
        left -= out.back();
    }
    out.push_back(left);
    return out;
}

}  // namespace

TEST_CASE("the interval is that of a search over formulas of which the same is told") {
    testing::Random random(seed());
    const std::vector<std::vector<std::string>> mixes{
        {"Lanolin", "Squalane"},
        {"Lanolin", "Squalane", "Tocopherol"},
        {"Mica 60 %, Silica 40 %", "Mica", "Lanolin"},
        {"Mica 60 %, Silica 40 %", "Silica 30 %, Lanolin 70 %"},
        {"Mica 40 % to 60 %, Silica", "Lanolin", "Silica"},
        {"Lanolin", "Lanolin", "Squalane"},
    };
    const std::vector<std::string> lines{"sealed", "sealed within 1 %", "sealed within 20 %"};
    int wide = 0;
    for (int round = 0; round < 24; ++round) {
        const auto& labels = mixes[static_cast<std::size_t>(round) % mixes.size()];
        Page page(page_of(labels, random.pick(lines)));
        const std::vector<int> secret = any_formula(labels.size(), random);
        const Seal seal = page.told(secret);
        const std::string told = sealed_block(page.compiled.formulary, seal, {});
        const std::vector<Concluded> all =
            concluded(page.compiled.formulary, page.compiled.names, seal, {});
        REQUIRE(all.size() == labels.size());
        std::vector<int> least(labels.size(), 100), most(labels.size(), 0);
        int count = 0;
        std::vector<int> so_far;
        each_formula(labels.size(), 100, so_far, [&](const std::vector<int>& other) {
            if (page.block(other) != told) return;
            ++count;
            for (std::size_t i = 0; i < other.size(); ++i) {
                least[i] = std::min(least[i], other[i]);
                most[i] = std::max(most[i], other[i]);
            }
        });
        INFO(told << "\n" << concluded_words(page.compiled.formulary, all));
        REQUIRE(count > 0);
        for (std::size_t i = 0; i < labels.size(); ++i) {
            INFO("m" << i << " " << least[i] << " to " << most[i] << " of 100, " << count);
            CHECK_FALSE(share(Exact(least[i], 100)) < all[i].range.least);
            CHECK_FALSE(all[i].range.most < share(Exact(most[i], 100)));
            if (count < 20) continue;  // too few points to reach the ends
            ++wide;
            CHECK_FALSE(all[i].range.least < share(Exact(least[i] - 3, 100)));
            CHECK_FALSE(share(Exact(most[i] + 3, 100)) < all[i].range.most);
        }
    }
    CHECK(wide > 20);
}

TEST_CASE("bands are a fixed partition, joined until each is wide enough") {
    const auto ends = [](int thousandths) {
        std::vector<int> out;
        for (const Share& end : band_ends(share(Exact(thousandths, 1000))))
            out.push_back(std::atoi((end.value() * Exact(1000)).exactly().c_str()));
        return out;
    };
    CHECK(ends(1) == std::vector<int>{0, 1, 10, 50, 100, 300, 600, 800, 1000});
    CHECK(ends(10) == std::vector<int>{0, 10, 50, 100, 300, 600, 800, 1000});
    CHECK(ends(50) == std::vector<int>{0, 50, 100, 300, 600, 800, 1000});
    CHECK(ends(200) == std::vector<int>{0, 300, 600, 800, 1000});
    CHECK(ends(300) == std::vector<int>{0, 300, 600, 1000});
    CHECK(ends(500) == std::vector<int>{0, 1000});
    CHECK(ends(1000) == std::vector<int>{0, 1000});
}

TEST_CASE("two earlier ranges together tell more than one") {
    // 62 % and 38 %: told within 5 % as 60 to 80 and 30 to 60, so 60 to 70 is left of the first.
    Page page(page_of({"Lanolin", "Squalane"}, "sealed"));
    const Seal seal = page.told({62, 38});
    const auto words = [&](const std::vector<ToldBefore>& before) {
        return concluded_words(page.compiled.formulary,
                               concluded(page.compiled.formulary, page.compiled.names, seal,
                                         before));
    };
    const auto before = [](int least, int most) {
        return ToldBefore{{{"lanolin", {share(Exact(least, 100)), share(Exact(most, 100))}},
                           {"squalane", {share(0), share(1)}}},
                          {},
                          {}};
    };
    CHECK(words({}) == "m0, 60 to 70 %; m1, 30 to 40 %");
    CHECK(words({before(45, 65)}) == "m0, 60 to 65 %; m1, 35 to 40 %");
    CHECK(words({before(45, 65), before(61, 80)}) == "m0, 61 to 65 %; m1, 35 to 39 %");
    CHECK(words({before(10, 30)}) == "m0, 60 to 70 %; m1, 30 to 40 %");  // of another formula
    CHECK(words({before(30, 60)}) == "m0, 60 to 70 %; m1, 30 to 40 %");  // it touches, and no more
    const Share part = share(Exact(62, 100)), other = share(Exact(38, 100));
    CHECK(words({{{}, {}, {{"m0", {part, part}}, {"m1", {other, other}}}}}) ==
          "m0, 62 %; m1, 38 %");
    CHECK(words({{{}, {}, {{"m0", {other, other}}, {"m1", {part, part}}}}}) ==
          "m0, 60 to 70 %; m1, 30 to 40 %");
}

TEST_CASE("a blend in a sealed one, that goes out as well, tells of it") {
    const auto page_with = [](const std::string& inner, const std::string& sec) {
        return "material oil\n    label  Oil\nmaterial aa\n    label  Aa\n"
               "material bb\n    label  Bb\n"
               "blend inner\n" + inner + "blend sec\n    sealed within 20 %\n" + sec +
               "shade Q\n    1 part  inner\n    1 part  sec\n    batch  t 6 g\n";
    };
    const auto words = [](const std::string& text) {
        const World world = memory_world({{"a.shade", text}});
        Compiled source = compile(world, "a.shade", Library::with_rules);
        ShareOrder order;
        order.otherwise = "A page";
        std::string out;
        for (const Finding& one : share_edition(source, order).findings)
            if (one.message.find("Of sec") != std::string::npos) out += one.message;
        return out;
    };
    // Of sec at most 30 % is oil, so that at least 70 % is the inner blend, of which 30 to 40 % is
    // told to be bb: 21 % at least, and by its own range at most 30 %.
    CHECK(words(page_with("    sealed\n    70 parts  aa\n    30 parts  bb\n",
                          "    75 parts  inner\n    25 parts  oil\n"))
              .find("bb, 21 to 30 %") != std::string::npos);
    // A third of the inner blend is aa. 2/3 of its share is oil, told as 30 to 60 %; the rest is
    // bb, told as 30 to 60 %: the inner blend is 45 to 70 %, and aa a third of that.
    CHECK(words(page_with("    1 part  aa\n    2 parts  oil\n",
                          "    50 parts  inner\n    50 parts  bb\n"))
              .find("aa, 15 to 23.4 %") != std::string::npos);
}
