#include "tests/why/pages.hpp"

#include <random>
#include <vector>

namespace levigate::testing {
namespace {

class Dice {
public:
    explicit Dice(std::uint64_t seed) : engine_(seed) {}
    int from(int least, int most) {
        return least + static_cast<int>(engine_() % static_cast<unsigned>(most - least + 1));
    }
    bool one_in(int count) { return from(1, count) == 1; }
    std::string any(const std::vector<std::string>& words) {
        return words[static_cast<std::size_t>(from(0, static_cast<int>(words.size()) - 1))];
    }

private:
    std::mt19937_64 engine_;
};

std::string text(int number) { return std::to_string(number); }

// "3", "2.7", "5/3": from about `least` to about `most`.
std::string number(Dice& dice, int least, int most) {
    const int whole = dice.from(least, most);
    if (dice.one_in(3)) return text(whole) + "." + text(dice.from(1, 99));
    if (dice.one_in(3)) return text(whole * 7 + dice.from(0, 6)) + "/7";
    return text(whole);
}

std::string shelf() {
    return "material base\n role base\n density 0.9 g/mL\n"
           "material clay\n role clay\n density 2.6 g/mL\n"
           "material silk\n density 2 g/mL\n"
           "material lake\n role lake\n density 1.7 g/mL\n"
           "material mica\n role mica\n density 3 g/mL\n bulk 0.3 g/mL\n"
           "material thinner\n role thinner\n density 0.75 g/mL\n"
           "material flavour\n density 0.8 g/mL\n"
           "container tube\n holds 4.2 g\ncontainer pot\n holds 3 mL\n";
}

std::string blends(Dice& dice) {
    std::string out = "blend inner\n" + number(dice, 1, 9) + " parts mica\n" + number(dice, 1, 9) +
                      " parts lake\n";
    if (dice.one_in(2)) out += "half as much silk as lake\n";
    out += "blend outer\n";
    if (dice.one_in(2)) out += "role mica\n";
    if (dice.one_in(2))
        out += "rest silk\n" + number(dice, 10, 60) + " % inner\n";
    else
        out += number(dice, 1, 9) + " parts inner\n" + number(dice, 1, 9) + " parts silk\n";
    return out;
}

std::string extras(Dice& dice) {
    const std::vector<std::string> flavours = {"2 drops per 10 g flavour\n", "0.5 % flavour\n",
                                               "1 mL per 50 g flavour\n", "1 in 300 flavour\n",
                                               "0.3 g per 100 g flavour\n"};
    const std::vector<std::string> clays = {
        "half as much clay as the base\n", "1/3 × as much clay as base\n",
        "twice as much clay as the lake\n", "25 % × as much clay as outer\n"};
    return dice.any(flavours) + (dice.one_in(4) ? "" : dice.any(clays));
}

std::string sizes(Dice& dice) {
    return "batch trial " + number(dice, 3, 30) + " g\n" + "batch full " + text(dice.from(1, 60)) +
           " tubes, overage " + number(dice, 1, 9) + " %, holdback 2 g\n" + "batch poured " +
           number(dice, 10, 90) + " mL, holdback " + number(dice, 1, 3) +
           " mL\nbatch pots 12 pots, holdback 1 g\n";
}

std::string settings(Dice& dice) {
    return "variants sheer\nfinishes satin, matte, dusted\n" + sizes(dice);
}

std::string root(Dice& dice, int form) {
    std::string out = "shade Root\nlet {depth} = " + number(dice, 3, 12) + " %\n";
    if (form == 0)
        out += number(dice, 20, 40) + " g base\n" + number(dice, 3, 9) + " g outer\n" +
               number(dice, 2, 9) + " mL mica\n" + extras(dice);
    if (form == 1)
        out += number(dice, 20, 40) + " parts base\n" + number(dice, 3, 9) + " parts outer\n" +
               extras(dice);
    if (form == 2) out += "rest base\n{depth} outer\n" + extras(dice);
    if (form == 3) out += "{depth} outer\n(40 % - {depth}) clay\n(60 % - 1/7 %) base\n1/7 % mica\n";
    return out + settings(dice);
}

// Of another shade: swap, scale, set, add, without; where all are shares, rebalanced.
std::string child(Dice& dice, int form) {
    std::string out = "shade Child like Root\n";
    if (dice.one_in(2)) out += "scale outer by " + number(dice, 1, 2) + "\n";
    if (form == 3) out += "set " + number(dice, 20, 50) + " % clay\n";
    if (dice.one_in(2)) out += "swap outer for inner\n";
    if (dice.one_in(2)) out += "add " + number(dice, 1, 3) + " % thinner\n";
    if (form == 3 && dice.one_in(3)) out += "without mica\n";
    if (form == 3) out += "rebalance\n";
    out += "shade Grandchild like Child\nadd 1.5 % silk\n";
    return form == 3 ? out + "rebalance\n" : out;
}

}  // namespace

std::string page(std::uint64_t seed) {
    Dice dice(seed);
    const int form = static_cast<int>(seed % 4);
    std::string out = shelf() + blends(dice) + root(dice, form) + child(dice, form);
    out += "shade Let down\n" + number(dice, 5, 9) + " g inner\n" + number(dice, 1, 20) +
           " g clay\nenough base to bring the lake to " + number(dice, 1, 2) +
           " %\nfinishes dusted\n" + sizes(dice);
    out += "shade Mixed\nrest base\n10 % Root\n" + number(dice, 1, 20) + " % inner\n" + sizes(dice);
    out += "variant sheer\nscale the mica by 1/" + text(dice.from(2, 5)) +
           (form == 3 ? "\nrebalance\n" : "\n");
    out += "finish matte\nadd as much clay as the base\nadd 1/4 × as much thinner as clay\n";
    out += "finish dusted\nadd " + number(dice, 1, 9) +
           " % silk\nadd half as much lake as silk\n"
           "add 1/10 × as much outer as the bulk\nadd 2 g per 100 g clay\n";
    return out + "family Way\nbetween Root and Child in " + text(dice.from(2, 5)) +
           " steps\nname Way {step}\n";
}

}  // namespace levigate::testing
