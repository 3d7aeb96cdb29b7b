#pragma once
// What comes of one file: its sheets, lists and verdicts, kept only as far as two states are
// compared by them. Names are folded, so that both states can be laid side by side.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "interpreter/changes/changes.hpp"

namespace levigate::changing {

/// A name, compared by its folded form.
struct Word {
    std::string shown, key;
};

struct RowFact {
    Word bowl;  ///< the blend's; empty for the shade's own
    Word what;
    Share share;
};

struct BatchFact {
    Word name;
    std::string total;               ///< grams as weighed
    std::vector<std::string> grams;  ///< one a row of the product
    std::optional<CostSeen> cost;    ///< nothing where no price stands anywhere, and for members
};

struct ProductFact {
    Word variant, finish;
    std::vector<RowFact> rows;
    std::vector<BatchFact> batches;
};

struct LabelFact {
    Word region, variant, finish;
    std::string text;
};

struct ExpectFact {
    Word wording;  ///< compared by what it asks, with marked names
    Verdict verdict = Verdict::unknown;
};

struct ShadeFact {
    Word name, family;
    std::string file;
    std::vector<ProductFact> products;
    std::vector<LabelFact> labels;
    std::vector<ExpectFact> expects;
};

struct Facts {
    std::vector<ShadeFact> shades;                   ///< FILE's own
    std::vector<std::pair<Code, std::string>> lips;  ///< code and message
};

/// Joins what comes of the file to what came of others.
void add_facts(StateFile& file, const Comparing& how, Facts& facts);

}  // namespace levigate::changing
