#include "interpreter/cli/choose_plans.hpp"

#include <fmt/format.h>

#include "interpreter/query/near.hpp"

namespace levigate::cli {
namespace {

Finding no_plan(const Formulary& formulary, const std::string& name) {
    if (name.empty())
        return {Code::choice_none, "This file has no plan.", Span{},
                "Write a block `plan NAME` with lines such as `make full of Quince`."};
    std::vector<std::string> known;
    for (const Plan& plan : formulary.plans) known.push_back(plan.name);
    Finding finding{Code::choice_none, fmt::format("No plan is called `{}`.", name), Span{}};
    offer_known(name, known, finding);
    return finding;
}

}  // namespace

std::vector<const Plan*> choose_plans(const Compiled& compiled, const std::string& name,
                                      Findings& findings) {
    const Formulary& formulary = compiled.formulary;
    const Sym sym = name.empty() ? no_name : compiled.names.find(name);
    std::vector<const Plan*> out;
    for (const Plan& plan : formulary.plans)
        if (name.empty() ? plan.span.source == formulary.file : sym != no_name && plan.sym == sym)
            out.push_back(&plan);
    if (out.empty()) findings.push_back(no_plan(formulary, name));
    return out;
}

}  // namespace levigate::cli
