// An edition is a function of what is public: two sources that differ only in what is private or
// sealed give the same bytes in every form, ranges aside that say otherwise. LEVIGATE_SEED chooses
// the pairs, and is printed; LEVIGATE_PAIRS says how many are to be accepted.
#include <catch2/catch.hpp>

#include <cstdlib>
#include <iostream>
#include <random>
#include <set>

#include "interpreter/query/edition_as.hpp"
#include "tests/properties/random.hpp"
#include "tests/share/pages.hpp"
#include "tests/support/text.hpp"

using namespace levigate;
using levigate::testing::SecretPages;

namespace {

std::uint64_t number_of(const char* name, std::uint64_t otherwise) {
    const char* text = std::getenv(name);
    return text != nullptr && *text != '\0' ? std::strtoull(text, nullptr, 10) : otherwise;
}

constexpr EditionForm forms[] = {EditionForm::shade, EditionForm::markdown, EditionForm::html,
                                 EditionForm::csv, EditionForm::json};

struct Went {
    bool broken = false;  ///< the source has errors of its own
    std::set<std::string> refused;
    std::vector<std::string> forms;  ///< empty where it is refused
};

Went share(const SecretPages& pages) {
    Went out;
    Compiled source = compile(memory_world(pages.files), "a.shade", Library::with_rules);
    if (any_error(source.findings)) {
        out.broken = true;
        return out;
    }
    ShareOrder order;
    order.shades = pages.shades;
    order.otherwise = "A page";
    const Outcome<Shared> made = share_edition(source, order);
    for (const Finding& one : made.findings)
        if (one.severity == Severity::error) out.refused.insert(std::string(row_of(one.code).name));
    if (!out.refused.empty()) return out;
    for (const EditionForm form : forms)
        out.forms.push_back(edition_as(made.value, form).value_or("too long"));
    return out;
}

/// Without the lines that tell ranges, and the digest, which is of all the others.
std::string without_ranges(const std::string& text) {
    std::string out;
    for (const std::string& line : testing::split_lines(text))
        if (!line.starts_with("    label ") && !line.starts_with("    contains ") &&
            !line.starts_with("    digest "))
            out += line + "\n";
    return out;
}

bool told_apart(const Went& a, const Went& b) {
    return a.forms[0] != b.forms[0] && without_ranges(a.forms[0]) == without_ranges(b.forms[0]);
}

}  // namespace

TEST_CASE("sources that differ only in secrets give the same editions") {
    const std::uint64_t seed = number_of("LEVIGATE_SEED", std::random_device{}());
    const std::uint64_t wanted = number_of("LEVIGATE_PAIRS", 2000);
    std::cout << "LEVIGATE_SEED=" << seed << "\n";
    testing::Random random(seed);
    std::uint64_t same = 0, apart = 0, refused = 0, broken = 0, differently = 0;
    std::map<std::string, int> codes;
    while (same + apart < wanted && same + apart + refused + broken < 20 * wanted) {
        const std::uint64_t open = random.any(), first = random.any(), second = random.any();
        const bool near = random.chance(70);
        const SecretPages one = testing::secret_pages(open, first, near);
        const SecretPages other = testing::secret_pages(open, second, near);
        const Went a = share(one), b = share(other);
        const auto show = [&] {
            return "pair " + std::to_string(open) + " " + std::to_string(first) + " " +
                   std::to_string(second) + "\n" + one.files.at("a.shade") + "\n----\n" +
                   other.files.at("a.shade");
        };
        if (a.broken || b.broken) {
            ++broken;
            continue;
        }
        if (a.refused != b.refused) {
            // What is told may be too close for the one and not for the other: members see that by
            // the ranges. By nothing else may a refusal hang on a secret.
            ++differently;
            for (const auto* went : {&a, &b})
                for (const std::string& code : went->refused)
                    if (code != "share-narrow" &&
                        !(a.refused.contains(code) && b.refused.contains(code)))
                        FAIL("refused by " << code << ", " << show());
        }
        if (!a.refused.empty() || !b.refused.empty()) {
            ++refused;
            for (const std::string& code : a.refused) ++codes[code];
            continue;
        }
        if (told_apart(a, b)) {
            ++apart;
            continue;
        }
        ++same;
        for (std::size_t form = 0; form < a.forms.size(); ++form)
            if (a.forms[form] != b.forms[form])
                FAIL("form " << form << ", " << show() << "\n---- gives\n"
                             << a.forms[form] << "\n---- and\n" << b.forms[form]);
    }
    std::cout << same << " pairs alike, " << apart << " told apart by their ranges, " << refused
              << " refused (" << differently << " of them one alone), " << broken
              << " not whole\n";
    for (const auto& [code, count] : codes) std::cout << "  " << code << " " << count << "\n";
    CHECK(same + apart >= wanted);
    CHECK(same * 2 > wanted);
    CHECK(codes["share-rests"] > 0);
}
