#include "grammar/words.hpp"

#include <array>

namespace levigate {

namespace {

constexpr std::uint32_t formulas = in(Heading::blend) | in(Heading::shade);
constexpr std::uint32_t editable = formulas | in(Heading::variant);
constexpr std::uint32_t stepped = editable | in(Heading::finish);
constexpr std::uint32_t every_block = ~0u;

constexpr std::array headings = {
    HeadingWord{"language", Heading::language, "language 1"},
    HeadingWord{"market", Heading::market, "market US, EU"},
    HeadingWord{"use", Heading::use, "use \"shelf.shade\""},
    HeadingWord{"unit", Heading::unit, "unit scoop = 0.15 mL"},
    HeadingWord{"rate", Heading::rate, "rate EUR = 1.08 USD, 2026-10-01"},
    HeadingWord{"material", Heading::material, "material red 7 lake"},
    HeadingWord{"blend", Heading::blend, "blend Windfall mica"},
    HeadingWord{"shade", Heading::shade, "shade Damson like Quince"},
    HeadingWord{"variant", Heading::variant, "variant sheer"},
    HeadingWord{"finish", Heading::finish, "finish matte"},
    HeadingWord{"family", Heading::family, "family Quince ladder"},
    HeadingWord{"container", Heading::container, "container slim tube"},
    HeadingWord{"balance", Heading::balance, "balance bench"},
    HeadingWord{"shelf", Heading::shelf, "shelf Home"},
    HeadingWord{"region", Heading::region, "region EU"},
    HeadingWord{"rule", Heading::rule, "rule US Red 33"},
    HeadingWord{"plan", Heading::plan, "plan Autumn launch"},
    HeadingWord{"edition", Heading::edition, "edition Autumn shades"},
    HeadingWord{"record", Heading::record, "record 2026-11-25 full of Quince / satin"},
};

// In the order of enum Form.
constexpr std::array forms = {
    FormWord{"", Form::ingredient, "18 %  Windfall mica", editable | in(Heading::finish)},
    FormWord{"set", Form::set, "set  21 %  Windfall mica", editable},
    FormWord{"add", Form::add, "add  1.5 %  black iron oxide", stepped},
    FormWord{"without", Form::without, "without  vanilla flavour", editable},
    FormWord{"swap", Form::swap, "swap  Windfall mica for Dusk mica", editable},
    FormWord{"scale", Form::scale, "scale  the mica by 1/2", editable},
    FormWord{"rebalance", Form::rebalance, "rebalance", stepped},
    FormWord{"fresh", Form::fresh, "fresh  steps", formulas},
    FormWord{"dilute", Form::dilute, "dilute  red 7 lake to 10 % in soft base", editable},
    FormWord{"let", Form::let, "let {depth} = 18 %", formulas},
    FormWord{"variants", Form::variants, "variants  sheer", in(Heading::shade)},
    FormWord{"finishes", Form::finishes, "finishes  satin, matte", in(Heading::shade)},
    FormWord{"batch", Form::batch, "batch  full  48 slim tubes, overage 5 %", in(Heading::shade)},
    FormWord{"weigh on", Form::weigh_on, "weigh on  bench", in(Heading::shade)},
    FormWord{"market", Form::market, "market  US, EU", in(Heading::shade)},
    FormWord{"expect", Form::expect, "expect  the lake at most 8 %", in(Heading::shade)},
    FormWord{"step", Form::step, "step  Work {Windfall mica} into {soft base}.", stepped},
    FormWord{"note", Form::note, "note  Rest it overnight.", every_block},
    FormWord{"swatch", Form::swatch, "swatch  Lab 38 61 32 at 5 % in soft base",
             in(Heading::material) | in(Heading::shade)},
    FormWord{"role", Form::role, "role  mica", in(Heading::material) | in(Heading::blend)},
    FormWord{"label", Form::label, "label  Mica 60 %, Titanium Dioxide 40 %",
             in(Heading::material) | in(Heading::rule)},
    FormWord{"colourant", Form::colourant, "colourant  CI 15850:1, strength 35 %",
             in(Heading::material)},
    FormWord{"contains", Form::contains, "contains  aluminium 20.3 %", in(Heading::material)},
    FormWord{"density", Form::density, "density  1.7 g/mL",
             in(Heading::material) | in(Heading::blend)},
    FormWord{"bulk", Form::bulk, "bulk  0.35 g/mL", in(Heading::material) | in(Heading::blend)},
    FormWord{"price", Form::price, "price  14.20 USD per 30 g",
             in(Heading::material) | in(Heading::container)},
    FormWord{"hazard", Form::hazard, "hazard  powder", in(Heading::material)},
    FormWord{"also called", Form::also_called, "also called  lithol rubine lake",
             in(Heading::material)},
    FormWord{"from", Form::from, "from  Quince", in(Heading::family)},
    FormWord{"vary", Form::vary, "vary {depth} over 4 %, 8 %, 12 %", in(Heading::family)},
    FormWord{"between", Form::between, "between  Quince and Damson in 5 steps",
             in(Heading::family)},
    FormWord{"name", Form::name, "name  Quince {depth}", in(Heading::family)},
    FormWord{"columns", Form::columns, "columns  name | {depth} | {tone}", in(Heading::family)},
    FormWord{"row", Form::row, "row  Quince Pale | 4 % | copper mica", in(Heading::family)},
    FormWord{"holds", Form::holds, "holds  4.5 mL", in(Heading::container)},
    FormWord{"have", Form::have, "have  120 g copper mica, lot 24-117, best before 2027-03",
             in(Heading::shelf)},
    FormWord{"reads", Form::reads, "reads  0.01 g", in(Heading::balance)},
    FormWord{"up to", Form::up_to, "up to  200 g", in(Heading::balance)},
    FormWord{"least", Form::least, "least  0.05 g", in(Heading::balance)},
    FormWord{"error", Form::error, "error  5 %", in(Heading::balance)},
    FormWord{"repeatability", Form::repeatability, "repeatability  0.004 g", in(Heading::balance)},
    FormWord{"covers", Form::covers, "covers  CI 17200", in(Heading::rule)},
    FormWord{"lips", Form::lips, "lips  at most 3 %", in(Heading::rule)},
    FormWord{"counts", Form::counts, "counts  colour", in(Heading::rule)},
    FormWord{"certified", Form::certified, "certified  batch",
             in(Heading::rule) | in(Heading::material)},
    FormWord{"in", Form::held_in, "in  Mica 20.3 %", in(Heading::rule)},
    FormWord{"except", Form::except, "except  Kaolin, CI 77000", in(Heading::rule)},
    FormWord{"ask of", Form::ask_of, "ask of  lake", in(Heading::rule)},
    FormWord{"named", Form::named, "named  above 0.001 %", in(Heading::rule)},
    FormWord{"condition", Form::condition, "condition  The label says carmine.",
             in(Heading::rule) | in(Heading::region)},
    FormWord{"unconfirmed", Form::unconfirmed, "unconfirmed  The section was not seen.",
             in(Heading::rule) | in(Heading::region)},
    FormWord{"source", Form::source, "source  21 CFR 74.2333",
             in(Heading::rule) | in(Heading::region)},
    FormWord{"title", Form::title, "title  European Union", in(Heading::region)},
    FormWord{"colourants", Form::colourants, "colourants  by number", in(Heading::region)},
    FormWord{"range", Form::range, "range  May contain: {colourants}", in(Heading::region)},
    FormWord{"minor", Form::minor, "minor  below 1 %", in(Heading::region)},
    FormWord{"contents", Form::contents, "contents  in grams from 5 g", in(Heading::region)},
    FormWord{"on", Form::on, "on  2026-12-01", in(Heading::plan)},
    FormWord{"make", Form::make, "make  full of Quince / satin", in(Heading::plan)},
    FormWord{"sealed", Form::sealed, "sealed", in(Heading::blend)},
    FormWord{"number", Form::number, "number  3", in(Heading::edition)},
    FormWord{"date", Form::date, "date  2026-10-01", in(Heading::edition)},
    FormWord{"shades", Form::shades, "shades  Quince, Damson", in(Heading::edition)},
    FormWord{"digest", Form::digest, "digest  sha256 9f86d081", in(Heading::edition)},
    FormWord{"planned", Form::planned, "planned  85.25 g soft base", in(Heading::record)},
    FormWord{"weighed", Form::weighed, "weighed  85.31 g soft base, lot 24-117",
             in(Heading::record)},
    FormWord{"by", Form::by, "by  Ines", in(Heading::record)},
    FormWord{"code", Form::code, "code  24-11", in(Heading::record)},
    FormWord{"filled", Form::filled, "filled  47 slim tubes", in(Heading::record)},
    FormWord{"deviation", Form::deviation, "deviation  soft base: 0.06 g more than planned.",
             in(Heading::record)},
    FormWord{"said", Form::said, "said  Lot 24-117 of soft base was past its date.",
             in(Heading::record)},
    FormWord{"made", Form::made, "made  12 g Windfall mica, lot W-1", in(Heading::record)},
    FormWord{"reading", Form::reading, "reading  Lab 38 61 32", in(Heading::record)},
    FormWord{"commit", Form::commit, "commit  4f1c09d", in(Heading::record)},
    FormWord{"formula", Form::formula, "formula  5f1d07c2a94e63b8", in(Heading::record)},
};

}  // namespace

std::span<const HeadingWord> heading_words() { return headings; }
std::span<const FormWord> form_words() { return forms; }

std::string_view word(Heading heading) {
    for (const HeadingWord& entry : headings)
        if (entry.heading == heading) return entry.word;
    return {};
}

const FormWord& entry(Form form) { return forms[static_cast<std::size_t>(form)]; }

}  // namespace levigate
