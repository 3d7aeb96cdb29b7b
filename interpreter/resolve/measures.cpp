// Measures: the built-in bases, what `unit` and `container` blocks define, and where a measure of
// several words ends and the name behind it begins.

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "grammar/near.hpp"
#include "interpreter/formulary/written_name.hpp"
#include "interpreter/measure/iso4217.hpp"
#include "interpreter/resolve/context.hpp"
#include "interpreter/resolve/slips.hpp"

namespace levigate::resolving {

namespace {

struct Base {
    std::string_view name;  ///< folded
    Kind kind;
    std::int64_t num, den;
    std::uint32_t tag = 0;
    std::string_view shown = name;
};

/// All that the tool itself knows; everything else hangs on these in stdlib/measures.shade.
constexpr std::array bases = {
    Base{"g", Kind::mass, 1, 1},
    Base{"gram", Kind::mass, 1, 1},
    Base{"ml", Kind::volume, 1, 1, 0, "mL"},
    Base{"millilitre", Kind::volume, 1, 1},
    Base{"milliliter", Kind::volume, 1, 1},
    Base{"%", Kind::share, 1, 100},
    Base{"percent", Kind::share, 1, 100},
    Base{"ppm", Kind::share, 1, 1000000},
    Base{"part", Kind::count, 1, 1, parts_tag},
    Base{"piece", Kind::count, 1, 1},
    Base{"k", Kind::temperature_step, 1, 1, 0, "K"},
    Base{"kelvin", Kind::temperature_step, 1, 1},
    Base{"celsius degree", Kind::temperature_step, 1, 1},
    Base{"fahrenheit degree", Kind::temperature_step, 5, 9},
    Base{"°c", Kind::temperature_point, 1, 1, 0, "°C"},
};
constexpr std::string_view fahrenheit = "°f";
constexpr std::size_t most_words = 6;

std::optional<Measure> called(std::string_view name, const Quantity& one) {
    Measure out;
    out.one = one;
    out.name = name;
    return out;
}

std::optional<Measure> base(std::string_view folded) {
    for (const Base& known : bases)
        if (known.name == folded)
            return called(known.shown, {known.kind, Exact(known.num, known.den), known.tag});
    return std::nullopt;
}

/// A measure is of something that there can be so many of; a share is of a whole that varies.
bool can_be_measure(Context& context, At at, const Quantity& value) {
    if (value.kind == Kind::mass || value.kind == Kind::volume || value.kind == Kind::count)
        return true;
    const bool bare = value.kind == Kind::number;
    report(context, {.code = bare ? Code::quantity_bare : Code::quantity_kind,
                     .message = bare ? "A measure's size needs a measure behind the number."
                                     : fmt::format("A measure of your own is a weight, a volume or "
                                                   "a count, and this is {}.",
                                                   kind_words(value.kind)),
                     .span = context.file(at.file).exprs[context.block(at).value].span,
                     .example = "0.15 mL, 0.2 g or 12 slim tubes"});
    return false;
}

std::optional<Measure> defined(Context& context, Sym sym) {
    const At at = look(context.scope.unit, sym);
    const At held = look(context.scope.container, sym);
    // A person's own container goes before the library's measure of that name.
    const bool own =
        held && !context.files[held.file].library && at && context.files[at.file].library;
    if (at && !own) {
        const tree::Block& block = context.block(at);
        if (at.ambiguous) return std::nullopt;
        if (block.value == tree::no_expr) return std::nullopt;
        if (context.measures_open.empty() && !prepare_unit(context, at)) return std::nullopt;
        if (!context.measures_open.insert(sym).second) return std::nullopt;  // said, see unit_order
        Env none;
        const auto value = evaluate(context, at.file, block.value, none);
        context.measures_open.erase(sym);
        if (!value || !can_be_measure(context, at, *value)) return std::nullopt;
        return called(context.written(block.name.span), *value);
    }
    if (held && !held.ambiguous && sym < context.container_of.size() &&
        context.container_of[sym] != nothing)
        return called(context.out.containers[context.container_of[sym]].name,
                      {Kind::count, Exact(1), context.container_of[sym] + 1});
    return std::nullopt;
}

std::optional<Measure> one_form(Context& context, std::string_view folded) {
    const Sym sym = context.names.find_folded(folded);
    if (sym != no_name)
        if (auto own = defined(context, sym)) return own;
    return base(folded);
}

/// `tubes`, `dishes`, `berries` in the singular; of `jars of glass` it is the jars.
std::array<std::string, 3> singulars(std::string_view folded) {
    const std::size_t of = std::min(folded.find(" of "), folded.size());
    const std::string_view head = folded.substr(0, of), tail = folded.substr(of);
    std::array<std::string, 3> out;
    const auto ends = [&](std::string_view end) {
        return head.size() > end.size() + 1 && head.substr(head.size() - end.size()) == end;
    };
    const auto less = [&](std::size_t count, std::string_view instead) {
        return fmt::format("{}{}{}", head.substr(0, head.size() - count), instead, tail);
    };
    if (ends("s")) out[0] = less(1, "");
    if (ends("es")) out[1] = less(2, "");
    if (ends("ies")) out[2] = less(3, "y");
    return out;
}

std::optional<Measure> find(Context& context, std::string_view folded) {
    if (read_in_two_ways(folded)) return std::nullopt;
    if (auto found = one_form(context, folded)) return found;
    for (const std::string& singular : singulars(folded))
        if (!singular.empty() && !read_in_two_ways(singular))
            if (auto found = one_form(context, singular)) return found;
    if (folded.size() == 3)
        if (const std::uint32_t tag = currency_tag(folded))
            return called(currency_code(tag), {Kind::money, Exact(1), tag});
    return std::nullopt;
}

}  // namespace

std::vector<At> units_called(Context& context, std::string_view folded) {
    std::vector<At> out;
    const auto add = [&](std::string_view name) {
        if (const At at = look(context.scope.unit, context.names.find_folded(name)))
            out.push_back(at);
    };
    add(folded);
    for (const std::string& singular : singulars(folded))
        if (!singular.empty()) add(singular);
    return out;
}

namespace {

/// In the order of the alphabet.
std::string letters(std::string_view word) {
    std::string out(word);
    std::sort(out.begin(), out.end());
    return out;
}

/// A short beginning could be of any measure: `gr` is no slip for one of them.
constexpr std::size_t shortest_beginning = 3;

/// Of three letters another one is another measure: only swapped ones are a slip.
bool too_short(const Fit& found, std::string_view written, std::string_view name) {
    if (written.size() > shortest_beginning) return false;
    if (found.how == Likeness::beginning) return written.size() < shortest_beginning;
    return letters(written) != letters(name);
}

}  // namespace

std::vector<std::string> near_measure(Context& context, std::string_view written) {
    std::vector<std::string_view> known;
    for (const Base& one : bases)
        if (one.name.size() > 2) known.push_back(one.name);
    for (const Table* table : {&context.scope.unit, &context.scope.container})
        for (const auto& [sym, at] : *table) known.push_back(context.names.folded(sym));
    context.near_asked += known.size() * (written.size() + 1);
    if (context.near_asked > most_near) return {};
    std::sort(known.begin(), known.end());
    known.erase(std::unique(known.begin(), known.end()), known.end());
    Nearest nearest(written);
    for (std::size_t i = 0; i < known.size(); ++i) {
        const auto found = fit(written, known[i]);
        if (!found || too_short(*found, written, known[i])) continue;
        nearest.offer(*found, i);
    }
    std::vector<std::string> out;
    for (const std::size_t i : nearest.best()) out.emplace_back(known[i]);
    return out;
}

const Measure* measure(Context& context, std::string_view folded) {
    const std::string key(folded);
    const auto known = context.measures.find(key);
    if (known != context.measures.end()) return known->second ? &*known->second : nullptr;
    std::optional<Measure> found;
    if (folded == fahrenheit)
        found = called("°F", {Kind::temperature_point, Exact(5, 9), 1});
    else
        found = find(context, folded);
    if (!found && !context.measures_open.empty()) return nullptr;
    const auto& kept = context.measures.emplace(key, std::move(found)).first->second;
    return kept ? &*kept : nullptr;
}

bool has_measure_block(Context& context, std::string_view folded) {
    const auto has_block = [&](std::string_view name) {
        const Sym sym = context.names.find_folded(name);
        return !read_in_two_ways(name) &&
               (look(context.scope.unit, sym) || look(context.scope.container, sym));
    };
    if (has_block(folded)) return true;
    for (const std::string& singular : singulars(folded))
        if (!singular.empty() && has_block(singular)) return true;
    return false;
}

namespace {

/// A person's own measures of which one is what a line would call the other: `unit scoop` beside
/// `container scoop` or `unit scoops`. Of two such nothing says which is meant.
void report_same_measures(Context& context) {
    struct Own {
        At* seat;
        std::string folded;
    };
    std::unordered_map<std::string, std::vector<Own>> called;
    const auto name_place = [&](At at) {
        const Span name = context.block(at).name.span;
        return std::pair(at.file, name.begin);
    };
    const auto meet = [&](const Own& own, const std::string& name) {
        for (const Own& other : called[name]) {
            if (other.seat == own.seat) continue;
            if (other.folded != name && own.folded != name) continue;
            other.seat->ambiguous = own.seat->ambiguous = true;
            const bool before = name_place(*other.seat) < name_place(*own.seat);
            report_twice(context, before ? *other.seat : *own.seat,
                         before ? *own.seat : *other.seat, "measure");
        }
        called[name].push_back(own);
    };
    for (const Heading heading : {Heading::unit, Heading::container})
        each_block(context, heading, [&](At at) {
            Table& table = heading == Heading::unit ? context.scope.unit : context.scope.container;
            At& seat = table[context.block(at).name.sym];
            if (!seat.is(at) || context.files[at.file].library) return;
            const Own own{&seat, std::string(context.names.folded(context.block(at).name.sym))};
            meet(own, own.folded);
            for (const std::string& singular : singulars(own.folded))
                if (!singular.empty()) meet(own, singular);
        });
}

}  // namespace

void report_measure_names(Context& context) {
    for (const Heading heading : {Heading::unit, Heading::container})
        each_block(context, heading, [&](At at) {
            const Span name = context.block(at).name.span;
            std::string folded;
            fold_name(context.sources.text(name), folded);
            if (read_in_two_ways(folded))
                report(context, two_readings(context, name, "Give it a longer name."));
            if (static_cast<std::size_t>(std::count(folded.begin(), folded.end(), ' ')) <
                most_words)
                return;
            report(context, {.code = Code::unit_refused,
                             .message = fmt::format("A measure has at most {} words.", most_words),
                             .span = name,
                             .advice = "Give it a shorter name."});
        });
    report_same_measures(context);
}

namespace {

bool begins_with_of(std::string_view text) {
    return text.size() >= 2 && (text[0] | 0x20) == 'o' && (text[1] | 0x20) == 'f' &&
           (text.size() == 2 || text[2] == ' ' || text[2] == '\t' ||
            static_cast<unsigned char>(text[2]) >= 0x80);
}

/// Ends of the first words, in bytes, and of the blanks behind each.
struct WordEnd {
    std::uint32_t word, next;
};
std::vector<WordEnd> word_ends(std::string_view text) {
    std::vector<WordEnd> ends;
    std::string folded;
    bool blank = true;
    for (std::size_t i = 0; i < text.size();) {
        const auto byte = static_cast<unsigned char>(text[i]);
        const std::size_t length = byte < 0xC0 ? 1 : byte < 0xE0 ? 2 : byte < 0xF0 ? 3 : 4;
        bool now = text[i] == ' ' || text[i] == '\t';
        if (byte >= 0xC2 && byte <= 0xE3) {  // a wide blank, or a letter: only blanks fold away
            fold_name(text.substr(i, length), folded);
            now = folded.empty();
        }
        const auto here = static_cast<std::uint32_t>(i);
        if (now && !blank) ends.push_back({here, here});
        if (!now && blank && !ends.empty()) ends.back().next = here;
        if (!now && blank && ends.size() == most_words) return ends;
        blank = now;
        i += length;
    }
    const auto end = static_cast<std::uint32_t>(text.size());
    if (blank && !ends.empty())
        ends.back().next = end;
    else
        ends.push_back({end, end});
    return ends;
}

std::optional<Split> split(Context& context, Span words, bool (*fits)(std::string_view rest)) {
    const std::string_view text = context.sources.text(words);
    const std::vector<WordEnd> ends = word_ends(text);
    std::string folded;
    for (auto end = ends.rbegin(); end != ends.rend(); ++end) {
        if (!fits(text.substr(end->next))) continue;
        fold_name(text.substr(0, end->word), folded);
        if (const Measure* found = measure(context, folded))
            return Split{found->one,
                         {words.source, words.begin, words.begin + end->word},
                         {words.source, words.begin + end->next, words.end}};
    }
    return std::nullopt;
}

}  // namespace

std::optional<Split> split_measure(Context& context, Span words) {
    return split(context, words, [](std::string_view) { return true; });
}

std::optional<Split> split_at_of(Context& context, Span words) {
    auto found = split(context, words, begins_with_of);
    if (!found) return std::nullopt;
    const std::string_view rest = context.sources.text(found->name);
    const std::vector<WordEnd> ends = word_ends(rest);
    found->name.begin += ends.front().next;
    return found;
}

std::size_t measure_length(Context& context, std::string_view words) {
    const std::vector<WordEnd> ends = word_ends(words);
    std::string folded;
    for (auto end = ends.rbegin(); end != ends.rend(); ++end) {
        fold_name(words.substr(0, end->word), folded);
        if (has_measure_block(context, folded) || measure(context, folded)) return end->word;
    }
    return 0;
}

}  // namespace levigate::resolving
