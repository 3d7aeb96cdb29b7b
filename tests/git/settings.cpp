// `levigate git`, and what git then shows.
#include <catch2/catch.hpp>

#include "tests/git/repository.hpp"

using namespace levigate::testing;

namespace {

const std::string before = "material soft base\n\n"
                           "shade Quince\n"
                           "    let {depth} = 10 %\n"
                           "    rest        soft base\n"
                           "    {depth}     copper mica\n"
                           "    step        Warm the base.\n"
                           "    step        Stir it slowly.\n"
                           "    step        Let it rest.\n"
                           "    batch       trial 10 g\n";
const std::string after = "material soft base\n\n"
                          "shade Quince\n"
                          "    let {depth} = 10 %\n"
                          "    rest        soft base\n"
                          "    {depth}     copper mica\n"
                          "    step        Warm the base.\n"
                          "    step        Stir it slowly.\n"
                          "    step        Let it rest.\n"
                          "    batch       trial 12 g\n";

}  // namespace

TEST_CASE("settings are written once, and told") {
    GitFolder folder;
    folder.write(".gitattributes", "*.png binary");
    const Outcome shown = folder.levigate({"git", "--print"});
    CHECK(shown.status == 0);
    CHECK(holds(shown.out, "Would go into"));
    CHECK(folder.git({"config", "--get", "diff.shade.textconv"}, true).status != 0);
    CHECK(folder.read(".gitattributes") == "*.png binary");

    const Outcome first = folder.levigate({"git"});
    INFO(first.out << first.err);
    CHECK(first.status == 0);
    CHECK(holds(first.out, "diff.shade.textconv = "));
    CHECK(folder.read(".gitattributes") == "*.png binary\n*.shade text eol=lf diff=shade\n");
    const std::string textconv = folder.git({"config", "--local", "diff.shade.textconv"}).out;
    CHECK(holds(textconv, "tidy --print"));
    CHECK(holds(first.out, textconv.substr(0, textconv.size() - 1)));
    const std::string settings = folder.read(".git/config");

    const Outcome again = folder.levigate({"git"});
    CHECK(again.out == "All is set already: nothing is written.\n");
    CHECK(folder.read(".git/config") == settings);
    CHECK(folder.read(".gitattributes") == "*.png binary\n*.shade text eol=lf diff=shade\n");
}

TEST_CASE("git names the shade behind @@ and takes amounts and holes for words") {
    GitFolder folder;
    REQUIRE(folder.levigate({"git"}).status == 0);
    // What is asked here are patterns; what `tidy --print` makes of a file is a test of its own.
    folder.git({"config", "--unset", "diff.shade.textconv"});
    folder.write("a.shade", before);
    folder.commit("first");
    folder.write("a.shade", after);
    const std::string diff = folder.git({"diff", "-U1"}).out;
    INFO(diff);
    CHECK(holds(diff, "@@ shade Quince\n"));
    const std::string words = folder.git({"diff", "--word-diff=plain"}).out;
    INFO(words);
    CHECK(holds(words, "trial [-10 g-]{+12 g+}"));

    std::string holes = after;
    holes.replace(holes.find("{depth}     copper"), 7, "{d}");
    holes.replace(holes.find("= 10 %"), 6, "= 18 %");
    folder.write("a.shade", holes);
    const std::string more = folder.git({"diff", "--word-diff=plain"}).out;
    INFO(more);
    CHECK(holds(more, "[-{depth}-]{+{d}+}"));
    CHECK(holds(more, "= [-10 %-]{+18 %+}"));
}

TEST_CASE("git diff shows shade files tidied") {
    GitFolder folder;
    REQUIRE(folder.levigate({"git"}).status == 0);
    folder.write("a.shade", before);
    folder.commit("first");
    // The same page as it comes out of a mail, with one amount that is another.
    folder.write("a.shade", "Material  soft base\nshade Quince\nlet {depth} = 10%\nrest soft base\n"
                            "{depth} copper mica\nstep Warm the base.\nstep Stir it slowly.\n"
                            "step Let it rest.\nbatch trial 12g\n");
    const Outcome diff = folder.git({"diff", "-U0"});
    INFO(diff.out);
    std::vector<std::string> edits;
    for (const std::string& line : split_lines(diff.out))
        if ((line[0] == '-' || line[0] == '+') && line[1] == ' ') edits.push_back(line);
    CHECK(edits.size() == 2);
    CHECK(holds(diff.out, "trial  12 g\n"));
}

TEST_CASE("a link in place of the attributes is left alone") {
    GitFolder folder;
    folder.write("elsewhere", "mine\n");
    std::filesystem::create_symlink("elsewhere", folder.path(".gitattributes"));
    const Outcome outcome = folder.levigate({"git"});
    CHECK(outcome.status == 3);
    CHECK(folder.read("elsewhere") == "mine\n");
}
