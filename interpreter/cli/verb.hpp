#pragma once
// What a verb is to the command line. A verb is one file that defines one Verb, and one row in
// verbs.cpp; the parser, the help and the suggestions come from here.

#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace levigate::cli {

/// Exit statuses, of every verb.
enum Status : int {
    done = 0,
    recipe_wrong = 1,   ///< the recipe has an error
    command_wrong = 2,  ///< the command line is wrong
    file_trouble = 3,   ///< a file can't be read or written
};

struct Option {
    std::string_view name;   ///< "--shade", "-o"
    std::string_view value;  ///< "NAME"; "[NAME]": may be left out; empty: a switch
    std::string_view help;
    std::string_view choices = {};  ///< "text|markdown": the values it takes; empty: any
    bool many = false;              ///< may stand again; its values are lines, in their order
};

/// A command line that was understood as far as its verb's options go.
struct Arguments {
    std::vector<std::string> operands;
    std::map<std::string_view, std::string> values;  ///< by option name; a switch has an empty one

    bool has(std::string_view option) const { return values.contains(option); }
    std::optional<std::string> get(std::string_view option) const {
        auto found = values.find(option);
        if (found == values.end()) return std::nullopt;
        return found->second;
    }
    std::string get_or(std::string_view option, std::string_view otherwise) const {
        return get(option).value_or(std::string(otherwise));
    }
    bool json() const { return get_or("--as", "") == "json"; }
};

struct Verb {
    std::string_view name;
    std::string_view operands;  ///< "FILE", as the help shows them
    std::size_t least = 0, most = 0;
    std::string_view summary;  ///< one line
    std::span<const Option> options;
    std::string_view examples;  ///< indented lines
    std::string_view results;   ///< key of the list in its JSON object; empty: it writes none
    int (*run)(const Arguments& arguments) = nullptr;
};

/// All of them, in the order of the help.
std::span<const Verb* const> verbs();

}  // namespace levigate::cli
