#pragma once
// A whole book, step by step. See generate.hpp for the parts.

#include "tests/properties/generate.hpp"

namespace levigate::testing {

using Indices = std::vector<int>;

struct BookMaker : Maker {
    using Maker::Maker;
    std::vector<Id> shades{};
    int expected = 0;  // lines that expect something
    int steps_made = 0;
    bool own_matte = false;  // a finish `matte` of the page's own is still to come

    // generate.cpp
    void materials();
    void blends();
    void tools();
    void library_finishes();
    void retreat(Id id);
    Finish own_finish(const Mixture& bulk);
    /// True where the shade adds up as written and under these variants, with the finish or not.
    bool fits(const Body& body, const Indices& variants, const Finish* finish);
    Indices variants_for(const Body& body);
    Indices finishes_for(const Body& body, const Indices& variants);

    // generate_shades.cpp
    Batch batch(const std::string& name, bool pourable);
    void root_shade();
    void like_shade();
    void spoil(Thing& thing);
    void slip(Thing& thing);
    // expects.cpp
    void expects(Thing& thing);
    void steps(const Plains& plains, Body& body);
    void families();
    void vary(Id from, const std::string& hole);
    void table(Id from, const std::vector<std::string>& holes);
    void between(Id from, Id to);
    /// True where every version with every finish has a density.
    bool pourable(const Body& body, const Indices& variants, const Indices& finishes);
};

}  // namespace levigate::testing
