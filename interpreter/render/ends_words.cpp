#include "interpreter/render/ends_words.hpp"

#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include "interpreter/formulary/say.hpp"

namespace levigate {
namespace {

/// Some range stands on the sheet: of its total, of what it fills, of a line from a volume.
bool shows_range(const Sheet& sheet) {
    const SheetEnds& ends = *sheet.ends;
    if (ends.pieces || (ends.total && ends.total->open())) return true;
    for (std::size_t k = 0; k < sheet.bowls.size(); ++k)
        for (std::size_t i = 0; i < sheet.bowls[k].lines.size(); ++i)
            if (sheet.bowls[k].lines[i].estimated && ends.lines[k][i] && ends.lines[k][i]->open())
                return true;
    return false;
}

}  // namespace

std::string from_to(const Ends& ends, int places) {
    Exact units = 1;
    for (int i = 0; i < places; ++i) units *= 10;
    return ((ends.least * units).floor() / units).fixed(places) + " to " +
           ((ends.most * units).ceil() / units).fixed(places);
}

std::string fills_words(const Formulary& formulary, const Sheet& sheet) {
    if (!sheet.ends || !sheet.ends->pieces) return {};
    const Ends& pieces = *sheet.ends->pieces;
    return fmt::format("It fills {} {}.", from_to(pieces, 1),
                       counted(formulary.containers[sheet.ends->container].name, pieces.most));
}

std::string about_ends(const Formulary& formulary, const Sheet& sheet) {
    if (!sheet.ends) return {};
    std::string out = fills_words(formulary, sheet);
    const auto add = [&out](const char* words) { out += (out.empty() ? "" : " "), out += words; };
    if (!sheet.ends->total) add("How far the total may lie off can't be told.");
    if (shows_range(sheet)) add("Ranges are the worst that the figures with `±` allow.");
    return out;
}

void put_ends(nlohmann::ordered_json& json, const std::optional<Ends>& ends) {
    if (ends && !ends->open()) return;
    json["least"] = nullptr;
    json["most"] = nullptr;
    if (!ends) return;
    json["least"] = ends->least.fraction();
    json["most"] = ends->most.fraction();
}

void put_fills(nlohmann::ordered_json& json, const Formulary& formulary, const Sheet& sheet) {
    if (!sheet.ends || !sheet.ends->pieces) return;
    json["fills"] = {{"container", formulary.containers[sheet.ends->container].name}};
    put_ends(json["fills"], sheet.ends->pieces);
}

}  // namespace levigate
