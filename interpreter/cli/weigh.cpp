// levigate weigh: the weigh sheets of a file.
#include <iterator>

#include <fmt/format.h>

#include "interpreter/cli/choice.hpp"
#include "interpreter/cli/measured.hpp"
#include "interpreter/cli/report.hpp"
#include "interpreter/cli/verb.hpp"
#include "interpreter/compile.hpp"
#include "interpreter/render/csv.hpp"
#include "interpreter/render/json.hpp"
#include "interpreter/render/remedies.hpp"
#include "interpreter/render/sheet_document.hpp"

namespace levigate::cli {

extern const Verb weigh_verb;

namespace {

constexpr Option weigh_options[] = {
    {"--shade", "NAME", "this shade only"},
    {"--variant", "NAME", "under this variant"},
    {"--finish", "NAME", "with this finish"},
    {"--batch", "NAME", "this batch only"},
    {"--make", "QUANTITY", "so much, in place of the batches: \"120 g\", \"48 slim tubes\""},
    {"--onto", "QUANTITY", "what the finish adds to so much of the made bulk"},
    {"--all", "", "every variant and finish that a shade names"},
    {"--with", "MEASURES", "in spoons and drops, without a balance: \"1/4 tsp, 1/8 tsp, drop\""},
    {"--reads", "STEP", "what your balance reads in: 0.01g"},
    {"--error", "SHARE", "the error in a line that you take: \"5 %\""},
    {"--usp41", "", "judge by USP <41>, the strictest rule for balances"},
    {"--as", "FORM", "how it is written; text where nothing is said", "text|markdown|csv|json"},
    {"--brief", "", "findings on one line each"},
    {"--colour", "WHEN", "colour in findings", "auto|always|never"},
    {"-o", "PATH", "into this file, whole or not at all; - is standard output"},
    {"--replace", "", "even where that file is there already"},
};

/// Words for people, materials for programs: what no output shows isn't made.
void choose_contents(Choice& choice, const Arguments& arguments) {
    choice.words = !arguments.json() && arguments.get_or("--as", "") != "csv";
    choice.materials = arguments.json();
}

std::string weigh_contradiction(const Arguments& arguments) {
    if (arguments.has("--make") && arguments.has("--batch"))
        return "--make stands in place of the batches, so --batch can't stand beside it.";
    if (arguments.has("--onto") && !arguments.has("--finish") && !arguments.has("--all"))
        return "--onto needs --finish: it tells what that finish adds to the bulk that is there.";
    if (arguments.has("--onto") && (arguments.has("--make") || arguments.has("--batch")))
        return "--onto says how much bulk is there, so neither --make nor --batch can stand "
               "beside it.";
    if (arguments.has("--with") && arguments.has("--reads"))
        return "--with is for who has no balance, and --reads for a balance.";
    if (arguments.has("--with") && (arguments.has("--error") || arguments.has("--usp41")))
        return fmt::format("--with is for who has no balance, and {} judges one.",
                           arguments.has("--error") ? "--error" : "--usp41");
    if (arguments.has("--with") && arguments.get_or("--as", "") == "csv")
        return "CSV holds grams: with --with there is text, markdown and json.";
    if (arguments.has("--replace") && !arguments.has("-o")) return "--replace needs -o.";
    return {};
}

/// What stands behind --with; the sheets are then made for no balance.
Spoons read_with(Compiled& compiled, const Arguments& arguments, Outcome<Choice>& choice) {
    const auto text = arguments.get("--with");
    if (!text) return {};
    auto read = read_spoons(compiled, *text, "--with");
    for (Finding& finding : read.findings) choice.findings.push_back(std::move(finding));
    choice.value.reading = Reading{};
    choice.value.words = false;
    choice.value.dilutions = false;  // they are there for balances
    choice.value.materials = true;
    return std::move(read.value);
}

/// Sheets for a person, as text or Markdown.
class Pages {
public:
    Pages(const Arguments& arguments, const Compiled& compiled)
        : arguments_(arguments), formulary_(compiled.formulary),
          isolates_(compiled.sources.isolates()), cautions_(compiled.formulary) {}
    void open(std::string&) const {}
    void append(const Sheet& sheet, std::string& out) {
        empty_ = false;
        append_document(arguments_, out, sheet_document(formulary_, sheet, cautions_), isolates_);
        stocks_.add(formulary_, sheet);
    }
    void close(const Findings&, std::string& out) {
        if (!stocks_.empty())
            append_document(arguments_, out, stocks_document(formulary_, stocks_, cautions_),
                            isolates_);
        append_document(arguments_, out,
                        empty_
                            ? document::Document{document::Paragraph{"There is nothing to weigh."}}
                            : sheets_closing());
    }

private:
    const Arguments& arguments_;
    const Formulary& formulary_;
    const Isolates& isolates_;
    Cautions cautions_;
    StockDilutions stocks_;
    bool empty_ = true;
};

/// Makes the sheets and writes each as it comes. `findings` holds what was found before; what is
/// found here joins it, that of the sheets last. False where there were none.
template <typename Writer>
bool write_sheets(Writer writer, const Compiled& compiled, const Choice& choice, Output& output,
                  std::string& out, Findings& findings) {
    Findings of_sheets;
    bool made = false;
    writer.open(out);
    Findings outside = expand_each(compiled.formulary, compiled.names, choice, [&](Sheet& sheet) {
        made = true;
        writer.append(sheet, out);
        of_sheets.insert(of_sheets.end(), sheet.findings.begin(), sheet.findings.end());
        if (out.size() >= drain_at) output.drain(out);
    });
    findings.insert(findings.end(), outside.begin(), outside.end());
    writer.close(findings, out);
    findings.insert(findings.end(), of_sheets.begin(), of_sheets.end());
    return made;
}

int weigh(const Arguments& arguments) {
    const std::string& file = arguments.operands[0];
    if (std::string words = weigh_contradiction(arguments); !words.empty())
        return stop(weigh_verb, arguments, command_wrong, Code::command_line, words);
    // How much of a colourant is let on lips is only looked at where it is measured by the spoon.
    const Library library = arguments.has("--with") ? Library::with_rules : Library::plain;
    Compiled& compiled = kept(compile(disk_world(), file, library));
    if (compiled.unreadable)
        return stop(weigh_verb, arguments, file_trouble, compiled.sources,
                    {unreadable(file, *compiled.unreadable)});
    Outcome<Choice> choice = read_choice(compiled, arguments);
    choose_contents(choice.value, arguments);
    const Spoons spoons = read_with(compiled, arguments, choice);
    if (any_error(choice.findings))
        return stop(weigh_verb, arguments, command_wrong, compiled.sources, choice.findings);
    Output output = Output::open(arguments, files_read(compiled));
    if (!output.problem().empty())
        return stop(weigh_verb, arguments, file_trouble, Code::file_unwritable, output.problem());

    Findings findings = std::move(compiled.findings);
    findings.insert(findings.end(), choice.findings.begin(), choice.findings.end());
    std::string out;
    const auto write = [&](auto writer) {
        return write_sheets(std::move(writer), compiled, choice.value, output, out, findings);
    };
    bool made = false;
    std::string as = arguments.get_or("--as", "text");
    if (!spoons.empty())
        made = write_measured(compiled, choice.value, spoons, arguments, output, out, findings);
    else if (as == "csv")
        made = write(CsvWriter(compiled.formulary));
    else if (as == "json")
        made = write(SheetsJson(compiled.formulary, compiled.sources));
    else
        made = write(Pages(arguments, compiled));
    return finish(arguments, output, out, compiled.sources, findings, made);
}

}  // namespace

constexpr Verb weigh_verb = {
    "weigh",
    "FILE",
    1,
    1,
    "the weigh sheets of the shades in a file",
    weigh_options,
    "  levigate weigh orchard.shade\n"
    "  levigate weigh orchard.shade --shade Damson --finish matte --batch trial\n"
    "  levigate weigh orchard.shade --shade Quince --make \"24 slim tubes, overage 5 %\"\n"
    "  levigate weigh orchard.shade --shade Quince --finish matte --onto \"15 g\" --reads 0.01g\n"
    "  levigate weigh orchard.shade --shade Quince --with \"1/4 tsp, 1/8 tsp, drop\"\n"
    "  levigate weigh orchard.shade --all --as csv -o orchard.csv\n",
    "sheets",
    weigh};

}  // namespace levigate::cli
