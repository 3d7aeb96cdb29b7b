// Shelves: how much there is of materials and containers, and of which lots.

#include <fmt/format.h>

#include <algorithm>

#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/solve.hpp"
#include "interpreter/formulary/written_name.hpp"
#include "interpreter/resolve/slips.hpp"

namespace levigate::resolving {

namespace {

constexpr std::string_view example = "have 120 g copper mica, lot 24-117, best before 2027-03";

/// How much and of what, as far as it is written.
struct Had {
    Quantity amount;
    Name name;  ///< none: the amount counts containers, which are what is there
    Span span;  ///< of the amount
};

std::optional<Had> part_had(Context& context, std::uint32_t file, const tree::Have& have) {
    const tree::Expr& expr = context.file(file).exprs[have.quantity];
    Env none;
    if (!have.open) {
        const auto value = evaluate(context, file, have.quantity, none);
        if (!value) return std::nullopt;
        return Had{*value, have.name, expr.span};
    }
    const auto split = split_measure(context, expr.words);
    if (!split) {
        report_no_measure(context, expr, have.name ? Bare::amount : Bare::stock);
        return std::nullopt;
    }
    const auto value = so_many(context, expr.number, split->one);
    if (!value) return std::nullopt;
    Had out{*value, {}, {expr.span.source, expr.span.begin, split->measure.end}};
    if (split->name.begin != split->name.end)
        out.name = {context.names.intern(context.sources.text(split->name)), split->name, false};
    return out;
}

void report_kind(Context& context, const Had& had) {
    const bool bare = had.amount.kind == Kind::number;
    report(context,
           {.code = bare ? Code::quantity_bare : Code::quantity_kind,
            .message = bare ? "How much is there needs a measure behind the number."
                            : fmt::format("A shelf holds weights, volumes and containers, and this "
                                          "is {}.",
                                          kind_words(had.amount.kind)),
            .span = had.span,
            .example = std::string(example)});
}

/// So many of a container as the weight or the volume that they hold.
void empty_containers(const Context& context, Quantity& amount) {
    if (amount.kind != Kind::count || amount.tag == 0 || amount.tag == parts_tag) return;
    const auto& holds = context.out.containers[amount.tag - 1].holds;
    if (const Mass* mass = std::get_if<Mass>(&holds))
        amount = {Kind::mass, amount.value * in_grams(*mass), 0};
    if (const Volume* volume = std::get_if<Volume>(&holds))
        amount = {Kind::volume, amount.value * in_millilitres(*volume), 0};
}

/// By the rule for volumes in a formula: a powder by its bulk, else by the density.
bool weigh_stock(Context& context, const Had& had, Stock& out) {
    Quantity amount = had.amount;
    empty_containers(context, amount);
    if (amount.kind != Kind::mass && amount.kind != Kind::volume) {
        report_kind(context, had);
        return false;
    }
    out.amount = amount.value;
    if (amount.kind == Kind::mass) return true;
    const auto answer = density_of(context.out, out.material, true);
    if (answer.density) {
        out.amount *= in_grams_per_millilitre(*answer.density);
        out.estimated = true;
        return true;
    }
    if (!context.out.ingredients[out.material].damaged)
        report(context, {.code = Code::density_missing,
                         .message = fmt::format("A volume of {0} can't be weighed: {0} has no "
                                                "density.",
                                                context.out.name(out.material)),
                         .span = had.span,
                         .advice = "Add a line `density … g/mL` to its block, or write a weight "
                                   "here."});
    return false;
}

/// "copper mica lot 24-117" where the comma is missing: said, as what it is.
bool lot_in_name(Context& context, const Name& name) {
    const std::string written = context.written(name.span);
    for (const std::string_view word : {" lot ", " best before "}) {
        const std::size_t at = written.find(word);
        if (at == written.npos) continue;
        const Sym before = context.names.find(std::string_view(written).substr(0, at));
        if (before == no_name || !look(context.scope.material_or_blend, before)) continue;
        report(context, {.code = Code::line_malformed,
                         .message = fmt::format("A comma stands before `{}`.",
                                                word.substr(1, word.size() - 2)),
                         .span = name.span,
                         .fixes = {possible_fix(with_quotes(context, name.span),
                                                written_name(written.substr(0, at)) + "," +
                                                    written.substr(at))}});
        return true;
    }
    return false;
}

bool stock_material(Context& context, const Had& had, Stock& out) {
    Env none;
    if (!look(context.scope.material_or_blend, had.name.sym) && lot_in_name(context, had.name))
        return false;
    out.material = find_ingredient(context, had.name, none);
    if (out.material == no_ingredient || ambiguous_name(context, had.name, none)) return false;
    const Ingredient& entry = context.out.ingredients[out.material];
    if (entry.kind == Ingredient::Kind::material) return weigh_stock(context, had, out);
    report(context, {.code = Code::shelf_mix,
                     .message = fmt::format(
                         "{} is a {}: a shelf holds materials and containers.", entry.name,
                         entry.kind == Ingredient::Kind::blend ? "blend" : "shade"),
                     .span = had.name.span,
                     .advice = "Leave it out, or write a material of its own for what is ready "
                               "made."});
    return false;
}

bool stock_container(Context& context, const Had& had, Stock& out) {
    const bool counts =
        had.amount.kind == Kind::count && had.amount.tag != 0 && had.amount.tag != parts_tag;
    if (!counts) {
        report(context, {.code = Code::line_malformed,
                         .message = "A name is missing behind the amount.",
                         .span = had.span,
                         .example = std::string(example)});
        return false;
    }
    out.container = had.amount.tag - 1;
    out.amount = had.amount.value;
    return true;
}

void report_lot_twice(Context& context, const tree::Have& have, const Stock& old,
                      const std::string& what) {
    report(context,
           {.code = Code::lot_twice,
            .message = fmt::format("Lot {} of {} is on the shelf twice.", old.lot.name, what),
            .span = have.lot.span,
            .advice = "Write all that is there of a lot into one line.",
            .notes = {{old.span, "already there"}},
            .here = "again here"});
}

/// Where a lot of a thing stands already, by both.
using Lots = std::unordered_map<std::uint64_t, std::size_t>;

std::uint64_t lot_key(const Stock& stock) {
    const bool container = stock.container != nothing;
    const std::uint64_t thing = container ? (1ull << 31) + stock.container : stock.material;
    return thing << 32 | stock.lot.sym;
}

void have_line(Context& context, std::uint32_t file, const tree::Line& line, Lots& lots) {
    const auto& have = std::get<tree::Have>(line.body);
    const auto had = part_had(context, file, have);
    if (!had) return;
    Stock out;
    out.span = line.span;
    if (!(had->name ? stock_material(context, *had, out) : stock_container(context, *had, out)))
        return;
    if (out.amount.sign() < 0) {
        report(context, {.code = Code::amount_negative,
                         .message = "There can't be less than nothing on a shelf.",
                         .span = had->span,
                         .example = std::string(example)});
        return;
    }
    if (have.best_before) {
        out.best_before = date(context, have.best_before, false, {});
        if (!out.best_before) return;
    }
    if (have.lot) {
        out.lot = called(context, have.lot);
        const auto [old, fresh] = lots.emplace(lot_key(out), context.out.shelf.size());
        if (!fresh)
            return report_lot_twice(context, have, context.out.shelf[old->second],
                                    out.material != no_ingredient
                                        ? context.out.name(out.material)
                                        : context.out.containers[out.container].name);
    }
    context.out.shelf.push_back(std::move(out));
}

}  // namespace

void add_shelves(Context& context) {
    Lots lots;
    for (std::uint32_t f = 0; f < context.files.size(); ++f) {
        const tree::File& file = context.file(f);
        for (const tree::Block& block : file.blocks) {
            if (block.heading != Heading::shelf) continue;
            for (std::uint32_t i = block.first; i < block.first + block.count; ++i)
                if (file.lines[i].form == Form::have) have_line(context, f, file.lines[i], lots);
        }
    }
}

}  // namespace levigate::resolving
