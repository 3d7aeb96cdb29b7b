#include "interpreter/query/why.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <unordered_map>

#include "interpreter/expand/finished.hpp"
#include "interpreter/expand/size.hpp"
#include "interpreter/formulary/dilute.hpp"
#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/solve.hpp"
#include "interpreter/query/chain.hpp"
#include "interpreter/query/why_asked.hpp"
#include "interpreter/render/amounts.hpp"

namespace levigate {

using namespace query;
Exact reckon(const WhySection& section) {
    Exact value;
    for (const WhyStep& one : section.steps) {
        switch (one.op) {
            case WhyOp::start: value = one.operand; break;
            case WhyOp::plus: value += one.operand; break;
            case WhyOp::minus: value -= one.operand; break;
            case WhyOp::times: value *= one.operand; break;
            case WhyOp::divide: value /= one.operand; break;
            case WhyOp::note: break;
        }
    }
    return value;
}

namespace {

/// The content of `what` in every mix on the way: a section each, inner ones first.
struct Contents {
    Chain& chain;
    IngredientId what;
    std::unordered_map<MixId, std::uint32_t> sections{};  ///< `nothing`: holds none
};

const Mix* mix_in(const Chain& chain, IngredientId id) { return mix_of(chain.formulary(), id); }

std::uint32_t sum_section(Contents& contents,
                          const std::vector<std::pair<std::uint32_t, std::uint32_t>>& ways,
                          const std::string& title) {
    if (ways.size() == 1 && ways[0].second == nothing) return ways[0].first;
    WhySection section;
    section.title = title;
    for (const auto& [line, inside] : ways) {
        std::uint32_t from = line;
        if (inside != nothing) {
            WhySection way;
            way.title = fmt::format("{} by way of {}", contents.chain.name(contents.what),
                                    contents.chain.why.sections[line].title);
            way.steps.push_back(step(WhyOp::start, contents.chain.why.sections[line].title,
                                     contents.chain.result(line), {}, line));
            way.steps.push_back(step(WhyOp::times, contents.chain.why.sections[inside].title,
                                     contents.chain.result(inside), {}, inside));
            from = contents.chain.add(std::move(way));
            if (ways.size() == 1) {
                contents.chain.why.sections[from].title = title;
                return from;
            }
        }
        section.steps.push_back(step(section.steps.empty() ? WhyOp::start : WhyOp::plus,
                                     contents.chain.why.sections[from].title,
                                     contents.chain.result(from), {}, from));
    }
    return contents.chain.add(std::move(section));
}

using Ways = std::vector<std::pair<std::uint32_t, std::uint32_t>>;

/// A mix whose lines are being told; those of a mix in it come before the line that holds it.
struct Telling {
    IngredientId mix;
    std::size_t next = 0;
    Ways ways = {};
};

MixId mix_number(const Chain& chain, IngredientId id) {
    const Mix* mix = mix_in(chain, id);
    return mix && mix->formula.solved() ? chain.formulary().ingredients[id].index : nothing;
}

/// Tells the next line of the mix; false, and nothing told, if a mix in it must be told before.
bool tell_line(Contents& contents, Telling& top, const Formula& formula, MixId key) {
    const IngredientId part = formula.parts[top.next].what;
    std::uint32_t inside = nothing;
    if (part != contents.what) {
        const MixId mix = mix_number(contents.chain, part);
        const auto known = contents.sections.find(mix);
        if (mix != nothing && known == contents.sections.end()) return false;
        if (mix != nothing) inside = known->second;
        if (inside == nothing) return ++top.next, true;
    }
    const std::uint32_t line =
        line_section(contents.chain, formula, top.next, contents.chain.name(top.mix), key);
    top.ways.emplace_back(line, inside);
    return ++top.next, true;
}

/// A loop with a stack of its own, however deep mixes are within mixes.
std::uint32_t content_section(Contents& contents, IngredientId mix_id) {
    const MixId wanted = mix_number(contents.chain, mix_id);
    if (wanted == nothing) return nothing;
    std::vector<Telling> open;
    if (!contents.sections.contains(wanted)) open.push_back({mix_id});
    while (!open.empty()) {
        Telling& top = open.back();
        const MixId key = mix_number(contents.chain, top.mix);
        const Formula& formula = contents.chain.formulary().mixes[key].formula;
        if (top.next < formula.parts.size()) {
            const IngredientId part = formula.parts[top.next].what;
            if (!tell_line(contents, top, formula, key)) open.push_back({part});
            continue;
        }
        std::uint32_t section = nothing;
        if (!top.ways.empty())
            section = sum_section(contents, top.ways,
                                  fmt::format("{} in {}", contents.chain.name(contents.what),
                                              contents.chain.name(top.mix)));
        contents.sections[key] = section;
        open.pop_back();
    }
    return contents.sections.at(wanted);
}

/// Every way from the ingredient to the finished whole. `nothing` where it holds none.
std::uint32_t whole_section(Contents& contents, const Asked& asked) {
    Chain& chain = contents.chain;
    constexpr std::uint32_t own = 0xFFFFFFF0u;
    const Formula& bulk = asked.version->formula;
    std::string whose = asked.shade->name;
    if (!asked.version->variant.empty()) whose += " / " + asked.version->variant;
    std::vector<std::pair<std::uint32_t, std::uint32_t>> ways;
    for (std::size_t i = 0; i < bulk.parts.size(); ++i) {
        std::uint32_t inside = nothing;
        if (bulk.parts[i].what != contents.what) {
            inside = content_section(contents, bulk.parts[i].what);
            if (inside == nothing) continue;
        }
        ways.emplace_back(line_section(chain, bulk, i, whose, own), inside);
    }
    const std::string title = fmt::format("{} in {}", chain.name(contents.what), whose);
    std::uint32_t in_bulk = ways.empty() ? nothing : sum_section(contents, ways, title);
    if (asked.finishing == nothing) return in_bulk;
    const Finishing& finishing = chain.formulary().finishings[asked.finishing];
    const FinishSections finished = finish_sections(chain, bulk, finishing, whose, own);
    WhySection section;
    section.title = fmt::format("{} in {} / {}", chain.name(contents.what), whose, asked.finish);
    if (in_bulk != nothing) {
        section.steps.push_back(step(WhyOp::start, chain.why.sections[in_bulk].title,
                                     chain.result(in_bulk), {}, in_bulk));
        section.steps.push_back(step(WhyOp::times, chain.why.sections[finished.bulk].title,
                                     chain.result(finished.bulk), {}, finished.bulk));
    }
    for (std::size_t i = 0; i < finishing.additions.size(); ++i) {
        const IngredientId added = finishing.additions[i].what;
        std::uint32_t inside = nothing;
        if (added != contents.what) {
            inside = content_section(contents, added);
            if (inside == nothing) continue;
        }
        std::uint32_t from = addition_section(chain, finished, finishing, i);
        if (inside != nothing) {
            from = sum_section(
                contents, {{from, inside}},
                fmt::format("{} by way of {}", chain.name(contents.what), chain.name(added)));
        }
        section.steps.push_back(step(section.steps.empty() ? WhyOp::start : WhyOp::plus,
                                     chain.why.sections[from].title, chain.result(from), {}, from));
    }
    if (section.steps.empty()) return nothing;
    if (section.steps.size() == 1) return section.steps[0].from;  // nothing is left to reckon
    return chain.add(std::move(section));
}

/// The `dilute` line by which a dilution stands in a bowl.
Span dilute_line(const Chain& chain, const Asked& asked, const Bowl& bowl, IngredientId dilution) {
    const std::vector<Diluted>& lines =
        bowl.mix == no_ingredient ? asked.version->dilutions : mix_in(chain, bowl.mix)->dilutions;
    for (const Diluted& line : lines)
        if (chain.formulary().dilutions[line.dilution].self == dilution) return line.span;
    return {};
}

void add_batches(Chain& chain, const Asked& asked, std::uint32_t whole, const Sheets& sheets) {
    for (const Sheet& sheet : sheets.sheets) {
        const Batch* batch = sheet.batch == nothing ? nullptr : &asked.shade->batches[sheet.batch];
        const std::string name = batch ? batch->name : "what is made";
        const Exact total = in_grams(sheet.total);
        WhySection grams_section;
        if (batch) {
            const std::uint32_t size = batch_section(chain, batch->size, name, total);
            grams_section.steps.push_back(
                step(WhyOp::start, chain.why.sections[size].title, chain.result(size), {}, size));
        } else {
            grams_section.steps.push_back(step(WhyOp::start, name, total));
            grams_section.steps.back().unit = WhyUnit::grams;
        }
        grams_section.unit = WhySection::Unit::grams;
        grams_section.title = fmt::format("grams of {} in {}", chain.why.ingredient, name);
        grams_section.steps.push_back(
            step(WhyOp::times, chain.why.sections[whole].title, chain.result(whole), {}, whole));
        if (sheet.ends && sheet.ends->total && sheet.ends->total->open())
            grams_section.steps.push_back(
                step(WhyOp::note,
                     fmt::format("by the figures with `±` the batch comes to {} g at least and {} "
                                 "g at most",
                                 number_words(sheet.ends->total->least),
                                 number_words(sheet.ends->total->most)),
                     {}));
        chain.add(std::move(grams_section));
        const GramsWriter writer(sheet.reading);
        for (const Bowl& bowl : sheet.bowls)
            for (const SheetLine& line : bowl.lines)
                if (line.what == asked.what)
                    chain.why.readings.push_back(
                        {name,
                         std::string(bowl_name(chain.formulary(), sheet, bowl)),
                         writer.text(line.steps),
                         "",
                         {}});
                else if (const Dilution* one = dilution_of(chain.formulary(), line.what);
                         one && one->what == asked.what)
                    chain.why.readings.push_back(
                        {name, std::string(bowl_name(chain.formulary(), sheet, bowl)),
                         writer.text(line.steps), chain.name(line.what),
                         dilute_line(chain, asked, bowl, line.what)});
    }
}

/// Leaves out the sections that led nowhere. Asked for are `whole`, and those of batches.
void keep_needed(Why& why, std::uint32_t whole, std::size_t batches) {
    const std::size_t count = why.sections.size();
    std::vector<bool> needed(count);
    for (std::size_t i = count; i-- > 0;) {
        if (i == whole || i >= batches) needed[i] = true;
        if (!needed[i]) continue;
        for (const WhyStep& one : why.sections[i].steps)
            if (one.from != nothing) needed[one.from] = true;
    }
    std::vector<WhySection> kept;
    std::vector<std::uint32_t> now(count, nothing);
    for (std::size_t i = 0; i < count; ++i) {
        if (!needed[i]) continue;
        for (WhyStep& one : why.sections[i].steps)
            if (one.from != nothing) one.from = now[one.from];
        now[i] = static_cast<std::uint32_t>(kept.size());
        kept.push_back(std::move(why.sections[i]));
    }
    why.sections = std::move(kept);
}

Choice choice_of(const Asked& asked, const WhyQuestion& question) {
    Choice choice;
    choice.shade = asked.shade->name;
    if (!asked.version->variant.empty()) choice.variant = asked.version->variant;
    if (asked.finishing != nothing) choice.finish = asked.finish;
    choice.batch = question.batch;
    choice.make = question.make;
    choice.words = choice.materials = choice.expectations = false;
    return choice;
}

}  // namespace

Outcome<std::optional<Why>> why(const Compiled& compiled, const WhyQuestion& question) {
    Outcome<std::optional<Why>> out;
    Asked asked;
    if (!look_up(compiled, question, asked, out.findings)) return out;
    if (asked.version->broken) return out;  // said when it was resolved
    WorkCounter work(compiled.formulary);
    work.add(*asked.version, asked.finishing, 1);
    if (work.too_much()) {
        out.findings.push_back(say_too_much(asked.shade->span));
        return out;
    }
    Why why;
    why.ingredient = compiled.formulary.name(asked.what);
    why.shade = asked.shade->name;
    why.variant = asked.version->variant;
    why.finish = asked.finish;
    Chain chain{compiled, why};
    Contents contents{chain, asked.what};
    if (asked.finishing != nothing) {
        FinishScratch scratch;
        Finished finished;
        if (!finish(compiled.formulary, compiled.names, asked.version->formula,
                    &compiled.formulary.finishings[asked.finishing], why.shade, asked.shade->span,
                    scratch, finished, out.findings))
            return out;
    }
    const std::uint32_t whole = whole_section(contents, asked);
    if (whole == nothing) {
        out.findings.push_back(none_found(fmt::format("{} holds no {}.", why.shade, why.ingredient),
                                          "See what it holds with `levigate weigh FILE`."));
        return out;
    }
    why.share = chain.result(whole);
    const std::size_t batches = why.sections.size();
    if (asked.shade->own) {
        Sheets sheets = expand(compiled.formulary, compiled.names, choice_of(asked, question));
        add_batches(chain, asked, whole, sheets);
        for (Finding& finding : sheets.findings) out.findings.push_back(std::move(finding));
    }
    keep_needed(why, whole, batches);
    out.value = std::move(why);
    return out;
}

}  // namespace levigate
