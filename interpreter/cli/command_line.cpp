// The only file that includes the argument parser: it costs seconds to compile. It reads words
// into Arguments by a verb's table; what it throws ends here, in words of ours.
#include "interpreter/cli/command_line.hpp"

#include <csignal>
#include <deque>

#include <CLI/CLI.hpp>
#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include "interpreter/cli/help.hpp"
#include "interpreter/cli/report.hpp"
#include "interpreter/query/near.hpp"

namespace levigate::cli {
namespace {

// A closed stream would hand its number to the next file that is opened, and findings would be
// written into it. Standard output that was closed stays one that can't be written.
void guard_streams() {
    std::signal(SIGPIPE, SIG_IGN);  // a reader that went away is a write that failed
    std::signal(SIGXFSZ, SIG_IGN);  // so is a limit on the size of files
    for (int stream : {0, 1, 2})
        if (::fcntl(stream, F_GETFD) == -1)
            (void)::open("/dev/null", stream == 1 ? O_RDONLY : O_RDWR);
}

int print(std::string text) {
    Output output = Output::open({}, {});
    if (output.finish(text)) return done;
    say_problem(output);
    return file_trouble;
}

std::string did_you_mean(std::string_view written, std::span<const std::string_view> words) {
    std::string_view near = nearest(written, words);
    return near.empty() ? "" : fmt::format(" Did you mean `{}`?", near);
}

int unknown_verb(std::string_view word) {
    std::vector<std::string_view> words = {"--help", "--version"};
    for (const Verb* verb : verbs()) words.push_back(verb->name);
    std::string hint = did_you_mean(word, words);
    if (word.ends_with(".shade"))  // a file, and nothing said of what to do with it
        hint = fmt::format(" Did you mean `levigate weigh {}`?", shown(word));
    say(fmt::format("levigate: there is no {} `{}`.{}\n`levigate --help` lists what there is.\n",
                    word.starts_with('-') ? "option" : "verb", shown(word), hint));
    return command_wrong;
}

std::string unknown_option(const Verb& verb, std::string_view word) {
    std::vector<std::string_view> words = {"--help"};
    for (const Option& option : verb.options) words.push_back(option.name);
    std::string_view name = word.substr(0, word.find('='));
    return fmt::format("There is no option `{}`.{}", name, did_you_mean(name, words));
}

/// Without a name, or with one missing in a list, `share` would give out other shades than those
/// that were meant; empty where all are there.
std::string missing_name(const Option& option, const Arguments& arguments) {
    const std::optional<std::string> value = arguments.get(option.name);
    if (option.name != "--shade" || !value) return {};
    const bool list = option.value == "NAMES";
    std::string_view rest = *value;
    for (bool more = true; more;) {
        const std::size_t comma = list ? rest.find(',') : rest.npos;
        if (tidy_name(rest.substr(0, comma)).empty())
            return fmt::format("Behind `--shade` stands `{}`: a name is missing. Write {}.", *value,
                               list ? "`--shade \"Quince, Damson\"`, or leave --shade out to "
                                      "share all"
                                    : "`--shade Quince`");
        more = comma != rest.npos;
        rest.remove_prefix(more ? comma + 1 : rest.size());
    }
    return {};
}

/// What is wrong with the words, beyond what the parser says; empty where nothing is.
std::string wrong_with(const Verb& verb, const Arguments& arguments) {
    if (arguments.operands.size() < verb.least)
        return fmt::format("Something is missing: `levigate {} {}`.", verb.name, verb.operands);
    if (arguments.operands.size() > verb.most)
        return fmt::format("`{}` is one word too many; a name of several words stands in quotes.",
                           arguments.operands[verb.most]);
    for (const Option& option : verb.options) {
        if (std::string words = missing_name(option, arguments); !words.empty()) return words;
        std::optional<std::string> value = arguments.get(option.name);
        if (!value || option.choices.empty()) continue;
        std::vector<std::string_view> words;
        for (std::string_view rest = option.choices; !rest.empty();) {
            words.push_back(rest.substr(0, rest.find('|')));
            rest.remove_prefix(std::min(rest.size(), words.back().size() + 1));
        }
        if (std::find(words.begin(), words.end(), *value) != words.end()) continue;
        return fmt::format("Behind `{}` stands `{}`, but it takes {}{}.{}", option.name, *value,
                           words.size() == 1 ? "only " : "one of ", fmt::join(words, ", "),
                           did_you_mean(*value, words));
    }
    return {};
}

/// The parser's complaint in our words. It names the option at the head of its text.
std::string complaint(const Verb& verb, const CLI::ParseError& error) {
    std::string_view text = error.what();
    for (const Option& option : verb.options) {
        if (!text.starts_with(option.name)) continue;
        return fmt::format("`{}` stands once, with one value behind it: `{} {}`.", option.name,
                           option.name, option.choices.empty() ? option.value : option.choices);
    }
    return std::string(text);
}

struct Parsed {
    Arguments arguments;
    std::string problem;
    bool help = false;
};

Parsed parse(const Verb& verb, int count, char** words) {
    Parsed parsed;
    CLI::App app;
    app.set_help_flag("");
    app.allow_extras();
    std::deque<std::string> values;
    std::vector<std::pair<CLI::Option*, const std::string*>> bound;
    CLI::Option* help = app.add_flag("--help,-h");
    for (const Option& option : verb.options) {
        values.emplace_back();
        bool takes_none = option.value.empty() && option.choices.empty();
        bound.emplace_back(takes_none ? app.add_flag(std::string(option.name))
                                      : app.add_option(std::string(option.name), values.back()),
                           &values.back());
        if (option.many) bound.back().first->join();
        if (option.value.starts_with('[')) bound.back().first->expected(0, 1);
    }
    try {
        app.parse(count - 1, words + 1);  // the verb stands where a program's name would
    } catch (const CLI::ParseError& error) {
        parsed.problem = complaint(verb, error);
    }
    parsed.help = help->count() > 0;
    for (std::size_t i = 0; i < bound.size(); ++i) {
        CLI::Option* option = bound[i].first;
        if (option->count() == 0) continue;
        std::string_view name = verb.options[i].name;
        parsed.arguments.values[name] = *bound[i].second;
        bool is_switch = verb.options[i].value.empty() && verb.options[i].choices.empty();
        if (is_switch && option->results() != std::vector<std::string>(option->count(), "true"))
            parsed.problem = fmt::format("`{}` takes no value.", name);
    }
    bool words_only = false;
    for (std::string& word : app.remaining()) {
        if (word == "--" && !words_only)
            words_only = true;
        else if (!words_only && word.size() > 1 && word[0] == '-' && parsed.problem.empty())
            parsed.problem = unknown_option(verb, word);
        else
            parsed.arguments.operands.push_back(std::move(word));
    }
    return parsed;
}

/// For a command line that could not be read: was an object asked for?
bool wants_json(int count, char** words) {
    for (int i = 1; i < count; ++i) {
        std::string_view word = words[i];
        if (word == "--as=json") return true;
        if (word == "--as" && i + 1 < count && std::string_view(words[i + 1]) == "json")
            return true;
    }
    return false;
}

}  // namespace

int run(int count, char** words) {
    guard_streams();
    if (count < 2) {
        say(general_help());
        return command_wrong;
    }
    std::string_view word = words[1];
    if (word == "--help" || word == "-h" || word == "help") return print(general_help());
    if (word == "--version") return print("levigate " LEVIGATE_VERSION "\n");
    for (const Verb* verb : verbs()) {
        if (verb->name != word) continue;
        Parsed parsed = parse(*verb, count, words);
        if (parsed.help) return print(help_of(*verb));
        if (parsed.problem.empty()) parsed.problem = wrong_with(*verb, parsed.arguments);
        if (parsed.problem.empty()) return verb->run(parsed.arguments);
        if (wants_json(count, words)) parsed.arguments.values["--as"] = "json";
        int status =
            stop(*verb, parsed.arguments, command_wrong, Code::command_line, parsed.problem);
        if (!parsed.arguments.json())
            say(fmt::format("`levigate {} --help` shows how it is called.\n", verb->name));
        return status;
    }
    return unknown_verb(word);
}

}  // namespace levigate::cli
