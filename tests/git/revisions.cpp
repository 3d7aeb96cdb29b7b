// `changes` by revisions, in repositories that real git made.
#include <catch2/catch.hpp>

#include "tests/git/repository.hpp"

using namespace levigate::testing;

namespace {

const std::string shelf = "material soft base\nmaterial copper mica\n";

std::string quince(const std::string& amount) {
    return "use \"shelf.shade\"\nshade Quince\n    rest        soft base\n    " + amount +
           "    copper mica\n    batch       trial 10 g\n";
}

/// Three commits: 10 %, 20 % (tagged), 30 %; and 40 % in the folder.
void fill(const GitFolder& folder) {
    folder.write("shelf.shade", shelf);
    folder.write("quince.shade", quince("10 %"));
    folder.commit("first");
    folder.write("quince.shade", quince("20 %"));
    folder.commit("second");
    folder.git({"tag", "v2"});
    folder.write("quince.shade", quince("30 %"));
    folder.commit("third");
    folder.write("quince.shade", quince("40 %"));
}

void told(const Outcome& outcome, const std::string& edit, const std::string& grams) {
    INFO(outcome.out << outcome.err);
    CHECK(outcome.status == 0);
    CHECK(holds(outcome.out, "copper mica: " + edit));
    CHECK(holds(outcome.out, grams));
}

}  // namespace

TEST_CASE("revisions are compared with each other and with what is here") {
    GitFolder folder;
    fill(folder);
    told(folder.levigate({"changes", "HEAD~2", "HEAD"}), "10 % → 30 %", "1.00 → 3.00");
    told(folder.levigate({"changes", "v2", "."}), "20 % → 40 %", "2.00 → 4.00");
    told(folder.levigate({"changes", "v2"}), "20 % → 40 %", "2.00 → 4.00");
    told(folder.levigate({"changes", "quince.shade"}), "30 % → 40 %", "3.00 → 4.00");
    told(folder.levigate({"changes", "v2", "quince.shade"}), "20 % → 40 %", "2.00 → 4.00");
    told(folder.levigate({"changes", "HEAD~2:quince.shade", "v2:quince.shade"}), "10 % → 20 %",
         "1.00 → 2.00");
    told(folder.levigate({"changes", "HEAD~1", "HEAD:"}), "20 % → 30 %", "2.00 → 3.00");
}

TEST_CASE("what a file uses is read from the same revision") {
    GitFolder folder;
    const std::string of_old = "use \"lib/shelf.shade\"\nshade Quince\n    rest soft base\n"
                               "    1 drop per 10 g oil\n    batch all 100 g\n";
    const auto page = [](const char* drop) {
        return std::string("material soft base\nmaterial oil\n    density 1 g/mL\nunit drop = ") +
               drop + " mL\n";
    };
    folder.write("a/quince.shade", of_old);
    folder.write("a/lib/shelf.shade", page("0.05"));
    folder.commit("first");
    folder.write("a/lib/shelf.shade", page("0.1"));
    folder.commit("second");
    // 0.05 g in 10 g are 0.5 %, 0.1 g are 1 %.
    const Outcome outcome =
        folder.levigate({"changes", "HEAD~1:a/quince.shade", "HEAD:a/quince.shade"});
    INFO(outcome.out << outcome.err);
    CHECK(outcome.status == 0);
    CHECK(holds(outcome.out, "Quince changes too, because 1 drop is more now."));
    CHECK(holds(outcome.out, "0.50 → 1.00"));
    // The same from inside the folder, where a revision means this folder.
    const Outcome inside = folder.levigate({"changes", "HEAD~1", "HEAD"}, "a");
    INFO(inside.out << inside.err);
    CHECK(holds(inside.out, "0.50 → 1.00"));
}

TEST_CASE("a file that is new since the revision is all new") {
    GitFolder folder;
    folder.write("shelf.shade", shelf);
    folder.commit("first");
    folder.write("quince.shade", quince("10 %"));
    const Outcome outcome = folder.levigate({"changes", "quince.shade"});
    CHECK(outcome.status == 0);
    CHECK(holds(outcome.out, "shade Quince (new)"));
}

TEST_CASE("a revision that isn't there is told, with the reason") {
    GitFolder folder;
    const Outcome unborn = folder.levigate({"changes", "HEAD", "."});
    CHECK(unborn.status == 3);
    CHECK(holds(unborn.err, "Nothing is committed yet."));
    fill(folder);
    const Outcome missing = folder.levigate({"changes", "v7", "HEAD"});
    CHECK(missing.status == 3);
    CHECK(
        holds(missing.err, "\"v7\" is no file or folder here, no REVISION:PATH, and no revision."));
    const Outcome no_path = folder.levigate({"changes", "HEAD:pear.shade", "quince.shade"});
    CHECK(no_path.status == 3);
    CHECK(holds(no_path.err, "In HEAD there is no \"pear.shade\"."));

    folder.git({"commit", "-qam", "fourth"});
    folder.git({"clone", "-q", "--depth", "1", "file://" + folder.path().string(), "shallow"});
    const Outcome shallow = folder.levigate({"changes", "HEAD~2", "HEAD"}, "shallow");
    CHECK(shallow.status == 3);
    CHECK(holds(shallow.err, "shallow clone"));
}

TEST_CASE("a bare repository is compared, and given no settings") {
    GitFolder folder;
    fill(folder);
    folder.git({"clone", "-q", "--bare", ".", "bare.git"});
    told(folder.levigate({"changes", "v2", "HEAD"}, "bare.git"), "20 % → 30 %", "2.00 → 3.00");
    const Outcome settings = folder.levigate({"git"}, "bare.git");
    CHECK(settings.status == 3);
    CHECK(holds(settings.err, "bare"));
}

TEST_CASE("a broken repository gives a message") {
    GitFolder folder;
    fill(folder);
    folder.write(".git/HEAD", "nonsense\n");
    const Outcome head = folder.levigate({"changes", "HEAD", "."});
    CHECK(head.status == 3);
    CHECK(!head.err.empty());

    GitFolder other;
    fill(other);
    for (const auto& entry :
         std::filesystem::recursive_directory_iterator(other.path(".git/objects")))
        if (entry.is_regular_file()) {
            std::filesystem::permissions(entry.path(), std::filesystem::perms::owner_all);
            other.write(std::filesystem::relative(entry.path(), other.path()).string(), "rubbish");
        }
    const Outcome objects = other.levigate({"changes", "v2", "HEAD"});
    INFO(objects.out << objects.err);
    CHECK(objects.status == 3);
    CHECK(!objects.err.empty());
}

TEST_CASE("nothing in a repository is run") {
    GitFolder folder;
    fill(folder);
    folder.write("run.sh", "#!/bin/sh\ntouch \"$(dirname \"$0\")/ran\"\ncat\n");
    std::filesystem::permissions(folder.path("run.sh"), std::filesystem::perms::owner_all);
    const std::string program = folder.path("run.sh").string();
    folder.write(".gitattributes", "*.shade filter=evil diff=evil\n");
    for (const char* name : {"filter.evil.smudge", "filter.evil.clean", "diff.evil.textconv",
                             "diff.evil.command", "core.fsmonitor", "core.pager", "diff.external"})
        folder.git({"config", name, program});
    told(folder.levigate({"changes", "v2", "."}), "20 % → 40 %", "2.00 → 4.00");
    CHECK(folder.read("ran") == "(no such file)");
}
