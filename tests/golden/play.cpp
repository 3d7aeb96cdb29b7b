#include "tests/golden/play.hpp"

#include "tests/support/process.hpp"
#include "tests/support/text.hpp"

#include <algorithm>
#include <system_error>

namespace levigate::testing {
namespace fs = std::filesystem;
namespace {

using Kind = Section::Kind;
using Sections = std::vector<Section>;

// Setting up never leaves the playing folder: a case with ../ in a path is a mistake.
bool stays_inside(const fs::path& path) {
    return path.is_relative() && !path.empty() &&
           std::find(path.begin(), path.end(), fs::path("..")) == path.end();
}

std::string set_up(const Section& section, const Stage& stage, const fs::path& folder,
                   Command& command) {
    std::error_code error;
    const std::string& argument = section.argument;
    if (section.kind == Kind::env) {
        command.environment.push_back(argument);
        return "";
    }
    if (section.kind == Kind::input) {
        command.input = section.text;
        return "";
    }
    const std::size_t arrow = argument.find(" -> ");
    const fs::path name = section.kind == Kind::link ? argument.substr(0, arrow) : argument;
    if (!stays_inside(name)) return "\"" + argument + "\" is no path inside the case\n";
    const fs::path target = folder / name;
    fs::create_directories(target.parent_path(), error);
    bool done = true;
    if (section.kind == Kind::file) done = write_file(target, section.text);
    if (section.kind == Kind::bytes) done = write_file(target, unescape_bytes(section.text));
    if (section.kind == Kind::folder) fs::create_directories(target, error);
    if (section.kind == Kind::link && arrow != std::string::npos) {
        fs::create_symlink(argument.substr(arrow + 4), target, error);
    }
    if (section.kind == Kind::copy) {
        fs::copy(stage.repository / name, target, fs::copy_options::recursive, error);
    }
    return done && !error ? "" : "can't set up \"" + argument + "\": " + error.message() + "\n";
}

std::string with_folder_named(std::string text, const fs::path& folder) {
    const std::string path = folder.string();
    for (std::size_t at = text.find(path); at != std::string::npos; at = text.find(path, at)) {
        text.replace(at, path.size(), "$DIR");
    }
    return text;
}

std::string content_after(const fs::path& path) {
    const auto text = read_file(path);
    return text ? *text : "(no such file)\n";
}

// The expected sections of one command as they are in truth: those that the case has, in their
// places, and those that it lacks but needs, at the end.
Sections truth(const Sections& group, const Outcome& outcome, const fs::path& folder) {
    const Section status{Kind::status, std::to_string(outcome.status), ""};
    const Section out{Kind::out, "", with_folder_named(outcome.out, folder)};
    const Section err{Kind::err, "", with_folder_named(outcome.err, folder)};
    Sections result = group;
    for (const Section* wanted : {&status, &out, &err}) {
        const auto there = std::find_if(result.begin(), result.end(), [&](const Section& section) {
            return section.kind == wanted->kind;
        });
        if (there != result.end()) {
            *there = *wanted;
        } else if (wanted->kind == Kind::status || !wanted->text.empty()) {
            result.push_back(*wanted);
        }
    }
    for (Section& section : result) {
        if (section.kind != Kind::after) continue;
        section.text = with_folder_named(content_after(folder / section.argument), folder);
    }
    return result;
}

// The one expected section of this kind (and path), or an empty one: nothing is expected.
Section expected(const Sections& group, const Section& like) {
    for (const Section& section : group) {
        const bool same_path = like.kind != Kind::after || section.argument == like.argument;
        if (section.kind == like.kind && same_path) return section;
    }
    return {like.kind, like.kind == Kind::status ? "0" : "", ""};
}

std::string compare(const Sections& group, const Sections& came) {
    std::string report;
    for (const Section& section : came) {
        const Section wanted = expected(group, section);
        if (section.kind == Kind::status && wanted.argument != section.argument) {
            report += "  exit status: " + wanted.argument + " was expected, " + section.argument +
                      " came\n";
        }
        if (section.kind != Kind::out && section.kind != Kind::err && section.kind != Kind::after) {
            continue;
        }
        if (wanted.text == section.text) continue;
        const std::string name = section.kind == Kind::out   ? "standard output"
                                 : section.kind == Kind::err ? "standard error"
                                                             : section.argument;
        report += "  " + name + " (- expected, + came):\n" + difference(wanted.text, section.text);
    }
    return report;
}

void play_group(const Sections& group, const Stage& stage, const fs::path& folder, Played& played) {
    const Section& first = group.front();
    Command command;
    command.words = command_words(first.argument);
    command.words.insert(command.words.begin(), stage.program.string());
    command.folder = folder;
    std::string trouble;
    for (const Section& section : group) {
        if (section.kind >= Kind::file && section.kind <= Kind::input) {
            trouble += set_up(section, stage, folder, command);
        }
    }
    const Outcome outcome = run(command);
    if (outcome.out_of_patience) trouble += "  it went on for too long, and was ended\n";
    if (outcome.status >= 127) trouble += "  it crashed, or didn't start\n";
    const Sections came = truth(group, outcome, folder);
    const std::string report = trouble + compare(group, came);
    played.trouble += trouble;
    if (!report.empty()) played.report += "$ levigate " + first.argument + "\n" + report;
    played.as_it_came.insert(played.as_it_came.end(), came.begin(), came.end());
}

void copy_what_lies_beside(const fs::path& beside, const fs::path& folder) {
    if (beside.empty()) return;
    std::error_code error;
    for (const fs::directory_entry& entry : fs::directory_iterator(beside, error)) {
        if (entry.is_regular_file() && entry.path().extension() != ".case") {
            fs::copy(entry.path(), folder / entry.path().filename(), error);
        }
    }
}

}  // namespace

Played play(const std::vector<Section>& sections, const Stage& stage) {
    const ScratchFolder scratch;
    copy_what_lies_beside(stage.beside, scratch.path());
    Played played;
    Sections group;  // a command and what belongs to it
    const auto flush = [&] {
        if (!group.empty()) play_group(group, stage, scratch.path(), played);
        group.clear();
    };
    Command nobody;  // what stands above the first command can only set up files
    for (const Section& section : sections) {
        if (section.kind == Kind::command) {
            flush();
            group.push_back(section);
        } else if (!group.empty()) {
            group.push_back(section);
        } else {
            if (section.kind != Kind::opening) {
                played.trouble += set_up(section, stage, scratch.path(), nobody);
            }
            played.as_it_came.push_back(section);
        }
    }
    flush();
    if (played.report.empty()) played.report = played.trouble;
    return played;
}

}  // namespace levigate::testing
