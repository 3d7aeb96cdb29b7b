// levigate git: the settings that let git show shade files in a maker's words.
#include <cstdlib>
#include <filesystem>
#include <sstream>

#include <fmt/format.h>
#include <unistd.h>

#include "interpreter/cli/report.hpp"
#include "interpreter/cli/verb.hpp"
#include "interpreter/history/repository.hpp"
#include "interpreter/world.hpp"

namespace levigate::cli {

extern const Verb git_verb;

namespace {

namespace fs = std::filesystem;
using history::Repository;
using history::Setting;

constexpr Option git_options[] = {
    {"--print", "", "write nothing, and show what would be written"},
};

constexpr std::string_view attribute = "*.shade text eol=lf diff=shade";

/// True where a shell finds the command by its name alone.
bool on_path() {
    const char* path = std::getenv("PATH");
    std::stringstream folders(path ? path : "");
    for (std::string folder; std::getline(folders, folder, ':');) {
        const fs::path file = fs::path(folder.empty() ? "." : folder) / "levigate";
        std::error_code error;
        if (fs::is_regular_file(file, error) && ::access(file.c_str(), X_OK) == 0) return true;
    }
    return false;
}

/// For a shell: in quotes, whatever stands in it.
std::string quoted(const std::string& text) {
    std::string out = "'";
    for (const char c : text) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
    return out + "'";
}

std::string command() {
    if (on_path()) return "levigate";
    std::error_code error;
    return quoted(fs::read_symlink("/proc/self/exe", error).string());
}

/// What git shows behind `@@`, and takes for a word. Headings stand at the margin, as `tidy` has
/// it.
std::vector<Setting> wanted() {
    std::string headings;
    for (const HeadingWord& heading : heading_words())
        headings += (headings.empty() ? "" : "|") + std::string(heading.word);
    return {{"diff.shade.textconv", command() + " tidy --print"},
            {"diff.shade.xfuncname", fmt::format("^(({})[[:space:]].*)$", headings)},
            {"diff.shade.wordregex",
             "\\{[^}]*\\}|[0-9]+([./][0-9]+)*( ?(%|[[:alpha:]]+))?|[^][:space:],{}]+|,"}};
}

/// The text that the file should hold; nothing where it holds the line already.
std::optional<std::string> with_attribute(std::string text) {
    std::stringstream lines(text);
    for (std::string line; std::getline(lines, line);)
        if (tidy_name(line) == attribute) return std::nullopt;
    if (!text.empty() && text.back() != '\n') text += '\n';
    return text + std::string(attribute) + '\n';
}

int trouble(const Arguments& arguments, Code code, std::string message) {
    return stop(git_verb, arguments, file_trouble, code, std::move(message));
}

/// Empty where it could be written.
std::string write_whole(const std::string& path, std::string text) {
    Arguments to;
    to.values["-o"] = path;
    to.values["--replace"] = "";
    Output output = Output::open(to, {});
    if (!output.problem().empty()) return output.problem();
    return output.finish(text) ? "" : output.problem();
}

int write_down(const Arguments& arguments, const Repository& repository) {
    auto looked = history::settings_due(repository, wanted());
    if (const auto* why = std::get_if<std::string>(&looked))
        return trouble(arguments, Code::file_unreadable, *why);
    const auto& due = std::get<std::vector<Setting>>(looked);
    const std::string path = repository.workdir + ".gitattributes";
    std::error_code error;
    if (fs::is_symlink(path, error))
        return trouble(arguments, Code::file_unwritable,
                       fmt::format("\"{}\" is a link, so nothing is written to it.", path));
    const FileText file = disk_world().open(path);
    const auto* unread = std::get_if<Unreadable>(&file.text);
    if (unread && *unread != Unreadable::missing)
        return trouble(arguments, Code::file_unreadable, unreadable(path, *unread).message);
    const std::optional<std::string> attributes =
        with_attribute(unread ? std::string() : std::get<std::string>(file.text));
    const bool only_print = arguments.has("--print");
    std::string out;
    if (due.empty() && !attributes) out = "All is set already: nothing is written.\n";
    if (!due.empty()) {
        out += fmt::format("{} {}config:\n", only_print ? "Would go into" : "Written into",
                           shown(repository.folder));
        for (const Setting& one : due)
            out += fmt::format("  {} = {}\n", one.name, shown(one.value));
    }
    if (attributes)
        out += fmt::format("{} {}:\n  {}\n", only_print ? "Would go into" : "Written into",
                           shown(path), attribute);
    if (!only_print) {
        std::string why = attributes ? write_whole(path, *attributes) : "";
        if (why.empty()) why = history::write_settings(repository, due);
        if (!why.empty()) return trouble(arguments, Code::file_unwritable, why);
    }
    Output output = Output::open({}, {});
    if (output.finish(out)) return done;
    say_problem(output);
    return file_trouble;
}

int git(const Arguments& arguments) {
    const auto found = history::find_repository(".");
    if (const auto* why = std::get_if<std::string>(&found))
        return trouble(arguments, Code::file_unreadable,
                       fmt::format("The git repository here can't be read: {}.", *why));
    const auto* repository = std::get_if<Repository>(&found);
    if (!repository)
        return trouble(
            arguments, Code::file_unreadable,
            "This folder is in no git repository, so there is nowhere to write settings. "
            "`git init` makes one.");
    if (repository->workdir.empty())
        return trouble(arguments, Code::file_unreadable,
                       "This git repository is a bare one, without files of its own: give the "
                       "command in a clone of it.");
    return write_down(arguments, *repository);
}

}  // namespace

constexpr Verb git_verb = {"git",
                           "",
                           0,
                           0,
                           "settings by which git shows shade files well, for this repository",
                           git_options,
                           "  levigate git\n"
                           "  levigate git --print\n",
                           "",
                           git};

}  // namespace levigate::cli
