#pragma once
// The usual cautions, at the bowl where the material is. Common practice, not a safety sheet:
// what no file states is unknown, and the closing line says so.

#include <set>
#include <string>
#include <vector>

#include "interpreter/expand/sheet.hpp"
#include "interpreter/formulary/formulary.hpp"

namespace levigate {

/// Who asks for care in what is weighed into a bowl. A blend of powders is still a powder, so it
/// looks into blends; a made bulk holds its powders wet, but a thinner in it still burns.
class Cautions {
public:
    explicit Cautions(const Formulary& formulary) : formulary_(formulary) {}
    /// One sentence a hazard, naming the ingredients; none where no file states one.
    std::vector<std::string> of(const Bowl& bowl);
    /// A note is said once in a run, where it comes first: those of these that are new.
    std::vector<std::string> fresh(const std::vector<std::string>& notes);

private:
    struct Hazards {
        bool seen = false, powder = false, flammable = false;
    };
    Hazards hazards(IngredientId id);
    /// From those of its parts, which are known where they are mixes.
    Hazards hazards_of(IngredientId id) const;

    const Formulary& formulary_;
    std::vector<Hazards> seen_;
    std::set<std::string> notes_;  ///< said already
};

/// The closing line of every run of sheets.
std::string closing_caution();

}  // namespace levigate
