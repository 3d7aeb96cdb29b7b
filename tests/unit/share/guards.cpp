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
        return errors(edition_of(
            {{"a.shade", "material rose\n    label Rosa Canina Fruit Oil\n"
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
    const auto made = edition_of(
        {{"home.shade", "material base\nmaterial mica\n"
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
    CHECK(holds(errors(edition_of(
                    {{"a.shade", parent + "    private fresh batches\n    batch t 10 g\n"}})),
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
    const auto made = edition_of(
        {{"a.shade", "material oil\n    label Ricinus Communis Seed Oil\n"
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
