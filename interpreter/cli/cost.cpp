// levigate cost: what batches cost, by the prices that the files state.
#include <algorithm>

#include <fmt/format.h>

#include "interpreter/cli/choice.hpp"
#include "interpreter/cli/money_words.hpp"
#include "interpreter/cli/report.hpp"
#include "interpreter/cli/verb.hpp"
#include "interpreter/compile.hpp"
#include "interpreter/render/cost_sheet.hpp"
#include "interpreter/render/findings_json.hpp"
#include "interpreter/render/json.hpp"

namespace levigate::cli {

extern const Verb cost_verb;

namespace {

constexpr Option cost_options[] = {
    {"--shade", "NAME", "this shade only"},
    {"--variant", "NAME", "under this variant"},
    {"--finish", "NAME", "with this finish"},
    {"--batch", "NAME", "this batch only"},
    {"--make", "QUANTITY", "so much, in place of the batches: \"120 g\", \"48 slim tubes\""},
    {"--all", "", "every variant and finish that a shade names"},
    {"--margin", "SHARE", "the price that leaves so much of itself over the cost: 60%"},
    {"--in", "CURRENCY", "all in this currency, by the rates of the file: USD"},
    {"--as", "FORM", "how it is written; text where nothing is said", "text|markdown|csv|json"},
    {"--brief", "", "findings on one line each"},
    {"--colour", "WHEN", "colour in findings", "auto|always|never"},
    {"-o", "PATH", "into this file, whole or not at all; - is standard output"},
    {"--replace", "", "even where that file is there already"},
};

std::string cost_contradiction(const Arguments& arguments) {
    if (arguments.has("--make") && arguments.has("--batch"))
        return "--make stands in place of the batches, so --batch can't stand beside it.";
    if (arguments.has("--replace") && !arguments.has("-o")) return "--replace needs -o.";
    return {};
}

/// What was asked for, or why the command line can't be followed.
std::string read_order(const Arguments& arguments, CostOrder& order) {
    if (const auto text = arguments.get("--margin")) {
        order.margin = read_percent(*text);
        if (!order.margin || !(as_fraction(*order.margin) < Exact(1)))
            return fmt::format("Behind --margin stands \"{}\", but a share of the price is due "
                               "there, 0 % or more and less than 100 %: --margin 60%.",
                               *text);
    }
    if (const auto text = arguments.get("--in")) {
        order.into = currency_tag(*text);
        if (order.into == 0)
            return fmt::format("Behind --in stands \"{}\", but the three letters of a currency are "
                               "due there: --in USD.",
                               *text);
    }
    return {};
}

/// What was written so far, in the form that was asked for.
class Writer {
public:
    Writer(const Arguments& arguments, const Compiled& compiled, const CostOrder& order)
        : arguments_(arguments), compiled_(compiled), order_(order),
          form_(arguments.get_or("--as", "text")) {}

    void open(std::string& out) const {
        if (form_ == "csv") out += cost_csv_head();
        if (form_ == "json") out += "{\"format\": \"levigate cost 1\",\n \"sheets\": [";
    }
    void append(const SheetCost& cost, std::string& out) {
        const Formulary& formulary = compiled_.formulary;
        if (form_ == "csv")
            append_cost_csv(out, formulary, cost);
        else if (form_ == "json")
            out +=
                (empty_ ? "\n  " : ",\n  ") + cost_json(formulary, compiled_.sources, cost, order_);
        else
            append_document(arguments_, out, cost_document(formulary, cost, order_),
                            compiled_.sources.isolates());
        empty_ = false;
    }
    void close(const Findings& findings, std::string& out) const {
        if (form_ == "json")
            out += "],\n \"findings\": " + findings_array(compiled_.sources, findings) + "}\n";
        else if (form_ != "csv" && empty_)
            append_document(arguments_, out, {document::Paragraph{"Nothing here has a cost."}});
    }

private:
    const Arguments& arguments_;
    const Compiled& compiled_;
    const CostOrder& order_;
    const std::string form_;
    bool empty_ = true;
};

const BatchSize& size_of(const Formulary& formulary, const Choice& choice, const Sheet& sheet) {
    return choice.make ? *choice.make : formulary.shades[sheet.shade].batches[sheet.batch].size;
}

void write_costs(const Compiled& compiled, const Choice& choice, const CostOrder& order,
                 Writer writer, Output& output, std::string& out, Findings& findings) {
    std::vector<Lack> lacking;
    Findings of_sheets;
    writer.open(out);
    Findings outside = expand_each(compiled.formulary, compiled.names, choice, [&](Sheet& sheet) {
        leave_out_weighing(sheet.findings);
        const SheetCost cost = sheet_cost(compiled.formulary, sheet,
                                          size_of(compiled.formulary, choice, sheet), order);
        note_lacking(compiled.formulary, cost.all.lacking, lacking);
        writer.append(cost, out);
        of_sheets.insert(of_sheets.end(), sheet.findings.begin(), sheet.findings.end());
        if (out.size() >= drain_at) output.drain(out);
    });
    findings.insert(findings.end(), outside.begin(), outside.end());
    if (!lacking.empty())
        findings.push_back(lacking_finding(compiled.formulary, lacking, order.into));
    writer.close(findings, out);
    findings.insert(findings.end(), of_sheets.begin(), of_sheets.end());
}

int cost(const Arguments& arguments) {
    const std::string& file = arguments.operands[0];
    CostOrder order;
    std::string wrong = cost_contradiction(arguments);
    if (wrong.empty()) wrong = read_order(arguments, order);
    if (!wrong.empty()) return stop(cost_verb, arguments, command_wrong, Code::command_line, wrong);
    Compiled& compiled = kept(compile(disk_world(), file));
    if (compiled.unreadable)
        return stop(cost_verb, arguments, file_trouble, compiled.sources,
                    {unreadable(file, *compiled.unreadable)});
    Outcome<Choice> choice = read_choice(compiled, arguments);
    choice.value.words = false;
    choice.value.reading = Reading{};  // money needs no balance
    if (any_error(choice.findings))
        return stop(cost_verb, arguments, command_wrong, compiled.sources, choice.findings);
    Output output = Output::open(arguments, files_read(compiled));
    if (!output.problem().empty())
        return stop(cost_verb, arguments, file_trouble, Code::file_unwritable, output.problem());
    Findings findings = std::move(compiled.findings);
    std::string out;
    write_costs(compiled, choice.value, order, Writer(arguments, compiled, order), output, out,
                findings);
    return finish(arguments, output, out, compiled.sources, findings);
}

}  // namespace

constexpr Verb cost_verb = {
    "cost",
    "FILE",
    1,
    1,
    "what batches cost, and the price that leaves a margin",
    cost_options,
    "  levigate cost orchard.shade\n"
    "  levigate cost orchard.shade --shade Quince --finish matte --batch full --margin 60%\n"
    "  levigate cost orchard.shade --all --in USD --as csv -o costs.csv\n",
    "sheets",
    cost};

}  // namespace levigate::cli
