// CSV and JSON, as other programs read them.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "interpreter/render/csv.hpp"
#include "interpreter/render/json.hpp"
#include "tests/unit/render/made.hpp"

using namespace levigate;
using Catch::Matchers::Contains;

namespace {

std::string csv(const Made& made) {
    std::string out;
    CsvWriter writer(made.formulary);
    writer.open(out);
    writer.append(made.sheet, out);
    return out;
}

std::string json(const Made& made, const Findings& outside = {}, int times = 1) {
    std::string out;
    SheetsJson writer(made.formulary, made.sources);
    writer.open(out);
    for (int i = 0; i < times; ++i) writer.append(made.sheet, out);
    writer.close(outside, out);
    return out;
}

std::string in_grams_of(Exact steps, Exact step, int places) {
    Reading reading;
    reading.step = grams(step);
    reading.places = places;
    return GramsWriter(reading).text(steps);
}

}  // namespace

TEST_CASE("grams have the places of the balance", "[amounts]") {
    CHECK(in_grams_of(43, Exact(1, 100), 2) == "0.43");
    CHECK(in_grams_of(5, Exact(1, 100), 2) == "0.05");
    CHECK(in_grams_of(0, Exact(1, 100), 2) == "0.00");
    CHECK(in_grams_of(600, Exact(1, 100), 2) == "6.00");
    CHECK(in_grams_of(3, Exact(1, 20), 2) == "0.15");
    CHECK(in_grams_of(7, Exact(1), 0) == "7");
    CHECK(in_grams_of(7, Exact(1, 2), 1) == "3.5");
    CHECK(in_grams_of(1234567, Exact(1, 1000), 3) == "1234.567");
    CHECK(in_grams_of(5, Exact(2), 0) == "10");
    // beyond 64 bits: 10^20 steps of 0.01 g
    Exact many = Exact(10'000'000'000) * Exact(10'000'000'000);
    CHECK(in_grams_of(many, Exact(1, 100), 2) == "1000000000000000000.00");
}

// RFC 4180, section 2, rules 5 to 7.
TEST_CASE("fields are in quotes where they must be", "[csv]") {
    CHECK(csv_field("soft base") == "soft base");
    CHECK(csv_field("a, b") == "\"a, b\"");
    CHECK(csv_field("the \"soft\" one") == "\"the \"\"soft\"\" one\"");
    CHECK(csv_field("") == "");
    CHECK(csv_field("=1+1") == "=1+1");
}

TEST_CASE("one row a bowl line", "[csv]") {
    Made made = damson();
    CHECK(csv(made) == "shade,variant,finish,batch,bowl,ingredient,grams,percent,exact\n"
                       "Damson,,matte,trial,Windfall mica,copper mica,0.43,7.1111,32/75\n"
                       "Damson,,matte,trial,Windfall mica,red 7 lake,0.16,2.6667,4/25\n"
                       "Damson,,matte,trial,Windfall mica,red iron oxide,0.05,0.8889,4/75\n"
                       "Damson,,matte,trial,Damson,soft base,2.36,39.3651,248/105\n"
                       "Damson,,matte,trial,Damson,Windfall mica,0.64,10.6667,16/25\n"
                       "Damson,,matte,trial,Damson,black iron oxide,0.05,0.7619,8/175\n"
                       "Damson,,matte,trial,Damson,kaolin,2.36,39.3651,248/105\n"
                       "Damson,,matte,trial,Damson,light thinner,0.59,9.8413,62/105\n");
    made.formulary.shades[0].versions[0].variant = "sheer, very";
    made.sheet.finishing = made.sheet.batch = nothing;
    CHECK_THAT(csv(made), Contains("Damson,\"sheer, very\",,,Damson,soft base,"));
}

TEST_CASE("sheets are written as they come", "[csv][json]") {
    const Made made = damson();
    std::string twice = csv(made);
    const std::string rows = twice.substr(twice.find('\n') + 1);
    CsvWriter writer(made.formulary);
    writer.append(made.sheet, twice);
    CHECK(twice == csv(made) + rows);
    const auto object = nlohmann::json::parse(json(made, {}, 3));
    REQUIRE(object["sheets"].size() == 3);
    CHECK(object["sheets"][2] == object["sheets"][0]);
    CHECK(nlohmann::json::parse(json(made, {}, 0))["sheets"].empty());
}

// The example of the design page, LANGUAGE.md, "What the command gives to programs".
TEST_CASE("the object of weigh is that of the page", "[json]") {
    Made made = damson();
    auto object = nlohmann::ordered_json::parse(json(made));
    CHECK(object["format"] == "levigate weigh 1");
    const auto& sheet = object["sheets"][0];
    std::vector<std::string> keys;
    for (const auto& item : sheet.items()) keys.push_back(item.key());
    CHECK(keys == std::vector<std::string>{"shade", "variant", "finish", "batch", "total", "bowls",
                                           "materials", "findings"});
    CHECK(sheet["variant"].is_null());
    CHECK(sheet["finish"] == "matte");
    CHECK(sheet["total"].dump() == R"({"exact":"6","grams":"6.00"})");
    CHECK(sheet["bowls"][0]["name"] == "Windfall mica");
    CHECK(sheet["bowls"][0]["grams"] == "0.64");
    CHECK(sheet["bowls"][0]["lines"][0].dump() ==
          R"({"name":"copper mica","exact":"32/75","grams":"0.43","percent":"7.1111",)"
          R"("rounding":"0.7813"})");
    CHECK(sheet["bowls"][1]["name"] == "Damson");
    CHECK(sheet["materials"][0].dump() ==
          R"({"name":"soft base","exact":"248/105","percent":"39.3651"})");
    CHECK(sheet["findings"].empty());
    CHECK(object["findings"].empty());

    made.sheet.batch = nothing;
    made.sheet.onto = grams(Exact(64, 21));
    auto onto = nlohmann::json::parse(json(made))["sheets"][0];
    CHECK(onto["batch"].is_null());
    CHECK(onto["onto"].dump() == R"({"exact":"64/21","grams":"3.05"})");
}

TEST_CASE("findings have one schema", "[json]") {
    Made made = damson();
    Finding finding{.code = Code::name_unknown,
                    .message = "No.",
                    .span = {0, 24, 36},
                    .fixes = {possible_fix({0, 24, 36}, "Windfall mica"),
                              certain_fix({0, 24, 24}, "")}};
    finding.notes = {{{0, 6, 12}, "in this shade"}};
    made.sheet.findings = {finding};
    Finding nowhere{.code = Code::shade_without_batch, .message = "None.", .span = {}};
    auto object = nlohmann::json::parse(json(made, {nowhere}));
    const auto& inside = object["sheets"][0]["findings"][0];
    CHECK(inside["code"] == "name-unknown");
    CHECK(inside["severity"] == "error");
    CHECK(inside["remedy"] == "Windfall mica");
    CHECK(inside["file"] == "orchard.shade");
    CHECK(inside["line"] == 2);
    CHECK(inside["column"] == 12);
    CHECK(inside["end_line"] == 2);
    CHECK(inside["end_column"] == 24);
    REQUIRE(inside["fixes"].size() == 2);
    const auto& fix = inside["fixes"][0];
    CHECK(fix["file"] == "orchard.shade");
    CHECK(fix["line"] == 2);
    CHECK(fix["column"] == 12);
    CHECK(fix["end_line"] == 2);
    CHECK(fix["end_column"] == 24);
    CHECK(fix["text"] == "Windfall mica");
    CHECK(fix["certain"] == false);
    CHECK(inside["fixes"][1]["certain"] == true);
    CHECK(inside["labels"][0]["text"] == "in this shade");
    CHECK(inside["labels"][0]["column"] == 7);
    const auto& outside = object["findings"][0];
    CHECK(outside["severity"] == "advice");
    CHECK(!outside.contains("remedy"));
    CHECK(outside["fixes"].empty());
    CHECK(outside["file"].is_null());
    CHECK(outside["line"].is_null());
}

TEST_CASE("broken bytes never break the object", "[json]") {
    Made made = damson();
    made.formulary.shades[0].name = "Dam\xFFson \"\n\x1B";
    auto object = nlohmann::json::parse(json(made));
    CHECK(object["sheets"][0]["shade"] == "Dam\uFFFDson \"\n\x1B");
}

TEST_CASE("a verb that came to nothing still writes its object", "[json]") {
    Finding finding{Code::file_unreadable, "No.", Span{}};
    auto object = nlohmann::json::parse(nothing_json("weigh", "sheets", Sources(), {finding}));
    CHECK(object["format"] == "levigate weigh 1");
    CHECK(object["sheets"].empty());
    CHECK(object["findings"][0]["code"] == "file-unreadable");
}

TEST_CASE("two files that use a third report it once", "[json][check]") {
    Made made = damson();
    Finding finding{Code::name_unknown, "No.", {0, 24, 36}};
    CheckReport one{"a.shade", &made.sources, {finding}, {}};
    CheckReport two{"b.shade", &made.sources, {finding}, {}};
    auto object = nlohmann::json::parse(checks_json({one, two}));
    CHECK(object["format"] == "levigate check 1");
    CHECK(object["files"].size() == 2);
    CHECK(object["findings"].size() == 1);
}
