// The pages that people read are true: every shade file in them is what it is said to be, every
// command prints what is shown, every word and code of the tool is in the reference, and every
// link, path and limit leads to something.
#include "tests/reference/fences.hpp"
#include "tests/support/process.hpp"
#include "tests/support/text.hpp"

#include "grammar/words.hpp"
#include "interpreter/compile.hpp"
#include "interpreter/embedded.hpp"
#include "interpreter/measure/dimension.hpp"
#include "interpreter/render/findings.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <map>
#include <regex>
#include <set>

namespace fs = std::filesystem;
using namespace levigate::testing;

namespace {

const fs::path root = LEVIGATE_ROOT;
const std::vector<std::string> pages = {"README.md", "DEVELOPERS.md", "grammar/LANGUAGE.md"};
using Files = std::map<std::string, std::string>;

std::string page(const std::string& path) { return read_file(root / path).value_or(""); }

levigate::Findings checked(Files files, const std::string& name) {
    using namespace levigate;
    Compiled compiled = compile(memory_world(std::move(files)), name);
    Findings findings = compiled.findings;
    for (Finding& finding : check_all(compiled.formulary, compiled.names, Choice{}).findings)
        findings.push_back(std::move(finding));
    return each_once(findings);
}

std::string in_words(const levigate::Findings& findings) {
    std::string text;
    for (const levigate::Finding& finding : findings)
        text += "\n  " + std::string(row_of(finding.code).name) + ": " + finding.message;
    return text.empty() ? "\n  nothing was said" : text;
}

// Checks one shade block, and keeps it where it has a name.
void check_shade(const std::string& text, const ShadeInfo& info, Files& kept) {
    const std::string name = info.name.empty() ? "example.shade" : info.name;
    Files files = kept;
    files[name] = text;
    if (!info.name.empty()) kept[name] = text;
    const levigate::Findings came = checked(std::move(files), name);
    INFO("came:" << in_words(came));
    if (info.wrong.empty()) {
        CHECK(came.empty());
        return;
    }
    CHECK(came.size() == 1);
    for (const levigate::Finding& finding : came) CHECK(row_of(finding.code).name == info.wrong);
}

void check_fences(const std::string& path, int& shades) {
    Files kept;
    std::string preamble, trouble;
    for (const Fence& fence : read_fences(page(path))) {
        INFO(path << ":" << fence.line << ": " << fence.info);
        const auto info = shade_info(fence, trouble);
        CHECK(trouble.empty());
        if (!info) continue;
        if (info->preamble) {
            preamble = fence.text;
            continue;
        }
        check_shade(info->part ? preamble + "\n" + fence.text : fence.text, *info, kept);
        ++shades;
    }
}

// Plays one command. Standard error stands before or behind standard output, as on a terminal.
void play(const Typed& typed, const fs::path& folder) {
    REQUIRE(typed.words.at(0) == "levigate");
    Command command;
    command.words = typed.words;
    const char* other = std::getenv("LEVIGATE_BINARY");
    command.words[0] = other != nullptr ? other : LEVIGATE_BINARY;
    command.folder = folder;
    const Outcome came = run(command);
    const bool as_shown = matches(typed.lines, split_lines(came.out + came.err)) ||
                          matches(typed.lines, split_lines(came.err + came.out));
    INFO("$ levigate " << (typed.words.size() > 1 ? typed.words[1] : "") << " … printed:\n"
                       << came.out << came.err);
    CHECK(as_shown);
}

void play_fences(const std::string& path, int& commands) {
    const ScratchFolder folder;
    std::string trouble;
    for (const Fence& fence : read_fences(page(path))) {
        INFO(path << ":" << fence.line);
        const auto info = shade_info(fence, trouble);
        if (info && !info->name.empty()) write_file(folder.path() / info->name, fence.text);
        if (fence.info != "console") continue;
        for (const Typed& typed : read_console(fence)) {
            play(typed, folder.path());
            ++commands;
        }
    }
}

}  // namespace

TEST_CASE("left-out lines match as they should") {
    CHECK(matches({"a", "b"}, {"a", "b", ""}));
    CHECK_FALSE(matches({"a"}, {"a", "b"}));
    CHECK_FALSE(matches({"a", "b"}, {"a"}));
    CHECK(matches({"a", "…"}, {"a", "b", "c"}));
    CHECK(matches({"a", "", "…", "", "d"}, {"a", "", "b", "c", "d"}));
    CHECK_FALSE(matches({"a", "…", "d"}, {"a", "b", "d", "e"}));
    CHECK(matches({"…", "b", "…", "d"}, {"a", "b", "c", "d"}));
    CHECK_FALSE(matches({"…", "c", "…", "b", "…"}, {"a", "b", "c"}));
}

TEST_CASE("a check that should fail fails") {
    CHECK(checked({{"a.shade", "shade S\n    rest nothing known\n"}}, "a.shade").size() > 0);
    std::string trouble;
    CHECK(shade_info({"shade part wrong total-off", "", 1}, trouble)->wrong == "total-off");
    CHECK_FALSE(shade_info({"console", "", 1}, trouble).has_value());
    CHECK(trouble.empty());
    shade_info({"shade prat", "", 1}, trouble);
    CHECK_FALSE(trouble.empty());
}

TEST_CASE("each shade block of the pages is what it is said to be") {
    int shades = 0;
    for (const std::string& path : pages) check_fences(path, shades);
    CHECK(shades > 40);
}

TEST_CASE("each command of the pages prints what is shown") {
    int commands = 0;
    for (const std::string& path : pages) play_fences(path, commands);
    CHECK(commands > 10);
}

TEST_CASE("the reference has every word of the language") {
    const std::string text = page("grammar/LANGUAGE.md");
    for (const levigate::HeadingWord& heading : levigate::heading_words()) {
        INFO("heading " << heading.word);
        CHECK(text.find("\n### `" + std::string(heading.word)) != std::string::npos);
    }
    for (const levigate::FormWord& form : levigate::form_words()) {
        if (form.word.empty()) continue;
        INFO("line " << form.word);
        CHECK(text.find("| `" + std::string(form.word)) != std::string::npos);
    }
}

TEST_CASE("the reference lists every finding, and links to its page") {
    const std::string text = page("grammar/LANGUAGE.md");
    for (const levigate::EmbeddedPage& one : levigate::explanation_pages()) {
        const std::string code(one.name);
        INFO(code);
        CHECK(text.find("[`" + code + "`](../interpreter/explain/" + code + ".md)") !=
              std::string::npos);
    }
}

TEST_CASE("the table of kinds is whole and true") {
    using namespace levigate;
    const std::vector<std::pair<std::string, Op>> signs = {{"+", Op::add},
                                                           {"-", Op::subtract},
                                                           {"×", Op::multiply},
                                                           {"/", Op::divide},
                                                           {"per", Op::per}};
    const auto name = [](Kind kind) {  // "a density (weight per volume)" is short in the table
        const std::string words(kind_words(kind));
        return words.substr(0, words.find(" ("));
    };
    const auto row = [&](Kind left, const std::string& sign, Kind right, Kind gives) {
        return "\n| " + name(left) + " | `" + sign + "` | " + name(right) + " | " + name(gives) +
               " |\n";
    };
    const std::string text = page("grammar/LANGUAGE.md");
    std::size_t rows = 0;
    for (const auto& [sign, op] : signs) {
        for (std::size_t pair = 0; pair < kind_count * kind_count; ++pair) {
            const Kind left = Kind(pair / kind_count), right = Kind(pair % kind_count);
            const auto gives = result_kind(op, left, right);
            // What the sentences above the table say.
            const bool scaled = gives && ((right == Kind::number && *gives == left) ||
                                          (left == Kind::number && *gives == right));
            const bool alike = left == right && gives &&
                               (*gives == Kind::number || (op < Op::multiply && *gives == left));
            if (!gives || scaled || alike) continue;
            const bool there = text.find(row(left, sign, right, *gives)) != std::string::npos;
            const bool turned = (op == Op::add || op == Op::multiply) && left != right &&
                                text.find(row(right, sign, left, *gives)) != std::string::npos;
            INFO(row(left, sign, right, *gives));
            CHECK((there || turned));
            rows += there ? 1 : 0;
        }
    }
    static const std::regex any_row(R"(\n\| [a-z ]+ \| `[^`]+` \| [a-z ]+ \| [a-z ]+ \|)");
    const auto written = std::distance(std::sregex_iterator(text.begin(), text.end(), any_row),
                                       std::sregex_iterator());
    CHECK(rows == static_cast<std::size_t>(written));
}

TEST_CASE("each link of the pages leads to a file") {
    static const std::regex link(R"(\]\(([^)#]+)(?:#[^)]*)?\))");
    for (const std::string& path : pages) {
        const std::string text = page(path);
        for (std::sregex_iterator at(text.begin(), text.end(), link), end; at != end; ++at) {
            const std::string target = (*at)[1];
            if (target.starts_with("http")) continue;
            INFO(path << " links to " << target);
            CHECK(fs::exists(root / fs::path(path).parent_path() / target));
        }
    }
}

TEST_CASE("each path and limit in DEVELOPERS.md is there") {
    const std::string text = page("DEVELOPERS.md");
    static const std::regex named(R"(`((?:grammar|interpreter|stdlib|tests|examples)/[^`*… ]+)`)");
    for (std::sregex_iterator at(text.begin(), text.end(), named), end; at != end; ++at) {
        const std::string path = (*at)[1];
        if (path.find("NAME") != std::string::npos || path.find("CODE") != std::string::npos)
            continue;
        INFO(path);
        CHECK(fs::exists(root / path));
    }
    static const std::regex limit(R"(`(\w+ = [^`]+)` in `([^`]+)`)");
    int limits = 0;
    for (std::sregex_iterator at(text.begin(), text.end(), limit), end; at != end; ++at, ++limits) {
        INFO((*at)[1] << " in " << (*at)[2]);
        CHECK(page((*at)[2]).find((*at)[1].str() + ";") != std::string::npos);
    }
    CHECK(limits > 10);
}

TEST_CASE("the formal grammar defines each name that it uses") {
    std::set<std::string> defined, used;
    for (const Fence& fence : read_fences(page("grammar/LANGUAGE.md"))) {
        if (fence.info != "ebnf") continue;
        static const std::regex quoted(R"("[^"]*"|\?[^?]*\?)"), name(R"([a-z][a-z_]*)");
        for (const std::string& whole : split_lines(fence.text)) {
            std::string line = std::regex_replace(whole, quoted, " ");
            const std::size_t equals = line.find(" = ");
            if (equals != std::string::npos && line[0] != ' ') {
                defined.insert(line.substr(0, line.find(' ')));
                line = line.substr(equals);
            }
            for (std::sregex_iterator at(line.begin(), line.end(), name), end; at != end; ++at)
                used.insert(at->str());
        }
    }
    CHECK(defined.size() > 50);
    for (const std::string& one : used) {
        INFO(one);
        CHECK(defined.contains(one));
    }
    for (const std::string& one : defined) {
        INFO(one << " is defined, and nothing uses it");
        CHECK((one == "file" || used.contains(one)));
    }
}
