// What an edition is refused for, and what it isn't.

#include <catch2/catch.hpp>

#include "interpreter/share/share.hpp"

using namespace levigate;

namespace {

Outcome<Shared> edition_of(std::map<std::string, std::string> files,
                           const std::string& title = "A page") {
    Compiled source = compile(memory_world(std::move(files)), "a.shade", Library::with_rules);
    REQUIRE_FALSE(any_error(source.findings));
    return share_edition(source, {{}, {}, {}, {}, title});
}

/// The errors, "share-differs: The edition …", one a line.
std::string errors(const Outcome<Shared>& from) {
    std::string out;
    for (const Finding& finding : from.findings)
        if (finding.severity == Severity::error)
            out += std::string(row_of(finding.code).name) + ": " + finding.message + "\n";
    return out;
}

bool holds(const std::string& text, const std::string& words) {
    INFO(text);
    return text.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("an expectation of a cost stays at home where a price does", "[share]") {
    const std::string page = "material base\n    private price 20 USD per 100 g\n"
                             "shade S\n    1 part base\n    batch t 10 g\n"
                             "    expect cost at most ";
    // 10 g of base cost 2 USD. Members could not tell either way.
    for (const char* limit : {"1 USD\n", "2 USD\n"}) {
        const auto made = edition_of({{"a.shade", page + limit}});
        CHECK(errors(made).empty());
        CHECK_FALSE(holds(made.value.text, "expect"));
        CHECK(made.findings.size() == 1);
        CHECK(made.findings.front().code == Code::share_stays);
    }
}

TEST_CASE("a name that a longer word merely begins or ends with is no leak", "[share]") {
    const auto said = [](const std::string& note) {
        return errors(
            edition_of({{"a.shade", "material rose\n    label Rosa Canina Fruit Oil\n"
                                    "material wax\n    label Cera Alba\n"
                                    "blend base\n    sealed\n    1 part rose\n    1 part wax\n"
                                    "shade S\n    1 part base\n    batch t 10 g\n    note " +
                                        note + "\n"}}));
    };
    CHECK(said("For June, when roses bloom.").empty());
    CHECK(said("A primrose shade.").empty());
    CHECK(holds(said("With the rose of spring."), "share-leaks"));
    CHECK(holds(said("It smells of rose."), "share-leaks"));
    CHECK(holds(said("Rose-scented."), "share-leaks"));
}

TEST_CASE("a family of a shade that is reckoned out is reckoned out too", "[share]") {
    // Damson is like a shade that stays at home, so that it has no hole in the edition, and a
    // family written as one would find nothing to fill.
    const auto made =
        edition_of({{"home.shade", "material base\nmaterial mica\n"
                                   "shade Quince\n    let {d} = 10 %\n    rest base\n    {d} mica\n"
                                   "    batch t 10 g\n"},
                    {"a.shade", "use \"home.shade\"\nshade Damson like Quince\n"
                                "    let {d} = 12 %\n"
                                "family Ladder\n    from Damson\n    vary {d} over 4 %, 8 %\n"
                                "    name Damson {d}\n"}});
    CHECK(errors(made).empty());
    CHECK(holds(made.value.text,
                "shade \"Damson 4 %\"\n    rest        base\n    4 %         mica\n"));
    CHECK(holds(made.value.text,
                "shade \"Damson 8 %\"\n    rest        base\n    8 %         mica\n"));
    CHECK_FALSE(holds(made.value.text, "family"));
}

TEST_CASE("what is like a shade that is reckoned out, with a let of its own, is reckoned out",
          "[share]") {
    const auto made =
        edition_of({{"home.shade", "material base\nmaterial mica\n"
                                   "shade Quince\n    let {d} = 10 %\n    rest base\n    {d} mica\n"
                                   "    batch t 10 g\n"},
                    {"a.shade", "use \"home.shade\"\nshade Damson like Quince\n"
                                "shade Plum like Damson\n    let {d} = 8 %\n"}});
    CHECK(errors(made).empty());
    CHECK(holds(made.value.text, "shade Plum\n    rest        base\n    8 %         mica\n"));
}

TEST_CASE("a private `fresh` that the edition would come out without is seen", "[share]") {
    const std::string parent = "material base\nshade S\n    1 part base\n    batch t 10 g\n"
                               "    batch u 20 g\n    step Melt it.\nshade T like S\n";
    // With the parent's step, which her own sheet hasn't; with its batches beside her own.
    for (const char* line : {"    private fresh steps\n",
                             "    private fresh batches\n    batch t 10 g\n"})
        CHECK(holds(errors(edition_of({{"a.shade", parent + line}})), "share-private"));
    CHECK(errors(edition_of({{"a.shade", parent}})).empty());
}

TEST_CASE("a private word of five letters or more is looked for, wherever it comes from",
          "[share]") {
    const std::string page = "material base\nshade S\n    1 part base\n    batch t 10 g\n"
                             "    private note ";
    CHECK(holds(errors(edition_of({{"a.shade", page + "amber\n"}}, "Amber")), "share-leaks"));
    CHECK(errors(edition_of({{"a.shade", page + "rose\n"}}, "Rose")).empty());
    // What stands openly in the same file is no secret.
    const std::string open = "    note Amber for June.\n";
    CHECK(errors(edition_of({{"a.shade", page + "amber\n" + open}}, "Amber")).empty());
}

TEST_CASE("what a label or a contains line must tell of a sealed blend is no leak", "[share]") {
    const auto made =
        edition_of({{"a.shade", "material oil\n    label Ricinus Communis Seed Oil\n"
                                "material limonene\n    label Aroma\n    contains limonene 50 %\n"
                                "blend scent\n    sealed\n    9 parts oil\n    1 part limonene\n"
                                "shade S\n    1 part scent\n    batch t 10 g\n"}});
    CHECK(errors(made).empty());
    CHECK(holds(made.value.text, "contains    limonene "));
}

TEST_CASE("formulas of shades without a sheet are compared too", "[share]") {
    // As much clay as the mica: 10 % and what is in the blend, 15 % in all. With the blend sealed
    // nobody could count what is inside, and it would be 10 %.
    const auto made = edition_of(
        {{"a.shade", "material base\n    label Lanolin\nmaterial clay\n    label Kaolin\n"
                     "material shine\n    role mica\n    label Mica\n"
                     "blend pearl\n    sealed\n    1 part shine\n    1 part base\n"
                     "shade S\n    rest base\n    10 % shine\n    10 % pearl\n"
                     "    as much clay as the mica\n"}});
    CHECK(holds(errors(made),
                "clay rests on what a sealed blend holds: 15 % here, but 10 % for members"));
}

TEST_CASE("a family between two shades rests on both", "[share]") {
    // The formula of the second shade is private in one line, and members show what it is.
    const auto made = edition_of(
        {{"home.shade", "material base\nmaterial mica\n"
                        "shade A\n    rest base\n    4 % mica\n    batch t 10 g\n"
                        "shade B\n    rest base\n    private 8 % mica\n    batch t 10 g\n"},
         {"a.shade", "use \"home.shade\"\nfamily Ladder\n    between A and B in 3 steps\n"
                     "    name Ladder {step}\n"}});
    CHECK(holds(errors(made), "share-private"));
}

TEST_CASE("what a sealed blend holds is hidden at any depth, and its dangers are not", "[share]") {
    const std::string page = "material oil\n    label Ricinus Communis Seed Oil\n"
                             "material rose dust\n    label Rosa Canina Fruit\n    hazard powder\n"
                             "blend inner\n    1 part oil\n    1 part rose dust\n"
                             "blend base\n    sealed\n    private density 0.9 g/mL\n"
                             "    1 part oil\n    1 part inner\n"
                             "shade S\n    1 part base\n    batch t 10 g\n";
    const auto made = edition_of({{"a.shade", page}});
    CHECK(errors(made).empty());
    CHECK_FALSE(holds(made.value.text, "rose dust"));
    CHECK_FALSE(holds(made.value.text, "density"));
    CHECK(holds(made.value.text, "Fine powders: mask and gloves on"));
    CHECK(holds(made.value.text, "hazard      powder"));
    CHECK(holds(errors(edition_of({{"a.shade", page + "    note Not too much rose dust.\n"}})),
                "share-leaks"));
}

TEST_CASE("a private line brings nothing along that only it names", "[share]") {
    const auto made = edition_of(
        {{"a.shade", "material base\nmaterial gold\nshade S\n    1 part base\n    batch t 10 g\n"
                     "    private step Work {base} well, without {gold}.\n"
                     "    private expect gold at most 5 %\n"}});
    CHECK(errors(made).empty());
    CHECK_FALSE(holds(made.value.text, "gold"));
}

TEST_CASE("what is reckoned out has the last `let` and the last property of all it is like",
          "[share]") {
    const auto made = edition_of(
        {{"home.shade", "material base\nmaterial mica\n"
                        "blend W\n    private role shine\n    1 part mica\n"
                        "shade Quince\n    let {d} = 10 %\n    rest base\n    {d} mica\n"
                        "    variants deep\n    batch t 10 g\n"
                        "variant deep\n    set (2 × {d}) mica\n"},
         {"a.shade", "use \"home.shade\"\nblend V like W\n    role glow\n    add 1 part base\n"
                     "shade Damson like Quince\n    let {d} = 12 %\n    add 5 % V\n"}});
    CHECK(errors(made).empty());
    CHECK(holds(made.value.text, "role        glow\n"));
    CHECK(holds(made.value.text, "let {d} = 12 %"));
    CHECK_FALSE(holds(made.value.text, "let {d} = 10 %"));
}

TEST_CASE("comments go out with the block that they belong to", "[share]") {
    const std::string page = "material base\n"
                             "## Of home.\nshade Home\n    1 part base\n    batch t 10 g\n"
                             "    ## In home.\n\n## Alone.\n\n## Of S.\n"
                             "shade S\n    1 part base\n    batch t 10 g\n    ## In S.\n"
                             "## Of T.\nshade T\n    1 part base\n    batch t 10 g\n";
    Compiled source = compile(memory_world({{"a.shade", page}}), "a.shade", Library::with_rules);
    const auto made = share_edition(source, {{"S", "T"}, {}, {}, {}, "A page"});
    CHECK(errors(made).empty());
    CHECK_FALSE(holds(made.value.text, "home"));
    CHECK_FALSE(holds(made.value.text, "Alone"));
    CHECK(holds(made.value.text, "## Of S.\nshade S\n"));
    CHECK(holds(made.value.text, "    ## In S.\n\n## Of T.\nshade T\n"));
}

TEST_CASE("lots stay at home, and what rules ask of them is the member's to answer", "[share]") {
    const auto made = edition_of({{"a.shade", "material red\n    label Red 7 Lake\n"
                                              "    colourant CI 15850:1\n    certified lot AB17\n"
                                              "material base\n    label Lanolin\n"
                                              "shade S\n    rest base\n    2 % red\n"
                                              "    batch t 10 g\n"}});
    CHECK(errors(made).empty());
    CHECK_FALSE(holds(made.value.text, "AB17"));
    CHECK_FALSE(holds(made.value.text, "certified"));
}

TEST_CASE("words of a private note in a line that goes out are said", "[share]") {
    const auto codes = [](const std::string& note) {
        std::string out;
        for (const Finding& one :
             edition_of({{"a.shade", "material base\nshade S\n    1 part base\n    batch t 10 g\n"
                                     "    private note The copper changes in spring again.\n"
                                     "    note " + note + "\n"}})
                 .findings)
            out += std::string(row_of(one.code).name) + " ";
        return out;
    };
    CHECK(codes("Mind that the copper turns in the autumn.").empty());
    CHECK(codes("Mind: copper changes in spring, a bit.") == "share-words ");
}
