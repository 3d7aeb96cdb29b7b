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

TEST_CASE("an edition that would lose an error of its source is refused", "[share]") {
    // 10 g of base cost 2 USD, more than is expected. The price stays at home, so that with the
    // edition alone nobody could tell: what fails here would seem to be fine there.
    const std::string page = "material base\n    private price 20 USD per 100 g\n"
                             "shade S\n    1 part base\n    batch t 10 g\n"
                             "    expect cost at most ";
    const std::string said = errors(edition_of({{"a.shade", page + "1 USD\n"}}));
    CHECK(holds(said, "share-differs"));
    CHECK(holds(said, "expect-failed"));
    CHECK(errors(edition_of({{"a.shade", page + "2 USD\n"}})).empty());
}

TEST_CASE("a name that a longer word merely begins or ends with is no leak", "[share]") {
    const auto said = [](const std::string& note) {
        return errors(
            edition_of({{"a.shade", "material rose\n    label Rosa Canina Fruit Oil\n"
                                    "blend base\n    sealed\n    1 part rose\n"
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
    // With the parent's step, which her own sheet hasn't.
    CHECK(holds(errors(edition_of({{"a.shade", parent + "    private fresh steps\n"}})),
                "a step would say \"Melt it.\""));
    // With the parent's batches beside her own.
    CHECK(holds(
        errors(edition_of({{"a.shade", parent + "    private fresh batches\n    batch t 10 g\n"}})),
        "there would be T, u too"));
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
    CHECK(holds(errors(made), "the shares of S would be others"));
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

TEST_CASE("of a sealed blend no more is told than its order in a list takes", "[share]") {
    const auto label = [](const std::string& blend) {
        const auto made = edition_of(
            {{"a.shade", "market EU\nmaterial oil\n    label Ricinus Communis Seed Oil\n"
                         "material fat\n    label Lanolin\nmaterial squa\n    label Squalane\n"
                         "material toco\n    label Tocopherol\nblend base\n    sealed\n" +
                             blend +
                             "shade S\n    1 part oil\n    1 part base\n    batch t 10 g\n"}});
        CHECK(errors(made).empty());
        const std::size_t at = made.value.text.find("label       Lanolin");
        return at == std::string::npos
                   ? std::string("no label")
                   : made.value.text.substr(at + 12, made.value.text.find('\n', at) - at - 12);
    };
    // 55 % is told as 45 to 70 and 44 % as 30 to 60, so that either could be more. The halves that
    // hold them, 45 to 57.5 and 30 to 45, settle it. On the third name no order hangs.
    CHECK(label("    55 % fat\n    44 % squa\n    1 % toco\n") ==
          "Lanolin 45 % to 57.5 %, Squalane 30 % to 45 %, Tocopherol 0.1 % to 1 %");
    // 50 % and 49 % stay in the same half three times over: then all is told as widely as before.
    CHECK(label("    50 % fat\n    49 % squa\n    1 % toco\n") ==
          "Lanolin 45 % to 70 %, Squalane 45 % to 70 %, Tocopherol 0.1 % to 1 %");
}
