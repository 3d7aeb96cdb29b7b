#include "interpreter/render/html_card.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "interpreter/render/amounts.hpp"
#include "interpreter/render/card_bowl.hpp"
#include "interpreter/render/card_parts.hpp"
#include "interpreter/render/edition_document.hpp"
#include "interpreter/render/findings.hpp"
#include "interpreter/render/html.hpp"
#include "interpreter/render/remedies.hpp"
#include "interpreter/render/sheet_document.hpp"

namespace levigate {
namespace {

using namespace document;

constexpr std::size_t most_side_by_side = 3;  // columns that still leave room for a name

/// The same product in bowls of the same lines: then their amounts may stand side by side.
bool alike(const Sheet& a, const Sheet& b) {
    const auto same_lines = [](const Bowl& one, const Bowl& other) {
        return one.mix == other.mix &&
               std::equal(one.lines.begin(), one.lines.end(), other.lines.begin(),
                          other.lines.end(),
                          [](const SheetLine& x, const SheetLine& y) { return x.what == y.what; });
    };
    return a.shade == b.shade && a.version == b.version && a.finishing == b.finishing &&
           std::equal(a.bowls.begin(), a.bowls.end(), b.bowls.begin(), b.bowls.end(), same_lines);
}

/// "trial 6.00 g", and a place to count its ticks.
std::string batch_words(const Formulary& formulary, const Sheet& sheet, const std::string& group) {
    const GramsWriter grams(sheet.reading);
    std::string about = sheet.estimated ? "estimate: from a volume" : "";
    if (sheet.ends && sheet.ends->total && sheet.ends->total->open())
        about += (about.empty() ? "" : ", ") + grams.between(*sheet.ends->total);
    if (!about.empty()) about = " (" + about + ")";
    return fmt::format("<span>{} <b>{} g</b>{} <span class=\"count\" data-of=\"{}\"></span></span>",
                       html_escaped(batch_name(formulary, sheet)), grams.rounded(sheet.total),
                       about, group);
}

/// Several batches can be looked at one by one: the style alone follows the choice.
void append_batches(std::string& out, const Formulary& formulary, const CardSheets& sheets,
                    std::size_t card) {
    if (sheets.size() == 1) {
        out += fmt::format("<p class=\"batches\">{}</p>\n",
                           batch_words(formulary, sheets[0], tick_group(card, 0)));
        return;
    }
    out += "<fieldset class=\"batches\">\n<legend class=\"hidden\">Batches to show</legend>\n";
    for (std::size_t i = 0; i < sheets.size(); ++i)
        out += fmt::format("<label class=\"in-{0}\"><input type=\"radio\" name=\"card-{1}-show\" "
                           "id=\"card-{1}-show-{0}\" class=\"pick-{0}\"> {2}</label>\n",
                           i + 1, card, batch_words(formulary, sheets[i], tick_group(card, i)));
    out += fmt::format("<label class=\"all\"><input type=\"radio\" name=\"card-{0}-show\" "
                       "id=\"card-{0}-show-all\" checked> side by side</label>\n</fieldset>\n",
                       card);
}

std::vector<Findings> found_in(const Formulary& formulary, const CardSheets& sheets) {
    std::vector<Findings> out;
    for (const Sheet& sheet : sheets) out.push_back(looks_of(formulary, sheet));
    return out;
}

void append_card(std::string& out, const Formulary& formulary, Cautions& cautions,
                 const CardSheets& sheets, std::size_t card) {
    const Sheet& first = sheets.front();
    open_card(out, card, card_name(formulary, first));
    append_batches(out, formulary, sheets, card);
    out +=
        fmt::format("<p class=\"balance\">{}</p>\n", html_escaped(about_balance(formulary, first)));
    for (const Sheet& sheet : sheets) {
        const std::string scaled = about_scaling(formulary, sheet);
        if (scaled.empty()) continue;
        out += fmt::format("<p class=\"balance\">{}</p>\n", html_escaped(scaled));
        break;
    }
    out += start_over;
    append_swatch(out, formulary, first);
    out += "</header>\n";
    append_looks(out, found_in(formulary, sheets));
    for (std::size_t i = 0; i < first.bowls.size(); ++i)
        append_bowl(out, formulary, cautions, sheets, {card, i});
    append_notes(out, formulary, cautions, sheets, [](const Sheet& sheet) { return &sheet.notes; });
    close_card(out);
}

void append_contents(std::string& out, const std::vector<std::string>& names) {
    if (names.size() < 2) return;
    out += "<nav aria-label=\"On this page\">\n<ol>\n";
    for (std::size_t i = 0; i < names.size(); ++i)
        out += fmt::format("<li><a href=\"#card-{}\">{}</a></li>\n", i + 1, html_escaped(names[i]));
    out += "</ol>\n</nav>\n";
}

/// What `share` wrote. A source that only has an `edition` block is still the maker's own.
const Edition* shared_edition(const Formulary& formulary) {
    return formulary.edition && formulary.edition->unaltered ? &*formulary.edition : nullptr;
}

void append_paragraph(std::string& out, std::string_view text) {
    out += fmt::format("<p>{}</p>\n", html_escaped(text));
}

/// Its title is in the heading.
void append_edition(std::string& out, const Formulary& formulary, const Edition& edition) {
    if (const std::string words = edition_number_words(edition); !words.empty())
        append_paragraph(out, words);
    if (!*edition.unaltered)
        append_paragraph(out, "This is not the edition as it went out: something in it "
                              "was changed.");
    for (const std::string& note : edition_notes(formulary)) append_paragraph(out, note);
}

// Without the script it works as well: the style alone follows these two.
constexpr std::string_view taring =
    "<fieldset class=\"taring\">\n<legend>Your balance</legend>\n"
    "<label><input type=\"radio\" name=\"taring\" id=\"tared\" checked> tared before each "
    "line</label>\n"
    "<label><input type=\"radio\" name=\"taring\" id=\"never-tared\"> never tared</label>\n"
    "</fieldset>\n<p class=\"said hidden\" role=\"status\"></p>\n";

}  // namespace

void BenchPage::append(const Sheet& sheet) {
    if (too_long()) return;
    const bool full = open_.size() == most_side_by_side;
    if (full || (!open_.empty() && !alike(open_.front(), sheet))) close_cards();
    open_.push_back(sheet);
    stocks_.add(formulary_, sheet);
}

void BenchPage::append_stocks() {
    if (stocks_.empty()) return;
    const Document words = stocks_document(formulary_, stocks_, cautions_);
    if (words.empty()) return;
    const std::string& name = std::get<Heading>(words.front()).text;
    const std::size_t card = next_card(name, name);
    cards_ += fmt::format("<article class=\"card\" id=\"card-{}\">\n", card);
    append_html(cards_, words, 1);
    cards_ += "</article>\n";
}

std::size_t BenchPage::next_card(std::string name, std::string content) {
    names_.push_back(std::move(name));
    contents_.push_back(std::move(content));
    return names_.size();
}

void BenchPage::close_cards() {
    if (open_.empty()) return;
    std::string content = card_name(formulary_, open_.front());
    for (std::size_t i = 0; i < open_.size(); ++i)
        content += fmt::format("{}{}", i == 0 ? ": " : ", ", batch_name(formulary_, open_[i]));
    const std::size_t card = next_card(card_name(formulary_, open_.front()), std::move(content));
    append_card(cards_, formulary_, cautions_, open_, card);
    open_.clear();
}

std::string BenchPage::page(std::string_view about, const Isolates& isolates) {
    close_cards();
    const Edition* edition = shared_edition(formulary_);
    if (edition) about = edition->title;
    const bool one = names_.size() == 1 && !edition;
    const std::string title =
        one ? fmt::format("{}: bench page", names_[0]) : fmt::format("{}: bench page", about);
    append_stocks();
    std::string body =
        fmt::format("<header class=\"top\">\n<h1>Bench page: {}</h1>\n", html_escaped(about));
    if (edition) append_edition(body, formulary_, *edition);
    append_contents(body, contents_);
    if (!names_.empty()) body += taring;
    body += "</header>\n<main>\n";
    body += names_.empty() ? "<p>There is nothing to weigh.</p>\n" : cards_;
    body += "</main>\n";
    if (!names_.empty() || edition) {
        body += "<footer>";
        if (edition) append_paragraph(body, local_rules());
        body += fmt::format("<p>{}</p></footer>\n", html_escaped(closing_caution()));
    }
    return html_page({title, with_names_apart(std::move(body), isolates), true});
}

}  // namespace levigate
