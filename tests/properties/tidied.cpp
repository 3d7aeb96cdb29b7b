// Canonical form: once is as good as twice, nothing that is weighed changes, comments stay, and
// what a mail did to a page is undone.
#include "interpreter/query/tidied.hpp"
#include "grammar/tidy.hpp"
#include "interpreter/compile.hpp"
#include "interpreter/render/csv.hpp"
#include "tests/properties/changes.hpp"
#include "tests/properties/mangle.hpp"

namespace levigate::testing {
namespace {

struct Tidy {
    std::string text, codes;
};

Tidy tidy_text(const std::string& text) {
    TidiedFile file = tidied(memory_world({{"a.shade", text}}), "a.shade");
    Tidy out{std::move(file.tidied.text), {}};
    for (const Finding& finding : file.tidied.findings)
        out.codes += " " + std::string(row_of(finding.code).name) + ": " + finding.message;
    return out;
}

std::string csv_of(const std::string& text) {
    const Compiled compiled = compile(memory_world({{"a.shade", text}}), "a.shade");
    Choice choice;
    choice.all = true;
    const Sheets sheets = expand(compiled.formulary, compiled.names, choice);
    CsvWriter writer(compiled.formulary);
    std::string out;
    writer.open(out);
    for (const Sheet& sheet : sheets.sheets) writer.append(sheet, out);
    return out;
}

/// The remarks, in their order, and how many comments there are in all.
std::string remarks_of(const std::string& text) {
    std::string out;
    for (std::size_t at = text.find("# "); at != std::string::npos; at = text.find("# ", at + 1))
        out += text.substr(at, text.find_first_of(";\r\n", at) - at) + "\n";
    return out;
}

std::string first_difference(const std::string& a, const std::string& b) {
    std::size_t at = 0;
    while (at < a.size() && at < b.size() && a[at] == b[at]) ++at;
    at = at < 60 ? 0 : at - 60;
    return "\n--- \n" + a.substr(at, 200) + "\n--- \n" + b.substr(at, 200);
}

}  // namespace

std::string tidies(const Book& book, std::uint64_t seed) {
    Random random(seed);
    const std::string text = decorated(write_blocks(book, seed * 2 + 1), random);
    const Tidy once = tidy_text(text);
    if (!once.codes.empty()) return "tidy found" + once.codes + "\n" + text;
    if (const Tidy twice = tidy_text(once.text); twice.text != once.text)
        return "tidied twice" + first_difference(once.text, twice.text);
    if (remarks_of(text) != remarks_of(once.text))
        return "comments" + first_difference(remarks_of(text), remarks_of(once.text));
    if (const std::string a = csv_of(text), b = csv_of(once.text); a != b)
        return "sheets" + first_difference(a, b);
    const std::string other = mangled(once.text, random);
    const Tidy mended = tidy_text(other);
    if (mended.text != once.text)
        return "mangled" + mended.codes + first_difference(once.text, mended.text) + "\nfrom\n" +
               other;
    return "";
}

}  // namespace levigate::testing
