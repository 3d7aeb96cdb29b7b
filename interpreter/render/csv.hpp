#pragma once
// Sheets as comma-separated values (RFC 4180 quoting, LF line ends), one row a bowl line:
//     shade,variant,finish,batch,bowl,ingredient,grams,percent,exact
// The variant, finish or batch that a sheet doesn't have is an empty field.

#include <string>
#include <string_view>
#include <vector>

#include "interpreter/render/amounts.hpp"

namespace levigate {

/// Sheets as they come. Half a million rows go through here: each name is quoted once, and the head
/// of a row once a bowl.
class CsvWriter {
public:
    explicit CsvWriter(const Formulary& formulary);
    void open(std::string& out) const;
    void append(const Sheet& sheet, std::string& out);
    void close(const Findings&, std::string&) const {}  ///< a table has no place for them

private:
    const Formulary& formulary_;
    std::vector<std::string> fields_;  ///< by IngredientId
    std::string head_, row_head_;
    // The shares of a product are the same in all its batches: written once.
    ShadeId shade_ = nothing;
    std::uint32_t version_ = 0;
    FinishingId finishing_ = nothing;
    std::vector<std::string> percents_;  ///< line by line
    void set_percents(const Sheet& sheet);
};

/// A field, in quotes where it must be.
std::string csv_field(std::string_view text);

}  // namespace levigate
