// What regions let on lips: rules, how their ingredient lists are written, and where a file is
// sold.

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "interpreter/resolve/context.hpp"

namespace levigate::resolving {

Called called(const Context& context, const Name& name) {
    return {context.written(name.span), name.sym};
}

std::optional<Share> possible_share(Context& context, std::uint32_t file, tree::ExprId expr,
                                    std::string_view example, bool may_be_nothing) {
    if (expr == tree::no_expr) return std::nullopt;
    Env none;
    const auto value = evaluate_as(context, file, expr, none, Kind::share, example);
    if (!value) return std::nullopt;
    const int sign = value->value.sign();
    if ((sign > 0 || (sign == 0 && may_be_nothing)) && !(value->value > Exact(1)))
        return share(value->value);
    report(context, {.code = Code::share_impossible,
                     .message = value->value > Exact(1) ? "This is more than all of it."
                                : sign == 0             ? "This is nothing of it."
                                                        : "This is less than nothing of it.",
                     .span = context.file(file).exprs[expr].span,
                     .advice = may_be_nothing ? "" : "Take it from the lot's certificate.",
                     .example = may_be_nothing ? std::string(example) : ""});
    return std::nullopt;
}

namespace {

/// A part's share, or its range with the smaller end first.
std::optional<Extent> extent(Context& context, std::uint32_t file, const tree::LabelPart& part) {
    const auto least = possible_share(context, file, part.share, "60 %");
    if (!least || part.most == tree::no_expr)
        return least ? std::optional(Extent{*least, *least}) : std::nullopt;
    const auto most = possible_share(context, file, part.most, "60 %");
    if (!most) return std::nullopt;
    if (*least <= *most) return Extent{*least, *most};
    const auto& exprs = context.file(file).exprs;
    const Span range = cover(exprs[part.share].span, exprs[part.most].span);
    report(context, {.code = Code::share_impossible,
                     .message = "Nothing lies in this range: the smaller share stands first.",
                     .span = range,
                     .fixes = {possible_fix(
                         range, fmt::format("{} to {}", context.written(exprs[part.most].span),
                                            context.written(exprs[part.share].span)))}});
    return std::nullopt;
}

}  // namespace

std::vector<LabelPart> label_parts(Context& context, std::uint32_t file,
                                   const tree::LabelLine& line) {
    std::vector<LabelPart> out;
    for (const tree::LabelPart& part : line.parts)
        out.push_back(
            {context.written(part.name.span), part.name.sym, extent(context, file, part)});
    return out;
}

namespace {

std::vector<Called> all_called(const Context& context, const tree::Line& line) {
    std::vector<Called> out;
    for (const Name& name : std::get<tree::NameList>(line.body).names)
        out.push_back(called(context, name));
    return out;
}

/// True where the one word that can stand here does.
bool only(Context& context, const tree::Line& line, std::string_view known) {
    const Name& name = std::get<tree::Reference>(line.body).name;
    const std::string_view word = context.names.folded(name.sym);
    if (word == known) return true;
    report(context, {.code = Code::line_malformed,
                     .message = fmt::format("`{}` is not known here.", shown(word)),
                     .span = name.span,
                     .fixes = {possible_fix(name.span, std::string(known))}});
    return false;
}

std::string words(const Context& context, const tree::Line& line) {
    return plain_text(context, std::get<tree::Text>(line.body));
}

void lips_line(Context& context, std::uint32_t file, const tree::Line& line, Rule& out) {
    const auto& written = std::get<tree::LipsLine>(line.body);
    out.lips = static_cast<Rule::Lips>(written.lips);
    if (out.lips != Rule::Lips::at_most) return;
    out.limit = possible_share(context, file, written.limit, "3 %");  // without it: said
}

void rule_line(Context& context, std::uint32_t file, const tree::Line& line, Rule& out) {
    const auto append = [](auto& to, auto from) { to.insert(to.end(), from.begin(), from.end()); };
    switch (line.form) {
        case Form::covers: append(out.covers, all_called(context, line)); break;
        case Form::label: {
            const tree::LabelPart& part = std::get<tree::LabelLine>(line.body).parts.front();
            out.label = context.written(part.name.span);
            out.label_sym = part.name.sym;
            break;
        }
        case Form::lips: lips_line(context, file, line, out); break;
        case Form::counts: out.counts_colour = only(context, line, "colour"); break;
        case Form::certified: out.certified = only(context, line, "batch"); break;
        case Form::held_in:
            append(out.held_in, label_parts(context, file, std::get<tree::LabelLine>(line.body)));
            break;
        case Form::except: append(out.except, all_called(context, line)); break;
        case Form::ask_of: append(out.ask_of, all_called(context, line)); break;
        case Form::named:
            out.named_above = possible_share(
                context, file, std::get<tree::QuantityLine>(line.body).expr, "0.001 %");
            break;
        case Form::condition: out.conditions.push_back(words(context, line)); break;
        case Form::unconfirmed: out.unconfirmed = words(context, line); break;
        case Form::source: out.source = words(context, line); break;
        default: break;
    }
}

Rule make_rule(Context& context, At at) {
    const tree::Block& block = context.block(at);
    Rule rule;
    rule.region = called(context, block.region);
    rule.name = context.written(block.name.span);
    rule.span = block.name.span;
    rule.library = context.files[at.file].library;
    const auto [first, last] = lines_of(context, at);
    for (const tree::Line* line = first; line != last; ++line)
        rule_line(context, at.file, *line, rule);
    rule.damaged = block.damaged;
    for (const Called& what : rule.covers)
        for (const Called& out : rule.except)
            if (what.sym == out.sym)
                report(context, {.code = Code::rule_contradiction,
                                 .message = fmt::format("The rule {} {} covers {}, and leaves it "
                                                        "out.",
                                                        rule.region.name, rule.name, what.name),
                                 .span = rule.span,
                                 .advice = "Take it out of one of the two lines."});
    if (rule.covers.empty() && !block.damaged)
        report(context, {.code = Code::rule_empty,
                         .message = fmt::format("Nothing says what the rule {} {} covers.",
                                                rule.region.name, rule.name),
                         .span = rule.span,
                         .advice = "Add a line such as `covers CI 17200`."});
    return rule;
}

/// Rules of which none else has the region and the name. A person's own takes the library's place.
void add_standing_rules(Context& context) {
    std::map<std::pair<Sym, Sym>, At> seats;
    std::vector<At> standing;
    std::set<std::pair<Sym, Sym>> replaced;
    each_block(context, Heading::rule, [&](At at) {
        const tree::Block& block = context.block(at);
        const std::pair key{block.region.sym, block.name.sym};
        const auto [seat, fresh] = seats.emplace(key, at);
        if (fresh) return standing.push_back(at);
        const bool first_library = context.files[seat->second.file].library;
        if (first_library || context.files[at.file].library) {
            if (!first_library) replaced.insert(key);
            return;
        }
        report(context, {.code = Code::block_twice,
                         .message = fmt::format("The rule {} {} is there twice.",
                                                context.written(block.region.span),
                                                context.written(block.name.span)),
                         .span = block.name.span,
                         .advice = "Give one of them another name, or take one out.",
                         .notes = {{context.block(seat->second).name.span, "already there"}},
                         .here = "again here"});
    });
    for (const At at : standing) {
        context.out.rules.push_back(make_rule(context, at));
        const tree::Block& block = context.block(at);
        context.out.rules.back().replaces = replaced.contains({block.region.sym, block.name.sym});
    }
}

/// Two rules of one region that judge the same thing differently, one of them a person's own.
void report_contradictions(Context& context) {
    std::map<std::pair<Sym, Sym>, const Rule*> judged;
    for (const Rule& rule : context.out.rules) {
        if (rule.lips == Rule::Lips::silent) continue;
        for (const Called& what : rule.covers) {
            const auto [seat, fresh] = judged.emplace(std::pair{rule.region.sym, what.sym}, &rule);
            const Rule& other = *seat->second;
            if (fresh || &other == &rule || (other.lips == rule.lips && other.limit == rule.limit))
                continue;
            const Rule& own = rule.library ? other : rule;
            const Rule& first = rule.library ? rule : other;
            report(context,
                   {.code = Code::rule_contradiction,
                    .message = fmt::format("Two rules of {} judge {} differently: {} and {}. Until "
                                           "this is settled both are applied.",
                                           rule.region.name, what.name, first.name, own.name),
                    .span = own.span,
                    .advice = fmt::format("Take one out, or call yours `rule {} {}` to put it in "
                                          "the other's place.",
                                          rule.region.name, first.name),
                    .notes = {{first.span, "the other rule"}}});
        }
    }
}

void region_line(Context& context, std::uint32_t file, const tree::Line& line, Region& out) {
    Env none;
    switch (line.form) {
        case Form::title: out.title = words(context, line); break;
        case Form::colourants:
            out.by_number = std::get<tree::Colourants>(line.body).by_number;
            break;
        case Form::range: {
            const std::string text = words(context, line);
            const std::size_t hole = text.find("{colourants}");
            out.range_before = text.substr(0, hole) + (hole == text.npos ? " " : "");
            out.range_after = hole == text.npos ? "" : text.substr(hole + 12);
            if (hole != text.npos) break;
            out.damaged = true;
            report(context, {.code = Code::line_malformed,
                             .message = "Nothing says where the colourants stand.",
                             .span = line.span,
                             .example = "range May contain: {colourants}"});
            break;
        }
        case Form::minor: {
            const auto& bound = std::get<tree::Bound>(line.body);
            out.minor_below = bound.compare == tree::Compare::under;
            if (auto size = possible_share(context, file, bound.expr, "1 %"))
                out.minor = *size;
            else
                out.damaged = true;
            break;
        }
        case Form::contents: {
            const auto& contents = std::get<tree::Contents>(line.body);
            out.contents_metric = contents.metric;
            if (contents.from == tree::no_expr) break;
            if (auto value = evaluate_as(context, file, contents.from, none, Kind::mass, "5 g"))
                out.contents_from = grams(value->value);
            else
                out.damaged = true;
            break;
        }
        case Form::condition: out.conditions.push_back(words(context, line)); break;
        case Form::unconfirmed: out.unconfirmed = words(context, line); break;
        case Form::source: out.source = words(context, line); break;
        default: break;
    }
}

void add_regions(Context& context) {
    each_block(context, Heading::region, [&](At at) {
        const At seat = look(context.scope.region, context.block(at).name.sym);
        if (seat.file != at.file || seat.block != at.block) return;
        Region region;
        region.name = called(context, context.block(at).name);
        region.title = region.name.name;
        region.span = context.block(at).name.span;
        region.damaged = context.block(at).damaged || seat.ambiguous;
        const auto [first, last] = lines_of(context, at);
        for (const tree::Line* line = first; line != last; ++line)
            region_line(context, at.file, *line, region);
        context.out.regions.push_back(std::move(region));
    });
}

/// Where FILE is sold: a line above all else, since it is for everything below.
void add_markets(Context& context) {
    if (context.files.empty()) return;
    bool top = true;
    Span first{};
    for (const tree::Block& block : context.file(0).blocks) {
        if (block.heading != Heading::market) {
            top = top && (block.heading == Heading::language || block.heading == Heading::use);
            continue;
        }
        if (!top)
            report(context, {.code = Code::line_misplaced,
                             .message = "Where the whole file is sold stands at its top.",
                             .span = block.span,
                             .advice = "Move it above the first heading, or put it into a shade."});
        const Span word{block.span.source, block.span.begin,
                        block.span.begin + static_cast<std::uint32_t>(sizeof "market" - 1)};
        if (top && first)
            report(context, {.code = Code::line_twice,
                             .message = "`market` stands at the top of this file twice.",
                             .span = word,
                             .advice = "Write one line with all the regions.",
                             .notes = {{first, "already there"}},
                             .here = "again here"});
        if (!first) first = word;
        for (const Name& name : block.listed) context.out.markets.push_back(called(context, name));
    }
}

}  // namespace

void add_rules(Context& context) {
    add_standing_rules(context);
    report_contradictions(context);
    add_regions(context);
    add_markets(context);
}

}  // namespace levigate::resolving
