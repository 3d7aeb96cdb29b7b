#include "interpreter/expand/expand.hpp"

#include "interpreter/expand/run.hpp"

namespace levigate {

Sheets expand(const Formulary& formulary, const Names& names, const Choice& choice) {
    return Run(formulary, names, choice, false)();
}

Checked check_all(const Formulary& formulary, const Names& names, const Choice& choice) {
    Choice every = choice;
    every.make.reset();
    every.onto.reset();
    every.all = true;
    every.words = false;
    every.materials = false;
    every.expectations = true;
    Run run(formulary, names, every, true);
    Findings findings = run().findings;
    return {std::move(findings), std::move(run).verdicts()};
}

}  // namespace levigate
