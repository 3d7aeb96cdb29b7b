// What was poured: names looked up in a formulary that is there already, volumes weighed.

#include <fmt/format.h>

#include "grammar/near.hpp"
#include "grammar/read.hpp"
#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/solve.hpp"
#include "interpreter/formulary/written_name.hpp"
#include "interpreter/resolve/joined.hpp"
#include "interpreter/resolve/resolve.hpp"
#include "interpreter/resolve/slips.hpp"
#include "interpreter/resolve/unknown.hpp"

namespace levigate {

using namespace resolving;

namespace {

/// Its name is looked up; `strict`: a name that nothing has is an error.
void name_pour(Joined& joined, Span name, bool strict, Pour& out) {
    Context& context = joined.context;
    const Sym sym = context.names.intern(context.sources.text(name));
    out.name = context.written(name);
    out.what = joined.ingredient(sym);
    out.shade = joined.shade(sym);
    if (!strict || out.what != no_ingredient || out.shade != nothing) return;
    const std::vector<std::string> near = near_ingredient(context, sym);
    report(context, {.code = Code::name_unknown,
                     .message = fmt::format("Nothing is called {}.", shown(out.name)),
                     .span = name,
                     .advice = near.empty() ? "Write a name as the files have it." : "",
                     .fixes = near_fix(name, near)});
}

/// Of the blends those that `name` is likely meant for.
std::vector<std::string> near_blends(const Joined& joined, Sym written) {
    const Names& names = joined.context.names;
    Nearest nearest(names.folded(written));
    for (IngredientId id = 0; id < joined.there.ingredients.size(); ++id) {
        const Ingredient& one = joined.there.ingredients[id];
        if (one.kind == Ingredient::Kind::blend && one.sym != no_name)
            nearest.offer(names.folded(one.sym), id);
    }
    std::vector<std::string> out;
    for (const std::size_t id : nearest.best())
        out.push_back(joined.there.name(static_cast<IngredientId>(id)));
    return out;
}

/// What it weighs. False where it can't be told; said.
bool weigh_pour(Joined& joined, Span amount, const Quantity& value, Pour& out) {
    Context& context = joined.context;
    if (value.kind == Kind::mass) {
        out.mass = grams(value.value);
        return true;
    }
    if (value.kind != Kind::volume) {
        report(context,
               {.code = value.kind == Kind::number ? Code::quantity_bare : Code::quantity_kind,
                .message = fmt::format("What was poured is a weight or a volume, and this "
                                       "is {}.",
                                       kind_words(value.kind)),
                .span = amount,
                .example = "6.2 g"});
        return false;
    }
    if (out.what == no_ingredient) return false;
    const DensityAnswer answer = density_of(joined.there, out.what, true);
    if (!answer.density) {
        report(context, {.code = Code::density_missing,
                         .message = fmt::format("A volume of {} can't be weighed: it has no "
                                                "density.",
                                                out.name),
                         .span = amount,
                         .advice = "Write a weight here."});
        return false;
    }
    out.estimated = true;
    out.mass = grams(value.value * in_grams_per_millilitre(*answer.density));
    return true;
}

}  // namespace

namespace {

/// "5.4 soft base": the words are a name, and what is missing is the measure before it.
void report_pour_without_measure(Joined& joined, const tree::Pour& pour) {
    Context& context = joined.context;
    const Sym sym = context.names.find(context.sources.text(pour.words));
    const bool named =
        sym != no_name && (joined.ingredient(sym) != no_ingredient || joined.shade(sym) != nothing);
    if (!named) return report_measure(context, pour.words);
    const std::string number(context.sources.text(pour.number));
    report(context,
           {.code = Code::quantity_bare,
            .message = fmt::format("Behind {} no measure stands.", shown(number)),
            .span = cover(pour.number, pour.words),
            .fixes = {possible_fix(cover(pour.number, pour.words),
                                   fmt::format("{} g {}", number, context.written(pour.words)))}});
}

/// Where words are parted into what was poured and the blend that it went into; `bowl` may be none.
struct Told {
    Span name, bowl;
};

bool is_blend(const Joined& joined, Sym sym) {
    const IngredientId what = sym == no_name ? no_ingredient : joined.ingredient(sym);
    return what != no_ingredient && mix_of(joined.there, what);
}

bool is_known(const Joined& joined, Sym sym) {
    return sym != no_name &&
           (joined.ingredient(sym) != no_ingredient || joined.shade(sym) != nothing);
}

constexpr std::size_t most_parted = 32;  ///< words; longer names aren't parted

std::size_t sign_length(char first) {
    const auto byte = static_cast<unsigned char>(first);
    return byte < 0xC0 ? 1 : byte < 0xE0 ? 2 : byte < 0xF0 ? 3 : 4;
}

/// The words, whatever blanks are between them; none where there are too many.
std::vector<Span> words_of(std::string_view text, Span all) {
    std::vector<Span> out;
    std::string folded;
    bool blank = true;
    for (std::size_t i = 0; i < text.size(); i += sign_length(text[i])) {
        fold_name(text.substr(i, sign_length(text[i])), folded);  // only blanks fold away
        const auto here = all.begin + static_cast<std::uint32_t>(i);
        if (!folded.empty() && blank) out.push_back({all.source, here, here});
        blank = folded.empty();
        if (!blank) out.back().end = here + static_cast<std::uint32_t>(sign_length(text[i]));
        if (out.size() > most_parted) return {};
    }
    return out;
}

/// "frost mica in Fog mica". A name may hold the word too: the longest that something has is taken,
/// and words of which nothing is known stay together.
Told part_at_in(Joined& joined, Span all) {
    const Context& context = joined.context;
    const auto sym = [&](Span span) { return context.names.find(context.sources.text(span)); };
    Told out{all, {}};
    if (is_known(joined, sym(all))) return out;
    const std::vector<Span> words = words_of(context.sources.text(all), all);
    std::string folded;
    for (std::size_t i = words.size(); i-- > 2;) {
        fold_name(context.sources.text(words[i - 1]), folded);
        if (folded != "in") continue;
        const Told parted{cover(words[0], words[i - 2]), cover(words[i], words.back())};
        const bool name = is_known(joined, sym(parted.name));
        const bool bowl = is_blend(joined, sym(parted.bowl));
        if (name && bowl) return parted;
        if ((name || bowl) && !out.bowl) out = parted;
    }
    return out;
}

void name_bowl(Joined& joined, Span name, bool strict, Pour& out) {
    Context& context = joined.context;
    const Sym sym = context.names.intern(context.sources.text(name));
    out.bowl = context.written(name);
    out.into = joined.ingredient(sym);
    if (!strict || is_blend(joined, sym)) return;
    const std::vector<std::string> near = near_blends(joined, sym);
    report(context,
           {.code = Code::name_unknown,
            .message = fmt::format("No blend is called {}.", shown(out.bowl)),
            .span = name,
            .advice = near.empty() ? "Write the name of a blend after `in`." : "",
            .fixes = near_fix(name, near)});
}

/// "F-2 3 g clay" would be a lot's number, and the clay would be lost.
void find_lost_comma(Joined& joined, Span lot) {
    Context& context = joined.context;
    const std::string_view text = context.sources.text(lot);
    for (std::size_t at = text.find(' '); at != text.npos; at = text.find(' ', at + 1)) {
        const std::size_t number = text.find_first_not_of(' ', at);
        const std::size_t behind = text.find_first_not_of("0123456789./", number);
        if (behind == number || behind == text.npos) continue;
        const std::size_t words = text.find_first_not_of(' ', behind);
        if (words == text.npos) continue;
        const auto begin = lot.begin + static_cast<std::uint32_t>(words);
        const auto split = split_measure(context, {lot.source, begin, lot.end});
        if (!split || !is_known(joined, context.names.find(context.sources.text(split->name))))
            continue;
        const auto gap = lot.begin + static_cast<std::uint32_t>(at);
        report(context, {.code = Code::line_malformed,
                         .message = fmt::format("{} is an amount, and no part of a lot's number.",
                                                shown(text.substr(number))),
                         .span = {lot.source, gap + 1, lot.end},
                         .advice = "Write a comma before it. A lot that is really called so stands "
                                   "in double quotes."});
        return;
    }
}

}  // namespace

std::optional<Pour> resolving::resolve_pour(Joined& joined, const tree::Pour& pour, bool strict) {
    Context& context = joined.context;
    const auto split = split_measure(context, pour.words);
    if (!split) {
        report_pour_without_measure(joined, pour);
        return std::nullopt;
    }
    const bool in_words = split->name.begin != split->name.end;
    if (in_words == static_cast<bool>(pour.name)) {
        report(context, {.code = Code::line_malformed,
                         .message = "A measure and one name are due here.",
                         .span = pour.span,
                         .example = "6.2 g soft base"});
        return std::nullopt;
    }
    Told told{in_words ? split->name : pour.name.span, pour.bowl ? pour.bowl.span : Span{}};
    if (in_words && !told.bowl) told = part_at_in(joined, told.name);
    Pour out;
    out.span = pour.span;
    name_pour(joined, told.name, strict, out);
    const auto value = so_many(context, pour.number, split->one);
    if (!value || !weigh_pour(joined, cover(pour.number, split->measure), *value, out))
        return std::nullopt;
    if (pour.lot) out.lot = context.written(pour.lot.span);
    if (strict && pour.lot) find_lost_comma(joined, pour.lot.span);
    if (told.bowl) name_bowl(joined, told.bowl, strict, out);
    return out;
}

Outcome<std::vector<Pour>> resolve_pours(const Sources& sources, SourceId source, Names& names,
                                         const std::vector<LoadedFile>& files,
                                         const Formulary& formulary) {
    Outcome<std::vector<Pour>> out;
    auto text = read_pours_text(sources, source, names);
    out.findings = std::move(text.findings);
    if (!out.findings.empty()) return out;
    Joined joined(sources, names, files, formulary, std::move(text.value.file), out.findings);
    for (const tree::Pour& pour : text.value.pours)
        if (auto made = resolve_pour(joined, pour, true)) out.value.push_back(std::move(*made));
    return out;
}

}  // namespace levigate
