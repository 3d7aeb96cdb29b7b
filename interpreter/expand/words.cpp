#include "interpreter/expand/words.hpp"

#include <algorithm>

#include "interpreter/expand/weighed.hpp"
#include "interpreter/formulary/say.hpp"

namespace levigate {
namespace {

/// Steps to weigh of the ingredient in one bowl; false where it is not in it.
bool weighed_in(const Bowl& bowl, IngredientId what, Exact& steps) {
    bool found = false;
    for (const SheetLine& line : bowl.lines) {
        if (line.what != what) continue;
        steps += line.steps;
        found = true;
    }
    return found;
}

std::string grams_words(const Sheet& sheet, const Exact& steps) {
    return (steps * in_grams(sheet.reading.step)).fixed(sheet.reading.places) + " g";
}

/// "0.03 g (0.30 g of red 7 lake 10 % in soft base)": what a bowl gets of it, and what is weighed.
std::string diluted_words(const Formulary& formulary, const Sheet& sheet, const DilutedLine& line) {
    const int places = sheet.reading.places;
    std::string exact = in_grams(line.exact).decimal(places + 2);
    if (const std::string plain = in_grams(line.exact).fixed(places); exact.size() < plain.size())
        exact = plain;  // 0.30 g, as it is written elsewhere
    return exact + " g (" + grams_words(sheet, line.line->steps) + " of " +
           formulary.name(line.line->what) + ")";
}

std::string grams_in(const Formulary& formulary, const Sheet& sheet, const Bowl& here,
                     IngredientId what) {
    Exact steps;
    if (weighed_in(here, what, steps)) return grams_words(sheet, steps);
    if (const auto line = diluted_in(formulary, here, what))
        return diluted_words(formulary, sheet, *line);
    return {};
}

/// "(in Windfall mica)": the lines of a bowl that hold what is no line of it; empty where none
/// does. Each bowl stands before those that use it.
std::string inside_words(const Formulary& formulary, const Sheet& sheet, const Bowl& here,
                         IngredientId what) {
    std::vector<IngredientId> holding{what};
    const auto holds = [&](const SheetLine& line) {
        return line.exact != Mass() &&
               std::find(holding.begin(), holding.end(), line.what) != holding.end();
    };
    for (const Bowl& bowl : sheet.bowls) {
        if (&bowl == &here) break;
        if (bowl.mix != no_ingredient && std::any_of(bowl.lines.begin(), bowl.lines.end(), holds))
            holding.push_back(bowl.mix);
    }
    std::vector<std::string> names;
    for (const SheetLine& line : here.lines)
        if (line.what != what && holds(line)) names.push_back(formulary.name(line.what));
    std::sort(names.begin(), names.end());  // whatever the order of the lines
    return names.empty() ? std::string() : "(in " + list_words(names) + ")";
}

struct Filler {
    const Formulary& formulary;
    const Sheet& sheet;
    const AmountWords& amount;

    void append(const Bowl& here, const std::vector<TextId>& texts,
                std::vector<std::string>& out) const {
        for (TextId id : texts) {
            std::string& text = out.emplace_back();
            for (const TextPiece& piece : formulary.texts[id].pieces) {
                if (piece.kind == TextPiece::Kind::words) {
                    text += piece.words;
                    continue;
                }
                if (piece.ingredient >= formulary.ingredients.size()) continue;
                text += formulary.name(piece.ingredient);
                std::string words = amount(here, piece.ingredient);
                if (words.empty()) words = inside_words(formulary, sheet, here, piece.ingredient);
                if (!words.empty()) text += ' ' + words;
            }
        }
    }
};

}  // namespace

std::string sheet_title(const Formulary& formulary, const Shade& shade, const Version& version,
                        FinishingId finishing) {
    std::string title = shade.name;
    if (!version.variant.empty()) title += " / " + version.variant;
    if (finishing != nothing)
        title += " / " + formulary.finishes[formulary.finishings[finishing].finish].name;
    return title;
}

std::string title_of(const Formulary& formulary, const Product& product) {
    const Shade& shade = formulary.shades[product.shade];
    return sheet_title(formulary, shade, shade.versions[product.version], product.finishing);
}

void fill_words(const Formulary& formulary, Sheet& sheet) {
    fill_words(formulary, sheet, [&](const Bowl& here, IngredientId what) {
        return grams_in(formulary, sheet, here, what);
    });
}

void fill_words(const Formulary& formulary, Sheet& sheet, const AmountWords& amount) {
    const Filler filler{formulary, sheet, amount};
    sheet.notes.clear();
    for (Bowl& bowl : sheet.bowls) {
        bowl.steps_text.clear();
        bowl.notes.clear();
        if (bowl.mix == no_ingredient) continue;
        const Mix& mix = formulary.mixes[formulary.ingredients[bowl.mix].index];
        filler.append(bowl, mix.steps, bowl.steps_text);
        filler.append(bowl, mix.notes, bowl.notes);
    }
    Bowl& own = sheet.bowls.back();
    if (!sheet.onto) {
        const Version& version = formulary.shades[sheet.shade].versions[sheet.version];
        filler.append(own, version.steps, own.steps_text);
        filler.append(own, version.notes, sheet.notes);
    }
    if (sheet.finishing == nothing) return;
    const Finishing& finishing = formulary.finishings[sheet.finishing];
    filler.append(own, finishing.steps, own.steps_text);
    filler.append(own, finishing.notes, sheet.notes);
}

}  // namespace levigate
