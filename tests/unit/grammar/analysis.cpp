// The grammar as a whole: PEGTL's own analysis finds rules that could go on for ever without
// reading anything.

#include <catch2/catch.hpp>
#include <tao/pegtl/contrib/analyze.hpp>

#include "grammar/forms.hpp"

namespace {

namespace r = levigate::rules;
namespace pegtl = tao::pegtl;

struct headings
    : pegtl::sor<r::language_heading, r::use_heading, r::unit_heading, r::material_heading,
                 r::blend_heading, r::shade_heading, r::variant_heading, r::finish_heading,
                 r::family_heading, r::container_heading, r::balance_heading, r::rule_heading,
                 r::plan_heading> {};
struct formula_lines : pegtl::sor<r::set_line, r::add_line, r::without_line, r::swap_line,
                                  r::scale_line, r::rebalance_line, r::fresh_line, r::dilute_line,
                                  r::let_line, r::ingredient_line> {};
struct shade_lines : pegtl::sor<r::variants_line, r::finishes_line, r::batch_line, r::weigh_on_line,
                                r::expect_line, r::step_line, r::note_line, r::swatch_line> {};
struct material_lines
    : pegtl::sor<r::role_line, r::label_line, r::colourant_line, r::density_line, r::bulk_line,
                 r::price_line, r::hazard_line, r::also_called_line> {};
struct other_lines : pegtl::sor<r::from_line, r::vary_line, r::between_line, r::pattern_line,
                                r::columns_line, r::row_line, r::holds_line, r::reads_line,
                                r::up_to_line, r::least_line, r::covers_line, r::lips_line,
                                r::counts_line, r::certified_line, r::source_line, r::make_line> {};
struct any_line : pegtl::sor<headings, formula_lines, shade_lines, material_lines, other_lines> {};

}  // namespace

TEST_CASE("no rule of the grammar can go on without reading") {
    CHECK(pegtl::analyze<any_line>() == 0);
}
