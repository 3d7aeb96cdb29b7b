#pragma once
// What goes into an edition: the shades that were chosen, all that they use, and which of it is
// written as its maker wrote it, and which worked out.

#include <set>
#include <string>
#include <vector>

#include "interpreter/share/index.hpp"

namespace levigate::sharing {

enum class Way : std::uint8_t {
    written,  ///< line by line
    flat,     ///< worked out: what it is like stays at home
};

struct PickedMix {
    IngredientId id = no_ingredient;
    Way way = Way::written;
    Place place;
};

/// A shade, or a family that is written as one.
struct PickedShade {
    ShadeId id = nothing;
    Way way = Way::written;
    Place place;                  ///< of a flat member its family's
    BalanceId balance = nothing;  ///< that must be named, though the file doesn't
    bool usual_balance = false;   ///< none is named, and others are there: 0.01 g
    bool family = false;
};

struct Picked {
    std::vector<Place> tables;  ///< rules, regions, units, containers, balances
    std::vector<Place> materials;
    std::vector<PickedMix> mixes;  ///< what a mix needs stands before it
    std::vector<Place> versions;   ///< variants and finishes
    std::vector<PickedShade> shades;
    std::vector<bool> chosen;  ///< by ShadeId: these come out
    std::vector<bool> hidden;  ///< by IngredientId: only sealed blends hold it, and no line may
                               ///< bring it along
    bool usual_balance = false;
    bool powder = false, flammable = false;
};

/// `wanted`: shades and families by name; empty: what the edition block says, else all of FILE's.
/// `compiled` is public. `inside`: folded names of what sealed blends hold.
Outcome<Picked> pick(const Compiled& compiled, const Index& index,
                     const std::vector<std::string>& wanted, const std::set<std::string>& inside);

/// A name that is to go out, and is neither a shade's nor a family's here. `in_file`: it stands in
/// the file's own block `edition`, not on the command line.
Finding none_called(const Compiled& compiled, const std::string& name, bool in_file);

}  // namespace levigate::sharing
