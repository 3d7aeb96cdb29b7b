#pragma once
// Amounts and names as they stand in a sentence of a finding.

#include <string>
#include <vector>

#include "grammar/names.hpp"
#include "interpreter/formulary/formulary.hpp"

namespace levigate {

/// "18", "0.125", "2 1/3": exact where that is a short decimal, thirds or sixths, which people read
/// at a glance; else "about 7.1429".
std::string number_words(const Exact& number);
/// For what is to be written into a file, and for arithmetic that is to be redone: any short
/// fraction is exact too, "1 6/19".
std::string exact_words(const Exact& number);
/// "18 %", "about 7.1429 %".
std::string percent_words(const Share& share);
std::string exact_percent_words(const Share& share);
/// "2.5 g".
std::string gram_words(const Mass& mass);
/// The same as it can be written into a file.
std::string exact_gram_words(const Mass& mass);
/// "0.9 g/mL", "0.9 g/mL ± 0.02 g/mL": as it can be written into a file.
std::string density_words(const Density& density, const Exact& by);
/// A measure's name behind so many: "drop", "drops", "jars of glass", "mL".
std::string counted(const std::string& measure, const Exact& number);
/// "Quince, Damson and Sloe"; beyond `most` names "Quince, Damson and 3 more".
std::string list_words(const std::vector<std::string>& names, std::size_t most = 6);
/// The names of all balances: "bench and pocket".
std::string balances_words(const Formulary& formulary);
/// The role as it was first written: "lake".
std::string role_words(const Formulary& formulary, const Names& names, Sym role);
/// "soft base", "the lake", "the bulk".
std::string ref_words(const Formulary& formulary, const Names& names, const Ref& ref);

/// What to write so that a formula holds something of a role: "Write `role base` under `material
/// soft wax`, if that is the base". The likeliest line is the rest, or else the largest.
std::string role_advice(const Formulary& formulary, const Names& names, const Formula& formula,
                        Sym role);

/// True where the ingredient can be counted with: a material, or a mix that is solved and whole.
bool usable(const Formulary& formulary, IngredientId ingredient);
/// True where nothing says which block the line means, or which one a line of its mix means.
bool ambiguous(const Formulary& formulary, const Part& part);
/// The mix behind a blend or a shade's bulk; none for a material.
const Mix* mix_of(const Formulary& formulary, IngredientId ingredient);

}  // namespace levigate
