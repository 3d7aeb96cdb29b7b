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
    return Run(formulary, names, choice, {.sheet = take})();
}

Findings expand_drawn(const Formulary& formulary, const Names& names, const Choice& choice,
                      const TakeDrawn& take) {
    return Run(formulary, names, choice, {.sheet = [](Sheet&) {}, .drawn = take})();
}

Findings each_product(const Formulary& formulary, const Names& names, const Choice& choice,
                      const TakeProduct& take) {
    Choice bare = choice;
    bare.words = bare.expectations = false;
    bare.materials = true;
    return Run(formulary, names, bare, {.product = take, .batches = false})();
}

Checked check_all(const Formulary& formulary, const Names& names, const Choice& choice,
                  const TakeProduct& take) {
    Choice every = choice;
    every.make.reset();
    every.onto.reset();
    every.all = true;
    every.words = false;
    every.materials = static_cast<bool>(take);
    every.expectations = true;
    Run run(formulary, names, every, {.product = take});
    Findings findings = run();
    return {std::move(findings), std::move(run).verdicts()};
}

bool about_weighing(Code code) {
    return code == Code::weigh_capacity || code == Code::weigh_least || code == Code::weigh_nothing;
}

}  // namespace levigate
