// Pages whose names hold letters from right to left: in laid-out text each stands between
// U+2068 and U+2069, whole and alone; nothing else that is written holds these; and a name that is
// pasted back with them is the same name.

#include <algorithm>
#include <set>

#include "grammar/isolates.hpp"
#include "interpreter/compile.hpp"
#include "interpreter/query/tidied.hpp"
#include "interpreter/render/csv.hpp"
#include "interpreter/render/findings.hpp"
#include "interpreter/render/json.hpp"
#include "interpreter/render/sheet_document.hpp"
#include "interpreter/render/text.hpp"
#include "interpreter/share/share.hpp"
#include "tests/properties/changes.hpp"
#include "tests/properties/random.hpp"
#include "tests/properties/write.hpp"

namespace levigate::testing {
namespace {

constexpr std::string_view fsi = "\u2068", pdi = "\u2069";

using Letters = std::vector<std::string>;
const std::vector<Letters>& scripts() {
    static const std::vector<Letters> all{
        {"א", "ב", "ג", "ד", "ה", "ל", "מ", "ש"},                  // Hebrew
        {"ا", "ب", "ت", "ج", "د", "ر", "س", "م"},                  // Arabic
        {"ܐ", "ܒ", "ܓ", "ܕ", "ܗ", "ܠ"},                            // Syriac
        {"ހ", "ށ", "ނ", "ރ", "ބ", "ޅ"},                            // Thaana
        {"ߊ", "ߋ", "ߌ", "ߍ", "ߎ", "ߏ"},                            // NKo
        {"\U0001E922", "\U0001E923", "\U0001E924", "\U0001E925"},  // Adlam, small
    };
    return all;
}

class Namer {
public:
    explicit Namer(Random& random) : random_(random) {}

    /// Never the same, nor the beginning of another: the last word is counted.
    std::string operator()(bool numbers = true) {
        std::string out = random_.chance(25) ? "red " : "";
        out += word();
        if (numbers && random_.chance(30)) out += " " + std::to_string(random_.between(1, 99));
        if (random_.chance(20)) out += " mica";
        for (std::string last = word();; last += word())
            if (names_.insert(out + " " + last).second) return out + " " + last;
    }
    const std::set<std::string>& names() const { return names_; }

private:
    std::string word() {
        const Letters& letters = random_.pick(scripts());
        std::string out;
        for (int i = random_.between(2, 5); i > 0; --i) out += random_.pick(letters);
        return out;
    }
    Random& random_;
    std::set<std::string> names_;
};

void rename_all(Book& book, Namer& name) {
    for (Thing& thing : book.things) {
        if (thing.library) continue;
        thing.name = name();
        if (!thing.alias.empty()) thing.alias = name();
        for (Batch& batch : thing.properties.batches) batch.name = name(false);
    }
    for (Variant& variant : book.variants) variant.name = name();
    for (Finish& finish : book.finishes) finish.name = name();
}

/// The same page with every name between isolates, as it is copied from a sheet.
void isolate_all(Book& book) {
    const auto around = [](std::string& name) {
        if (right_to_left(name)) name = std::string(fsi) + name + std::string(pdi);
    };
    for (Thing& thing : book.things) {
        around(thing.name), around(thing.alias);
        for (Batch& batch : thing.properties.batches) around(batch.name);
    }
    for (Variant& variant : book.variants) around(variant.name);
    for (Finish& finish : book.finishes) around(finish.name);
}

/// Every isolate holds a name, whole, on one line; no letter from right to left is outside.
std::string not_isolated(std::string_view text, const std::set<std::string>& names) {
    while (!text.empty()) {
        std::string_view line = text.substr(0, text.find('\n'));
        text.remove_prefix(std::min(line.size() + 1, text.size()));
        const std::string_view whole = line;
        while (!line.empty()) {
            const std::size_t begin = std::min(line.find(fsi), line.size());
            const std::string_view outside = line.substr(0, begin);
            if (right_to_left(outside) || outside.find(pdi) != outside.npos)
                return "not isolated: " + std::string(whole);
            if (begin == line.size()) break;
            line.remove_prefix(begin + fsi.size());
            const std::size_t end = line.find(pdi);
            if (end == line.npos) return "left open: " + std::string(whole);
            if (!names.contains(std::string(line.substr(0, end))))
                return "no name is isolated: " + std::string(whole);
            line.remove_prefix(end + pdi.size());
        }
    }
    return "";
}

bool holds_isolates(std::string_view text) {
    return text.find(fsi) != text.npos || text.find(pdi) != text.npos;
}

/// What is said, without the lines of the file that are shown beside it.
std::string sentences(const Compiled& compiled) {
    return findings_text(compiled.sources, compiled.findings, {true, false});
}

/// Without their places, which are further right beside isolates.
std::string messages(const Compiled& compiled) {
    std::string out;
    for (const Finding& finding : compiled.findings) out += finding.message + "\n";
    return out;
}

std::string tidied_text(const std::string& text) {
    return tidied(memory_world({{"a.shade", text}}), "a.shade").tidied.text;
}

struct Outputs {
    std::string laid_out, markdown, csv, json;
};

Outputs outputs_of(const Compiled& compiled) {
    Outputs out;
    Choice choice;
    choice.all = true;
    Cautions cautions(compiled.formulary);
    CsvWriter csv(compiled.formulary);
    SheetsJson json(compiled.formulary, compiled.sources);
    expand_each(compiled.formulary, compiled.names, choice, [&](Sheet& sheet) {
        const document::Document page = sheet_document(compiled.formulary, sheet, cautions);
        append_text(out.laid_out, page, compiled.sources.isolates());
        append_markdown(out.markdown, page, compiled.sources.isolates());
        csv.append(sheet, out.csv);
        json.append(sheet, out.json);
    });
    return out;
}

std::string edition_of(Compiled& compiled) {
    ShareOrder order;
    order.otherwise = "A page";
    return any_error(compiled.findings) ? "" : share_edition(compiled, order).value.text;
}

}  // namespace

std::string isolates_names(const Book& book, std::uint64_t seed) {
    Random random(seed * 5 + 1);
    Namer namer(random);
    Book named = book;
    rename_all(named, namer);
    const std::string text = write(named, 0);
    Compiled compiled = compile(memory_world({{"a.shade", text}}), "a.shade");
    const Outputs outputs = outputs_of(compiled);
    for (const std::string& seen : {outputs.laid_out, outputs.markdown, sentences(compiled)})
        if (std::string wrong = not_isolated(seen, namer.names()); !wrong.empty())
            return wrong + "\n" + text;
    const std::string tidy = tidied_text(text);
    if (holds_isolates(outputs.csv) || holds_isolates(outputs.json) || holds_isolates(tidy) ||
        holds_isolates(edition_of(compiled)))
        return "isolates where none belong\n" + text;
    isolate_all(named);
    const std::string pasted = write(named, 0);
    if (!holds_isolates(pasted)) return "";
    const Compiled again = compile(memory_world({{"a.shade", pasted}}), "a.shade");
    if (outputs_of(again).csv != outputs.csv || messages(again) != messages(compiled))
        return "pasted back it is another page\n" + sentences(again) + pasted;
    if (tidied_text(pasted) != tidy) return "tidied otherwise\n" + tidied_text(pasted);
    return "";
}

}  // namespace levigate::testing
