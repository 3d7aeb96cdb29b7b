#pragma once
// What can be done about a line that is too small to be weighed well. Reckoned in remedies.hpp.

#include <cstdint>
#include <optional>
#include <vector>

#include "interpreter/formulary/formulary.hpp"

namespace levigate {

/// A dilution for one batch: more than is needed is weighed with a diluent from the same bowl, and
/// a part of the mixture, the aliquot, is taken. Amounts in steps of the balance.
struct AliquotRemedy {
    Exact factor;             ///< so many times the need is diluted
    Exact weigh, with, take;  ///< of the line, of the diluent, of their mixture
    Exact less;           ///< so much less of the diluent goes into the bowl, by this line alone
    Exact reads;          ///< its line, with the aliquots of the lines above this one as well
    bool others = false;  ///< there are such lines
};

enum class NoAliquot : std::uint8_t { none, no_diluent, too_little, over_capacity, diluted };

/// A line of a bowl, and what makes it weighable.
struct Remedy {
    std::uint32_t bowl = 0, line = 0;
    std::uint32_t diluent = nothing;  ///< a line of the same bowl
    Mass least;                       ///< from here on it could be weighed: whole steps
    bool usual = false;               ///< the balance says nothing of that: `least` is by 5 %
    std::optional<Mass> batch;        ///< the finished whole; under --onto the bulk that is there
    std::optional<ContainerCount> containers;  ///< that come to `batch`
    std::optional<Exact> bowl_steps;  ///< of a blend: so much of it at once, to keep what is over
    std::optional<Share> further;     ///< of a dilution: so weak its line could be weighed
    std::optional<AliquotRemedy> aliquot;
    NoAliquot why_not = NoAliquot::none;
};

using Remedies = std::vector<Remedy>;  ///< in the order of the lines

}  // namespace levigate
