#pragma once
// What there is to say of one material in one region, whatever product holds it. No finding is
// legal advice, and each names the section that it rests on.

#include <string>
#include <vector>

#include "grammar/finding.hpp"
#include "interpreter/rules/book.hpp"

namespace levigate {

/// A finding without the products that show it. What is the same is said once: of the rule, or of
/// the rule and the material, or of one colour index number of it.
struct Remark {
    Finding finding;
    std::uint32_t rule = nothing;  ///< index in Formulary::rules; none: of the region
    IngredientId material = no_ingredient;
    Sym index = no_name;
};

std::vector<Remark> remarks_on(const Formulary& formulary, const Names& names, const Called& region,
                               IngredientId material, const Claims& claims);

/// "21 CFR 74.2333, text of 2026-04-05"; says so where nobody noted a source.
std::string source_words(const Rule& rule);

}  // namespace levigate
