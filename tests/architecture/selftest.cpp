// The checks of this folder, each tried on small files that break its rule, and on some that don't.
#include "tests/architecture/includes.hpp"
#include "tests/architecture/scan.hpp"
#include "tests/architecture/style.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace levigate::testing;
using Catch::Contains;

namespace {

SourceFile with_include(const char* path, const char* target) {
    return source_file(path, std::string("#pragma once\n#include ") + target + "\n");
}

bool refused(const char* path, const char* target) {
    return wrong_directions({with_include(path, target)}).size() == 1;
}

std::string lines(std::size_t count) {
    std::string text;
    for (std::size_t i = 0; i < count; ++i) text += "    work();\n";
    return text;
}

}  // namespace

TEST_CASE("comments and literals are no code") {
    const SourceFile file =
        source_file("grammar/a.cpp", "int a = 1'000; // throw new\n"
                                     "/* throw\n new */ auto s = \"throw \\\" new\";\n"
                                     "auto r = R\"x(throw )\" new)x\"; char c = '\"';\n"
                                     "throw a;\n");
    const Offences found = words_in_code({file}, {"throw", "new"}, {});
    REQUIRE(found.size() == 1);
    CHECK(found[0] == "grammar/a.cpp:5: throw");
    CHECK(words_in_code({file}, {"throw"}, {"grammar/"}).empty());
    CHECK(words_in_code({file}, {"throw"}, {"grammar/a.cpp"}).empty());
    CHECK(words_in_code({source_file("a.cpp", "int newer = renew;\n")}, {"new"}, {}).empty());
}

TEST_CASE("rooms that look the wrong way are found") {
    CHECK(refused("grammar/read.cpp", "\"interpreter/measure/exact.hpp\""));
    CHECK(refused("interpreter/measure/unit.hpp", "\"grammar/tree.hpp\""));
    CHECK(refused("interpreter/formulary/shade.hpp", "\"grammar/tree.hpp\""));
    CHECK(refused("interpreter/expand/batch.cpp", "\"grammar/tree.hpp\""));
    CHECK(refused("interpreter/expand/batch.cpp", "\"interpreter/resolve/names.hpp\""));
    CHECK(refused("interpreter/rules/total.cpp", "\"interpreter/expand/batch.hpp\""));
    CHECK(refused("interpreter/rules/total.cpp", "\"interpreter/render/text.hpp\""));
    CHECK(refused("interpreter/render/text.cpp", "\"interpreter/rules/table.hpp\""));
    CHECK(refused("interpreter/resolve/names.cpp", "\"interpreter/expand/sheet.hpp\""));
    CHECK(refused("interpreter/compile.cpp", "\"interpreter/query/why.hpp\""));
    CHECK(refused("interpreter/query/why.cpp", "\"interpreter/cli/main.hpp\""));
    CHECK(refused("interpreter/cli/weigh.cpp", "\"interpreter/resolve/names.hpp\""));
    CHECK(refused("interpreter/history/repository.cpp", "\"interpreter/cli/weigh.hpp\""));
    CHECK(refused("interpreter/parlour/x.cpp", "<vector>"));  // a room that nobody decided about
}

TEST_CASE("what a room may include is let through") {
    CHECK_FALSE(refused("grammar/read.cpp", "\"grammar/tree.hpp\""));
    CHECK_FALSE(refused("interpreter/measure/unit.hpp", "\"grammar/finding.hpp\""));
    CHECK_FALSE(refused("interpreter/expand/batch.cpp", "\"interpreter/formulary/shade.hpp\""));
    CHECK_FALSE(refused("interpreter/rules/total.cpp", "\"interpreter/expand/sheet.hpp\""));
    CHECK_FALSE(refused("interpreter/resolve/names.cpp", "\"interpreter/world.hpp\""));
    CHECK_FALSE(refused("interpreter/compile.cpp", "\"interpreter/expand/batch.hpp\""));
    CHECK_FALSE(refused("interpreter/cli/weigh.cpp", "\"interpreter/compile.hpp\""));
    CHECK_FALSE(refused("interpreter/cli/weigh.cpp", "<vector>"));
}

TEST_CASE("rows for what doesn't exist are found") {
    const auto has = [](const Offences& offences, const char* words) {
        return std::count(offences.begin(), offences.end(), words) > 0;
    };
    const Offences none_there = empty_rows({});
    CHECK(has(none_there, "the table has a row for interpreter/history, which doesn't exist"));
    CHECK(
        has(none_there, "interpreter/history may include interpreter/world, which doesn't exist"));
    const Offences both_there = empty_rows({source_file("interpreter/history/repository.cpp", ""),
                                            source_file("interpreter/world.hpp", "")});
    CHECK_FALSE(
        has(both_there, "the table has a row for interpreter/history, which doesn't exist"));
    CHECK_FALSE(
        has(both_there, "interpreter/history may include interpreter/world, which doesn't exist"));
    CHECK(has(both_there, "the table has a row for interpreter/cli, which doesn't exist"));
}

TEST_CASE("loops and unknown files are found") {
    const std::vector<SourceFile> loop{with_include("grammar/a.hpp", "\"grammar/b.hpp\""),
                                       with_include("grammar/b.hpp", "\"grammar/c.hpp\""),
                                       with_include("grammar/c.hpp", "\"grammar/a.hpp\"")};
    REQUIRE(include_loops(loop).size() == 1);
    CHECK(include_loops(loop)[0] ==
          "grammar/a.hpp -> grammar/b.hpp -> grammar/c.hpp -> grammar/a.hpp");
    CHECK(include_loops({loop[0], loop[1]}).empty());
    CHECK(unknown_includes(loop).empty());
    CHECK_THAT(unknown_includes({with_include("grammar/a.hpp", "\"b.hpp\"")}).at(0),
               Contains("grammar/a.hpp:2: b.hpp"));
}

TEST_CASE("a library outside its room is found") {
    const SourceFile file = with_include("interpreter/rules/a.cpp", "<boost/units/quantity.hpp>");
    CHECK(library_outside({file}, "<boost/units", "interpreter/measure/").size() == 1);
    CHECK(library_outside({file}, "<boost/units", "interpreter/rules/").empty());
    CHECK(library_outside({file}, "<tao/", "grammar/").empty());
}

TEST_CASE("long files and lines are found") {
    CHECK(long_files({source_file("a.cpp", lines(400))}, 400).empty());
    CHECK(long_files({source_file("a.cpp", lines(401))}, 400).size() == 1);
    const std::string accents(100, ' ');  // 100 columns, with two bytes in some
    CHECK(long_lines({source_file("a.cpp", "//é" + accents.substr(3))}, 100).empty());
    CHECK(long_lines({source_file("a.cpp", "//é" + accents)}, 100).size() == 1);
    CHECK(long_lines({source_file("a.md", "//é" + accents)}, 100).empty());
}

TEST_CASE("long functions are found, whatever stands around them") {
    const auto found = [](const std::string& text) {
        return long_functions({source_file("a.cpp", text)}, 60).size();
    };
    const std::string body = "{\n" + lines(59) + "}\n";  // 61 lines, braces included
    CHECK(found("void f() {\n" + lines(58) + "}\n") == 0);
    CHECK(found("void f() " + body) == 1);
    CHECK(found("namespace a {\nstruct S {\n    int x{1};\n    bool f() const noexcept " + body +
                "};\n}\n") == 1);
    CHECK(found("S::S(int a) : a_{a}, b_{2} " + body) == 1);
    CHECK(found("auto f = [](int) " + body + ";\n") == 1);
    CHECK(found("void f() {\n    for (;;) " + body + "}\n") == 1);  // once, for the whole
    CHECK(found("struct S " + body + ";\n") == 0);
    CHECK(found("const Row rows[] = " + body + ";\n") == 0);
    CHECK(found("void f() {\n" + lines(40) + "}\nvoid g() {\n" + lines(40) + "}\n") == 0);
}

TEST_CASE("marks of unfinished work are found") {
    const auto count = [](const std::string& text) {
        return unfinished({source_file("a.md", text)}).size();
    };
    CHECK(count(std::string("// TO") + "DO: later\n") == 1);
    CHECK(count(std::string("Not Imple") + "mented\n") == 1);
    CHECK(count("XXXXXX is a pattern, a hacksaw is a tool\n") == 0);
}
