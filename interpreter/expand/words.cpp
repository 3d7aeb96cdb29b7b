#include "interpreter/expand/words.hpp"

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

std::string grams_in(const Sheet& sheet, const Bowl& here, IngredientId what) {
    Exact steps;
    bool found = weighed_in(here, what, steps);
    if (!found)
        for (const Bowl& bowl : sheet.bowls) found = weighed_in(bowl, what, steps) || found;
    if (!found) return {};
    return (steps * in_grams(sheet.reading.step)).fixed(sheet.reading.places) + " g";
}

struct Filler {
    const Formulary& formulary;
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
                const std::string words = amount(here, piece.ingredient);
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
    fill_words(formulary, sheet, [&sheet](const Bowl& here, IngredientId what) {
        return grams_in(sheet, here, what);
    });
}

void fill_words(const Formulary& formulary, Sheet& sheet, const AmountWords& amount) {
    const Filler filler{formulary, amount};
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
