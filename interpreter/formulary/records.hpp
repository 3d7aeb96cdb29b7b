#pragma once
// What really went into a bowl: pours, and the records that are kept of them. A record tells what
// was; where it names what is no longer there, the words still stand.

#include <optional>
#include <string>
#include <vector>

#include "interpreter/formulary/formulary.hpp"

namespace levigate {

struct Pour {
    std::string name;                   ///< as written
    IngredientId what = no_ingredient;  ///< none: nothing is called so, or it is a shade's bulk
    ShadeId shade = nothing;            ///< of which it is the bulk
    Mass mass;
    bool estimated = false;             ///< came from a volume
    std::string lot;                    ///< empty where none is told
    std::string bowl;                   ///< the blend that it went into; empty: the shade's own
    IngredientId into = no_ingredient;  ///< that blend
    Span span;
};

/// What else came of a batch, to be used or sold under a lot of its own.
struct Made {
    std::string amount;                 ///< "12 g"; "47 slim tubes"
    std::string name;                   ///< as written; empty: the record's own shade
    IngredientId what = no_ingredient;  ///< none: nothing is called so, or it is a shade
    std::string lot;                    ///< empty where none is told
    Span span;
};

struct Record {
    std::string day;    ///< "2026-11-25"
    std::string title;  ///< "full of Quince / matte", as written
    ShadeId shade = nothing;
    std::string batch;  ///< or `size`
    std::optional<BatchSize> size;
    std::vector<Sym> under;  ///< variant and finish, as far as they are named
    std::vector<Pour> planned, weighed;
    std::string by, code;
    std::optional<BatchSize> filled;
    std::vector<std::string> notes, deviations;
    std::vector<std::string> said, readings;  ///< findings of that day; what a meter showed
    std::vector<Made> made;
    std::string formula;    ///< fingerprint of the formula as it stood
    std::string commit;     ///< of git, that holds the formula; empty where none is told
    std::string stamp;      ///< empty in a record of an earlier version
    bool finished = false;  ///< its last line is there
    bool damaged = false;   ///< a line of it can't be read
    bool altered = false;   ///< not as it was written
    bool cut = false;       ///< lines of it are missing
    bool joined = false;    ///< it seems to be two records in one: of an earlier version
    Span span;              ///< the heading

    /// It can be shown as what one batch was.
    bool shown() const { return finished && !joined; }
    bool whole() const { return shown() && !damaged && !altered && !cut; }
};

}  // namespace levigate
