#include "interpreter/cli/report.hpp"

#include <cstdlib>
#include <deque>
#include <sstream>

#include <fmt/format.h>
#include <unistd.h>

#include "interpreter/render/json.hpp"
#include "interpreter/render/text.hpp"

namespace levigate::cli {
namespace {

std::string_view variable(const char* name) {
    const char* value = std::getenv(name);
    return value ? value : "";
}

std::string_view words(Unreadable why) {
    switch (why) {
        case Unreadable::missing: return "there is no such file";
        case Unreadable::directory: return "it is a folder";
        case Unreadable::denied: return "you don't have permission to read it";
        case Unreadable::outside: return "it lies outside the folder";
        case Unreadable::too_big: return "it holds more than 16 MB, the most that is read";
        case Unreadable::changing:
            return "it changes while it is read; try again when it is written";
        case Unreadable::failed: return "it is no plain file, or reading it failed";
    }
    return {};
}

}  // namespace

// NO_COLOR by its own rule (https://no-color.org): set and not empty. --colour goes before it.
FindingStyle finding_style(const Arguments& arguments) {
    FindingStyle style;
    style.brief = arguments.has("--brief");
    style.sources = arguments.has("--sources");
    std::string colour = arguments.get_or("--colour", "auto");
    bool terminal = ::isatty(2) == 1 && !variable("TERM").empty() && variable("TERM") != "dumb";
    style.colour =
        colour == "always" || (colour == "auto" && terminal && variable("NO_COLOR").empty());
    return style;
}

Compiled& kept(Compiled compiled) {
    static std::deque<Compiled> all;
    return all.emplace_back(std::move(compiled));
}

Finding unreadable(const std::string& file, Unreadable why) {
    return {Code::file_unreadable, fmt::format("\"{}\" can't be read: {}.", file, words(why)),
            Span{}};
}

int stop(const Verb& verb, const Arguments& arguments, int status, const Sources& sources,
         const Findings& findings) {
    std::string out;
    if (!arguments.json() || verb.results.empty()) {
        for (const Finding& finding : findings) {
            FindingStyle style = finding_style(arguments);
            style.brief |= !finding.span;
            append_finding(out, sources, finding, style);
        }
        say(out);
        return status;
    }
    out = nothing_json(verb.name, verb.results, sources, findings);
    Output output = Output::open({}, {});
    if (output.finish(out)) return status;
    say_problem(output);
    return file_trouble;
}

int stop(const Verb& verb, const Arguments& arguments, int status, Code code, std::string message) {
    return stop(verb, arguments, status, Sources(), Findings{{code, std::move(message), Span{}}});
}

void append_document(const Arguments& arguments, std::string& out,
                     const document::Document& document, const Isolates& isolates) {
    if (arguments.get_or("--as", "text") == "markdown")
        append_markdown(out, document, isolates);
    else
        append_text(out, document, isolates);
}

std::vector<std::string> regions(const Arguments& arguments) {
    std::vector<std::string> out;
    std::stringstream list(arguments.get_or("--market", ""));
    for (std::string name; std::getline(list, name, ',');) {
        name = tidy_name(name);
        if (!name.empty()) out.push_back(std::move(name));
    }
    return out;
}

std::vector<Called> markets(const Arguments& arguments, Names& names) {
    std::vector<Called> out;
    for (const std::string& name : regions(arguments)) out.push_back({name, names.intern(name)});
    return out;
}

std::string wrong_markets(const Arguments& arguments) {
    const std::optional<std::string> given = arguments.get("--market");
    if (!given) return {};
    std::stringstream list(*given);
    std::size_t regions = 0;
    bool fine = true;
    for (std::string name; std::getline(list, name, ','); ++regions) {
        name = tidy_name(name);
        fine = fine && !name.empty() && name.find_first_of(" ;/|\t") == std::string::npos;
    }
    if (fine && regions > 0) return {};
    return fmt::format(
        "Behind --market stands \"{}\", but regions are due there, each one word, with "
        "commas between them: --market US,EU.",
        *given);
}

std::vector<std::string> files_read(const Compiled& compiled) {
    std::vector<std::string> paths;
    for (SourceId id = 0; id < compiled.sources.size(); ++id)
        if (!compiled.sources[id].library) paths.push_back(compiled.sources[id].name);
    return paths;
}

int finish(const Arguments& arguments, Output& output, std::string& results, const Sources& sources,
           const Findings& findings, bool made) {
    const bool to_file = arguments.get_or("-o", "-") != "-" && !arguments.json();
    const bool held = to_file && !made && any_error(findings);
    const bool written = held || output.finish(results);
    if (!arguments.json()) say(findings_text(sources, findings, finding_style(arguments)));
    if (!written) {
        say_problem(output);
        return file_trouble;
    }
    return any_error(findings) ? recipe_wrong : done;
}

}  // namespace levigate::cli
