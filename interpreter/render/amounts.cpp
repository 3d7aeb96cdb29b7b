#include "interpreter/render/amounts.hpp"

#include <fmt/format.h>

#include "interpreter/formulary/dilute.hpp"

namespace levigate {

GramsWriter::GramsWriter(const Reading& reading)
    : step_(in_grams(reading.step)), places_(reading.places) {
    if (places_ < 0 || places_ > 15) return;
    Exact units = step_;
    for (int i = 0; i < places_; ++i) units *= 10;
    if (!units.to_int64(units_) || units_ < 0) units_ = 0;
}

// Whole numbers all the way: nothing is rounded here that was not rounded before.
void GramsWriter::append(std::string& out, const Exact& steps) const {
    std::int64_t count = 0, value = 0;
    if (units_ == 0 || !steps.to_int64(count) || count < 0 ||
        __builtin_mul_overflow(count, units_, &value)) {
        (steps * step_).append_fixed(out, places_);
        return;
    }
    fmt::format_int digits(value);
    std::string_view text(digits.data(), digits.size());
    auto places = static_cast<std::size_t>(places_);
    if (text.size() <= places) {
        out += "0.";
        out.append(places - text.size(), '0');
        out += text;
        return;
    }
    out += text.substr(0, text.size() - places);
    if (places == 0) return;
    out += '.';
    out += text.substr(text.size() - places);
}

std::string GramsWriter::text(const Exact& steps) const {
    std::string out;
    append(out, steps);
    return out;
}

std::string GramsWriter::rounded(const Mass& mass) const {
    return text(steps_half_up(in_grams(mass), step_));
}

std::string GramsWriter::between(const Ends& ends) const {
    return text((ends.least / step_).floor()) + " to " + text((ends.most / step_).ceil()) + " g";
}

void append_percent(std::string& out, const Share& share) {
    as_fraction(share).append_scaled(out, 100, 4);
}

std::string percent_text(const Share& share) {
    std::string out;
    append_percent(out, share);
    return out;
}

int percent_places(const Bowl& bowl) {
    const Exact least(1, 1000);
    for (const SheetLine& line : bowl.lines)
        if (as_fraction(line.share) < least) return 4;
    return 2;
}

SheetNames names_of(const Formulary& formulary, const Sheet& sheet) {
    const Shade& shade = formulary.shades[sheet.shade];
    SheetNames names;
    names.shade = shade.name;
    if (sheet.version < shade.versions.size())
        names.variant = shade.versions[sheet.version].variant;
    if (sheet.finishing != nothing)
        names.finish = formulary.finishes[formulary.finishings[sheet.finishing].finish].name;
    if (sheet.batch != nothing) names.batch = shade.batches[sheet.batch].name;
    return names;
}

std::string sheet_heading(const Formulary& formulary, const Sheet& sheet) {
    const GramsWriter grams(sheet.reading);
    const Mass& total = sheet.total;
    std::string out = sheet_heading(formulary, sheet,
                                    steps_half_up(in_grams(total), in_grams(sheet.reading.step)));
    if (sheet.ends && sheet.ends->total && sheet.ends->total->open())
        out += fmt::format(" ({})", grams.between(*sheet.ends->total));
    return out;
}

std::string sheet_heading(const Formulary& formulary, const Sheet& sheet, const Exact& steps) {
    const SheetNames names = names_of(formulary, sheet);
    std::string out;
    for (const std::string_view name : {names.shade, names.variant, names.finish, names.batch})
        if (!name.empty()) out += fmt::format("{} · ", name);
    return out + GramsWriter(sheet.reading).text(steps) + " g";
}

std::string kept_words(const Formulary& formulary, const Bowl& bowl, const GramsWriter& grams) {
    const Exact over = bowl.steps - bowl.asked;
    if (over.sign() <= 0 || !dilution_of(formulary, bowl.mix)) return {};
    return fmt::format("Take {} g of it. Keep the other {} g, labelled \"{}\" and with the date.",
                       grams.text(bowl.asked), grams.text(over), formulary.name(bowl.mix));
}

std::string_view bowl_name(const Formulary& formulary, const Sheet& sheet, const Bowl& bowl) {
    if (bowl.mix == no_ingredient) return formulary.shades[sheet.shade].name;
    return formulary.name(bowl.mix);
}

}  // namespace levigate
