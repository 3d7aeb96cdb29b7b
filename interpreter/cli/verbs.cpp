#include "interpreter/cli/verb.hpp"

namespace levigate::cli {

extern const Verb weigh_verb, card_verb, plan_verb, rescue_verb, record_verb, check_verb,
    label_verb, cost_verb, share_verb, shades_verb, why_verb, tidy_verb, changes_verb, git_verb,
    explain_verb;

// The one table of verbs.
static constexpr const Verb* table[] = {
    &weigh_verb, &card_verb,  &plan_verb,    &rescue_verb, &record_verb,
    &check_verb, &label_verb, &cost_verb,    &share_verb,  &shades_verb,
    &why_verb,   &tidy_verb,  &changes_verb, &git_verb,    &explain_verb,
};

std::span<const Verb* const> verbs() { return table; }

}  // namespace levigate::cli
