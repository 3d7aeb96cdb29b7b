// Reading one line by its form: the rule that matches it, and the tree made from the draft.

#include "grammar/forms_table.hpp"

#include "grammar/actions.hpp"
#include "grammar/expected.hpp"

namespace levigate {

void Draft::clear() {
    met.clear();
    exprs.clear();
    refs.clear();
    values.clear();
    labels.clear();
    pieces.clear();
    pours.clear();
    amount = {};
    open = path = by_number = metric = false;
    compare = {};
    number = words = date = sum_of_weights = {};
    region = like = lot = {};
    overage = holdback = tree::no_expr;
}

void Draft::join(tree::ExprKind kind) {
    const tree::ExprId right = pop();
    const tree::ExprId left = pop();
    const Span whole = cover(file.exprs[left].span, file.exprs[right].span);
    push({.kind = kind, .left = left, .right = right, .span = whole, .number = {}, .words = {}});
}

namespace {

namespace pegtl = tao::pegtl;
using LineInput = pegtl::memory_input<pegtl::tracking_mode::lazy, pegtl::eol::lf_crlf, const char*>;

/// Matches a line against its rule. Where it is wrong, says where and what was due.
template <typename Rule>
std::optional<Misread> parse(const char* begin, const char* end, Draft& draft) {
    LineInput in(begin, end, "");
    try {
        if (pegtl::parse<Rule, rules::action, rules::control>(in, draft)) return std::nullopt;
        return Misread{0, {}};
    } catch (const pegtl::parse_error& error) {
        return Misread{error.positions().front().byte, std::string(error.message())};
    }
}

tree::Ingredient ingredient(Draft& d) {
    tree::Ingredient made;
    made.amount = d.amount;
    made.open = d.open;
    if (!d.refs.empty()) made.amount.ref = d.refs.back();
    if (!d.exprs.empty()) made.amount.expr = d.exprs.back();
    if (!d.met.empty()) made.name = d.met.front();
    if (made.amount.kind == tree::AmountKind::quantity)
        made.amount.span = d.file.exprs[made.amount.expr].span;
    return made;
}

tree::Body part(Draft& d) { return ingredient(d); }
tree::Body without(Draft& d) { return tree::Without{d.met[0]}; }
tree::Body swap(Draft& d) { return tree::Swap{d.met[0], d.met[1]}; }
tree::Body scale(Draft& d) { return tree::Scale{d.refs[0], d.exprs[0]}; }
tree::Body rebalance(Draft&) { return tree::Rebalance{}; }
tree::Body sealed(Draft& d) {
    return tree::Sealed{d.exprs.empty() ? tree::no_expr : d.exprs[0]};
}
tree::Body fresh(Draft& d) { return tree::Fresh{d.inherited}; }
tree::Body dilute(Draft& d) { return tree::Dilute{d.met[0], d.exprs[0], d.met[1]}; }
tree::Body let(Draft& d) { return tree::Let{d.met[0], d.values[0]}; }
tree::Body names(Draft& d) { return tree::NameList{d.met}; }
tree::Body batch(Draft& d) {
    return tree::BatchLine{d.met[0], d.exprs.empty() ? tree::no_expr : d.exprs[0], d.overage,
                           d.holdback, d.sum_of_weights};
}
tree::Body reference(Draft& d) { return tree::Reference{d.met[0]}; }
tree::Body expect(Draft& d) {
    return tree::Expect{d.measure,
                        d.met.empty() ? Name{} : d.met[0],
                        d.compare,
                        d.exprs[0],
                        d.exprs.size() > 1 ? d.exprs[1] : tree::no_expr,
                        d.words_measured};
}
tree::Body text(Draft& d) { return tree::Text{d.pieces}; }
tree::Body label(Draft& d) { return tree::LabelLine{d.labels}; }
tree::Body colourant(Draft& d) {
    return tree::Colourant{d.met, d.exprs.empty() ? tree::no_expr : d.exprs[0]};
}
tree::Body quantity(Draft& d) {
    return tree::QuantityLine{d.exprs[0], d.exprs.size() > 1 ? d.exprs[1] : tree::no_expr};
}
tree::Body swatch(Draft& d) {
    return tree::Swatch{{d.exprs[0], d.exprs[1], d.exprs[2]},
                        d.exprs.size() > 3 ? d.exprs[3] : tree::no_expr,
                        d.met.empty() ? Name{} : d.met[0]};
}
tree::Body vary(Draft& d) { return tree::Vary{d.met[0], d.values}; }
tree::Body between(Draft& d) { return tree::Between{d.met[0], d.met[1], d.exprs[0]}; }
tree::Body columns(Draft& d) { return tree::Columns{d.met}; }
tree::Body row(Draft& d) { return tree::Row{d.values}; }
tree::Body lips(Draft& d) {
    return tree::LipsLine{d.lips, d.exprs.empty() ? tree::no_expr : d.exprs[0]};
}
tree::Body colourants(Draft& d) { return tree::Colourants{d.by_number}; }
tree::Body bound(Draft& d) { return tree::Bound{d.compare, d.exprs[0]}; }
tree::Body contents(Draft& d) {
    return tree::Contents{d.exprs.empty() ? tree::no_expr : d.exprs[0], d.metric};
}
tree::Body have(Draft& d) {
    return tree::Have{d.exprs[0], d.met.empty() ? Name{} : d.met[0], d.open, d.lot, d.date};
}
tree::Body on(Draft& d) { return tree::Day{d.date}; }
/// What is made; `next` is the first name that tells it.
tree::Make made_of(Draft& d, std::size_t next) {
    tree::Make made;
    made.open = d.open;
    if (!d.exprs.empty())
        made.quantity = d.exprs[0];
    else
        made.batch = d.met[next++];
    const auto take = [&] { return next < d.met.size() ? d.met[next++] : Name{}; };
    made.shade = take();
    made.variant_or_finish = take();
    made.finish = take();
    return made;
}
tree::Body make(Draft& d) { return made_of(d, 0); }
tree::Body pours(Draft& d) { return tree::PourList{d.pours}; }

template <typename Rule>
constexpr FormReader reader(Form form, tree::Body (*build)(Draft&)) {
    return {form, &parse<Rule>, build};
}

// In the order of enum Form.
constexpr FormReader form_readers[] = {
    reader<rules::ingredient_line>(Form::ingredient, part),
    reader<rules::set_line>(Form::set, part),
    reader<rules::add_line>(Form::add, part),
    reader<rules::without_line>(Form::without, without),
    reader<rules::swap_line>(Form::swap, swap),
    reader<rules::scale_line>(Form::scale, scale),
    reader<rules::rebalance_line>(Form::rebalance, rebalance),
    reader<rules::fresh_line>(Form::fresh, fresh),
    reader<rules::dilute_line>(Form::dilute, dilute),
    reader<rules::let_line>(Form::let, let),
    reader<rules::variants_line>(Form::variants, names),
    reader<rules::finishes_line>(Form::finishes, names),
    reader<rules::batch_line>(Form::batch, batch),
    reader<rules::weigh_on_line>(Form::weigh_on, reference),
    reader<rules::market_line>(Form::market, names),
    reader<rules::expect_line>(Form::expect, expect),
    reader<rules::step_line>(Form::step, text),
    reader<rules::note_line>(Form::note, text),
    reader<rules::swatch_line>(Form::swatch, swatch),
    reader<rules::role_line>(Form::role, reference),
    reader<rules::label_line>(Form::label, label),
    reader<rules::colourant_line>(Form::colourant, colourant),
    reader<rules::contains_line>(Form::contains, label),
    reader<rules::density_line>(Form::density, quantity),
    reader<rules::bulk_line>(Form::bulk, quantity),
    reader<rules::price_line>(Form::price, quantity),
    reader<rules::hazard_line>(Form::hazard, names),
    reader<rules::also_called_line>(Form::also_called, names),
    reader<rules::from_line>(Form::from, reference),
    reader<rules::vary_line>(Form::vary, vary),
    reader<rules::between_line>(Form::between, between),
    reader<rules::pattern_line>(Form::name, text),
    reader<rules::columns_line>(Form::columns, columns),
    reader<rules::row_line>(Form::row, row),
    reader<rules::holds_line>(Form::holds, quantity),
    reader<rules::have_line>(Form::have, have),
    reader<rules::reads_line>(Form::reads, quantity),
    reader<rules::up_to_line>(Form::up_to, quantity),
    reader<rules::least_line>(Form::least, quantity),
    reader<rules::error_line>(Form::error, quantity),
    reader<rules::repeatability_line>(Form::repeatability, quantity),
    reader<rules::covers_line>(Form::covers, names),
    reader<rules::lips_line>(Form::lips, lips),
    reader<rules::counts_line>(Form::counts, reference),
    reader<rules::certified_line>(Form::certified, reference),
    reader<rules::held_in_line>(Form::held_in, label),
    reader<rules::except_line>(Form::except, names),
    reader<rules::ask_of_line>(Form::ask_of, names),
    reader<rules::named_line>(Form::named, quantity),
    reader<rules::condition_line>(Form::condition, text),
    reader<rules::unconfirmed_line>(Form::unconfirmed, text),
    reader<rules::source_line>(Form::source, text),
    reader<rules::title_line>(Form::title, text),
    reader<rules::colourants_line>(Form::colourants, colourants),
    reader<rules::range_line>(Form::range, text),
    reader<rules::minor_line>(Form::minor, bound),
    reader<rules::contents_line>(Form::contents, contents),
    reader<rules::on_line>(Form::on, on),
    reader<rules::make_line>(Form::make, make),
    reader<rules::sealed_line>(Form::sealed, sealed),
    reader<rules::number_line>(Form::number, quantity),
    reader<rules::date_line>(Form::date, reference),
    reader<rules::shades_line>(Form::shades, names),
    reader<rules::digest_line>(Form::digest, reference),
    reader<rules::planned_line>(Form::planned, pours),
    reader<rules::weighed_line>(Form::weighed, pours),
    reader<rules::by_line>(Form::by, reference),
    reader<rules::code_line>(Form::code, reference),
    reader<rules::filled_line>(Form::filled, quantity),
    reader<rules::deviation_line>(Form::deviation, text),
    reader<rules::said_line>(Form::said, text),
    reader<rules::made_line>(Form::made, pours),
    reader<rules::reading_line>(Form::reading, text),
    reader<rules::commit_line>(Form::commit, reference),
    reader<rules::formula_line>(Form::formula, reference),
};

struct HeadingReader {
    Heading heading;
    std::optional<Misread> (*parse)(const char*, const char*, Draft&);
};
// In the order of enum Heading, without `none`.
constexpr HeadingReader heading_readers[] = {
    {Heading::language, &parse<rules::language_heading>},
    {Heading::market, &parse<rules::market_heading>},
    {Heading::use, &parse<rules::use_heading>},
    {Heading::unit, &parse<rules::unit_heading>},
    {Heading::rate, &parse<rules::rate_heading>},
    {Heading::material, &parse<rules::material_heading>},
    {Heading::blend, &parse<rules::blend_heading>},
    {Heading::shade, &parse<rules::shade_heading>},
    {Heading::variant, &parse<rules::variant_heading>},
    {Heading::finish, &parse<rules::finish_heading>},
    {Heading::family, &parse<rules::family_heading>},
    {Heading::container, &parse<rules::container_heading>},
    {Heading::balance, &parse<rules::balance_heading>},
    {Heading::shelf, &parse<rules::shelf_heading>},
    {Heading::region, &parse<rules::region_heading>},
    {Heading::rule, &parse<rules::rule_heading>},
    {Heading::plan, &parse<rules::plan_heading>},
    {Heading::edition, &parse<rules::edition_heading>},
    {Heading::record, &parse<rules::record_heading>},
};

}  // namespace

std::optional<Misread> read_form(Form form, const char* begin, const char* end, Draft& draft,
                                 tree::Body& body) {
    const FormReader& reader = form_readers[static_cast<std::size_t>(form)];
    draft.clear();
    if (auto wrong = reader.parse(begin, end, draft)) return wrong;
    body = reader.build(draft);
    return std::nullopt;
}

std::optional<Misread> read_heading(Heading heading, const char* begin, const char* end,
                                    Draft& draft, tree::Block& block) {
    draft.clear();
    const auto& reader = heading_readers[static_cast<std::size_t>(heading) - 1];
    auto wrong = reader.parse(begin, end, draft);
    // The name is kept where the line went wrong behind it, so that others can still find it.
    if (!draft.met.empty()) block.name = draft.met.front();
    block.like = draft.like;
    block.region = draft.region;
    if (heading == Heading::region) block.name = draft.region;
    if (heading == Heading::market) block.listed = draft.met;
    block.date = draft.date;
    block.path = draft.path;
    if (!draft.exprs.empty()) block.value = draft.exprs.back();
    if (heading == Heading::record && !wrong) {
        block.made = static_cast<std::uint32_t>(draft.file.makes.size());
        draft.file.makes.push_back(made_of(draft, 1));  // the date stands before it
    }
    return wrong;
}

std::optional<Misread> read_pours(const char* begin, const char* end, Draft& draft) {
    draft.clear();
    return parse<pegtl::seq<rules::pours, rules::need_end>>(begin, end, draft);
}

std::optional<Misread> read_quantity(const char* begin, const char* end, Draft& draft) {
    draft.clear();
    return parse<pegtl::seq<rules::need_value, rules::batch_options, rules::need_end>>(begin, end,
                                                                                       draft);
}

}  // namespace levigate
