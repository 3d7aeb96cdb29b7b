// The file of records under hard treatment: its writing is cut off after every byte, refused by the
// system, or killed at any moment; several write at once, and a hand has been in the file. Nothing
// that was there may change, what was cut off must be told, and the next record comes behind it.

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cstdlib>
#include <thread>

#include "tests/support/process.hpp"
#include "tests/support/text.hpp"

namespace fs = std::filesystem;
using namespace levigate::testing;

namespace {

constexpr const char* shades = "material soft base\n"
                               "material clay\n"
                               "shade Pear\n"
                               "    80 %        soft base\n"
                               "    20 %        clay\n"
                               "    batch       trial 10 g\n";

std::string program() {
    const char* other = std::getenv("LEVIGATE_BINARY");
    return other != nullptr ? other : LEVIGATE_BINARY;
}

/// A folder with the shades and a file of records.
struct Bench {
    ScratchFolder folder;
    Bench() { write_file(folder.path() / "pear.shade", shades); }

    fs::path records() const { return folder.path() / "records.shade"; }
    std::string text() const { return read_file(records()).value_or(""); }
    void keep(std::string_view text) const { write_file(records(), text); }

    /// `before`: words in front of the command, such as a limit.
    Outcome record(const std::string& day, std::vector<std::string> before = {}) const {
        Command command;
        command.words = std::move(before);
        for (const char* word : {"record", "pear.shade", "--batch", "trial", "--weighed",
                                 "8.02 g soft base lot 24-117, 2 g clay", "--by", "Inés", "--note",
                                 "Warm, and slow.", "--into", "records.shade", "--date"})
            command.words.push_back(word);
        const std::size_t at = command.words.size() - 13;
        command.words.insert(command.words.begin() + static_cast<std::ptrdiff_t>(at), program());
        command.words.push_back(day);
        command.folder = folder.path();
        return run(command);
    }

    nlohmann::json read() const {
        Command command;
        command.words = {program(),       "record", "pear.shade", "--read",
                         "records.shade", "--as",   "json"};
        command.folder = folder.path();
        return nlohmann::json::parse(run(command).out);
    }
};

std::vector<std::string> days(const nlohmann::json& read) {
    std::vector<std::string> out;
    for (const auto& record : read["records"]) out.push_back(record["day"]);
    return out;
}

std::vector<std::string> codes(const nlohmann::json& read) {
    std::vector<std::string> out;
    for (const auto& finding : read["findings"]) out.push_back(finding["code"]);
    return out;
}

using Words = std::vector<std::string>;

}  // namespace

TEST_CASE("cut off after any byte, the file keeps what was there and takes the next record") {
    const Bench bench;
    REQUIRE(bench.record("2026-11-24").status == 0);
    const std::string before = bench.text();
    REQUIRE(bench.record("2026-11-25").status == 0);
    const std::string whole = bench.text();
    REQUIRE(whole.starts_with(before));
    REQUIRE(codes(bench.read()).empty());
    REQUIRE(days(bench.read()) == Words{"2026-11-24", "2026-11-25"});
    // The empty line between the two, and the last line end, can be lost without a loss.
    for (std::size_t size = before.size() + 1; size < whole.size(); ++size) {
        INFO("cut off after " << size - before.size() << " of " << whole.size() - before.size());
        // The machine stopped in the middle of the writing.
        bench.keep(whole.substr(0, size));
        REQUIRE(bench.record("2026-11-26").status == 0);
        const std::string after = bench.text();
        CHECK(after.starts_with(whole.substr(0, size)));
        CHECK(after.find("\n\nrecord 2026-11-26 trial of Pear [", size - 2) != after.npos);
        const auto read = bench.read();
        const bool nothing = size == before.size() + 1, all = size == whole.size() - 1;
        CHECK(codes(read) == (nothing || all ? Words{} : Words{"record-unfinished"}));
        CHECK(days(read) == (all ? Words{"2026-11-24", "2026-11-25", "2026-11-26"}
                                 : Words{"2026-11-24", "2026-11-26"}));
        for (const auto& record : read["records"]) CHECK_FALSE(record["damaged"]);
    }
}

TEST_CASE("where the system takes a piece and no more, nothing is recorded, and that is said") {
    const Bench bench;
    REQUIRE(bench.record("2026-11-24").status == 0);
    const std::string before = bench.text();
    REQUIRE(bench.record("2026-11-25").status == 0);
    const std::size_t whole = bench.text().size();
    for (std::size_t size = before.size() + 1; size < whole; size += 19) {
        INFO("no more than " << size << " of " << whole);
        const std::vector<std::string> limit{"/usr/bin/prlimit", "--fsize=" + std::to_string(size)};
        bench.keep(before);
        const Outcome cut = bench.record("2026-11-25", limit);
        CHECK(cut.status == 3);
        CHECK(cut.err.find("Nothing is recorded.") != std::string::npos);
        REQUIRE(bench.text() == before);
        CHECK(codes(bench.read()).empty());
        // Of a first record not even an empty file is left.
        if (size - before.size() >= before.size()) break;
        fs::remove(bench.records());
        const std::vector<std::string> less{"/usr/bin/prlimit",
                                            "--fsize=" + std::to_string(size - before.size())};
        CHECK(bench.record("2026-11-25", less).status == 3);
        REQUIRE_FALSE(fs::exists(bench.records()));
    }
}

TEST_CASE("what is recorded and can't be shown is said to be kept") {
    const Bench bench;
    // Standard output is full, and then it is closed.
    for (const char* into : {">/dev/full", ">&-"}) {
        INFO(into);
        fs::remove(bench.records());
        const std::string script = std::string("exec \"$0\" \"$@\" ") + into;
        const Outcome outcome = bench.record("2026-11-24", {"/bin/sh", "-c", script});
        INFO(outcome.err);
        CHECK(outcome.status == 3);
        CHECK(outcome.err.find("The record is kept in \"records.shade\"") != std::string::npos);
        CHECK(days(bench.read()) == Words{"2026-11-24"});
        CHECK(codes(bench.read()).empty());
    }
    // Nobody reads it any more.
    fs::remove(bench.records());
    const Outcome outcome = bench.record(
        "2026-11-24",
        {"/bin/bash", "-c", "{ \"$0\" \"$@\"; echo \"status $?\" >&2; } | { exec <&-; sleep 1; }"});
    INFO(outcome.err);
    CHECK(days(bench.read()) == Words{"2026-11-24"});
    CHECK((outcome.err.find("status 0") != std::string::npos ||
           outcome.err.find("The record is kept in \"records.shade\"") != std::string::npos));
}

TEST_CASE("cut off while the first record is written, it is the same") {
    const Bench bench;
    REQUIRE(bench.record("2026-11-24").status == 0);
    const std::string whole = bench.text();
    for (std::size_t size = 1; size + 1 < whole.size(); size += 5) {
        INFO("cut off after " << size);
        bench.keep(whole.substr(0, size));
        CHECK(codes(bench.read()) == Words{"record-unfinished"});
        REQUIRE(bench.record("2026-11-25").status == 0);
        CHECK(bench.text().starts_with(whole.substr(0, size)));
        CHECK(codes(bench.read()) == Words{"record-unfinished"});
        CHECK(days(bench.read()) == Words{"2026-11-25"});
    }
}

TEST_CASE("killed at any moment, it loses nothing that was there") {
    const Bench bench;
    REQUIRE(bench.record("2026-11-24").status == 0);
    int killed = 0;
    for (int i = 0; i < 60; ++i) {
        const std::string before = bench.text();
        const std::string seconds = "0.00" + std::to_string(100 + 150 * (i % 6)).substr(0, 3);
        INFO("killed after " << seconds << " s");
        killed +=
            bench.record("2026-11-25", {"/usr/bin/timeout", "-s", "KILL", seconds}).status != 0;
        REQUIRE(bench.text().starts_with(before));
    }
    CHECK(killed > 0);
    REQUIRE(bench.record("2026-11-26").status == 0);
    const auto read = bench.read();
    for (const std::string& code : codes(read)) CHECK(code == "record-unfinished");
    CHECK(days(read).front() == "2026-11-24");
    CHECK(days(read).back() == "2026-11-26");
}

TEST_CASE("several at once come one behind the other") {
    const Bench bench;
    std::vector<std::thread> all;
    for (int i = 10; i < 22; ++i)
        all.emplace_back([&, i] { bench.record("2026-11-" + std::to_string(i)); });
    for (std::thread& one : all) one.join();
    const auto read = bench.read();
    CHECK(codes(read).empty());
    Words came = days(read);
    std::sort(came.begin(), came.end());
    REQUIRE(came.size() == 12);
    CHECK(came.front() == "2026-11-10");
    CHECK(came.back() == "2026-11-21");
}

TEST_CASE("a line spoilt by hand is told and kept, and the others are read") {
    const Bench bench;
    REQUIRE(bench.record("2026-11-24").status == 0);
    std::string text = bench.text();
    const std::size_t line = text.find("weighed     2 g clay");
    REQUIRE(line != text.npos);
    text.replace(line, 7, "wiegd  ");
    bench.keep(text);
    REQUIRE(bench.record("2026-11-25").status == 0);
    CHECK(bench.text().starts_with(text));
    const auto read = bench.read();
    CHECK(codes(read) == Words{"record-altered", "line-unknown"});
    REQUIRE(days(read) == Words{"2026-11-24", "2026-11-25"});
    CHECK(read["records"][0]["damaged"]);
    CHECK_FALSE(read["records"][1]["damaged"]);
    CHECK(read["records"][0]["lines"][0]["weighed"] == "401/50");  // 8.02 g of soft base
}

TEST_CASE("zeros that a power cut left spoil no more than their line") {
    const Bench bench;
    REQUIRE(bench.record("2026-11-24").status == 0);
    const std::string whole = bench.text();
    const std::size_t count = GENERATE(1, 32, 4096);
    bench.keep(whole + std::string(count, '\0'));
    REQUIRE(bench.record("2026-11-25").status == 0);
    CHECK(bench.text().starts_with(whole + std::string(count, '\0')));
    const auto read = bench.read();
    CHECK(days(read) == Words{"2026-11-24", "2026-11-25"});
    CHECK_FALSE(codes(read).empty());
    // In the middle of a line, that line is told and the rest is shown.
    std::string spoilt = whole;
    spoilt[spoilt.find("2 g clay") + 4] = '\0';
    bench.keep(spoilt);
    CHECK(days(bench.read()) == Words{"2026-11-24"});
    CHECK(codes(bench.read()) == Words{"record-altered", "text-hidden-character"});
}

TEST_CASE("of an unfinished merge the records of both sides are read") {
    const Bench bench;
    std::vector<std::string> made;
    for (const char* day : {"2026-11-24", "2026-11-25", "2026-11-26"}) {
        bench.keep("");
        REQUIRE(bench.record(day).status == 0);
        made.push_back(bench.text());
    }
    const std::string merge =
        made[0] + "<<<<<<< HEAD\n" + made[1] + "=======\n" + made[2] + ">>>>>>> other\n";
    bench.keep(merge);
    REQUIRE(bench.record("2026-11-27").status == 0);
    CHECK(bench.text().starts_with(merge));
    CHECK(days(bench.read()) == Words{"2026-11-24", "2026-11-25", "2026-11-26", "2026-11-27"});
    CHECK(codes(bench.read()) == Words{"text-merge-marker"});
}

TEST_CASE("a record that would make the file too large to be read again isn't added") {
    const Bench bench;
    const std::string full = "# Mine.\n" + std::string((16u << 20) - 100, '\n');
    bench.keep(full);
    const auto refused = bench.record("2026-11-24");
    CHECK(refused.status == 3);
    CHECK(refused.err.find("more than 16 MB") != std::string::npos);
    CHECK(bench.text() == full);
}

TEST_CASE("a file without a line end, and one that is no file of records, are added to as well") {
    const Bench bench;
    bench.keep("# Mine.");
    REQUIRE(bench.record("2026-11-24").status == 0);
    CHECK(bench.text().starts_with("# Mine.\n\nrecord 2026-11-24 trial of Pear ["));
    CHECK(codes(bench.read()).empty());
    fs::remove(bench.records());
    fs::create_directory(bench.records());
    CHECK(bench.record("2026-11-24").status == 3);
}
