#include "interpreter/render/edition_document.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "interpreter/render/amounts.hpp"
#include "interpreter/render/cautions.hpp"

namespace levigate {
namespace {

using namespace document;

/// The sheets of one product: they differ in the batch alone.
using Batches = std::vector<const Sheet*>;

/// A step as it holds for every batch: names without grams.
std::string plain_words(const Formulary& formulary, const Text& text) {
    std::string out;
    for (const TextPiece& piece : text.pieces)
        out += piece.kind == TextPiece::Kind::ingredient ? formulary.name(piece.ingredient)
                                                         : piece.words;
    return out;
}

void add_texts(const Formulary& formulary, const std::vector<TextId>& ids,
               std::vector<std::string>& out) {
    for (const TextId id : ids) out.push_back(plain_words(formulary, formulary.texts[id]));
}

class Page {
public:
    Page(const Formulary& formulary, const std::vector<BoxLabel>& labels)
        : formulary_(formulary), labels_(labels), cautions_(formulary) {}

    void head();
    void product(const Batches& batches);
    void without_batch(const Shade& shade);
    Document close() {
        out_.emplace_back(Paragraph{local_rules()});
        out_.emplace_back(Paragraph{closing_caution()});
        return std::move(out_);
    }

private:
    void bowl(const Batches& batches, std::size_t number);
    void lists(const Sheet& sheet);
    void list(const std::vector<std::string>& items) {
        if (!items.empty()) out_.emplace_back(List{items.size() > 1, items});
    }
    void notes(const std::vector<TextId>& ids) {
        std::vector<std::string> all;
        add_texts(formulary_, ids, all);
        for (const std::string& note : all) out_.emplace_back(Paragraph{"Note: " + note});
    }

    const Formulary& formulary_;
    const std::vector<BoxLabel>& labels_;
    Cautions cautions_;
    Document out_;
};

void Page::head() {
    if (!formulary_.edition) return;
    const Edition& edition = *formulary_.edition;
    out_.emplace_back(Heading{1, edition.title});
    if (std::string words = edition_number_words(edition); !words.empty())
        out_.emplace_back(Paragraph{std::move(words)});
    for (const std::string& note : edition_notes(formulary_)) out_.emplace_back(Paragraph{note});
}

std::string product_title(const Formulary& formulary, const Sheet& sheet) {
    const SheetNames names = names_of(formulary, sheet);
    std::string out(names.shade);
    for (const std::string_view name : {names.variant, names.finish})
        if (!name.empty()) out += fmt::format(" / {}", name);
    return out;
}

void Page::product(const Batches& batches) {
    const Sheet& first = *batches.front();
    out_.emplace_back(Heading{2, product_title(formulary_, first)});
    for (std::size_t i = 0; i < first.bowls.size(); ++i) bowl(batches, i);
    lists(first);
}

void Page::bowl(const Batches& batches, std::size_t number) {
    const Sheet& first = *batches.front();
    const Bowl& bowl = first.bowls[number];
    out_.emplace_back(
        Heading{3, fmt::format("Bowl {}: {}", number + 1, bowl_name(formulary_, first, bowl))});
    Table table;
    table.columns = {{"ingredient", Align::left}, {"% of the whole", Align::right}};
    table.foot = {"in the bowl", ""};
    Share sum;
    for (const SheetLine& line : bowl.lines) {
        std::string name = formulary_.name(line.what);
        if (line.estimated) name += " (estimate: from a volume)";
        table.rows.push_back({std::move(name), percent_text(line.share)});
        sum += line.share;
    }
    table.foot[1] = percent_text(sum);
    for (const Sheet* sheet : batches) {
        const GramsWriter grams(sheet->reading);
        const SheetNames names = names_of(formulary_, *sheet);
        table.columns.push_back({fmt::format("{}, g", names.batch), Align::right});
        const Bowl& same = sheet->bowls[number];
        for (std::size_t i = 0; i < table.rows.size(); ++i)
            table.rows[i].push_back(grams.text(same.lines[i].steps));
        table.foot.push_back(grams.text(same.steps));
    }
    out_.emplace_back(std::move(table));
    for (const std::string& caution : cautions_.of(bowl)) out_.emplace_back(Caution{caution});
    std::vector<std::string> steps;
    if (bowl.mix != no_ingredient) {
        const Mix& mix = formulary_.mixes[formulary_.ingredients[bowl.mix].index];
        add_texts(formulary_, mix.steps, steps);
        list(steps);
        return notes(mix.notes);
    }
    const Version& version = formulary_.shades[first.shade].versions[first.version];
    add_texts(formulary_, version.steps, steps);
    const Finishing* finishing =
        first.finishing == nothing ? nullptr : &formulary_.finishings[first.finishing];
    if (finishing) add_texts(formulary_, finishing->steps, steps);
    list(steps);
    notes(version.notes);
    if (finishing) notes(finishing->notes);
}

/// The ingredient lists, where they can be told.
void Page::lists(const Sheet& sheet) {
    const std::string title = product_title(formulary_, sheet);
    for (const BoxLabel& label : labels_)
        if (label.title == title)
            out_.emplace_back(
                Paragraph{fmt::format("For a label in {}: {}.", label.region->title, label.text)});
}

void Page::without_batch(const Shade& shade) {
    const Formula& formula = shade.versions[0].formula;
    if (!formula.solved()) return;
    out_.emplace_back(Heading{2, shade.name});
    Table table;
    table.columns = {{"ingredient", Align::left}, {"% of the whole", Align::right}};
    for (std::size_t i = 0; i < formula.parts.size(); ++i)
        table.rows.push_back(
            {formulary_.name(formula.parts[i].what), percent_text(formula.shares[i])});
    out_.emplace_back(std::move(table));
}

bool same_product(const Sheet& a, const Sheet& b) {
    return a.shade == b.shade && a.version == b.version && a.finishing == b.finishing &&
           a.bowls.size() == b.bowls.size();
}

}  // namespace

Document edition_document(const Formulary& formulary, const std::vector<Sheet>& sheets,
                          const std::vector<BoxLabel>& labels) {
    Page page(formulary, labels);
    page.head();
    auto next = sheets.begin();
    for (ShadeId id = 0; id < formulary.shades.size(); ++id) {
        if (!formulary.shades[id].own) continue;
        if (next == sheets.end() || next->shade != id) page.without_batch(formulary.shades[id]);
        while (next != sheets.end() && next->shade == id) {
            Batches batches{&*next};
            for (++next; next != sheets.end() && same_product(*batches.front(), *next); ++next)
                batches.push_back(&*next);
            page.product(batches);
        }
    }
    return page.close();
}

std::string edition_number_words(const Edition& edition) {
    std::string words;
    if (edition.number.sign() > 0) words = "Edition " + edition.number.exactly();
    if (!edition.date.empty()) words += (words.empty() ? "" : ", ") + edition.date;
    return words.empty() ? words : words + ".";
}

std::vector<std::string> edition_notes(const Formulary& formulary) {
    std::vector<std::string> out;
    if (formulary.edition) add_texts(formulary, formulary.edition->notes, out);
    for (std::string& note : out) note = "Note: " + note;
    return out;
}

std::string local_rules() {
    return "The law where you make, give or sell this goes before this page: read the current "
           "rules on colourants and labels, and the safety sheet of each material.";
}

}  // namespace levigate
