#pragma once
// How amounts and names are written, the same in every output.

#include <cstdint>
#include <string>
#include <string_view>

#include "interpreter/expand/sheet.hpp"
#include "interpreter/formulary/formulary.hpp"

namespace levigate {

/// Writes steps of one balance as grams with its places: 43 steps of 0.01 g are "0.43".
class GramsWriter {
public:
    explicit GramsWriter(const Reading& reading);
    void append(std::string& out, const Exact& steps) const;
    std::string text(const Exact& steps) const;
    /// Any mass, rounded half up to a step.
    std::string rounded(const Mass& mass) const;
    /// "52.90 to 55.10 g": rounded outwards, so that no end is cut off.
    std::string between(const Ends& ends) const;

private:
    Exact step_;
    int places_;
    std::int64_t units_ = 0;  ///< of the last place in a step; 0 where that does not fit
};

/// "7.1111": at most four places, closing zeros dropped.
void append_percent(std::string& out, const Share& share);
std::string percent_text(const Share& share);

/// Two places are enough to read by, save where a line would look like nothing.
int percent_places(const Bowl& bowl);

/// The words that tell a sheet from the others; empty where a sheet has none.
struct SheetNames {
    std::string_view shade, variant, finish, batch;
};
SheetNames names_of(const Formulary& formulary, const Sheet& sheet);
/// "Quince · matte · trial · 6.00 g", with the total of the sheet; behind it "(5.88 to 6.12 g)"
/// where figures with `±` leave the total an interval.
std::string sheet_heading(const Formulary& formulary, const Sheet& sheet);
/// The same with another weight than the total, in steps of the sheet's balance.
std::string sheet_heading(const Formulary& formulary, const Sheet& sheet, const Exact& steps);
/// "Take 0.30 g of it. Keep the other 1.70 g, labelled …": of a dilution that is made larger than
/// it is needed. Empty for any other bowl.
std::string kept_words(const Formulary& formulary, const Bowl& bowl, const GramsWriter& grams);

std::string_view bowl_name(const Formulary& formulary, const Sheet& sheet, const Bowl& bowl);

}  // namespace levigate
