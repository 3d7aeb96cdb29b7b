// The edition among the examples, and what holds of every edition: it is tidy, and shared once more
// it is itself.

#include <catch2/catch.hpp>

#include "interpreter/query/tidied.hpp"
#include "interpreter/share/share.hpp"
#include "tests/support/text.hpp"

using namespace levigate;

namespace {

const std::string examples = LEVIGATE_ROOT "/examples/";
const ShareOrder untitled = {{}, {}, {}, {}, "A page"};

std::string shared(Compiled source, const ShareOrder& order) {
    REQUIRE_FALSE(any_error(source.findings));
    const Outcome<Shared> made = share_edition(source, order);
    for (const Finding& finding : made.findings) {
        INFO(finding.message);
        CHECK(finding.severity != Severity::error);
    }
    return made.value.text;
}

Compiled from_text(const std::string& text) {
    return compile(memory_world({{"a.shade", text}}), "a.shade", Library::with_rules);
}

}  // namespace

TEST_CASE("the example is what share makes of the Orchard page") {
    ShareOrder order;
    order.title = "Orchard, autumn";
    order.number = "1";
    order.date = "2026-10-01";
    const std::string text =
        shared(compile(disk_world(), examples + "orchard.shade", Library::with_rules), order);
    CHECK(text == testing::read_file(examples + "orchard-edition.shade").value_or(""));
    CHECK(text.find("copper in spring") == std::string::npos);  // the page's private note
    CHECK(text.find("plan ") == std::string::npos);
}

TEST_CASE("an edition is tidy, and shared once more it is itself") {
    for (const char* page : {"orchard.shade", "hedgerow.shade", "hedgerow-base.shade"}) {
        INFO(page);
        const std::string text =
            shared(compile(disk_world(), examples + page, Library::with_rules), untitled);
        CHECK_FALSE(text.empty());
        const TidiedFile tidy = tidied(memory_world({{"a.shade", text}}), "a.shade");
        CHECK(tidy.tidied.findings.empty());
        CHECK_FALSE(tidy.tidied.changed);
        const Compiled edition = from_text(text);
        REQUIRE(edition.formulary.edition.has_value());
        CHECK(edition.formulary.edition->unaltered == true);
        CHECK(shared(from_text(text), untitled) == text);
    }
}

TEST_CASE("an edition of which one sign is another one is known") {
    const std::string text = shared(
        compile(disk_world(), examples + "orchard-edition.shade", Library::with_rules), untitled);
    const std::size_t digest = text.find("    digest");
    const std::size_t behind = text.find('\n', digest);
    for (std::size_t i = 0; i < text.size(); i += 37) {
        if (text[i] <= ' ' || (i >= digest && i < behind)) continue;
        std::string other = text;
        other[i] = text[i] == 'x' ? 'y' : 'x';
        const Compiled edition = from_text(other);
        if (!edition.formulary.edition || !edition.formulary.edition->unaltered) continue;
        INFO(i);
        CHECK(edition.formulary.edition->unaltered == false);
    }
}
