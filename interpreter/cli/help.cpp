#include "interpreter/cli/help.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace levigate::cli {
namespace {

std::string left_of(const Option& option) {
    std::string_view value = option.choices.empty() ? option.value : option.choices;
    return value.empty() ? std::string(option.name) : fmt::format("{} {}", option.name, value);
}

}  // namespace

std::string general_help() {
    std::string out = "levigate: formulas of lip colour, and the sheets to weigh them by\n\n"
                      "usage: levigate VERB …\n\n";
    for (const Verb* verb : verbs()) {
        std::string left = fmt::format("{} {}", verb->name, verb->operands);
        if (left.size() > 18) left += fmt::format("\n{:20}", "");
        out += fmt::format("  {:<18} {}\n", left, verb->summary);
    }
    out += "\n`levigate VERB --help` says more about one of them; `levigate --version` "
           "says the version.\n\n"
           "Results go to standard output, findings to standard error. The exit status is 0 when\n"
           "all is well, 1 when the recipe has an error, 2 when the command line is wrong, and 3\n"
           "when a file can't be read or written.\n";
    return out;
}

std::string help_of(const Verb& verb) {
    std::string out = fmt::format("usage: levigate {} {}{}\n\n{}\n", verb.name, verb.operands,
                                  verb.options.empty() ? "" : " [options]", verb.summary);
    std::size_t width = std::string_view("--help").size();
    for (const Option& option : verb.options) width = std::max(width, left_of(option).size());
    out += "\noptions\n";
    for (const Option& option : verb.options)
        out += fmt::format("  {:<{}}  {}\n", left_of(option), width, option.help);
    out += fmt::format("  {:<{}}  this text\n", "--help", width);
    if (!verb.examples.empty()) out += fmt::format("\nexamples\n{}", verb.examples);
    return out;
}

}  // namespace levigate::cli
