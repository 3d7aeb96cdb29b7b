// `check` says all that the other verbs would: where it finds no error, none of them does. On
// pages that are made by chance, on the same with slips, and on the examples and planted files.
// LEVIGATE_SEED chooses the pages, and is printed.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cstdlib>
#include <filesystem>
#include <iostream>
#include <set>

#include "tests/support/process.hpp"
#include "tests/support/text.hpp"
#include "tests/verbs/pages.hpp"

using namespace levigate::testing;

namespace {

const std::filesystem::path root = LEVIGATE_ROOT;

std::uint64_t seed() {
    const char* text = std::getenv("LEVIGATE_SEED");
    const std::uint64_t chosen = text != nullptr && *text != '\0' ? std::strtoull(text, nullptr, 10)
                                                                  : std::random_device{}();
    std::cout << "LEVIGATE_SEED=" << chosen << "\n";
    return chosen;
}

Outcome levigate_in(const std::filesystem::path& folder, std::vector<std::string> words) {
    Command command;
    command.words = {LEVIGATE_BINARY};
    command.words.insert(command.words.end(), words.begin(), words.end());
    command.folder = folder;
    return run(command);
}

/// True where some line of the page begins with this word.
bool has_line(const std::string& page, const std::string& word) {
    for (const std::string& line : split_lines(page)) {
        const std::size_t begin = line.find_first_not_of(' ');
        if (begin != std::string::npos && line.compare(begin, word.size() + 1, word + " ") == 0)
            return true;
    }
    return false;
}

/// Each verb that the page gives something to do.
std::vector<std::vector<std::string>> verbs_for(const std::string& page, const std::string& file) {
    std::vector<std::vector<std::string>> out{{"weigh", file, "--all"},
                                              {"weigh", file},
                                              {"card", file},
                                              {"shades", file}};
    if (has_line(page, "market") || has_line(page, "label")) out.push_back({"label", file});
    if (has_line(page, "price")) out.push_back({"cost", file});
    if (has_line(page, "plan")) out.push_back({"plan", file});
    return out;
}

/// True where `check` found no error: then no verb may.
bool look_at(const std::filesystem::path& folder, const std::string& file) {
    const std::string page = read_file(folder / file).value_or("");
    if (!has_line(page, "shade")) return false;
    const Outcome checked = levigate_in(folder, {"check", file, "--brief"});
    if (checked.status != 0) return false;
    for (const auto& words : verbs_for(page, file)) {
        const Outcome came = levigate_in(folder, words);
        INFO(words.front() << (words.size() > 2 ? " --all" : "") << " of\n"
                           << page << "\n"
                           << came.err);
        CHECK(came.status == 0);
        CHECK(came.err.find(": error: ") == std::string::npos);
    }
    const Outcome members = levigate_in(folder, {"check", file, "--brief", "--for", "members"});
    const Outcome shared = levigate_in(folder, {"share", file});
    INFO("share of\n" << page << "\n" << shared.err << "\ncheck --for members:\n" << members.err);
    CHECK(members.status == shared.status);
    return true;
}

}  // namespace

TEST_CASE("check says what every verb would: of pages made by chance, and of slips in them") {
    const ScratchFolder folder;
    Random random(seed());
    int clean = 0;
    for (int i = 0; i < 260; ++i) {
        std::string page = made_page(random);
        if (i % 3 == 2) page = mutated(std::move(page), random);
        write_file(folder.path() / "page.shade", page);
        clean += look_at(folder.path(), "page.shade");
    }
    std::cout << clean << " of 260 without an error\n";
    CHECK(clean > 20);  // else nothing was looked at
}

TEST_CASE("check says what every verb would: of the examples and the planted files") {
    int clean = 0;
    for (const char* part : {"examples", "tests/planted"})
        for (const auto& entry : std::filesystem::directory_iterator(root / part))
            if (entry.path().extension() == ".shade")
                clean += look_at(root / part, entry.path().filename().string());
    CHECK(clean > 20);
}
