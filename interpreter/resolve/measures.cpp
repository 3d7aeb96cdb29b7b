// Measures: the built-in bases, what `unit` and `container` blocks define, and where a measure of
// several words ends and the name behind it begins.

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "grammar/near.hpp"
#include "interpreter/measure/iso4217.hpp"
#include "interpreter/resolve/context.hpp"

namespace levigate::resolving {

namespace {

struct Base {
    std::string_view name;
    Kind kind;
    std::int64_t num, den;
    std::uint32_t tag = 0;
};

/// All that the tool itself knows; everything else hangs on these in stdlib/measures.shade.
constexpr std::array bases = {
    Base{"g", Kind::mass, 1, 1},
    Base{"gram", Kind::mass, 1, 1},
    Base{"ml", Kind::volume, 1, 1},
    Base{"millilitre", Kind::volume, 1, 1},
    Base{"milliliter", Kind::volume, 1, 1},
    Base{"%", Kind::share, 1, 100},
    Base{"percent", Kind::share, 1, 100},
    Base{"ppm", Kind::share, 1, 1000000},
    Base{"part", Kind::count, 1, 1, parts_tag},
    Base{"piece", Kind::count, 1, 1},
    Base{"k", Kind::temperature_step, 1, 1},
    Base{"kelvin", Kind::temperature_step, 1, 1},
    Base{"celsius degree", Kind::temperature_step, 1, 1},
    Base{"fahrenheit degree", Kind::temperature_step, 5, 9},
    Base{"°c", Kind::temperature_point, 1, 1},
};
constexpr std::string_view fahrenheit = "°f";
constexpr std::size_t most_words = 6;

bool misread(std::string_view folded) { return folded == "m" || folded == "t"; }

std::optional<Quantity> base(std::string_view folded) {
    for (const Base& known : bases)
        if (known.name == folded)
            return Quantity{known.kind, Exact(known.num, known.den), known.tag};
    return std::nullopt;
}

std::optional<Quantity> defined(Context& context, Sym sym) {
    const At at = look(context.scope.unit, sym);
    const At held = look(context.scope.container, sym);
    // A person's own container goes before the library's measure of that name.
    const bool own =
        held && !context.files[held.file].library && at && context.files[at.file].library;
    if (at && !own) {
        const tree::Block& block = context.block(at);
        if (at.ambiguous) return std::nullopt;
        if (block.value == tree::no_expr) return std::nullopt;
        if (context.measures_too_deep) return std::nullopt;
        if (context.measures_open.size() >= longest_chain) {
            context.measures_too_deep = true;
            report(context, {.code = "nesting-too-deep",
                             .message = "Too many measures are reckoned from each other.",
                             .span = block.name.span,
                             .remedy = "Write a size in g or mL."});
            return std::nullopt;
        }
        if (!context.measures_open.insert(sym).second) {
            report(context, {.code = "unit-loop",
                             .message = fmt::format("The measure {} is reckoned from itself.",
                                                    context.written(block.name.span)),
                             .span = block.name.span,
                             .remedy = "Write an amount in a measure that is known, as in `0.15 "
                                       "mL`."});
            return std::nullopt;
        }
        Env none;
        const auto value = evaluate(context, at.file, block.value, none);
        context.measures_open.erase(sym);
        return value;
    }
    if (held && !held.ambiguous && sym < context.container_of.size() &&
        context.container_of[sym] != nothing)
        return Quantity{Kind::count, Exact(1), context.container_of[sym] + 1};
    return std::nullopt;
}

std::optional<Quantity> one_form(Context& context, std::string_view folded) {
    const Sym sym = context.names.find_folded(folded);
    if (sym != no_name)
        if (auto own = defined(context, sym)) return own;
    return base(folded);
}

/// `tubes`, `dishes`, `berries` in the singular.
std::array<std::string, 3> singulars(std::string_view folded) {
    std::array<std::string, 3> out;
    const auto ends = [&](std::string_view end) {
        return folded.size() > end.size() + 1 && folded.substr(folded.size() - end.size()) == end;
    };
    if (ends("s")) out[0] = folded.substr(0, folded.size() - 1);
    if (ends("es")) out[1] = folded.substr(0, folded.size() - 2);
    if (ends("ies")) out[2] = std::string(folded.substr(0, folded.size() - 3)) + "y";
    return out;
}

std::optional<Quantity> find(Context& context, std::string_view folded) {
    if (misread(folded)) return std::nullopt;
    if (auto found = one_form(context, folded)) return found;
    for (const std::string& singular : singulars(folded))
        if (!singular.empty() && !misread(singular))
            if (auto found = one_form(context, singular)) return found;
    if (folded.size() == 3)
        if (const std::uint32_t tag = currency_tag(folded))
            return Quantity{Kind::money, Exact(1), tag};
    return std::nullopt;
}

std::string near_measure(Context& context, std::string_view written) {
    if (++context.near_asked > most_near) return {};
    std::size_t best = 1000;
    std::string_view name;
    const auto offer = [&](std::string_view candidate) {
        if (!is_near(written, candidate)) return;
        const std::size_t far = distance(written, candidate);
        if (far < best || (far == best && candidate < name)) best = far, name = candidate;
    };
    for (const Base& known : bases)
        if (known.name.size() > 2) offer(known.name);
    for (const Table* table : {&context.scope.unit, &context.scope.container})
        for (const auto& [sym, at] : *table) offer(context.names.folded(sym));
    return std::string(name);
}

}  // namespace

std::optional<Quantity> measure(Context& context, std::string_view folded) {
    const std::string key(folded);
    if (const auto known = context.measures.find(key); known != context.measures.end())
        return known->second;
    std::optional<Quantity> found;
    if (folded == fahrenheit)
        found = Quantity{Kind::temperature_point, Exact(5, 9), 1};
    else
        found = find(context, folded);
    if (found || context.measures_open.empty()) context.measures.emplace(key, found);
    return found;
}

void report_measure(Context& context, Span words) {
    std::string folded;
    fold_name(context.sources.text(words), folded);
    const std::string written = shown(context.written(words));
    if (misread(folded)) {
        report(context,
               {.code = "unit-refused",
                .message = fmt::format("`{}` alone could be read in more than one way.", written),
                .span = words,
                .remedy = folded == "m" ? "Write mg, mL or minim in full."
                                        : "Write teaspoon or tablespoon in full."});
        return;
    }
    // A measure whose block is broken, or that several blocks define: said there.
    const auto has_block = [&](std::string_view name) {
        const Sym sym = context.names.find_folded(name);
        return look(context.scope.unit, sym) || look(context.scope.container, sym);
    };
    if (has_block(folded)) return;
    for (const std::string& singular : singulars(folded))
        if (!singular.empty() && has_block(singular)) return;
    const std::string near = near_measure(context, folded);
    if (near.empty() && context.lost.any(in(Heading::unit) | in(Heading::container))) return;
    report(context,
           {.code = "unit-unknown",
            .message = fmt::format("No measure is called {}.", written),
            .span = words,
            .remedy = near.empty() ? fmt::format("Write a measure that is known, such as g or mL, "
                                                 "or add a line `unit {} = …`.",
                                                 written)
                                   : near});
}

std::optional<Split> split_measure(Context& context, Span words) {
    const std::string_view text = context.sources.text(words);
    // Ends of the first words, in bytes.
    std::array<std::size_t, most_words> ends{};
    std::size_t count = 0;
    std::string folded;
    bool blank = true;
    const auto is_blank = [&](std::size_t i) {
        return text[i] == ' ' || text[i] == '\t' || static_cast<unsigned char>(text[i]) == 0xC2 ||
               static_cast<unsigned char>(text[i]) == 0xE2 ||
               static_cast<unsigned char>(text[i]) == 0xE3;
    };
    for (std::size_t i = 0; i <= text.size() && count < most_words; ++i) {
        bool now = i == text.size();
        if (!now && is_blank(i)) {
            // A byte of a wide blank, or of a letter: only what folds away is a blank.
            fold_name(text.substr(i, static_cast<unsigned char>(text[i]) < 0x80   ? 1
                                     : static_cast<unsigned char>(text[i]) < 0xE0 ? 2
                                                                                  : 3),
                      folded);
            now = folded.empty();
        }
        if (now && !blank) ends[count++] = i;
        blank = now;
    }
    while (count > 0) {
        const std::size_t end = ends[--count];
        fold_name(text.substr(0, end), folded);
        const auto found = measure(context, folded);
        if (!found) continue;
        Split split{*found,
                    {words.source, words.begin, words.begin + static_cast<std::uint32_t>(end)},
                    {words.source, words.end, words.end}};
        std::size_t name = end;
        while (name < text.size()) {
            const auto byte = static_cast<unsigned char>(text[name]);
            const std::size_t length = byte < 0x80 ? 1 : byte < 0xE0 ? 2 : 3;
            fold_name(text.substr(name, length), folded);
            if (!folded.empty()) break;
            name += length;
        }
        split.name.begin = words.begin + static_cast<std::uint32_t>(name);
        return split;
    }
    return std::nullopt;
}

}  // namespace levigate::resolving
