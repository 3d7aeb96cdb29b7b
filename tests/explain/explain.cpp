// Every finding has a page, and every page tells the truth: its wrong example gives that finding
// and no other, its right example gives none.
#include "grammar/codes.hpp"
#include "tests/explain/page.hpp"
#include "tests/support/process.hpp"
#include "tests/support/text.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cstdlib>
#include <map>
#include <regex>
#include <set>

namespace fs = std::filesystem;
using namespace levigate::testing;

namespace {

const fs::path root = LEVIGATE_ROOT;

std::string program() {
    const char* other = std::getenv("LEVIGATE_BINARY");
    return other != nullptr ? other : LEVIGATE_BINARY;
}

struct Named {
    std::string code;
    Page page;
};

std::vector<Named> all_pages() {
    std::vector<Named> pages;
    for (const auto& entry : fs::directory_iterator(root / "interpreter/explain")) {
        if (entry.path().extension() != ".md") continue;
        pages.push_back(
            {entry.path().stem().string(), read_page(read_file(entry.path()).value_or(""))});
    }
    std::sort(pages.begin(), pages.end(),
              [](const Named& a, const Named& b) { return a.code < b.code; });
    return pages;
}

struct Said {
    std::string code;
    std::string severity;
    std::string message;
};

struct Answer {
    int status = 0;
    std::vector<Said> said;
    std::string trouble;  // no object on standard output
};

void collect(const nlohmann::json& findings, std::vector<Said>& said) {
    for (const auto& finding : findings) {
        said.push_back({finding.value("code", ""), finding.value("severity", ""),
                        finding.value("message", "")});
    }
}

Outcome play(const Example& example, bool as_json) {
    const ScratchFolder folder;
    for (const ExampleFile& file : example.files) write_file(folder.path() / file.name, file.text);
    Command command;
    command.words = {program()};
    command.folder = folder.path();
    if (example.command.empty()) {
        command.words.insert(command.words.end(), {"check", example.files.at(0).name});
    } else {
        command.words.insert(command.words.end(), example.command.begin(), example.command.end());
    }
    if (as_json) command.words.insert(command.words.end(), {"--as", "json"});
    return run(command);
}

/// Beside the object of an edition, which members get: "a.shade:1:2: advice: … (share-told)".
void add_said_aloud(const std::string& err, std::vector<Said>& said) {
    for (const std::string& line : split_lines(err)) {
        const std::size_t code = line.rfind(" (");
        if (line.empty() || line[0] == ' ' || line.back() != ')' || code == line.npos) continue;
        for (const char* severity : {"error", "warning", "advice"}) {
            const std::string mark = std::string(": ") + severity + ": ";
            const std::size_t at = line.find(mark);
            if (at == line.npos) continue;
            said.push_back({line.substr(code + 2, line.size() - code - 3), severity,
                            line.substr(at + mark.size(), code - at - mark.size())});
        }
    }
}

Answer answer(const Example& example) {
    const Outcome outcome = play(example, true);
    Answer answer{outcome.status, {}, {}};
    const auto json = nlohmann::json::parse(outcome.out, nullptr, false);
    if (!json.is_object() || !json.contains("findings")) {
        answer.trouble = "no object came: " + visible(outcome.out + outcome.err);
        return answer;
    }
    collect(json["findings"], answer.said);
    add_said_aloud(outcome.err, answer.said);
    if (json.contains("sheets"))
        for (const auto& sheet : json["sheets"]) collect(sheet["findings"], answer.said);
    if (json.contains("plans"))
        for (const auto& plan : json["plans"]) collect(plan["findings"], answer.said);
    return answer;
}

std::string in_words(const std::vector<Said>& said) {
    std::string text;
    for (const Said& one : said)
        text += "\n  " + one.severity + " " + one.code + ": " + one.message;
    return text.empty() ? "\n  nothing was said" : text;
}

// What a material may be marked with: their pages tell what to do, and have no examples to run.
const std::set<std::string> hazards = {"powder", "flammable"};

// What no example brings about: faults of our own (tests/unit/resolve and tests/unit/grammar hold
// them), and a folder of ten thousand files (tests/unit/cli).
const std::set<std::string> unplayable = {"shade-unexplained", "share-differs", "too-many-files",
                                          "tidy-changed"};

// Every code that a source names, as a page is called, and the first file that does.
std::map<std::string, std::string> raised_codes() {
    static const std::regex shape("Code::([a-z0-9_]+)");
    std::map<std::string, std::string> found;
    for (const char* room : {"grammar", "interpreter"}) {
        for (const auto& entry : fs::recursive_directory_iterator(root / room)) {
            const auto extension = entry.path().extension();
            if (extension != ".cpp" && extension != ".hpp") continue;
            const std::string text = read_file(entry.path()).value_or("");
            for (std::sregex_iterator at(text.begin(), text.end(), shape), end; at != end; ++at) {
                std::string code = (*at)[1];
                std::replace(code.begin(), code.end(), '_', '-');
                found.emplace(std::move(code), fs::relative(entry.path(), root).string());
            }
        }
    }
    return found;
}

}  // namespace

TEST_CASE("a page is taken apart as it is written") {
    const Page page =
        read_page("# some-code\n\nIt means this.\n\nWrong (bytes):\n\n```\nab\\n\n"
                  "\\x41\\*3{yz}\\*2{\\i,}\n```\n\nRight:\n\n```\none\n# file: two.shade\n"
                  "two\n```\n");
    CHECK(page.problem.empty());
    CHECK(page.code == "some-code");
    CHECK(page.meaning == "It means this. ");
    REQUIRE(page.wrong.size() == 1);
    CHECK(page.wrong[0].files.at(0).text == "ab\nAyzyzyz1,2,");
    REQUIRE(page.right.size() == 1);
    REQUIRE(page.right[0].files.size() == 2);
    CHECK(page.right[0].files[0].name == "example.shade");
    CHECK(page.right[0].files[1].name == "two.shade");
    CHECK(page.right[0].files[1].text == "two\n");
    const Page command = read_page("# c\n\nM.\n\nWrong (command):\n\n```\nlevigate weigh a.shade\n"
                                   "# file: a.shade\nshade A\n```\n");
    REQUIRE(command.wrong.size() == 1);
    CHECK(command.wrong[0].command == std::vector<std::string>{"weigh", "a.shade"});
    CHECK_FALSE(read_page("no title\n").problem.empty());
    CHECK_FALSE(read_page("# c\n\n```\nx\n```\n").problem.empty());
    CHECK_FALSE(read_page("# c\n\nWrong:\n\n```\nx\n").problem.empty());
}

TEST_CASE("each page has its code for a title, a meaning, and both examples") {
    const auto pages = all_pages();
    REQUIRE_FALSE(pages.empty());
    for (const Named& named : pages) {
        INFO("interpreter/explain/" << named.code << ".md");
        CHECK(named.page.problem.empty());
        CHECK(named.page.code == named.code);
        CHECK(named.page.meaning.size() > 20);
        const std::size_t examples =
            hazards.contains(named.code) || unplayable.contains(named.code) ? 0 : 1;
        CHECK(named.page.wrong.size() == examples);
        CHECK(named.page.right.size() == examples);
    }
}

// The figures of ../shared/facts/lip_colourants_us.md, section 4, and that they are deferred.
TEST_CASE("the pages of hazards give the limits with their sources") {
    const std::string powder = read_file(root / "interpreter/explain/powder.md").value_or("");
    for (const char* figure :
         {"| mica, under 1 % quartz | 20 million particles a cubic foot | 3 respirable |",
          "| kaolin | 15 total, 5 respirable | 10 total, 5 respirable (memory) |",
          "| titanium dioxide | 15 total | 2.4 fine, 0.3 ultrafine |",
          "| crystalline silica, respirable | 0.05 | 0.05 |",
          "| iron oxide | 10, listed as fume |"})
        CHECK(powder.find(figure) != std::string::npos);
    const std::string flammable = read_file(root / "interpreter/explain/flammable.md").value_or("");
    CHECK(flammable.find("about 43 to 48 °C | 35 °C | memory") != std::string::npos);
    for (const std::string& page : {powder, flammable}) {
        CHECK(page.find("safety sheet") != std::string::npos);
        CHECK(page.find("country") != std::string::npos);
    }
}

TEST_CASE("each wrong example gives the finding of its page, and no other") {
    for (const Named& named : all_pages()) {
        for (const Example& example : named.page.wrong) {
            const Answer came = answer(example);
            INFO(named.code << " gave:" << in_words(came.said));
            CHECK(came.trouble.empty());
            CHECK_FALSE(came.said.empty());
            bool error = false;
            bool meant = false;
            // That there is more to say comes behind what there is more of.
            const bool among_others = named.code == "too-many-findings";
            for (const Said& one : came.said) {
                if (!among_others && one.code != "share-told") CHECK(one.code == named.code);
                meant = meant || one.code == named.code;
                error = error || one.severity == "error";
            }
            CHECK(meant);
            CHECK((came.status != 0) == error);
            CHECK(came.status <= 3);
        }
    }
}

// Whoever seals a blend is told what members can tell of it: no example with one is without that.
std::string without_told(const std::string& err) {
    std::string out;
    bool told = false;
    for (const std::string& line : split_lines(err)) {
        if (!line.empty() && line[0] != ' ') told = line.find("(share-told)") != std::string::npos;
        if (!told && line != "1 piece of advice") out += line;
    }
    return out;
}

TEST_CASE("each right example gives no finding") {
    for (const Named& named : all_pages()) {
        for (const Example& example : named.page.right) {
            // A command is played as it stands: what it says is on standard error.
            if (!example.command.empty()) {
                const Outcome came = play(example, false);
                INFO(named.code << " gave: " << visible(came.err));
                CHECK(came.status == 0);
                CHECK(without_told(came.err).empty());
                continue;
            }
            const Answer came = answer(example);
            INFO(named.code << " gave:" << in_words(came.said));
            CHECK(came.trouble.empty());
            CHECK(came.said.empty());
            CHECK(came.status == 0);
        }
    }
}

TEST_CASE("each code has a page, and each page is of a code that is raised somewhere") {
    std::set<std::string> pages, codes;
    for (const Named& named : all_pages()) pages.insert(named.code);
    for (const levigate::CodeRow& row : levigate::code_rows()) {
        INFO("write interpreter/explain/" << row.name << ".md");
        CHECK(pages.contains(std::string(row.name)));
        CHECK(codes.emplace(row.name).second);
    }
    CHECK(codes.size() + hazards.size() == pages.size());
    const auto raised = raised_codes();
    for (const std::string& code : pages) {
        if (hazards.contains(code)) continue;
        INFO("nothing raises " << code << ": interpreter/explain/" << code << ".md is stale");
        CHECK(raised.contains(code));
    }
}

TEST_CASE("`explain` prints the page as it stands, and lists all of them") {
    Command command;
    command.words = {program(), "explain"};
    const std::string list = run(command).out;
    for (const Named& named : all_pages()) {
        INFO(named.code);
        CHECK(list.find(named.code) != std::string::npos);
        command.words = {program(), "explain", named.code};
        const Outcome came = run(command);
        CHECK(came.status == 0);
        CHECK(came.out ==
              read_file(root / "interpreter/explain" / (named.code + ".md")).value_or(""));
    }
}
