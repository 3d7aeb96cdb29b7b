// Amounts in all the forms that the language has for them.

#include <algorithm>

#include "tests/properties/generate.hpp"
#include "tests/properties/write.hpp"

namespace levigate::testing {

using Kind = Amount::Kind;

namespace {

Amount made(Kind kind, Number number, std::string text, bool spooned = false) {
    Amount amount;
    amount.kind = kind;
    amount.number = std::move(number);
    amount.text = std::move(text);
    amount.spooned = spooned;
    return amount;
}

struct Spoon {
    Number millilitres;
    std::string one, many;
};

/// The page's own scoop, and some of the library's measures: a drop of 1/20 mL, a US teaspoon.
std::vector<Spoon> spoons(const Book& book) {
    std::vector<Spoon> all{{Number(1, 20), "drop", "drops"},
                           {Number(1), "mL", "mL"},
                           {Number(492892159375, 100000000000), "tsp", "tsp"},
                           {Number(492892159375, 100000000000), "teaspoon", "teaspoons"}};
    if (book.unit) all.push_back({Number(3, 20), "scoop", "scoops"});
    return all;
}

std::string mixed_text(int whole, int top, int bottom) {
    const std::string fraction = bottom == 2 && top == 1 ? "½"
                                 : bottom == 4 && top == 3
                                     ? "¾"
                                     : std::to_string(top) + "/" + std::to_string(bottom);
    return whole == 0 ? fraction : std::to_string(whole) + " " + fraction;
}

}  // namespace

Let Maker::percentage(const std::string& hole, int most) {
    const int halves = random.between(1, 2 * most);
    const Number value(halves, 200);
    return {hole, value, none, number_text(value * 100) + " %"};
}

Amount Maker::share(Id what, int most) {
    const int permille = random.between(1, std::max(1, most));
    const Number number(permille, 1000);
    const Number percent = number * 100;
    switch (random.between(0, 11)) {
        case 0: {
            const int bottom = random.pick(std::vector<int>{2, 3, 4, 7}),
                      top = random.between(1, bottom - 1);
            const int whole = random.between(0, std::max(0, permille / 10 - 1));
            return made(Kind::share, (whole + Number(top, bottom)) / 100,
                        mixed_text(whole, top, bottom) + " %");
        }
        case 1: {
            const int ppm = 50 * random.between(1, 100);
            return made(Kind::share, Number(ppm, 1000000), std::to_string(ppm) + " ppm");
        }
        case 2: {
            const int many = random.between(1000 / std::max(1, most) + 1, 1200);
            return made(Kind::share, Number(1, many), "1 in " + std::to_string(many));
        }
        case 3: return made(Kind::share, number, number_text(percent) + " g per 100 g");
        case 4: return made(Kind::share, number, number_text(percent / 2) + " g per 50 g");
        case 5: {
            const auto density = reckoner.density(what, true);
            const Spoon spoon = random.pick(spoons(book));
            const int count = random.between(1, 3), per = 10 * random.between(1, 10);
            const Number volume = spoon.millilitres * count / per;
            if (!density || volume * *density * 1000 > most) break;
            return made(Kind::share, volume,
                        std::to_string(count) + " " + (count == 1 ? spoon.one : spoon.many) +
                            " per " + std::to_string(per) + " g",
                        true);
        }
        case 6: return made(Kind::share, number, "(2 × " + number_text(percent / 2) + " %)");
        case 7:
            return made(Kind::share, number,
                        "(" + number_text(percent / 4) + " % + 3 × " + number_text(percent / 4) +
                            " %)");
        case 8: return made(Kind::share, number, "(" + number_text(percent * 2) + " % / 2)");
        default: break;
    }
    return made(Kind::share, number, number_text(percent) + (random.chance(80) ? " %" : "%"));
}

Amount Maker::hole_share(const Let& let) {
    Amount amount = made(Kind::share, 1, "{" + let.hole + "}");
    amount.hole = let.hole;
    switch (random.between(0, 5)) {
        case 0:
            amount.text = "({" + let.hole + "} / 2)";
            amount.number = Number(1, 2);
            break;
        case 1:
            amount.text = "(1.5 × {" + let.hole + "})";
            amount.number = Number(3, 2);
            break;
        case 2:
            amount.text = "({" + let.hole + "} + 0.5 %)";
            amount.more = Number(1, 200);
            break;
        default: break;
    }
    return amount;
}

Amount Maker::parts() {
    if (random.chance(25)) {
        const int bottom = random.pick(std::vector<int>{2, 3, 4, 5}),
                  top = random.between(1, bottom - 1);
        const int whole = random.between(0, 9);
        return made(Kind::parts, whole + Number(top, bottom),
                    mixed_text(whole, top, bottom) + (whole == 0 ? " part" : " parts"));
    }
    if (random.chance(20)) {
        const Number number(random.between(1, 400), 20);
        return made(Kind::parts, number, number_text(number) + " parts");
    }
    const int number = random.between(1, 40);
    return made(Kind::parts, number, std::to_string(number) + (number == 1 ? " part" : " parts"));
}

Amount Maker::grams(Id what) {
    const int number = random.between(1, 120);
    switch (random.between(0, 6)) {
        case 0:
            return made(Kind::grams, Number(number, 1) * Number(28349523125, 1000000000) / 2,
                        number_text(Number(number, 2)) + " oz");
        case 1:
            return made(Kind::grams, Number(number * 50, 1000),
                        std::to_string(number * 50) + " mg");
        case 2: {
            if (!reckoner.density(what, true)) break;
            const Spoon spoon = random.pick(spoons(book));
            const int count = random.between(1, 12);
            return made(Kind::grams, spoon.millilitres * count,
                        std::to_string(count) + " " + (count == 1 ? spoon.one : spoon.many), true);
        }
        case 3:
            return made(Kind::grams, Number(number, 10), number_text(Number(number, 10)) + " g");
        default: break;
    }
    return made(Kind::grams, number, std::to_string(number) + " g");
}

Amount Maker::as_much(const Ref& ref) {
    static const std::vector<std::pair<Number, std::string>> factors{
        {1, ""},
        {Number(1, 2), "half "},
        {Number(1, 4), "a quarter "},
        {2, "twice "},
        {Number(1, 4), "1/4 × "},
        {Number(3, 10), "0.3 × "},
        {Number(3, 2), "1 1/2 × "},
        {Number(1, 3), "1/3 * "},
        {Number(3, 4), "¾ × "},
    };
    const auto& [factor, words] = random.pick(factors);
    Amount amount = made(Kind::as_much, factor, words);
    amount.ref = ref;
    return amount;
}

}  // namespace levigate::testing
