#include "interpreter/render/card_bowl.hpp"

#include <fmt/format.h>

#include "interpreter/render/amounts.hpp"
#include "interpreter/render/html.hpp"
#include "interpreter/render/remedies.hpp"
#include "interpreter/render/screen_colour.hpp"
#include "interpreter/render/side_by_side.hpp"

namespace levigate {
namespace {

using namespace document;

struct Writing {
    std::string& out;
    const Formulary& formulary;
    const CardSheets& sheets;
    const BowlPlace& place;

    const Bowl& bowl(std::size_t batch = 0) const { return sheets[batch].bowls[place.bowl]; }
};

/// The bowl in which a blend was made before, from 1; 0 where it has none.
std::size_t made_in(const Writing& in, std::size_t line) {
    if (in.place.planned) return in.place.planned->from[line];
    const IngredientId what = in.bowl().lines[line].what;
    for (std::size_t i = 0; i < in.place.bowl; ++i)
        if (in.sheets.front().bowls[i].mix == what) return i + 1;
    return 0;
}

void append_patch_of(Writing& in, IngredientId what) {
    const Ingredient& ingredient = in.formulary.ingredients[what];
    if (ingredient.kind != Ingredient::Kind::material) return;
    for (const Swatch& swatch : in.formulary.materials[ingredient.index].swatches) {
        append_patch(in.out, swatch, "measured: " + swatch_words(in.formulary, swatch));
        return;
    }
}

void append_ingredient(Writing& in, std::size_t line) {
    const SheetLine& first = in.bowl().lines[line];
    in.out += "<tr role=\"row\"><th scope=\"row\" role=\"rowheader\">";
    append_patch_of(in, first.what);
    in.out += fmt::format("<bdi>{}</bdi>", html_escaped(in.formulary.name(first.what)));
    in.out += fmt::format(" <span class=\"share\">{} %</span>",
                          in_percent(first.share).fixed(percent_places(in.bowl())));
    if (const std::size_t bowl = made_in(in, line))
        in.out += fmt::format(" <span class=\"from\">· from bowl {}</span>", bowl);
    if (first.estimated) in.out += " <span class=\"from\">· estimate: from a volume</span>";
    if (in.place.planned && !in.place.planned->beside[line].empty())
        in.out += fmt::format(" <span class=\"lots\">{}</span>",
                              html_escaped(in.place.planned->beside[line]));
    in.out += "</th>\n";
}

/// What to weigh in one batch: a box to tick, the amount, and the reading for who never tares.
void append_amount(Writing& in, std::size_t line, std::size_t batch, const Exact& reading) {
    const Sheet& sheet = in.sheets[batch];
    const GramsWriter grams(sheet.reading);
    const std::string group = tick_group(in.place.card, batch);
    const std::string name = html_escaped(batch_name(in.formulary, sheet));
    in.out += fmt::format(
        "<td role=\"cell\" class=\"in-{0}\"><label><input type=\"checkbox\" name=\"{1}\" "
        "id=\"{1}-bowl-{2}-line-{3}\"> <span class=\"hidden\">{4}, {5}: </span>",
        batch + 1, group, in.place.bowl + 1, line + 1,
        html_escaped(in.formulary.name(in.bowl(batch).lines[line].what)), name);
    in.out += fmt::format(
        "<span class=\"of\" aria-hidden=\"true\">{}</span> <span class=\"add\">"
        "<span class=\"plus\">add </span><b>{}</b> g</span> "
        "<span class=\"shows\"><span class=\"eye\">shows </span><b>{}</b> g</span></label></td>\n",
        name, grams.text(in.bowl(batch).lines[line].steps), grams.text(reading));
}

void append_head(Writing& in) {
    in.out += fmt::format("<table role=\"table\" class=\"weighing batches-{}\">\n"
                          "<caption class=\"hidden\">Bowl {}: what to weigh, in grams</caption>\n"
                          "<thead role=\"rowgroup\"><tr role=\"row\"><th scope=\"col\" "
                          "role=\"columnheader\">ingredient</th>",
                          in.sheets.size(), in.place.number());
    for (std::size_t i = 0; i < in.sheets.size(); ++i) {
        const GramsWriter grams(in.sheets[i].reading);
        const bool own = in.bowl(i).mix == no_ingredient;
        in.out +=
            fmt::format("<th scope=\"col\" role=\"columnheader\" class=\"in-{}\">{}, <span "
                        "class=\"sum\">{} g</span></th>",
                        i + 1, html_escaped(batch_name(in.formulary, in.sheets[i])),
                        own ? grams.rounded(in.sheets[i].total) : grams.text(in.bowl(i).asked));
    }
    in.out += "</tr></thead>\n";
}

void append_foot(Writing& in) {
    in.out += "<tfoot role=\"rowgroup\"><tr role=\"row\"><th scope=\"row\" role=\"rowheader\">"
              "in the bowl</th>";
    for (std::size_t i = 0; i < in.sheets.size(); ++i)
        in.out += fmt::format("<td role=\"cell\" class=\"in-{}\"><span class=\"of\">{}</span> "
                              "<span class=\"sum\"><b>{}</b> g</span></td>",
                              i + 1, html_escaped(batch_name(in.formulary, in.sheets[i])),
                              GramsWriter(in.sheets[i].reading).text(in.bowl(i).steps));
    in.out += "</tr></tfoot>\n</table>\n";
}

void append_weighing(Writing& in) {
    append_head(in);
    in.out += "<tbody role=\"rowgroup\">\n";
    std::vector<Exact> readings(in.sheets.size());
    for (std::size_t line = 0; line < in.bowl().lines.size(); ++line) {
        append_ingredient(in, line);
        for (std::size_t batch = 0; batch < in.sheets.size(); ++batch) {
            readings[batch] += in.bowl(batch).lines[line].steps;
            append_amount(in, line, batch, readings[batch]);
        }
        in.out += "</tr>\n";
    }
    in.out += "</tbody>\n";
    append_foot(in);
}

/// A text ready for the page. Where it is of one batch, the style shows it with that batch alone.
struct CardText {
    std::string html;
    std::size_t batch = 0;  ///< from 1; 0: of all
    std::string attribute() const {
        return batch == 0 ? std::string() : fmt::format(" class=\"in-{}\"", batch);
    }
};

/// Words that differ are of one batch each, so that a batch that is looked at alone has its own.
std::string html_beside(const std::vector<WordBeside>& words) {
    std::string out;
    for (const WordBeside& word : words) {
        if (&word != &words.front()) out += ' ';
        append_escaped(out, word.lead);
        for (std::size_t i = 0; i < word.each.size(); ++i) {
            const std::string one = html_escaped(word.each[i]);
            if (i > 0) out += "<span class=\"beside\"> | </span>";
            out += word.each.size() == 1
                       ? one
                       : fmt::format("<span class=\"in-{}\">{}</span>", i + 1, one);
        }
    }
    return out;
}

/// The n-th text of each batch is one text, where it can be.
std::vector<CardText> joined(const Writing& in, const TextsOf& texts, bool& parted) {
    std::vector<CardText> out;
    for (std::size_t n = 0; n < texts(in.sheets.front())->size(); ++n) {
        std::vector<std::string_view> each;
        for (const Sheet& sheet : in.sheets)
            if (n < texts(sheet)->size()) each.push_back((*texts(sheet))[n]);
        const auto words = words_beside(each);
        if (words && each.size() == in.sheets.size()) {
            for (const WordBeside& word : *words) parted = parted || word.each.size() > 1;
            out.push_back({html_beside(*words)});
            continue;
        }
        for (std::size_t i = 0; i < in.sheets.size(); ++i)
            if (n < texts(in.sheets[i])->size())
                out.push_back(
                    {html_escaped(fmt::format("{}: {}", batch_name(in.formulary, in.sheets[i]),
                                              (*texts(in.sheets[i]))[n])),
                     i + 1});
    }
    return out;
}

/// Behind the class of what is one batch's own.
std::string own_class(const Writing& in, std::size_t batch) {
    return in.sheets.size() > 1 ? fmt::format(" in-{}", batch + 1) : std::string();
}

/// Under a name where several batches stand side by side.
void append_remedies(const Writing& in) {
    for (std::size_t i = 0; i < in.sheets.size(); ++i) {
        const Sheet& sheet = in.sheets[i];
        Document ways;
        add_remedies(ways, in.formulary, sheet, in.place.bowl);
        if (ways.empty()) continue;
        if (in.sheets.size() > 1) {
            std::string& lead = std::get<Paragraph>(ways.front()).text;
            lead = fmt::format("{}: {}", batch_name(in.formulary, sheet), lead);
        }
        in.out += fmt::format("<div class=\"ways{}\">\n", own_class(in, i));
        append_html(in.out, ways);
        in.out += "</div>\n";
    }
}

void append_order(const Writing& in, bool parted) {
    if (!parted) return;
    std::string names;
    for (const Sheet& sheet : in.sheets)
        names += fmt::format("{}{}", names.empty() ? "" : " | ", batch_name(in.formulary, sheet));
    in.out += fmt::format("<p class=\"order beside\">Where amounts stand side by side: {}.</p>\n",
                          html_escaped(names));
}

void append_steps(const Writing& in) {
    bool parted = false;
    const std::size_t bowl = in.place.bowl;
    const std::vector<CardText> steps = joined(
        in, [&](const Sheet& sheet) { return &sheet.bowls[bowl].steps_text; }, parted);
    if (steps.empty()) return;
    append_order(in, parted);
    const std::string_view list = steps.size() > 1 ? "ol" : "ul";
    in.out += fmt::format("<{}>\n", list);
    for (const CardText& step : steps)
        in.out += fmt::format("<li{}>{}</li>\n", step.attribute(), step.html);
    in.out += fmt::format("</{}>\n", list);
}

/// What each batch takes of a dilution, and what is kept of it.
void append_kept(const Writing& in) {
    for (std::size_t i = 0; i < in.sheets.size(); ++i) {
        std::string words = kept_words(in.formulary, in.bowl(i), GramsWriter(in.sheets[i].reading));
        if (words.empty()) continue;
        if (in.sheets.size() > 1)
            words = fmt::format("{}: {}", batch_name(in.formulary, in.sheets[i]), words);
        in.out +=
            fmt::format("<p class=\"kept{}\">{}</p>\n", own_class(in, i), html_escaped(words));
    }
}

}  // namespace

std::string_view batch_name(const Formulary& formulary, const Sheet& sheet) {
    const std::string_view name = names_of(formulary, sheet).batch;
    return name.empty() ? "weigh" : name;
}

std::string tick_group(std::size_t card, std::size_t batch) {
    return fmt::format("card-{}-batch-{}", card, batch + 1);
}

// An SVG, since the page's policy lets no style stand in a line, and paper leaves backgrounds out.
void append_patch(std::string& out, const Swatch& swatch, std::string_view words) {
    out += fmt::format("<svg class=\"patch\" viewBox=\"0 0 9 9\" preserveAspectRatio=\"none\" "
                       "role=\"img\" aria-label=\"{}\"><rect width=\"9\" height=\"9\" "
                       "fill=\"{}\"/></svg> ",
                       html_escaped(words), on_screen(swatch.lab).hex());
}

std::string swatch_words(const Formulary& formulary, const Swatch& swatch) {
    std::string out = "Lab";
    for (const Exact& value : swatch.lab) out += " " + value.decimal(2);
    const bool whole = as_fraction(swatch.at) == Exact(1);
    if (!whole) out += fmt::format(" at {} %", percent_text(swatch.at));
    if (swatch.in != no_ingredient) out += " in " + formulary.name(swatch.in);
    if (on_screen(swatch.lab).cut) out += " (more vivid than a screen can show)";
    return out;
}

void append_notes(std::string& out, const Formulary& formulary, Cautions& cautions,
                  const CardSheets& sheets, const TextsOf& texts) {
    const BowlPlace nowhere;
    Writing in{out, formulary, sheets, nowhere};
    bool parted = false;
    std::vector<CardText> notes = joined(in, texts, parted);
    std::erase_if(notes, [&](const CardText& note) { return cautions.fresh({note.html}).empty(); });
    append_order(in, parted && !notes.empty());
    for (const CardText& note : notes)
        out += fmt::format("<p{}>Note: {}</p>\n", note.attribute(), note.html);
}

void append_bowl(std::string& out, const Formulary& formulary, Cautions& cautions,
                 const CardSheets& sheets, const BowlPlace& place) {
    Writing in{out, formulary, sheets, place};
    out +=
        fmt::format("<div class=\"bowl\">\n"
                    "<h3><span class=\"number\">Bowl {}:</span> {}</h3>\n",
                    place.number(), html_escaped(bowl_name(formulary, sheets.front(), in.bowl())));
    for (const std::string& caution : cautions.of(in.bowl())) append_html(out, {Caution{caution}});
    append_weighing(in);
    append_remedies(in);
    if (place.planned && !place.planned->portions.empty())
        append_html(out, {Paragraph{place.planned->portions}});
    else
        append_kept(in);
    append_steps(in);
    append_notes(out, formulary, cautions, sheets,
                 [&](const Sheet& sheet) { return &sheet.bowls[place.bowl].notes; });
    out += "</div>\n";
}

}  // namespace levigate
