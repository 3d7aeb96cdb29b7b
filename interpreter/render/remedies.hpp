#pragma once
// What to do about lines that are too small: beside their bowl, and at the end of a run.

#include <string>

#include "interpreter/expand/sheet.hpp"
#include "interpreter/expand/stock.hpp"
#include "interpreter/render/cautions.hpp"
#include "interpreter/render/document.hpp"

namespace levigate {

/// How far the readings of one bowl are off, in percent: against the exact need. Of a dilution
/// more is made than the batch needs, and so of a blend that goes into one: their lines are held
/// against their part of what is made.
class OffBy {
public:
    OffBy(const Formulary& formulary, const Sheet& sheet, const Bowl& bowl);
    /// "+0.83", "-100.00"; empty for a line of nothing.
    std::string cell(const SheetLine& line) const;
    /// The same for programs: at most four places, no sign before what is over.
    std::string text(const SheetLine& line) const;

private:
    Exact of(const SheetLine& line) const;

    Exact step_;
    Exact times_ = 1;  ///< so many times the need is made
};

/// "It weighs well from 0.2 g on, …"; empty where nothing says so.
std::string about_least(const Reading& reading);

/// The ways for each small line of a bowl; nothing where there is none.
void add_remedies(document::Document& out, const Formulary& formulary, const Sheet& sheet,
                  std::size_t bowl);

/// The dilutions to prepare, over all sheets of a run; empty where there are none.
document::Document stocks_document(const Formulary& formulary, const StockDilutions& stocks,
                                   Cautions& cautions);

}  // namespace levigate
