// Names from right to left as documents, findings and pages write them.
#include <catch2/catch.hpp>

#include "interpreter/render/findings.hpp"
#include "interpreter/render/html.hpp"
#include "interpreter/render/text.hpp"

using namespace levigate;

namespace {

const std::string fsi = "\u2068", pdi = "\u2069";

Isolates known(const std::vector<std::string>& names) {
    Isolates out;
    for (const std::string& name : names) out.add(name);
    return out;
}

std::string isolated(const std::string& name) { return fsi + name + pdi; }

}  // namespace

TEST_CASE("a name from right to left takes its own columns and no more", "[text]") {
    document::Table table;
    table.columns = {{"name"}, {"g", document::Align::right}};
    table.rows = {{"אדום 3", "0.48"}, {"base", "12.00"}, {"לא ידוע", "1.00"}};
    std::string out;
    append_text(out, {table}, known({"אדום 3"}));
    CHECK(out == "  name         g\n"
                 "  -------  -----\n"
                 "  " +
                     isolated("אדום 3") +
                     "    0.48\n"
                     "  base     12.00\n"
                     "  " +
                     isolated("לא ידוע") + "   1.00\n\n");
    out.clear();
    append_markdown(out, {table}, known({"אדום 3"}));
    CHECK(out == "| name | g |\n| --- | ---: |\n"
                 "| " +
                     isolated("אדום 3") +
                     " | 0.48 |\n"
                     "| base | 12.00 |\n"
                     "| " +
                     isolated("לא ידוע") + " | 1.00 |\n\n");
}

TEST_CASE("a name from right to left isn't broken between two lines", "[text]") {
    const std::string name = "אדום כהה 3";
    for (std::size_t before = 80; before < 100; ++before) {
        std::string out;
        const std::string words = std::string(before, 'x') + " " + name + " and so on";
        append_text(out, {document::Paragraph{words}}, known({name}));
        INFO(out);
        CHECK(out.find(isolated(name)) != std::string::npos);
        CHECK(out.find('\n') <= 97 + fsi.size() + pdi.size() + 16);  // letters of two bytes
    }
}

TEST_CASE("sentences of a finding isolate names, what is to be written doesn't", "[findings]") {
    Sources sources;
    sources.add({"a.shade", "    8 %  אדוס\n", false});
    sources.isolate("אדום");
    const Span span{0, 9, 17};
    Finding finding{.code = Code::name_unknown,
                    .message = "Nothing is called `אדוס`, and אדום has 3 %.",
                    .span = span,
                    .fixes = {possible_fix(span, "אדום")}};
    CHECK(findings_text(sources, {finding}, {}) == "a.shade:1:10: error: Nothing is called `" +
                                                       isolated("אדוס") + "`, and " +
                                                       isolated("אדום") +
                                                       " has 3 %. (name-unknown)\n"
                                                       "    1 |     8 %  אדוס\n"
                                                       "      |          ^^^^\n"
                                                       "  write instead: אדום\n"
                                                       "\n"
                                                       "1 error\n");
}

TEST_CASE("on a page such a name has an element of its own, in text alone", "[html]") {
    const Isolates names = known({"אדום", "א&ב"});
    CHECK(with_names_apart("<p title=\"אדום 3\">3 g אדום, 4 g א&amp;ב</p><bdi>אדום</bdi>", names) ==
          "<p title=\"אדום 3\">3 g <span dir=\"auto\">אדום</span>, 4 g "
          "<span dir=\"auto\">א&amp;ב</span></p><bdi>אדום</bdi>");
    CHECK(with_names_apart("<p>soft base</p>", names) == "<p>soft base</p>");
    CHECK(with_names_apart("", names).empty());
}
