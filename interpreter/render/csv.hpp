#pragma once
// Sheets as comma-separated values (RFC 4180 quoting, LF line ends), one row a bowl line:
//     shade,variant,finish,batch,bowl,ingredient,grams,percent,exact
// The variant, finish or batch that a sheet doesn't have is an empty field.

#include <string>
#include <string_view>
#include <vector>

#include "interpreter/render/amounts.hpp"

namespace levigate {

void write_csv(const Formulary& formulary, const std::vector<Sheet>& sheets, std::string& out,
               const Drain& drain);

/// A field, in quotes where it must be.
std::string csv_field(std::string_view text);

}  // namespace levigate
