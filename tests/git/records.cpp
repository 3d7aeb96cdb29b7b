// Two people record batches on two branches, and real git brings them together. Which batches must
// be there is known from what was recorded: each has a lot of its own. Where lines are lost, that
// must be told.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cstdlib>
#include <map>
#include <random>
#include <set>

#include "tests/git/repository.hpp"

using namespace levigate::testing;

namespace {

using Strings = std::vector<std::string>;
using Random = std::mt19937_64;

constexpr const char* shades = "material soft base\nmaterial clay\nmaterial mica\n"
                               "container jar\n    holds 5 g\n"
                               "blend Fog\n    1 part      mica\n    1 part      clay\n"
                               "shade Pear\n    80 %        soft base\n    20 %        Fog\n"
                               "    batch       trial 10 g\n    batch       full 20 g\n"
                               "shade Sloe\n    90 %        soft base\n    10 %        clay\n"
                               "    batch       trial 10 g\n";

std::uint64_t seed() {
    const char* given = std::getenv("LEVIGATE_SEED");
    return given ? std::stoull(given) : std::random_device{}();
}

/// One batch as it is recorded: its lot tells it from all others.
struct Batch {
    std::string lot;
    Strings words;
};

/// Of few days, products and weights, so that two people often write nearly the same.
Batch make_batch(Random& random, int number) {
    static const Strings days{"2026-11-25", "2026-11-26"}, makers{"Ines", "Ines", "Maud"};
    static const Strings weights{"8", "8", "8.02", "8.1"};
    Batch out;
    out.lot = "L-" + std::to_string(number);
    const bool pear = random() % 3 != 0;
    out.words = {"record",    "shades.shade",
                 "--shade",   pear ? "Pear" : "Sloe",
                 "--batch",   "trial",
                 "--weighed", weights[random() % 4] + " g soft base lot " + out.lot,
                 "--by",      makers[random() % 3],
                 "--date",    days[random() % 2]};
    const auto add = [&](const char* option, const char* value) {
        out.words.insert(out.words.end(), {option, value});
    };
    if (random() % 2 == 0) add("--weighed", pear ? "2 g Fog" : "1 g clay lot C-1");
    if (random() % 2 == 0) add("--filled", "1 jar");
    if (random() % 2 == 0) add("--note", "Warm, and slow.");
    if (random() % 3 == 0) add("--code", "24-11");
    return out;
}

struct Bench {
    GitFolder folder;
    int number = 0, pairs = 0;
    std::string base;                   ///< a branch
    Strings old;                        ///< takes the branches of the last pairs away
    std::multiset<std::string> before;  ///< batches that are there

    Bench() {
        folder.write("shades.shade", shades);
        folder.commit("shades");
    }
    std::string records() const { return folder.read("records.shade"); }

    /// Records a batch and commits it; its lot.
    std::string record(Random& random) {
        Batch batch = make_batch(random, ++number);
        batch.words.insert(batch.words.end(), {"--into", "records.shade"});
        const Outcome outcome = folder.levigate(batch.words);
        INFO(outcome.err);
        REQUIRE(outcome.status == 0);
        if (number == 1 || before.empty()) folder.git({"add", "records.shade"});
        folder.git({"commit", "-q", "-am", batch.lot});
        return batch.lot;
    }
    nlohmann::json read() const {
        const Outcome outcome =
            folder.levigate({"record", "shades.shade", "--read", "records.shade", "--as", "json"});
        INFO(outcome.err);
        auto out = nlohmann::json::parse(outcome.out);
        out["status"] = outcome.status;
        return out;
    }
};

/// The lots of the records that are shown, one a record: what fused has two, or one too often.
std::multiset<std::string> lots(const nlohmann::json& read) {
    std::multiset<std::string> out;
    for (const auto& record : read["records"]) {
        std::string all;
        for (const auto& line : record["lines"])
            for (const std::string lot : line["lots"])
                if (lot.starts_with("L-")) all += lot;
        out.insert(all);
    }
    return out;
}

bool all_whole(const nlohmann::json& read) {
    for (const auto& record : read["records"])
        if (record["whole"] != true) return false;
    return true;
}

std::set<std::string> codes(const nlohmann::json& read) {
    std::set<std::string> out;
    for (const auto& finding : read["findings"])
        if (finding["code"] != "record-code") out.insert(finding["code"]);
    return out;
}

/// Batches that both have, then one or two on each of two branches, `mine` checked out.
struct Branches {
    std::multiset<std::string> before, mine, theirs;
    std::string other;  ///< the name of the branch `theirs`
};
Branches branch(Bench& bench, Random& random) {
    const GitFolder& git = bench.folder;
    Branches out;
    // Some pairs grow from the same commit. Each has names of its own: what a branch was is kept.
    const std::string name = std::to_string(++bench.pairs);
    if (bench.pairs % 8 == 1) {
        git.git({"checkout", "-q", "-f", "-b", "base" + name, "main"});
        if (!bench.old.empty()) git.git(bench.old);
        bench.old = {"branch", "-q", "-D", "base" + name};
        bench.base = "base" + name;
        bench.before.clear();
        for (std::size_t i = random() % 3; i > 0; --i) bench.before.insert(bench.record(random));
    }
    out.before = bench.before;
    out.other = "theirs" + name;
    git.git({"checkout", "-q", "-f", "-b", out.other, bench.base});
    out.theirs.insert(bench.record(random));
    if (random() % 4 == 0) out.theirs.insert(bench.record(random));
    git.git({"checkout", "-q", "-b", "mine" + name, bench.base});
    bench.old.insert(bench.old.end(), {out.other, "mine" + name});
    out.mine.insert(bench.record(random));
    if (random() % 4 == 0) out.mine.insert(bench.record(random));
    return out;
}

std::multiset<std::string> all_of(const Branches& branches) {
    std::multiset<std::string> out = branches.before;
    out.insert(branches.mine.begin(), branches.mine.end());
    out.insert(branches.theirs.begin(), branches.theirs.end());
    return out;
}

std::string without_marks(const std::string& text) {
    std::string out;
    for (const std::string& line : split_lines(text)) {
        const std::string head = line.substr(0, 7);
        if (head != "<<<<<<<" && head != "|||||||" && head != "=======" && head != ">>>>>>>")
            out += line + "\n";
    }
    return out;
}

void check_both(const Bench& bench, const Branches& branches, bool marks) {
    const auto read = bench.read();
    INFO(bench.records());
    INFO(read.dump(1));
    REQUIRE(lots(read) == all_of(branches));
    REQUIRE(all_whole(read));
    REQUIRE(codes(read) ==
            (marks ? std::set<std::string>{"text-merge-marker"} : std::set<std::string>{}));
}

/// Whether the file has marks of a merge.
bool marked(const Bench& bench) { return holds(bench.records(), "<<<<<<<"); }

void check_with_marks(Bench& bench, const Branches& branches) {
    if (marked(bench)) {
        check_both(bench, branches, true);
        bench.folder.write("records.shade", without_marks(bench.records()));
    }
    check_both(bench, branches, false);
}

/// The next record follows all that are there, and nothing is amiss then.
void go_on(Bench& bench, Random& random, Branches& branches) {
    bench.folder.git({"add", "-A"});
    bench.folder.git({"commit", "-q", "--allow-empty", "-m", "merged"});
    branches.mine.insert(bench.record(random));
    check_both(bench, branches, false);
}

Strings merge_words(const Branches& branches, const Strings& settings) {
    Strings out;
    for (const std::string& one : settings) out.insert(out.end(), {"-c", one});
    out.insert(out.end(), {"merge", "-q", "-m", "both", branches.other});
    return out;
}

}  // namespace

TEST_CASE("of 200 pairs of branches both batches are there, however git joins them") {
    const std::uint64_t number = seed();
    Random random(number);
    INFO("LEVIGATE_SEED=" << number);
    Bench bench;
    for (int i = 0; i < 200; ++i) {
        INFO("pair " << i);
        Branches branches = branch(bench, random);
        const GitFolder& git = bench.folder;
        switch (i % 6) {
            case 0: git.git(merge_words(branches, {}), true); break;
            case 1: git.git(merge_words(branches, {"merge.conflictStyle=diff3"}), true); break;
            case 2: git.git(merge_words(branches, {"merge.conflictStyle=zdiff3"}), true); break;
            case 3:
                git.write(".git/info/attributes", "records.shade merge=union\n");
                git.git(merge_words(branches, {}));
                git.write(".git/info/attributes", "");
                REQUIRE_FALSE(marked(bench));
                break;
            case 4: git.git({"rebase", "-q", branches.other}, true); break;
            default: git.git({"cherry-pick", "HEAD.." + branches.other}, true); break;
        }
        // Of several commits git stops at the first: both sides are taken, and it goes on.
        while (i % 6 >= 4 && marked(bench)) {
            git.write("records.shade", without_marks(bench.records()));
            git.git({"add", "-A"});
            git.git({"-c", "core.editor=true", i % 6 == 4 ? "rebase" : "cherry-pick", "--continue"},
                    true);
        }
        check_with_marks(bench, branches);
        if (i % 5 == 0) go_on(bench, random, branches);
    }
}

TEST_CASE("where git drops records they are told, and where to find them") {
    const std::uint64_t number = seed();
    Random random(number);
    INFO("LEVIGATE_SEED=" << number);
    Bench bench;
    const GitFolder& git = bench.folder;
    for (int i = 0; i < 30; ++i) {
        INFO("pair " << i);
        const Branches branches = branch(bench, random);
        const std::string before = bench.records();
        switch (i % 6) {
            case 0: git.git({"merge", "-q", "-X", "ours", "-m", "both", branches.other}); break;
            case 1: git.git({"merge", "-q", "-X", "theirs", "-m", "both", branches.other}); break;
            case 2:
            case 3:
                if (git.git(merge_words(branches, {}), true).status == 0) continue;
                git.git({"checkout", i % 6 == 2 ? "--ours" : "--theirs", "records.shade"});
                break;
            case 4: git.git({"rebase", "-q", "-X", "ours", branches.other}); break;
            default: git.git({"rebase", "-q", "-X", "theirs", branches.other}); break;
        }
        for (const bool committed : {false, true}) {
            const auto read = bench.read();
            INFO(bench.records());
            INFO(read.dump(1));
            if (lots(read) == all_of(branches)) break;
            REQUIRE(all_whole(read));
            REQUIRE(codes(read) == std::set<std::string>{"record-gone"});
            const std::size_t missing = all_of(branches).size() - lots(read).size();
            CHECK(read["findings"].size() >= missing);
            CHECK(read["status"] == (i % 6 == 4 ? 0 : 1));  // dropped from HEAD: a warning
            if (committed || i % 6 == 4 || i % 6 == 5) break;
            git.git({"add", "-A"});
            git.git({"commit", "-q", "--allow-empty", "-m", "merged"});
        }
    }
    // What was taken out on purpose is said in a comment, and not told again.
    const Branches branches = branch(bench, random);
    git.git({"merge", "-q", "-X", "ours", "-m", "both", branches.other});
    std::string text = bench.records();
    const auto gone = bench.read();
    for (const auto& finding : gone["findings"]) {
        const std::string message = finding["message"];
        if (finding["code"] == "record-gone")
            text += "# gone " + message.substr(message.find('[') + 1, 6) + ": entered twice\n";
    }
    git.write("records.shade", text);
    const auto read = bench.read();
    INFO(text);
    INFO(read["findings"].dump(1));
    CHECK(codes(read).empty());
}

TEST_CASE("a line that is lost, changed or moved is told, and no record with it passes as whole") {
    const std::uint64_t number = seed();
    Random random(number);
    INFO("LEVIGATE_SEED=" << number);
    Bench bench;
    for (int i = 0; i < 4; ++i) bench.record(random);
    const std::string whole = bench.records();
    const auto due = bench.read();
    REQUIRE(codes(due).empty());
    const Strings lines = split_lines(whole);
    std::map<std::string, nlohmann::json> as_written;
    for (const auto& record : due["records"]) as_written[record["stamp"]] = record;
    for (int i = 0; i < 90; ++i) {
        Strings now = lines;
        const auto pick = [&] {
            std::size_t at = 0;
            do at = random() % now.size();
            while (now[at].empty());
            return at;
        };
        const std::size_t at = pick(), other = pick();
        if (i % 3 == 0) {
            now.erase(now.begin() + static_cast<std::ptrdiff_t>(at));
        } else if (i % 3 == 1) {
            char& sign = now[at][4 + random() % (now[at].size() - 4)];
            sign = sign == '7' ? '8' : '7';
        } else {  // what two lines say, each with the other's stamp
            const auto said = [](const std::string& line) {
                return line.starts_with("    [") ? line.substr(13) : "";
            };
            const std::string one = said(now[at]), two = said(now[other]);
            if (one.empty() || two.empty() || one == two) continue;
            now[at].replace(13, std::string::npos, two);
            now[other].replace(13, std::string::npos, one);
        }
        std::string text;
        for (const std::string& line : now) text += line + "\n";
        if (text == whole) continue;
        bench.folder.write("records.shade", text);
        const auto read = bench.read();
        INFO(text);
        INFO(read.dump(1));
        REQUIRE_FALSE(codes(read).empty());
        for (const auto& record : read["records"])
            if (record["whole"] == true) REQUIRE(record == as_written.at(record["stamp"]));
        std::size_t shown_whole = 0;
        for (const auto& record : read["records"]) shown_whole += record["whole"] == true;
        REQUIRE(shown_whole < as_written.size());
    }
}
