#pragma once
// What to do about lines that are too small: beside their bowl, and at the end of a run.

#include <string>

#include "interpreter/expand/sheet.hpp"
#include "interpreter/expand/stock.hpp"
#include "interpreter/render/cautions.hpp"
#include "interpreter/render/document.hpp"

namespace levigate {

/// "+0.83", "-100.00": how far a line's reading is off, in percent; empty for a line of nothing. In
/// a dilution's bowl it is held against what is made, not against what is asked.
std::string off_cell(const Formulary& formulary, const Sheet& sheet, const Bowl& bowl,
                     const SheetLine& line);
/// The same for programs: at most four places, no sign before what is over.
std::string rounding_text(const Formulary& formulary, const Sheet& sheet, const Bowl& bowl,
                          const SheetLine& line);

/// "It weighs well from 0.2 g on, …"; empty where nothing says so.
std::string about_least(const Reading& reading);

/// The ways for each small line of a bowl; nothing where there is none.
void add_remedies(document::Document& out, const Formulary& formulary, const Sheet& sheet,
                  std::size_t bowl);

/// The dilutions to prepare, over all sheets of a run; empty where there are none.
document::Document stocks_document(const Formulary& formulary, const StockDilutions& stocks,
                                   Cautions& cautions);

}  // namespace levigate
