#include "interpreter/expand/expand.hpp"

#include "interpreter/expand/run.hpp"

namespace levigate {

Sheets expand(const Formulary& formulary, const Names& names, const Choice& choice) {
    return Run(formulary, names, choice, false)();
}

Findings check_all(const Formulary& formulary, const Names& names, const Choice& choice) {
    Choice every = choice;
    every.make.reset();
    every.onto.reset();
    every.all = true;
    every.words = false;
    every.materials = false;
    every.expectations = true;
    return Run(formulary, names, every, true)().findings;
}

}  // namespace levigate
