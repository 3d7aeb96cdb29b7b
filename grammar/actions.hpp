#pragma once
// What is done when a rule has matched: names and quantities go to the draft. Private to the room.

#include <tao/pegtl/contrib/limit_depth.hpp>

#include "grammar/draft.hpp"
#include "grammar/forms.hpp"

namespace levigate::rules {

/// Brackets within brackets: deeper than anyone writes by hand.
inline constexpr std::size_t deepest_bracket = 40;

template <typename Rule>
struct action : nothing<Rule> {};

template <>
struct action<bracket> : limit_depth<deepest_bracket> {};

template <typename Input>
Span span_of(const Input& in, const Draft& draft) {
    return draft.span(in.begin(), in.end());
}

#define LEVIGATE_ACTION(rule)                                                                      \
    template <>                                                                                    \
    struct action<rule> {                                                                          \
        template <typename Input>                                                                  \
        static void apply(const Input& in, Draft& draft) {                                         \
            act(span_of(in, draft), draft);                                                        \
        }                                                                                          \
        static void act([[maybe_unused]] Span span, Draft& draft);                                 \
    };                                                                                             \
    inline void action<rule>::act([[maybe_unused]] Span span, Draft& draft)

// ---- Names -------------------------------------------------------------------------------------

template <typename Stop>
struct action<bare_name<Stop>> {
    template <typename Input>
    static void apply(const Input& in, Draft& draft) {
        if (in.peek_char(in.size() - 1) == '.') throw parse_error("!stop", in);
        draft.met.push_back(draft.name(span_of(in, draft)));
    }
};
template <>
struct action<quoted_name> {
    template <typename Input>
    static void apply(const Input& in, Draft& draft) {
        const Name name = draft.name(span_of(in, draft));
        if (!name) throw parse_error("!empty", in);
        draft.met.push_back(name);
    }
};
LEVIGATE_ACTION(hole_name) {
    Name name = draft.name(span);
    name.hole = true;
    draft.met.push_back(name);
}
template <typename Stop>
struct action<ref<Stop>> {
    template <typename Input>
    static void apply(const Input& in, Draft& draft) {
        const Span span = span_of(in, draft);
        const Name name = draft.pop_name();
        const char first = in.peek_char();
        const bool the = (first == 't' || first == 'T') && name.span.begin > span.begin;
        draft.refs.push_back({name, the, span});
    }
};
template <typename Stop>
struct action<value<Stop>> {
    template <typename Input>
    static void apply(const Input& in, Draft& draft) {
        tree::Value value;
        value.span = span_of(in, draft);
        if (draft.exprs.empty())
            value.name = draft.pop_name();
        else
            value.expr = draft.pop();
        draft.values.push_back(value);
    }
};

// ---- Quantities --------------------------------------------------------------------------------

LEVIGATE_ACTION(number) {
    draft.number = span;
    draft.words = {};
}
LEVIGATE_ACTION(measure_words) { draft.words = span; }
LEVIGATE_ACTION(quoted_measure) { draft.words = span; }
LEVIGATE_ACTION(percent_sign) { draft.words = span; }

inline void push_quantity(Span span, Draft& draft) {
    draft.push({.span = span, .number = draft.number, .words = draft.words});
}
LEVIGATE_ACTION(quantity) { push_quantity(span, draft); }
LEVIGATE_ACTION(percent_quantity) { push_quantity(span, draft); }
LEVIGATE_ACTION(share_word) { draft.words = span; }
LEVIGATE_ACTION(worded_share) { push_quantity(span, draft); }
LEVIGATE_ACTION(bare_number) { push_quantity(span, draft); }
LEVIGATE_ACTION(lab_number) { push_quantity(span, draft); }
LEVIGATE_ACTION(number_in_many) { push_quantity(span, draft); }
LEVIGATE_ACTION(lone_measure) {
    draft.push({.kind = tree::ExprKind::unit, .span = span, .number = {}, .words = draft.words});
}
LEVIGATE_ACTION(hole_operand) {
    const Name hole = draft.pop_name();
    draft.push(
        {.kind = tree::ExprKind::hole, .hole = hole.sym, .span = span, .number = {}, .words = {}});
}
LEVIGATE_ACTION(negative) {
    const tree::ExprId inner = draft.pop();
    draft.push(
        {.kind = tree::ExprKind::negate, .left = inner, .span = span, .number = {}, .words = {}});
}
LEVIGATE_ACTION(times) { draft.join(tree::ExprKind::multiply); }
LEVIGATE_ACTION(divided) { draft.join(tree::ExprKind::divide); }
LEVIGATE_ACTION(per) { draft.join(tree::ExprKind::per); }
LEVIGATE_ACTION(in_many) { draft.join(tree::ExprKind::in); }
LEVIGATE_ACTION(in_quantity) { draft.join(tree::ExprKind::in); }
LEVIGATE_ACTION(added) { draft.join(tree::ExprKind::add); }
LEVIGATE_ACTION(subtracted) { draft.join(tree::ExprKind::subtract); }

// ---- Amounts -----------------------------------------------------------------------------------

LEVIGATE_ACTION(open_number) { draft.number = span; }
LEVIGATE_ACTION(open_first) {
    draft.push({.span = cover(draft.number, span), .number = draft.number, .words = span});
    draft.number = {};
    draft.open = true;
}
LEVIGATE_ACTION(open_second) {
    const auto kind = draft.number ? tree::ExprKind::quantity : tree::ExprKind::unit;
    draft.push(
        {.kind = kind, .span = cover(draft.number, span), .number = draft.number, .words = span});
}
LEVIGATE_ACTION(per_open) {
    draft.join(tree::ExprKind::per);
    draft.open = true;
}
LEVIGATE_ACTION(per_closed) {
    draft.join(tree::ExprKind::per);
    draft.open = false;
}
LEVIGATE_ACTION(closed_name) { draft.open = false; }
LEVIGATE_ACTION(rest) {
    draft.amount.kind = tree::AmountKind::rest;
    draft.amount.span = span;
}
LEVIGATE_ACTION(half) { draft.amount.over = 2; }
LEVIGATE_ACTION(twice) { draft.amount.times = 2; }
LEVIGATE_ACTION(quarter) { draft.amount.over = 4; }
LEVIGATE_ACTION(third) { draft.amount.over = 3; }
LEVIGATE_ACTION(three_quarters) {
    draft.amount.times = 3;
    draft.amount.over = 4;
}
LEVIGATE_ACTION(as_much) {
    draft.amount.kind = tree::AmountKind::as_much;
    draft.amount.span = span;
}
LEVIGATE_ACTION(enough) {
    draft.amount.kind = tree::AmountKind::enough;
    draft.amount.span = span;
}

// ---- Lines -------------------------------------------------------------------------------------

LEVIGATE_ACTION(like) { draft.like = draft.pop_name(); }
LEVIGATE_ACTION(used_path) { draft.path = true; }
template <>
struct action<date> {
    template <typename Input>
    static void apply(const Input& in, Draft& draft) {
        if (draft.date) throw parse_error("!again", in);
        draft.date = span_of(in, draft);
    }
};
template <>
struct action<have_lot> {
    template <typename Input>
    static void apply(const Input& in, Draft& draft) {
        if (draft.lot) throw parse_error("!lots", in);
        draft.lot = draft.pop_name();
    }
};
LEVIGATE_ACTION(region_name) { draft.region = draft.name(span); }
template <typename Input>
void set_option(const Input& in, Draft& draft, tree::ExprId& option) {
    if (option != tree::no_expr) throw parse_error("!again", in);
    option = draft.pop();
}
template <>
struct action<overage> {
    template <typename Input>
    static void apply(const Input& in, Draft& draft) {
        set_option(in, draft, draft.overage);
    }
};
template <>
struct action<holdback> {
    template <typename Input>
    static void apply(const Input& in, Draft& draft) {
        set_option(in, draft, draft.holdback);
    }
};
LEVIGATE_ACTION(inherited) {
    switch (draft.at(span)[0] | 0x20) {
        case 's': draft.inherited = tree::Inherited::steps; break;
        case 'n': draft.inherited = tree::Inherited::notes; break;
        case 'e': draft.inherited = tree::Inherited::expects; break;
        case 'b': draft.inherited = tree::Inherited::batches; break;
        case 'f': draft.inherited = tree::Inherited::finishes; break;
        case 'd': draft.inherited = tree::Inherited::dilutions; break;
        default: draft.inherited = tree::Inherited::variants; break;
    }
}
LEVIGATE_ACTION(at_most) { draft.compare = tree::Compare::at_most; }
LEVIGATE_ACTION(at_least) { draft.compare = tree::Compare::at_least; }
LEVIGATE_ACTION(under) { draft.compare = tree::Compare::under; }
LEVIGATE_ACTION(over) { draft.compare = tree::Compare::over; }
LEVIGATE_ACTION(is) { draft.compare = tree::Compare::is; }
LEVIGATE_ACTION(between_word) { draft.compare = tree::Compare::between; }
LEVIGATE_ACTION(alone<density_word>) { draft.measure = tree::MeasureKind::density; }
LEVIGATE_ACTION(alone<whole_words>) { draft.measure = tree::MeasureKind::whole; }
LEVIGATE_ACTION(alone<cost_word>) { draft.measure = tree::MeasureKind::cost; }
LEVIGATE_ACTION(cost_per) { draft.measure = tree::MeasureKind::cost_per; }
LEVIGATE_ACTION(measured_ref) {
    const tree::Ref ref = draft.refs.back();
    draft.measure = ref.role ? tree::MeasureKind::role : tree::MeasureKind::name;
    draft.met.push_back(ref.name);
}
LEVIGATE_ACTION(measured) { draft.words_measured = span; }
LEVIGATE_ACTION(pattern_words) { draft.pieces.push_back({.text = span, .name = {}, .span = span}); }
LEVIGATE_ACTION(made_words) {
    draft.push({.span = cover(draft.number, span), .number = draft.number, .words = span});
    draft.open = true;
    draft.met.push_back({});  // the shade, in these words or in quotes behind them
}
LEVIGATE_ACTION(made_in_quotes) {
    draft.met[draft.met.size() - 2] = draft.met.back();
    draft.met.pop_back();
}
LEVIGATE_ACTION(text_words) { draft.pieces.push_back({.text = span, .name = {}, .span = span}); }
LEVIGATE_ACTION(text_value) {
    draft.pieces.push_back({.text = {}, .name = {}, .expr = draft.pop(), .span = span});
}
LEVIGATE_ACTION(text_hole) {
    if (!draft.met.empty())
        draft.pieces.push_back({.text = {}, .name = draft.pop_name(), .span = span});
    else
        draft.pieces.back().span = span;
}
LEVIGATE_ACTION(need_label_part) {
    tree::LabelPart part{draft.pop_name()};
    if (draft.exprs.size() > 1) part.most = draft.pop();
    if (!draft.exprs.empty()) part.share = draft.pop();
    draft.labels.push_back(part);
}
LEVIGATE_ACTION(lips_yes) { draft.lips = tree::Lips::yes; }
LEVIGATE_ACTION(lips_no) { draft.lips = tree::Lips::no; }
LEVIGATE_ACTION(lips_ask) { draft.lips = tree::Lips::ask; }
LEVIGATE_ACTION(lips_stop) { draft.lips = tree::Lips::stop; }
LEVIGATE_ACTION(lips_filler) { draft.lips = tree::Lips::filler; }
LEVIGATE_ACTION(below) { draft.compare = tree::Compare::under; }
LEVIGATE_ACTION(sum_of_weights) { draft.sum_of_weights = span; }
LEVIGATE_ACTION(grams_alone) { draft.metric = true; }
LEVIGATE_ACTION(by_name_or_number) { draft.by_number = (draft.at(span).back() | 0x20) == 'r'; }
LEVIGATE_ACTION(lips_at_most) { draft.lips = tree::Lips::at_most; }

LEVIGATE_ACTION(record_date) { draft.met.push_back(draft.name(span)); }
LEVIGATE_ACTION(pour_words) {
    tree::Pour& pour = draft.pours.emplace_back();
    pour.number = draft.number;
    pour.words = span;
    pour.span = cover(draft.number, span);
}
/// What a pour is told once.
template <Name tree::Pour::*Part>
struct pour_part {
    template <typename Input>
    static void apply(const Input& in, Draft& draft) {
        tree::Pour& pour = draft.pours.back();
        const bool lot = Part == &tree::Pour::lot;
        if (pour.*Part) throw parse_error(lot ? "!lots" : "!again", in);
        pour.*Part = draft.pop_name();
        pour.span = cover(pour.span, (pour.*Part).span);
    }
};
template <>
struct action<pour_in_quotes> : pour_part<&tree::Pour::name> {};
template <>
struct action<lot_name> : pour_part<&tree::Pour::lot> {};
template <>
struct action<pour_bowl> : pour_part<&tree::Pour::bowl> {};

#undef LEVIGATE_ACTION

}  // namespace levigate::rules
