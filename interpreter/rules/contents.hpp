#pragma once
// Net contents: what one container of a batch holds, in both systems, for the pack. Every figure is
// rounded down, so that the pack never promises more than it holds.
//
// Ounces: 1 oz = 28.349523125 g, 1 US fl oz = 29.5735295625 mL, exactly (NIST). Two decimals, and a
// third only where two would read 0; US rules for packs allow three at most (16 CFR 500.17, text of
// 2011; 21 CFR 701.13: memory). From 16 oz on pounds stand behind, as 701.13 asks for packs under
// 4 lb (../shared/facts, lip_colourants_us.md section 3, memory): 16 oz (1 lb). Grams and
// millilitres: three figures, two decimals at most.

#include <string>
#include <vector>

#include "interpreter/expand/product.hpp"
#include "interpreter/rules/box.hpp"

namespace levigate {

/// For each batch of the product's shade that counts containers; `batch` alone if it is given.
/// `density` is of the finished mix, for containers that hold a volume.
std::vector<NetContent> net_contents(const Formulary& formulary, const Region& region,
                                     const Product& product, Sym batch);

std::string ounces_text(const Mass& mass);            ///< "0.12 oz", "17.63 oz (1 lb 1.63 oz)"
std::string grams_text(const Mass& mass);             ///< "3.5 g"
std::string fluid_ounces_text(const Volume& volume);  ///< "0.13 fl oz"
std::string millilitres_text(const Volume& volume);   ///< "4 mL"

}  // namespace levigate
