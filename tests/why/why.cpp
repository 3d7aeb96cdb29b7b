// The chain replays: from the steps of `why --as json` alone, each number comes out again, and the
// grams at its end are the exact grams of `weigh --as json`. Reckoned with Boost's fractions, not
// with the interpreter's own numbers.
#include <catch2/catch.hpp>

#include <boost/multiprecision/cpp_int.hpp>
#include <filesystem>
#include <map>
#include <nlohmann/json.hpp>
#include <set>
#include <tuple>

#include "interpreter/compile.hpp"
#include "interpreter/query/why_document.hpp"
#include "interpreter/render/json.hpp"
#include "tests/why/pages.hpp"

using namespace levigate;
using Json = nlohmann::json;
using Number = boost::multiprecision::cpp_rational;

namespace {

Number number(const Json& text) { return Number(text.get<std::string>()); }

// One section, redone; its operands that come from another section are that one's own result.
Number redo(const Json& section, const std::vector<Number>& before) {
    Number value;
    bool started = false;
    for (const Json& step : section["steps"]) {
        const std::string op = step["op"];
        if (op == "note") continue;
        const Number operand = number(step["operand"]);
        if (step.contains("from")) {
            REQUIRE(step["from"].get<std::size_t>() < before.size());
            CHECK(operand == before[step["from"]]);
        }
        CHECK(started == (op != "start"));  // one number to begin with, and only one
        started = true;
        if (op == "start")
            value = operand;
        else if (op == "plus")
            value += operand;
        else if (op == "minus")
            value -= operand;
        else if (op == "times")
            value *= operand;
        else if (op == "divide")
            value /= operand;
        else
            FAIL("an unknown op " << op);
    }
    CHECK(started);
    return value;
}

// The results of all sections; each is what is written beside it, and each leads somewhere.
std::vector<Number> replay(const Json& why) {
    std::vector<Number> results;
    std::set<std::size_t> used;
    for (const Json& section : why["sections"]) {
        INFO("section " << section["title"]);
        const Number value = redo(section, results);
        CHECK(value == number(section["result"]));
        results.push_back(value);
        for (const Json& step : section["steps"])
            if (step.contains("from")) used.insert(step["from"].get<std::size_t>());
    }
    for (std::size_t i = 0; i + 1 < results.size(); ++i) {
        const std::string title = why["sections"][i]["title"];
        INFO("does anything need " << title);
        CHECK((used.contains(i) || title.starts_with("grams of ")));
    }
    return results;
}

Number grams_of(const Json& sheet, const std::string& ingredient) {
    Number grams;
    for (const Json& bowl : sheet["bowls"])
        for (const Json& line : bowl["lines"])
            if (line["name"] == ingredient) grams += number(line["exact"]);
    return grams;
}

// Sheets of one shade, variant and finish: a batch each.
void compare(const Json& why, const std::vector<Json>& sheets) {
    const std::vector<Number> results = replay(why);
    const std::string ingredient = why["ingredient"];
    std::vector<Number> grams;
    for (std::size_t i = 0; i < results.size(); ++i)
        if (why["sections"][i]["title"].get<std::string>().starts_with("grams of "))
            grams.push_back(results[i]);
    REQUIRE(grams.size() == sheets.size());
    for (std::size_t i = 0; i < sheets.size(); ++i) {
        CHECK(grams[i] == grams_of(sheets[i], ingredient));
        CHECK(number(why["share"]) * number(sheets[i]["total"]["exact"]) == grams[i]);
        for (const Json& material : sheets[i]["materials"])
            if (material["name"] == ingredient) CHECK(number(material["exact"]) == grams[i]);
    }
}

std::string path_of(const Json& sheet) {
    std::string path = sheet["shade"];
    for (const char* key : {"variant", "finish"})
        if (sheet[key].is_string()) path += " / " + sheet[key].get<std::string>();
    return path;
}

std::set<std::string> ingredients(const std::vector<Json>& sheets) {
    std::set<std::string> names;
    for (const Json& sheet : sheets)
        for (const Json& bowl : sheet["bowls"])
            for (const Json& line : bowl["lines"]) names.insert(line["name"].get<std::string>());
    return names;
}

// Asks after every ingredient of every sheet. How many answers came.
int replay_page(const World& world, const std::string& path) {
    Compiled compiled = compile(world, path);
    Choice choice;
    choice.all = choice.materials = true;
    choice.words = choice.expectations = false;
    std::string text;
    SheetsJson writer(compiled.formulary, compiled.sources);
    writer.open(text);
    expand_each(compiled.formulary, compiled.names, choice,
                [&](Sheet& sheet) { writer.append(sheet, text); });
    writer.close({}, text);
    std::map<std::string, std::vector<Json>> groups;
    const Json weighed = Json::parse(text);
    for (const Json& sheet : weighed["sheets"]) groups[path_of(sheet)].push_back(sheet);
    int answers = 0;
    for (const auto& [shade, sheets] : groups) {
        for (const std::string& ingredient : ingredients(sheets)) {
            INFO(path << ": " << ingredient << " in " << shade);
            const auto answer = why(compiled, {shade, ingredient, std::nullopt, std::nullopt});
            REQUIRE(answer.value);
            compare(Json::parse(why_json(compiled.sources, answer.value, answer.findings)), sheets);
            ++answers;
        }
    }
    return answers;
}

}  // namespace

TEST_CASE("each number of the examples can be redone from its chain") {
    CHECK(replay_page(disk_world(), LEVIGATE_ROOT "/examples/orchard.shade") > 50);
    CHECK(replay_page(disk_world(), LEVIGATE_ROOT "/examples/hedgerow.shade") > 50);
    CHECK(replay_page(disk_world(), LEVIGATE_ROOT "/examples/hedgerow-base.shade") > 20);
}

TEST_CASE("each number of the worked examples can be redone from its chain") {
    int answers = 0;
    for (const auto& entry : std::filesystem::directory_iterator(LEVIGATE_ROOT "/tests/worked"))
        if (entry.path().extension() == ".shade")
            answers += replay_page(disk_world(), entry.path().string());
    CHECK(answers > 60);
}

TEST_CASE("each number of generated pages can be redone from its chain") {
    int answers = 0;
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
        const std::string text = testing::page(seed);
        INFO("seed " << seed << "\n" << text);
        const int here = replay_page(memory_world({{"page.shade", text}}), "page.shade");
        CHECK(here > 30);
        answers += here;
    }
    CHECK(answers > 5000);
}
