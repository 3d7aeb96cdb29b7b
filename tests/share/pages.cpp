#include "tests/share/pages.hpp"

#include <fmt/format.h>

#include "tests/properties/random.hpp"

namespace levigate::testing {
namespace {

using Words = std::vector<std::string>;

class Maker {
public:
    Maker(std::uint64_t open, std::uint64_t secret, bool near)
        : open_(open), secret_(secret), near_(near) {}

    SecretPages operator()() {
        SecretPages out;
        materials();
        blends();
        tables();
        const bool shelf = open_.chance(40);
        if (shelf) {
            out.files["shelf.shade"] = text_;
            text_ = head() + "use \"shelf.shade\"\n";
        } else {
            text_ = head() + text_;
        }
        shades();
        versions();
        families();
        home();
        out.files["a.shade"] = text_;
        if (open_.chance(40))
            for (const std::string& name : shades_)
                if (open_.chance(40)) out.shades.push_back(name);
        return out;
    }

private:
    bool often() { return open_.chance(60); }
    bool seldom() { return open_.chance(15); }
    void line(const std::string& words) { text_ += "    " + words + "\n"; }
    void block(const std::string& heading) {
        if (seldom()) text_ += "## For readers of " + heading + ".\n";
        text_ += heading + "\n";
    }
    std::string token() { return fmt::format("zq{}x{}", secret_.between(1, 999999), ++count_); }
    /// Private lines that may be there or not, and say anything.
    void private_words() {
        if (secret_.chance(40)) line(fmt::format("private note  {} {}", token(), token()));
        if (secret_.chance(15)) line(fmt::format("private note  {}", token()));
        if (secret_.chance(25)) text_ += "    # " + token() + "\n";
    }
    /// With a number of the public kind, or of a private one.
    void property(const std::string& word, const std::string& pattern, int low, int high,
                  int private_percent) {
        const int number = open_.between(low, high);
        if (!open_.chance(private_percent))
            return line(fmt::format("{}  {}", word, fmt::format(fmt::runtime(pattern), number)));
        const int other = secret_.between(low, high);
        line(fmt::format("private {}  {}", word, fmt::format(fmt::runtime(pattern), other)));
    }

    std::string head();
    void material(const std::string& name, const Words& lines);
    void materials();
    void sealed(const std::string& name, const Words& parts);
    void blends();
    void tables();
    void shades();
    void shade_properties(const std::string& name, bool first);
    void quince();
    void versions();
    void families();
    void home();

    Random open_, secret_;
    const bool near_;
    bool weights_ = false;  ///< Quince is a formula of weights
    std::string text_;
    Words shades_;
    int count_ = 0;
};

std::string Maker::head() {
    std::string out;
    if (seldom()) out += open_.chance(50) ? "market EU\n" : "market US\n";
    if (secret_.chance(30)) out += "# " + token() + "\n";
    if (often()) {
        out += "edition Autumn\n    number  2\n    note  For members.\n";
        if (secret_.chance(30)) out += "    private note  " + token() + "\n";
    }
    return out;
}

void Maker::material(const std::string& name, const Words& lines) {
    block("material " + name);
    for (const std::string& one : lines) line(one);
    if (often()) property("price", "{} USD per 30 g", 1, 30, 60);
    private_words();
}

void Maker::materials() {
    material("castor oil", {"label  Ricinus Communis Seed Oil", "role  base"});
    property("density", "0.{} g/mL", 90, 99, 10);
    material("wax", {"label  Cera Alba", often() ? "role  base" : "role  wax"});
    if (often()) property("density", "0.{} g/mL", 90, 99, 20);
    material("kaolin", {"label  Kaolin", "role  clay", "hazard  powder"});
    if (often()) property("bulk", "0.{} g/mL", 20, 60, 15);
    material("red lake", {"label  Red 7 Lake", "colourant  CI 15850:1, strength 35 %"});
    line(open_.chance(85) ? "role  lake" : "private role  lake");
    material("copper mica", {often() ? "label  Mica 60 %, Titanium Dioxide 40 %"
                                     : "label  Mica 50 % to 70 %, Titanium Dioxide",
                             "role  mica", "colourant  CI 77891", "hazard  powder"});
    material("flavour oil", {"label  Aroma", "hazard  flammable"});
    property("density", "0.{} g/mL", 80, 95, 10);
    if (seldom()) line("private also called  " + token());
    if (open_.chance(30)) line("contains  limonene 4 %");
    material("shine", {"label  Polybutene"});
    property("density", "0.{} g/mL", 80, 95, 5);
    material("gloss", {"label  Squalane"});
    material("pearl", {"label  Mica", "role  mica"});
}

void Maker::sealed(const std::string& name, const Words& parts) {
    block("blend " + name);
    line(seldom() ? "sealed within 1 %" : "sealed");
    for (const std::string& part : parts) {
        const int size = open_.between(3, 60) * 100;
        const int mine = near_ ? size + secret_.between(-40, 40) : secret_.between(100, 6000);
        line(fmt::format("{} parts  {}", mine, part));
    }
    if (secret_.chance(30)) line("step  Melt it, " + token() + ".");
    if (secret_.chance(20)) text_ += "    ## Of the inside: " + token() + "\n";
    private_words();
}

void Maker::blends() {
    sealed("my base", seldom() ? Words{"castor oil", "wax", "kaolin"} : Words{"castor oil", "wax"});
    if (open_.chance(80)) line(open_.chance(85) ? "role  base" : "private role  base");
    if (often()) property("density", "0.{} g/mL", 90, 99, 15);
    sealed("glow", seldom() ? Words{"copper mica", "red lake", "kaolin"}
                            : Words{"copper mica", "red lake"});
    if (often()) line("role  mica");
    if (seldom()) {
        block("blend deep glow like glow");
        line("sealed");
        line(fmt::format("set  {} parts  red lake", secret_.between(1000, 3000)));
    }
    block("blend Windfall mica");
    line(fmt::format("{} parts  copper mica", open_.between(2, 9)));
    line("1 part  red lake");
    if (seldom()) line("10 %  glow");
    private_words();
    block("blend Dusk mica like Windfall mica");
    line(fmt::format("set  {} parts  copper mica", open_.between(2, 9)));
    private_words();
}

void Maker::tables() {
    block("container pot");
    property("holds", open_.chance(50) ? "{} g" : "{} mL", 2, 6, 10);
    if (often()) property("price", "0.{} USD", 10, 90, 50);
    block("unit scoop = 0.15 mL");
    if (open_.chance(40)) {
        block("balance bench");
        line("reads  0.1 g");
    }
}

void Maker::shade_properties(const std::string& name, bool first) {
    static const Words sizes{"6 g", "12 pots", "20 mL", "40 g, holdback 1 g",
                             "3 pots, overage 5 %"};
    if (first || open_.chance(30)) line("batch  trial  " + open_.pick(sizes));
    if (secret_.chance(30)) line(fmt::format("private batch  {}  7 g", token()));
    if (open_.chance(30)) line("finishes  satin, matte");
    if (open_.chance(30)) line("variants  sheer");
    static const Words expects{"cost under 900 USD", "my base at least 1 %", "shine under 90 %",
                               "cost per pot under 900 USD", "the lake at most 90 %"};
    if (open_.chance(15)) line("expect  " + open_.pick(expects));
    if (secret_.chance(20)) line("private expect  cost under 500 USD");
    if (open_.chance(40)) line("step  Work it until no streak is left.");
    if (secret_.chance(20)) line("private step  Rub " + token() + ".");
    if (open_.chance(30)) line("note  A shade of " + name + ".");
    if (secret_.chance(10)) line("private swatch  Lab 38 61 32");
    private_words();
    shades_.push_back(name);
}

void Maker::quince() {
    block("shade Quince");
    line("let {depth} = " + std::to_string(open_.between(4, 12)) + " %");
    const int kind = open_.between(0, 4);
    weights_ = kind >= 3;
    line(weights_ ? "40 g  my base" : "rest  my base");
    if (kind == 4) {
        line("5 g  glow");
        line("3 g  red lake");
        line(often() ? "enough castor oil to bring the lake to 5 %"
                     : "1/3 × as much kaolin as glow");
        return shade_properties("Quince", true);
    }
    static const Words glows{"{depth}  glow", "5 %  glow", "1 in 20  glow",
                             "half as much glow as my base"};
    if (often()) line(open_.pick(glows));
    static const Words micas{"{depth}  Windfall mica", "3 %  Dusk mica",
                             "1/4 × as much Windfall mica as the base",
                             "(2 × 3 % + 1 %)  copper mica", "500 ppm  Windfall mica"};
    line(open_.pick(micas));
    static const Words others{"2 drops per 10 g  flavour oil", "0.3 g per 100 g  flavour oil",
                              "1 mL per 50 g  flavour oil", "1 %  flavour oil"};
    if (often()) line(open_.pick(others));
    static const Words lakes{"2 %  red lake", "1/10 × as much red lake as the mica",
                             "2 %  red lake", "1/9 × as much kaolin as my base"};
    if (open_.chance(70)) line(open_.pick(lakes));
    shade_properties("Quince", true);
}

void Maker::shades() {
    quince();
    block("shade Damson like Quince");
    if (open_.chance(50)) line("let {depth} = 9 %");
    static const Words edits{"add  1.5 %  shine", "add  1/3 × as much shine as the base",
                             "add  1 mL per 40 g  shine", "swap  my base for wax"};
    if (weights_ && open_.chance(40))
        line("scale  my base by 1/2");
    else if (often())
        line(open_.pick(edits));
    shade_properties("Damson", false);
    if (open_.chance(40)) {
        block("shade Sloe like Damson");
        line("add  2 %  pearl");
        shade_properties("Sloe", false);
    }
    if (open_.chance(40)) {
        block("shade Medlar");
        line("rest  wax");
        line("30 %  Damson");
        line(open_.chance(50) ? "10 %  my base" : "2 %  kaolin");
        shade_properties("Medlar", true);
    }
}

void Maker::versions() {
    block("variant sheer");
    line("add  1 %  gloss");
    private_words();
    block("finish matte");
    static const Words adds{"add  3 %  kaolin", "add  1/4 × as much kaolin as the base",
                            "add  1/5 × as much shine as the bulk"};
    line(open_.pick(adds));
    private_words();
}

void Maker::families() {
    if (open_.chance(25)) {
        block("family Ladder");
        line("from  Quince");
        line("vary  {depth} over 4 %, 8 %");
        line("name  Ladder {depth}");
        if (open_.chance(50)) shades_.push_back("Ladder");
    }
    if (open_.chance(25)) {
        block("family Hedge");
        line("between  Quince and Damson in 3 steps");
        line("name  Hedge {step}");
        shades_.push_back("Hedge");
    }
    if (open_.chance(15)) {
        block("family Table");
        line("from  Quince");
        line("columns  name | {depth}");
        line("row  Pale Quince | 3 %");
        shades_.push_back("Table");
    }
}

/// What is never part of an edition.
void Maker::home() {
    if (secret_.chance(40)) {
        text_ += "shelf\n";
        text_ += fmt::format("    have  {} g wax, lot {}\n", secret_.between(1, 90), token());
    }
    if (secret_.chance(30))
        text_ += fmt::format("plan {}\n    make  {} g of Quince\n", token(), secret_.between(1, 9));
    if (secret_.chance(20))
        text_ += fmt::format("rate EUR = 1.{} USD, 2026-10-01\n", secret_.between(10, 20));
}

}  // namespace

SecretPages secret_pages(std::uint64_t open, std::uint64_t secret, bool near) {
    return Maker(open, secret, near)();
}

}  // namespace levigate::testing
