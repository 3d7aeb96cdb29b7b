// levigate changes: what was edited between two states, and what comes of it.
#include <algorithm>

#include <fmt/format.h>

#include "interpreter/changes/changes_document.hpp"
#include "interpreter/changes/editions.hpp"
#include "interpreter/cli/place.hpp"
#include "interpreter/cli/report.hpp"
#include "interpreter/cli/verb.hpp"
#include "interpreter/render/findings_json.hpp"
#include "interpreter/render/json.hpp"

namespace levigate::cli {

extern const Verb changes_verb;

namespace {

constexpr Option changes_options[] = {
    {"--for", "READERS", "for members: their editions compared", "members"},
    {"--market", "REGIONS", "as these regions see it: US,EU"},
    {"--as", "FORM", "how it is written; text where nothing is said", "text|markdown|json"},
    {"--brief", "", "findings on one line each"},
    {"--colour", "WHEN", "colour in findings", "auto|always|never"},
    {"-o", "PATH", "into this file, whole or not at all; - is standard output"},
    {"--replace", "", "even where that file is there already"},
};

/// What keeps a state from being compared whole.
struct Said {
    std::string text;
    std::vector<FoundIn> found;
    int status = done;
};

void say_of(const StateFile& file, const Arguments& arguments, Said& said) {
    Findings errors = file.compiled.findings;
    std::erase_if(errors, [](const Finding& one) { return one.severity != Severity::error; });
    if (file.compiled.unreadable) {
        errors.push_back(unreadable(file.path, *file.compiled.unreadable));
        said.status = file_trouble;
    }
    if (errors.empty()) return;
    said.status = std::max<int>(said.status, recipe_wrong);
    said.text += findings_text(file.compiled.sources, errors, finding_style(arguments));
    said.found.push_back({&file.compiled.sources, each_once(errors)});
}

Said what_is_wrong(const Pair& pair, const Arguments& arguments) {
    Said out;
    if (!pair.findings.empty()) {
        static const Sources nowhere;
        out.text = findings_text(nowhere, pair.findings, finding_style(arguments));
        out.found.push_back({&nowhere, pair.findings});
        if (any_error(pair.findings)) out.status = file_trouble;
    }
    for (const State* state : {&pair.before, &pair.now})
        for (const StateFile& file : state->files) say_of(file, arguments, out);
    return out;
}

Findings merge_marks(const StateFile& file) {
    Findings out = file.compiled.findings;
    std::erase_if(out, [](const Finding& one) { return one.code != Code::text_merge_marker; });
    return out;
}

Isolates isolates_of(const Pair& pair) {
    Isolates out;
    for (const State* state : {&pair.before, &pair.now})
        for (const StateFile& file : state->files) out.add(file.compiled.sources.isolates());
    return out;
}

/// An edition that can't go out tells nothing. Why not is for the maker: a finding shows lines as
/// they are, private ones too, so that it stands on standard error alone.
int refused(const Said& said, const Arguments& arguments, Output& output) {
    std::string out = nothing_json(changes_verb.name, changes_verb.results, Sources(), {});
    const bool written = !arguments.json() || output.finish(out);
    say(said.text);
    return written ? said.status : file_trouble;
}

/// What two editions tell, and nothing else of the files that they come from.
int for_members(Pair& pair, const Arguments& arguments, Output& output) {
    static EditionState before, now;  // left to the system, as the pair
    Said said = what_is_wrong(pair, arguments);
    if (said.status != done) return refused(said, arguments, output);
    before = editions_of(pair.before);
    now = editions_of(pair.now);
    for (const EditionState* one : {&before, &now})
        for (const FoundIn& why : one->refused) {
            said.text += findings_text(*why.sources, why.findings, finding_style(arguments));
            said.status = recipe_wrong;
        }
    if (said.status != done) return refused(said, arguments, output);
    const Changes found = compare_editions(before, now, regions(arguments));
    std::string out;
    if (arguments.json())
        out = changes_json(found, {});
    else
        append_document(arguments, out, changes_document(found), isolates_of(pair));
    const bool written = output.finish(out);
    say(said.text);
    if (written) return done;
    say_problem(output);
    return file_trouble;
}

int changes(const Arguments& arguments) {
    if (arguments.has("--replace") && !arguments.has("-o"))
        return stop(changes_verb, arguments, command_wrong, Code::command_line,
                    "--replace needs -o.");
    if (std::string words = wrong_markets(arguments); !words.empty())
        return stop(changes_verb, arguments, command_wrong, Code::command_line, words);
    auto read = read_states(arguments.operands);
    if (const auto* trouble = std::get_if<Trouble>(&read))
        return stop(changes_verb, arguments, trouble->status, trouble->code, trouble->message);
    // Left to the system in the end, as kept() does.
    static Pair pair;
    pair = std::get<Pair>(std::move(read));
    // Beside a file that can't be read all of the other would seem new.
    for (const State* state : {&pair.before, &pair.now})
        if (state->files.size() == 1 && state->files[0].compiled.unreadable)
            return stop(changes_verb, arguments, file_trouble, Sources(),
                        {unreadable(state->shown, *state->files[0].compiled.unreadable)});
    // Of a half merged one no shade is gone: nobody has decided yet.
    for (const State* state : {&pair.before, &pair.now})
        if (state->files.size() == 1 && half_merged(state->files[0]))
            return stop(changes_verb, arguments, recipe_wrong, state->files[0].compiled.sources,
                        merge_marks(state->files[0]));
    for (const State* state : {&pair.before, &pair.now})
        for (const StateFile& file : state->files)
            if (auto too_much = too_much_to_compare(file.compiled))
                return stop(changes_verb, arguments, recipe_wrong, file.compiled.sources,
                            {std::move(*too_much)});
    std::vector<std::string> sources;
    for (const State* state : {&pair.before, &pair.now})
        for (const StateFile& file : state->files)
            for (std::string& path : files_read(file.compiled)) sources.push_back(std::move(path));
    Output output = Output::open(arguments, sources);
    if (!output.problem().empty())
        return stop(changes_verb, arguments, file_trouble, Code::file_unwritable, output.problem());
    if (arguments.has("--for")) return for_members(pair, arguments, output);
    const Said said = what_is_wrong(pair, arguments);
    const Changes found = compare(pair.before, pair.now, {regions(arguments)});
    std::string out;
    if (arguments.json())
        out = changes_json(found, said.found);
    else
        append_document(arguments, out, changes_document(found), isolates_of(pair));
    const bool written = output.finish(out);
    if (!arguments.json()) say(said.text);
    if (written) return said.status;
    say_problem(output);
    return file_trouble;
}

}  // namespace

constexpr Verb changes_verb = {
    "changes",
    "OLD [NEW]",
    1,
    2,
    "what was edited between two files, folders or revisions, and what comes of it",
    changes_options,
    "  levigate changes orchard-old.shade orchard.shade\n"
    "  levigate changes orchard.shade             (since the last commit)\n"
    "  levigate changes v1 orchard.shade          (since the revision v1)\n"
    "  levigate changes HEAD~2 HEAD               (all shade files of this folder)\n"
    "  levigate changes v1:spring new --for members --as markdown -o post.md\n",
    "edits",
    changes};

}  // namespace levigate::cli
