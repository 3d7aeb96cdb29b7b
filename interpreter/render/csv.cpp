#include "interpreter/render/csv.hpp"

#include "grammar/source.hpp"

namespace levigate {

std::string csv_field(std::string_view raw) {
    std::string text = shown(raw);
    if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
    std::string out = "\"";
    for (char c : text) {
        if (c == '"') out += '"';
        out += c;
    }
    return out + '"';
}

namespace {

void append_line(std::string& out, const SheetLine& line, const GramsWriter& grams,
                 std::string_view ingredient) {
    out += ingredient;
    out += ',';
    grams.append(out, line.steps);
    out += ',';
    append_percent(out, line.share);
    out += ',';
    in_grams(line.exact).append_fraction(out);
    out += '\n';
}

}  // namespace

// Half a million rows go through here: each name is quoted once, and the head of a row once a bowl.
void write_csv(const Formulary& formulary, const std::vector<Sheet>& sheets, std::string& out,
               const Drain& drain) {
    std::vector<std::string> fields;
    fields.reserve(formulary.ingredients.size());
    for (const Ingredient& ingredient : formulary.ingredients)
        fields.push_back(csv_field(ingredient.name));

    out += "shade,variant,finish,batch,bowl,ingredient,grams,percent,exact\n";
    std::string head, row_head;
    for (const Sheet& sheet : sheets) {
        SheetNames names = names_of(formulary, sheet);
        GramsWriter grams(sheet.reading);
        head.clear();
        for (std::string_view name : {names.shade, names.variant, names.finish, names.batch})
            head += csv_field(name) += ',';
        for (const Bowl& bowl : sheet.bowls) {
            row_head = head;
            if (bowl.mix == no_ingredient)
                row_head += csv_field(names.shade);
            else
                row_head += fields[bowl.mix];
            row_head += ',';
            for (const SheetLine& line : bowl.lines) {
                out += row_head;
                append_line(out, line, grams, fields[line.what]);
            }
        }
        if (out.size() >= drain_at) drain(out);
    }
}

}  // namespace levigate
