// levigate tidy: files in the one form that there is, so that a diff shows what was changed.
#include <filesystem>
#include <fstream>
#include <iterator>

#include <fcntl.h>
#include <fmt/format.h>
#include <malloc.h>
#include <sys/stat.h>
#include <unistd.h>

#include "interpreter/cli/folder.hpp"
#include "interpreter/cli/report.hpp"
#include "interpreter/cli/verb.hpp"
#include "interpreter/query/tidied.hpp"
#include "interpreter/render/difference.hpp"

namespace levigate::cli {

extern const Verb tidy_verb;

namespace {

constexpr Option tidy_options[] = {
    {"--check", "", "write nothing; name the files that aren't tidy"},
    {"--diff", "", "write nothing; show what would change"},
    {"--print", "", "write nothing; print the file tidily, or as it is if it can't be read"},
    {"--brief", "", "findings on one line each"},
    {"--colour", "WHEN", "colour in findings", "auto|always|never"},
};

constexpr std::string_view standard_input = "standard input";

/// One run over several files: what is printed, and the status so far.
struct Run {
    const Arguments& arguments;
    std::string out{};
    int status = done;

    void worsen(int to) { status = std::max(status, to); }
    void complain(const Sources& sources, const Findings& findings) {
        say(findings_text(sources, findings, finding_style(arguments)));
        if (any_error(findings)) worsen(recipe_wrong);
    }
};

/// Standard input, or why it can't be read.
std::variant<std::string, Unreadable> read_input() {
    std::string text(1u << 16, '\0');
    for (std::size_t size = 0;;) {
        if (size > largest_file) return Unreadable::too_big;
        if (size == text.size()) text.resize(2 * size);
        const ssize_t got = ::read(0, text.data() + size, text.size() - size);
        if (got < 0 && errno == EINTR) continue;
        if (got < 0) return errno == EISDIR ? Unreadable::directory : Unreadable::failed;
        size += static_cast<std::size_t>(got);
        if (got > 0) continue;
        text.resize(size);
        return text;
    }
}

/// What a person looks at passes `shown`, line by line; a program gets the bytes.
std::string as_seen(std::string text) {
    if (::isatty(1) != 1) return text;
    std::string out;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        out += shown(std::string_view(text).substr(at, end - at));
        out += '\n';
        at = end + 1;
    }
    return out;
}

void write_back(Run& run, const std::string& path, TidiedFile& file) {
    Output output = Output::over(path, file.before());
    if (output.problem().empty() && output.finish(file.tidied.text)) {
        run.out += fmt::format("{}\n", shown(path));
        return;
    }
    say_problem(output);
    run.worsen(file_trouble);
}

void tidy_one(Run& run, const std::string& path) {
    TidiedFile file = tidied(disk_world(), path);
    if (file.unreadable) {
        run.complain(file.sources, {unreadable(path, *file.unreadable)});
        return run.worsen(file_trouble);
    }
    run.complain(file.sources, file.tidied.findings);
    if (!file.tidied.changed) return;
    if (run.arguments.has("--diff")) {
        run.out += unified_difference(shown(path), file.before(), file.tidied.text);
    } else if (run.arguments.has("--check")) {
        run.out += fmt::format("{}\n", shown(path));
        run.worsen(recipe_wrong);
    } else {
        write_back(run, path, file);
    }
}

void tidy_input(Run& run) {
    std::variant<std::string, Unreadable> text = read_input();
    const std::string name(standard_input);
    if (const auto* why = std::get_if<Unreadable>(&text)) {
        run.complain(Sources(), {unreadable(name, *why)});
        return run.worsen(file_trouble);
    }
    TidiedFile file = tidied(memory_world({{name, std::get<std::string>(text)}}), name);
    run.complain(file.sources, file.tidied.findings);
    if (run.arguments.has("--diff")) {
        run.out = unified_difference(name, file.before(), file.tidied.text);
    } else if (!run.arguments.has("--check")) {
        run.out = std::move(file.tidied.text);
    } else if (file.tidied.changed) {
        run.out = name + '\n';
        run.worsen(recipe_wrong);
    }
}

/// For version control, which shows what comes: whatever the file holds, something does.
void print_one(Run& run, const std::string& path) {
    TidiedFile file = tidied(disk_world(), path);
    if (!file.unreadable) {
        run.out = std::move(file.tidied.text);
    } else if (*file.unreadable == Unreadable::too_big) {
        std::ifstream in(path, std::ios::binary);
        run.out.assign(std::istreambuf_iterator<char>(in), {});
    } else {
        run.complain(file.sources, {unreadable(path, *file.unreadable)});
        run.worsen(file_trouble);
    }
}

std::vector<std::string> all_files(Run& run) {
    std::vector<std::string> paths;
    Findings findings;
    for (const std::string& operand : run.arguments.operands) {
        std::error_code error;
        if (!std::filesystem::is_directory(operand, error)) {
            paths.push_back(operand);
            continue;
        }
        const std::vector<std::string> found = shade_files(operand, findings);
        paths.insert(paths.end(), found.begin(), found.end());
        const Findings alike = same_names(found);
        findings.insert(findings.end(), alike.begin(), alike.end());
    }
    if (any_error(findings)) run.worsen(file_trouble);
    run.complain(Sources(), findings);
    return paths;
}

int tidy(const Arguments& arguments) {
    const auto given = [&](std::string_view option) { return arguments.has(option) ? 1 : 0; };
    if (given("--check") + given("--diff") + given("--print") > 1)
        return stop(tidy_verb, arguments, command_wrong, Code::command_line,
                    "Of --check, --diff and --print only one can be done at a time.");
    if (arguments.has("--print") && arguments.operands.size() != 1)
        return stop(tidy_verb, arguments, command_wrong, Code::command_line,
                    "Behind --print stands one file.");
    // Large tables go back to the system as soon as they are let go: that of the old text, before
    // the new one is read.
    (void)::mallopt(M_MMAP_THRESHOLD, 1 << 20);
    Run run{arguments};
    if (arguments.operands.empty())
        tidy_input(run);
    else if (arguments.has("--print"))
        print_one(run, arguments.operands[0]);
    else
        for (const std::string& path : all_files(run)) tidy_one(run, path);
    std::string out = as_seen(std::move(run.out));
    Output output = Output::open({}, {});
    if (output.finish(out)) return run.status;
    say_problem(output);
    return file_trouble;
}

}  // namespace

constexpr Verb tidy_verb = {"tidy",
                            "[FILE…|FOLDER…]",
                            0,
                            10000,
                            "files in the one form that there is; without one, standard input",
                            tidy_options,
                            "  levigate tidy orchard.shade\n"
                            "  levigate tidy .\n"
                            "  levigate tidy . --check\n"
                            "  levigate tidy orchard.shade --diff\n"
                            "  levigate tidy < pasted.txt > orchard.shade\n",
                            "",
                            tidy};

}  // namespace levigate::cli
