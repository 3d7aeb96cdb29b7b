#pragma once
// What comes of a rescue: the bowls of its additions, rounded for the balance, and how the product
// stands to what is expected of it and allowed on lips. The inside of rescue.hpp.

#include <vector>

#include "interpreter/expand/blueprint.hpp"
#include "interpreter/expand/densities.hpp"
#include "interpreter/expand/finished.hpp"
#include "interpreter/rescue/rescue.hpp"

namespace levigate {

class After {
public:
    After(const Formulary& formulary, const Names& names, const RescueOrder& order, Rescue& rescue)
        : formulary_(formulary), names_(names), order_(order), rescue_(rescue),
          densities_(formulary) {}

    /// Fills bowls, expectations and containers. Lips, and what the balance can't weigh, are found.
    void look(Findings& findings);

private:
    void tell_off();
    void weigh(Findings& findings);
    std::vector<FinishedLine> product() const;
    void expect(const std::vector<FinishedLine>& lines, Findings& findings);
    bool can_tell(const Expectation& expect) const;
    void judge_lips(const std::vector<FinishedLine>& lines, Findings& findings);
    void fill(const std::vector<FinishedLine>& lines);
    std::string title() const;
    const Shade& shade() const { return formulary_.shades[order_.product.shade]; }

    const Formulary& formulary_;
    const Names& names_;
    const RescueOrder& order_;
    Rescue& rescue_;
    Densities densities_;
};

}  // namespace levigate
