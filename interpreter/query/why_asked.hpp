#pragma once
// What `why` is asked for, looked up by name.

#include <string>

#include "interpreter/query/why.hpp"

namespace levigate::query {

struct Asked {
    const Shade* shade = nullptr;
    const Version* version = nullptr;
    FinishingId finishing = nothing;
    IngredientId what = no_ingredient;
    std::string finish;
};

Finding none_found(std::string message, std::string advice);

/// False where something isn't there; said then.
bool look_up(const Compiled& compiled, const WhyQuestion& question, Asked& asked,
             Findings& findings);

}  // namespace levigate::query
