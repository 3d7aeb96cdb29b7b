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
                 std::string_view ingredient, std::string_view percent) {
    out += ingredient;
    out += ',';
    grams.append(out, line.steps);
    out += ',';
    out += percent;
    out += ',';
    in_grams(line.exact).append_fraction(out);
    out += '\n';
}

}  // namespace

CsvWriter::CsvWriter(const Formulary& formulary) : formulary_(formulary) {
    fields_.reserve(formulary.ingredients.size());
    for (const Ingredient& ingredient : formulary.ingredients)
        fields_.push_back(csv_field(ingredient.name));
}

void CsvWriter::open(std::string& out) const {
    out += "shade,variant,finish,batch,bowl,ingredient,grams,percent,exact\n";
}

void CsvWriter::set_percents(const Sheet& sheet) {
    if (sheet.shade == shade_ && sheet.version == version_ && sheet.finishing == finishing_) return;
    shade_ = sheet.shade;
    version_ = sheet.version;
    finishing_ = sheet.finishing;
    std::size_t count = 0;
    for (const Bowl& bowl : sheet.bowls) {
        for (const SheetLine& line : bowl.lines) {
            if (count == percents_.size()) percents_.emplace_back();
            percents_[count].clear();
            append_percent(percents_[count++], line.share);
        }
    }
}

void CsvWriter::append(const Sheet& sheet, std::string& out) {
    set_percents(sheet);
    std::size_t at = 0;
    SheetNames names = names_of(formulary_, sheet);
    GramsWriter grams(sheet.reading);
    head_.clear();
    for (std::string_view name : {names.shade, names.variant, names.finish, names.batch})
        head_ += csv_field(name) += ',';
    for (const Bowl& bowl : sheet.bowls) {
        row_head_ = head_;
        row_head_ += bowl.mix == no_ingredient ? csv_field(names.shade) : fields_[bowl.mix];
        row_head_ += ',';
        for (const SheetLine& line : bowl.lines) {
            out += row_head_;
            append_line(out, line, grams, fields_[line.what], percents_[at++]);
        }
    }
}

}  // namespace levigate
