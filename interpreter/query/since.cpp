#include "interpreter/query/since.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "interpreter/formulary/say.hpp"

namespace levigate {
namespace {

// ---- 0.1 to 0.2 --------------------------------------------------------------------------------

/// What 0.1 took in silence.
constexpr Code refused_in_0_2[] = {Code::block_empty, Code::label_shares};

Finding changed(std::string message, Span span, std::string advice) {
    return {.code = Code::changed_since,
            .message = std::move(message),
            .span = span,
            .advice = std::move(advice)};
}

void add_refused(const Findings& said, Findings& out) {
    for (const Finding& finding : said) {
        if (finding.severity != Severity::error) continue;
        if (std::find(std::begin(refused_in_0_2), std::end(refused_in_0_2), finding.code) ==
            std::end(refused_in_0_2))
            continue;
        out.push_back(changed(
            fmt::format("Version 0.1 took this without a word, and now it is an error: {}",
                        finding.message),
            finding.span, remedy(finding)));
    }
}

/// 0.1 took no balance but FILE's own.
void add_balance(const Formulary& formulary, Findings& out) {
    if (!formulary.own_balances.empty() || formulary.only_balance == nothing) return;
    const Balance& balance = formulary.balances[formulary.only_balance];
    for (const Shade& shade : formulary.shades) {
        if (!shade.own || shade.balance != nothing || shade.balance_lost) continue;
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

}  // namespace

std::vector<std::string_view> versions_before() { return {"0.1"}; }

Findings changes_since(std::string_view version, const Compiled& compiled, const Findings& said) {
    Findings out;
    if (version != "0.1") return out;
    add_refused(said, out);
    add_balance(compiled.formulary, out);
    return out;
}

}  // namespace levigate
