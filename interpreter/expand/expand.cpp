#include "interpreter/expand/expand.hpp"

#include "interpreter/expand/run.hpp"

namespace levigate {

Sheets expand(const Formulary& formulary, const Names& names, const Choice& choice) {
    Sheets out;
    out.findings = expand_each(formulary, names, choice,
                               [&](Sheet& sheet) { out.sheets.push_back(std::move(sheet)); });
    return out;
}

Findings expand_each(const Formulary& formulary, const Names& names, const Choice& choice,
                     const TakeSheet& take) {
    return Run(formulary, names, choice, take)();
}

Checked check_all(const Formulary& formulary, const Names& names, const Choice& choice) {
    Choice every = choice;
    every.make.reset();
    every.onto.reset();
    every.all = true;
    every.words = false;
    every.materials = false;
    every.expectations = true;
    Run run(formulary, names, every, {});
    Findings findings = run();
    return {std::move(findings), std::move(run).verdicts()};
}

}  // namespace levigate
