#include "interpreter/query/since.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "interpreter/formulary/say.hpp"

namespace levigate {
namespace {

// ---- 0.1 to 0.2 --------------------------------------------------------------------------------

/// What 0.1 took in silence.
constexpr Code refused_in_0_2[] = {Code::block_empty, Code::label_shares, Code::filled_over};

Finding changed(std::string message, Span span, std::string advice) {
    return {.code = Code::changed_since,
            .message = std::move(message),
            .span = span,
            .advice = std::move(advice)};
}

/// A lot on a shelf is called as it is in records, so an `in` in it needs quotes too.
bool lot_on_shelf(const Compiled& compiled, const Finding& finding) {
    if (finding.code != Code::line_malformed || !finding.span) return false;
    const std::string_view text = compiled.sources[finding.span.source].text;
    const std::size_t begin = text.find_last_of('\n', finding.span.begin) + 1;  // 0 if none
    const std::string_view line = text.substr(begin, finding.span.begin - begin);
    return text.substr(finding.span.begin, 2) == "in" && line.find("have") != line.npos &&
           line.find("lot ") != line.npos;
}

void add_refused(const Compiled& compiled, const Findings& said, Findings& out) {
    for (const Finding& finding : said) {
        if (finding.severity != Severity::error) continue;
        if (std::find(std::begin(refused_in_0_2), std::end(refused_in_0_2), finding.code) ==
                std::end(refused_in_0_2) &&
            !lot_on_shelf(compiled, finding))
            continue;
        out.push_back(changed(
            fmt::format("Version 0.1 accepted this. It is an error now ({}).",
                        row_of(finding.code).name),
            finding.span, {}));
    }
}

/// 0.1 took no balance but FILE's own.
void add_balance(const Formulary& formulary, Findings& out) {
    if (!formulary.own_balances.empty() || formulary.only_balance == nothing) return;
    const Balance& balance = formulary.balances[formulary.only_balance];
    if (balance.step == grams(Exact(1, 100))) return;  // the same steps
    for (const Shade& shade : formulary.shades) {
        if (!shade.own || shade.balance != nothing || shade.balance_lost || shade.batches.empty())
            continue;
        out.push_back(changed(
            fmt::format("Version 0.1 weighed {} in steps of 0.01 g. Now it is weighed on {}, in "
                        "steps of {}, the only balance of the files used.",
                        shade.name, balance.name, gram_words(balance.step)),
            shade.span,
            fmt::format("Write `weigh on {}` if that is right. To keep steps of 0.01 g, write a "
                        "block `balance` with `reads 0.01 g` into this file.",
                        balance.name)));
        return;  // the others are weighed on the same
    }
}

/// In 0.1 the lot of a line's last pour went on to the line's end, ` in NAME` and all.
void add_lots(const Compiled& compiled, Findings& out) {
    for (const LoadedFile& file : compiled.files)
        for (const tree::Line& line : file.tree.lines) {
            const auto* list = std::get_if<tree::PourList>(&line.body);
            if (list == nullptr || list->pours.empty()) continue;
            const tree::Pour& last = list->pours.back();
            if (!last.lot || !last.bowl || last.bowl.span.begin < last.lot.span.end) continue;
            const Span whole = cover(last.lot.span, last.bowl.span);
            out.push_back(changed(
                fmt::format("Version 0.1 read the lot here as `{}`. Now it is lot {}, weighed into "
                            "the bowl of {}.",
                            shown(compiled.sources.text(whole)),
                            shown(compiled.sources.text(last.lot.span)),
                            shown(compiled.sources.text(last.bowl.span))),
                whole, "If `in` belongs to the lot, put the lot into double quotes."));
        }
}

}  // namespace

std::vector<std::string_view> versions_before() { return {"0.1"}; }

Findings changes_since(std::string_view version, const Compiled& compiled, const Findings& said) {
    Findings out;
    if (version != "0.1") return out;
    add_refused(compiled, said, out);
    add_lots(compiled, out);
    add_balance(compiled.formulary, out);
    return out;
}

}  // namespace levigate
