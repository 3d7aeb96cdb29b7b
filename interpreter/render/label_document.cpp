#include "interpreter/render/label_document.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "interpreter/formulary/say.hpp"
#include "interpreter/render/amounts.hpp"

namespace levigate {
namespace {

using namespace document;

std::string_view group_words(Listed::Group group) {
    switch (group) {
        case Listed::Group::main: return "by weight";
        case Listed::Group::minor: return "any order";
        case Listed::Group::colourant: return "colourant";
        case Listed::Group::may_contain: return "colourant of some shades";
        case Listed::Group::named: return "within another, named";
    }
    return {};
}

std::string percent_cell(const Listed& one) {
    const std::string most = percent_text(one.most);
    return one.least == one.most ? most : fmt::format("{} to {}", percent_text(one.least), most);
}

Table list_table(const Formulary& formulary, const BoxLabel& label) {
    Table table;
    table.columns = {{"in the list", Align::left},
                     {"% of the whole", Align::right},
                     {"group", Align::left},
                     {"from", Align::left}};
    for (const Listed& one : label.list) {
        std::vector<std::string> from;
        for (const IngredientId what : one.from) from.push_back(formulary.name(what));
        table.rows.push_back({one.name.name, percent_cell(one), std::string(group_words(one.group)),
                              list_words(from)});
    }
    return table;
}

std::string content_line(const NetContent& content) {
    std::string out =
        fmt::format("{}One {} (batch {}): {}.", content.shade.empty() ? "" : content.shade + ". ",
                    content.container, content.batch, content.text);
    if (content.volume && content.mass)
        out += " Weight from densities: an estimate. Weigh filled ones.";
    if (!content.needed) out += " So small a pack need not state it.";
    return out;
}

void add_words(const LabelWords& words, Document& out) {
    if (!words.batch.empty()) out.emplace_back(Paragraph{"Batch: " + words.batch});
    if (!words.code.empty()) out.emplace_back(Paragraph{"Batch code: " + words.code});
    if (!words.opened.empty())
        out.emplace_back(Paragraph{fmt::format(
            "Period after opening: {}. In the EU it is enough where the product keeps for more "
            "than 30 months; else a date of minimum durability is needed (Regulation (EC) "
            "1223/2009, Article 19(1)(c), second-hand).",
            words.opened)});
}

/// What several rules leave unconfirmed is one line.
std::vector<std::string> shown_conditions(const BoxLabel& label, const LabelWords& words) {
    if (words.sources || label.unconfirmed.size() < 2) return label.conditions;
    std::vector<std::string> out;
    for (std::size_t i = 0; i < label.conditions.size(); ++i)
        if (std::find(label.unconfirmed.begin(), label.unconfirmed.end(), i) ==
            label.unconfirmed.end())
            out.push_back(label.conditions[i]);
    out.push_back(fmt::format("{} things that this list rests on are not confirmed by a text of "
                              "the law. The option `--sources` shows each.",
                              label.unconfirmed.size()));
    return out;
}

}  // namespace

std::string label_closing() {
    return "Made from the data as they stand, and no legal advice: the person responsible for the "
           "product checks each list against the current text before anything is printed.";
}

Document label_document(const Formulary& formulary, const BoxLabel& label,
                        const LabelWords& words) {
    Document out;
    out.emplace_back(Heading{1, fmt::format("{}: {}", label.title, label.region->title)});
    for (const Finding& finding : label.findings)
        out.emplace_back(Caution{"Not to be sold as it is. " + finding.message});
    out.emplace_back(Paragraph{label.text});
    for (const NetContent& content : label.contents)
        out.emplace_back(Paragraph{content_line(content)});
    add_words(words, out);
    for (const std::string& warning : label.warnings) out.emplace_back(Caution{warning});
    out.emplace_back(list_table(formulary, label));
    std::vector<std::string> conditions = shown_conditions(label, words);
    if (!conditions.empty()) out.emplace_back(List{false, std::move(conditions)});
    return out;
}

}  // namespace levigate
