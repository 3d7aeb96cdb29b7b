// What `changes` tells: which blocks, which causes, and what members are told. By hand.

#include <catch2/catch.hpp>

#include "interpreter/changes/editions.hpp"

using namespace levigate;

namespace {

using Files = std::map<std::string, std::string>;

struct Pair {
    State before, now;
};

Pair read(const Files& was, const Files& is) {
    Pair out;
    State &before = out.before, &now = out.now;
    for (const auto& [path, text] : was)
        if (path != "page.shade") add_file(before, memory_world(was), path, path);
    for (const auto& [path, text] : is)
        if (path != "page.shade") add_file(now, memory_world(is), path, path);
    return out;
}

Changes told_of(const Files& was, const Files& is) {
    Pair pair = read(was, is);
    return compare(pair.before, pair.now, {});
}

Changes told_of(const std::string& was, const std::string& is) {
    return told_of(Files{{"a.shade", was}}, Files{{"a.shade", is}});
}

/// What the editions of both tell, which must be able to go out.
Changes told_to_members(const std::string& was, const std::string& is) {
    Pair pair = read(Files{{"a.shade", was}}, Files{{"a.shade", is}});
    EditionState before = editions_of(pair.before), now = editions_of(pair.now);
    REQUIRE(before.refused.empty());
    REQUIRE(now.refused.empty());
    return compare_editions(before, now, {});
}

/// "renamed material clay, changed shade S"
std::string blocks(const Changes& changes) {
    static const char* const turns[] = {"added", "gone", "changed", "renamed"};
    std::string out;
    for (const BlockChange& one : changes.blocks)
        out += (out.empty() ? "" : ", ") + std::string(turns[static_cast<int>(one.turn)]) + " " +
               one.kind + " " + one.name;
    return out;
}

/// "base is new; mica changed" of a shade.
std::string causes(const Changes& changes, const std::string& shade) {
    std::string out;
    for (const ShadeEffect& one : changes.shades)
        if (one.name == shade)
            for (const Cause& cause : one.causes)
                out += (out.empty() ? "" : "; ") + cause.name + " " + cause.how;
    return out;
}

std::string everything(const Changes& changes) {
    std::string out;
    for (const BlockChange& block : changes.blocks) {
        out += block.kind + " " + block.name + "\n";
        for (const LineChange& line : block.lines)
            out += line.label + ": " + line.before + " > " + line.now + "\n";
    }
    for (const LipEffect& lip : changes.lips)
        out += std::string(lip.gone ? "gone " : "new ") + std::string(row_of(lip.code).name) + "\n";
    return out;
}

const std::string shelf = "material base\nmaterial mica\n role mica\n";

}  // namespace

TEST_CASE("a renaming that another one brings to light is told as one", "[changes]") {
    // The blend is the same once its material's new name is known; so is the edit in which both
    // names stand.
    const auto page = [](const std::string& material, const std::string& blend) {
        return shelf + "material " + material + "\n label Kaolin\nblend " + blend +
               "\n 3 parts mica\n 1 part " + material + "\nshade S\n rest base\n 10 % " + material +
               "\n batch t 10 g\nshade T like S\n swap " + material + " for " + blend + "\n";
    };
    CHECK(blocks(told_of(page("clay", "W"), page("earth", "V"))) ==
          "renamed material earth, renamed blend V");
}

TEST_CASE("a line that names several renamed things is the same line", "[changes]") {
    const auto page = [](const std::string& first, const std::string& second) {
        return shelf + "variant " + first + "\n set 5 % mica\nvariant " + second +
               "\n set 20 % mica\nshade S\n rest base\n 10 % mica\n variants " + first + ", " +
               second + "\n batch t 10 g\n";
    };
    CHECK(blocks(told_of(page("pale", "deep"), page("light", "dark"))) ==
          "renamed variant light, renamed variant dark");
}

TEST_CASE("of two that are alike nobody knows which was renamed", "[changes]") {
    const std::string two = shelf + "material clay\n label Kaolin\nmaterial silk\n label Kaolin\n";
    const std::string other =
        shelf + "material earth\n label Kaolin\nmaterial fog\n label Kaolin\n";
    CHECK(blocks(told_of(two, other)) ==
          "added material earth, added material fog, gone material clay, gone material silk");
}

TEST_CASE("a block that moves to a page that the file uses is no change", "[changes]") {
    const std::string shade = "shade S\n 1 part base\n batch t 10 g\n";
    const auto moved = told_of({{"a.shade", "use \"page.shade\"\nmaterial base\n" + shade},
                                {"page.shade", "material mica\n"}},
                               {{"a.shade", "use \"page.shade\"\n" + shade},
                                {"page.shade", "material mica\nmaterial base\n"}});
    CHECK(blocks(moved).empty());
}

TEST_CASE("a batch of another size is told with both totals", "[changes]") {
    const std::string page = shelf + "shade S\n 1 part base\n batch t ";
    const auto changes = told_of(page + "10 g\n batch u 5 g\n", page + "12 g\n batch u 5 g\n");
    REQUIRE(changes.shades.size() == 1);
    REQUIRE(changes.shades[0].products.size() == 1);
    const auto& batches = changes.shades[0].products[0].batches;
    REQUIRE(batches.size() == 1);
    CHECK(batches[0].name == "t");
    CHECK(batches[0].total_before == "10.00");
    CHECK(batches[0].total_now == "12.00");
}

TEST_CASE("the list of a finish that is new is no change of a list", "[changes]") {
    const std::string page = "market US\nmaterial base\n label Lanolin\n"
                             "finish glossy\n add 10 % base\nshade S\n 1 part base\n batch t 10 g\n"
                             " finishes satin";
    const auto changes = told_of(page + "\n", page + ", glossy\n");
    REQUIRE(changes.shades.size() == 1);
    CHECK(changes.shades[0].labels.empty());
    REQUIRE(changes.shades[0].products.size() == 1);
    CHECK(changes.shades[0].products[0].turn == Turn::added);
    CHECK(changes.shades[0].products[0].finish == "glossy");
}

TEST_CASE("how a container or a unit changed", "[changes]") {
    const auto cause = [](const std::string& was, const std::string& is) {
        const std::string page = shelf + "shade S\n rest base\n 1 pinch per 10 g mica\n"
                                         " batch t 2 pots\n";
        return causes(told_of(was + page, is + page), "S");
    };
    const std::string pinch = "unit pinch = 0.1 g\n", pot = "container pot\n holds 5 g\n";
    CHECK(cause(pinch + pot, pinch + "container pot\n holds 4 g\n") == "pot holds less now");
    CHECK(cause(pinch + pot, pinch + "container pot\n holds 6 g\n") == "pot holds more now");
    CHECK(cause(pinch + pot, "unit pinch = 0.05 g\n" + pot) == "pinch is less now");
    CHECK(cause(pinch + pot, "unit pinch = 0.2 g\n" + pot) == "pinch is more now");
}

TEST_CASE("a first price, another price and no price any more", "[changes]") {
    const auto cause = [](const std::string& was, const std::string& is) {
        const std::string page = "shade S\n 1 part base\n batch t 10 g\n";
        return causes(told_of("material base\n" + was + page, "material base\n" + is + page), "S");
    };
    const std::string dear = " price 5 USD per 100 g\n", cheap = " price 4 USD per 100 g\n";
    CHECK(cause("", dear) == "base has a price now");
    CHECK(cause(dear, cheap) == "base has another price now");
    CHECK(cause(dear, "") == "base has no price now");
}

TEST_CASE("an edit of words is no cause of other amounts", "[changes]") {
    const auto page = [](const std::string& note, const std::string& strength) {
        return shelf + "blend W\n 9 parts base\n " + strength + " mica\nmaterial clay\n note " +
               note + "\nshade S\n 50 % W\n 50 % clay\n batch t 10 g\n";
    };
    CHECK(causes(told_of(page("Dry.", "1 part"), page("Very dry.", "2 parts")), "S") ==
          "W changed");
}

TEST_CASE("an edit of words is no cause where causes can't be tried out either", "[changes]") {
    // What can't be compiled without errors isn't tried: then the kind of the edit alone decides.
    const auto page = [](const std::string& note, const std::string& mica) {
        return shelf + "material clay\n note " + note + "\nblend W\n 9 parts base\n " + mica +
               " mica\nshade S\n 50 % W\n 50 % clay\n batch t 10 g\n" +
               "shade Broken\n 1 part nobody\n batch t 10 g\n";
    };
    CHECK(causes(told_of(page("Dry.", "1 part"), page("Very dry.", "2 parts")), "S") ==
          "W changed");
}

TEST_CASE("a density by which a price is one by weight is a cause of costs", "[changes]") {
    // 10 g are 10 mL at 1 g/mL, and 5 mL at 2 g/mL: half the money, on the same sheet.
    const auto page = [](const std::string& density) {
        return "material base\n density " + density + " g/mL\n price 1 USD per 1 mL\n" +
               "shade S\n 1 part base\n batch t 10 g\n";
    };
    const auto changes = told_of(page("1"), page("2"));
    CHECK(causes(changes, "S") == "base changed");
    REQUIRE(changes.shades.size() == 1);
    CHECK(changes.shades[0].products.empty());
    REQUIRE(changes.shades[0].costs.size() == 1);
    CHECK(changes.shades[0].costs[0].before->sum.of(currency_tag("USD")) == 10);
    CHECK(changes.shades[0].costs[0].now->sum.of(currency_tag("USD")) == 5);
}

TEST_CASE("what is newly wrong on lips in two files is told once", "[changes]") {
    const auto page = [](const std::string& lips) {
        const std::string text = "market XX\nrule XX A\n covers CI 1\n lips " + lips +
                                 "\nmaterial red\n colourant CI 1\nshade S\n 1 part red\n";
        return Files{{"a.shade", text}, {"b.shade", text}};
    };
    const auto changes = told_of(page("yes"), page("no"));
    REQUIRE(changes.lips.size() == 1);
    CHECK(changes.lips[0].code == Code::lips_not_allowed);
    CHECK_FALSE(changes.lips[0].gone);
}

TEST_CASE("two edits that only together change something are both causes", "[changes]") {
    // 1 mL of the blend per 10 g is 10 % at 1 g/mL and 20 % at 2 g/mL. Now the blend states 2 g/mL,
    // and its one material has it too: without either edit it would still be 20 %.
    const auto page = [](const std::string& of_mica, const std::string& of_blend) {
        return "material base\nmaterial mica\n density " + of_mica + " g/mL\nblend W\n" + of_blend +
               " 1 part mica\nshade S\n rest base\n 1 mL per 10 g W\n batch t 10 g\n";
    };
    CHECK(causes(told_of(page("1", ""), page("2", " density 2 g/mL\n")), "S") ==
          "W changed; mica changed");
}

TEST_CASE("the same edits in another order are told where they make a difference", "[changes]") {
    // 10 % and twice that, or twice 5 % and then 10 %.
    const std::string parent = shelf + "shade S\n rest base\n 5 % mica\n batch t 10 g\n"
                                       "shade T like S\n";
    const std::string first = parent + " set 10 % mica\n scale mica by 2\n";
    const std::string last = parent + " scale mica by 2\n set 10 % mica\n";
    const auto changes = told_of(first, last);
    CHECK(blocks(changes).empty());
    CHECK(causes(changes, "T") == "T has its lines in another order");
    // Beside an edit that explains it, the order is not told.
    const auto with_unit = [](const std::string& page, const std::string& unit) {
        return "unit pinch = " + unit + "\n" + page +
               "shade U like S\n set 1 pinch per 10 g mica\n";
    };
    CHECK(causes(told_of(with_unit(first, "0.1 g"), with_unit(last, "0.2 g")), "U") ==
          "pinch is more now");
}

TEST_CASE("a line that became private is gone for members, and new when it is public again",
          "[changes]") {
    for (const std::string line :
         {"note Melt it slowly.", "step Melt it slowly.", "expect base at least 90 %"}) {
        const std::string page = shelf + "shade S\n 1 part base\n batch t 10 g\n ";
        const std::string open = page + line + "\n", hidden = page + "private " + line + "\n";
        INFO(line);
        CHECK(everything(told_of(open, hidden)).find("private") != std::string::npos);
        const Changes gone = told_to_members(open, hidden), back = told_to_members(hidden, open);
        REQUIRE((gone.blocks.size() == 1 && gone.blocks[0].lines.size() == 1));
        CHECK(gone.blocks[0].lines[0].turn == Turn::gone);
        CHECK(gone.blocks[0].lines[0].before == line);
        REQUIRE((back.blocks.size() == 1 && back.blocks[0].lines.size() == 1));
        CHECK(back.blocks[0].lines[0].now == line);
        CHECK_FALSE(told_to_members(hidden, hidden + "# and so on\n").any());
    }
}

TEST_CASE("members are told of no plan, no shelf, and nothing that is private", "[changes]") {
    const std::string page = "material base\nmaterial gold\nshade S\n 9 parts base\n"
                             " 1 part gold\n batch t 10 g\n";
    const std::string more = page + "plan P\n make t of S\nshelf\n have 5 g base\n"
                                    "rate EUR = 1.25 USD, 2026-10-01\nmaterial spare\n";
    CHECK(blocks(told_of(page, more)) == "added plan P, added shelf shelf, added rate EUR, "
                                         "added material spare");
    CHECK_FALSE(told_to_members(page, more).any());
    std::string mine = more;
    mine.replace(mine.find("material gold\n"), 14,
                 "material gold\n private price 9 USD per 1 g\n private note From the mill.\n");
    CHECK(told_of(more, mine).any());
    CHECK_FALSE(told_to_members(more, mine).any());
}

TEST_CASE("members are told what they can work out from the editions, and why one can't go out",
          "[changes]") {
    const auto page = [](const std::string& note, const std::string& red) {
        return "market XX\nrule XX A\n covers CI 1\n lips at most 3 %\nmaterial base\n" + note +
               "material red\n label CI 1\n colourant CI 1\nshade S\n rest base\n " + red +
               " red\n batch t 10 g\n";
    };
    const std::string mill = " label Base\n private note From the mill.\n",
                      shop = " label Base\n private note From the shop.\n";
    CHECK_FALSE(told_to_members(page(mill, "5 %"), page(shop, "5 %")).any());
    CHECK(everything(told_to_members(page(mill, "2 %"), page(shop, "6 %"))) ==
          everything(told_of(page("", "2 %"), page("", "6 %"))));
    Pair pair = read(Files{{"a.shade", page(mill, "private 5 %")}}, Files{});
    CHECK(editions_of(pair.before).refused.size() == 1);
}

TEST_CASE("of editions every word is told that members see", "[changes]") {
    const std::string page = shelf + "shade S\n rest base\n 1/2 % mica\n batch t 10 g\n"
                                     "shade T like S\n set 1 % mica\n";
    CHECK_FALSE(told_to_members(page, "# mine\n" + page).any());
    const Changes remark = told_to_members(page, "## for all\n" + page);
    REQUIRE(remark.remarks.size() == 1);
    CHECK(remark.remarks[0].now == "## for all");
    CHECK((remark.blocks.empty() && remark.reworded.empty()));
    std::string other = page;
    other.replace(other.find("1/2 %"), 5, "0.5 %");
    CHECK_FALSE(told_of(page, other).any());
    CHECK(told_to_members(page, other).reworded == std::vector<std::string>{"shade S"});
    const std::string turned = shelf + "shade T like S\n set 1 % mica\n"
                                       "shade S\n rest base\n 1/2 % mica\n batch t 10 g\n";
    CHECK_FALSE(told_of(page, turned).any());
    CHECK(told_to_members(page, turned).reordered);
}

TEST_CASE("a new expectation is told where it fails", "[changes]") {
    const auto expects = [](const std::string& was, const std::string& is) {
        const std::string page = shelf + "shade S\n rest base\n 10 % mica\n batch t 10 g\n";
        std::size_t out = 0;
        for (const ShadeEffect& one : told_of(page + was, page + is).shades)
            out += one.expects.size();
        return out;
    };
    const std::string holds = " expect mica at most 10 %\n", fails = " expect mica under 10 %\n";
    CHECK(expects("", holds) == 0);
    CHECK(expects("", fails) == 1);
    CHECK(expects(fails, "") == 0);
}

TEST_CASE("a price that changes is a cause where its cost is told", "[changes]") {
    // One shade can't be made, so that causes aren't tried out: nothing but their kind keeps a
    // price from being named.
    const auto page = [](const std::string& price, const std::string& mica) {
        return "material base\n price " + price + " USD per 100 g\nmaterial mica\nblend W\n " +
               "1 part base\n " + mica + " mica\nshade S\n rest base\n 10 % W\n batch t 10 g\n" +
               " expect mica at most 5 %\nshade Broken\n 1 part nobody\n batch t 10 g\n";
    };
    CHECK(causes(told_of(page("5", "1 part"), page("4", "2 parts")), "S")
              .find("base has another price now") != std::string::npos);
}
