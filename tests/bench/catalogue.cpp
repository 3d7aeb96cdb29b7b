// How fast the catalogue is read, resolved, expanded and written, as ratios to a bare-arithmetic
// floor measured in the same run. Measures and prints; asserts nothing. See README.md beside it.

#include <fcntl.h>
#include <spawn.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <functional>

#include "grammar/read.hpp"
#include "interpreter/compile.hpp"
#include "interpreter/render/csv.hpp"
#include "interpreter/rules/lips.hpp"
#include "tests/bench/catalogue.hpp"
#include "tests/bench/floor.hpp"

using namespace levigate;
using namespace levigate::bench;

namespace {

namespace fs = std::filesystem;

double seconds(const std::function<void()>& work) {
    const auto start = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

double median(int times, const std::function<void()>& work) {
    std::vector<double> took;
    for (int i = 0; i < times; ++i) took.push_back(seconds(work));
    std::sort(took.begin(), took.end());
    return took[took.size() / 2];
}

Choice everything() {
    Choice choice;
    choice.all = true;
    choice.words = choice.materials = false;
    return choice;
}

std::vector<Ready> ready_rows(const Compiled& compiled, const Sheets& sheets) {
    const Formulary& f = compiled.formulary;
    const auto number = [](const Exact& exact) { return std::stod(exact.decimal(15)); };
    std::vector<Ready> rows;
    for (const Sheet& sheet : sheets.sheets) {
        const Shade& shade = f.shades[sheet.shade];
        const std::string_view finish = f.finishes[f.finishings[sheet.finishing].finish].name;
        for (const Bowl& bowl : sheet.bowls)
            for (const SheetLine& line : bowl.lines)
                rows.push_back({shade.name, finish, shade.batches[sheet.batch].name,
                                bowl.mix == no_ingredient ? shade.name : f.name(bowl.mix),
                                f.name(line.what), number(as_fraction(line.share)),
                                number(in_grams(sheet.total))});
    }
    return rows;
}

void write_file(const fs::path& path, const std::string& text) {
    std::ofstream(path, std::ios::binary) << text;
}

struct Child {
    double took = 0;
    double megabytes = 0;
    bool well = false;
};

/// The whole command, from its start to its end; what it prints goes to `out`, a file.
Child command(std::vector<std::string> words, const std::string& out_path = "/dev/null") {
    words.insert(words.begin(), LEVIGATE_BINARY);
    std::vector<char*> arguments;
    for (std::string& word : words) arguments.push_back(word.data());
    arguments.push_back(nullptr);
    Child out;
    struct rusage used = {};
    // Spawned, not forked: copying the page tables of this large process is not the command's time.
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, out_path.c_str(),
                                     O_WRONLY | O_CREAT | O_TRUNC, 0666);
    posix_spawn_file_actions_addopen(&actions, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
    out.took = seconds([&] {
        pid_t child = 0;
        int status = 0;
        out.well =
            posix_spawn(&child, arguments[0], &actions, nullptr, arguments.data(), environ) == 0 &&
            wait4(child, &status, 0, &used) == child && WIFEXITED(status) &&
            WEXITSTATUS(status) == 0;
    });
    posix_spawn_file_actions_destroy(&actions);
    if (!out.well) {  // a command that stopped early is fast and means nothing
        fmt::print(stderr, "{} {} {} did not end well.\n", words[0], words[1], words[2]);
        std::exit(1);
    }
    out.megabytes = static_cast<double>(used.ru_maxrss) / 1024;
    return out;
}

Child median_command(int times, const std::vector<std::string>& words,
                     const std::string& out = "/dev/null") {
    std::vector<Child> all;
    for (int i = 0; i < times; ++i) all.push_back(command(words, out));
    std::sort(all.begin(), all.end(), [](auto& a, auto& b) { return a.took < b.took; });
    return all[all.size() / 2];
}

void row(const char* what, double took, double floor) {
    fmt::print("{:<44} {:7.3f} s {:8.2f}\n", what, took, took / floor);
}

}  // namespace

int main() {
    const fs::path folder = fs::temp_directory_path() / "levigate-bench";
    fs::create_directories(folder);
    const std::string text = catalogue(10000);
    const fs::path file = folder / "catalogue.shade", csv = folder / "out.csv";
    write_file(file, text);

    const std::vector<std::string> whole = {"weigh", file, "--all", "--as", "csv"};
    const std::vector<std::string> kept = {"weigh", file, "--all", "--as",
                                           "csv",   "-o", csv,     "--replace"};
    // First of all: a child's peak begins with what this process held when it parted.
    const double memory = command(whole, csv).megabytes;

    const Compiled compiled = compile(disk_world(), file);
    const Sheets sheets = expand(compiled.formulary, compiled.names, everything());
    const auto rows = ready_rows(compiled, sheets);
    std::size_t bytes = 0;
    const auto exact_bytes = fs::file_size(csv);
    floor_program(rows, folder / "floor.csv");
    const Compared compared = compare(folder / "floor.csv", csv);
    const double floor = median(5, [&] { bytes = floor_program(rows, csv); });
    fmt::print("{} bytes of text, {} findings, {} sheets, {} rows, {} of them of nothing\n",
               text.size(), compiled.findings.size() + sheets.findings.size(), sheets.sheets.size(),
               rows.size(), compared.nothing);
    fmt::print("CSV: {} bytes by the floor, {} by the command\n", bytes, exact_bytes);
    fmt::print("rows that differ: {} in bowls of blends, {} in bowls of shades\n\n",
               compared.in_blends, compared.in_shades);
    fmt::print("{:<44} {:>9} {:>8}\n", "median of 5", "took", "to floor");
    row("floor: doubles from a ready array to CSV", floor, floor);
    row("the same, doubles formatted by fmt", median(5, [&] { floor_by_fmt(rows, csv); }), floor);
    row("read: text to tree",
        median(5,
               [&] {
                   Sources sources;
                   Names names;
                   const SourceId id = sources.add({"catalogue.shade", text, false});
                   read(sources, id, names);
               }),
        floor);
    row("compile: read and resolve", median(5, [&] { compile(disk_world(), file); }), floor);
    const auto each = [&](const TakeSheet& take) {
        expand_each(compiled.formulary, compiled.names, everything(), take);
    };
    row("expand: all sheets, none kept", median(5, [&] { each([](Sheet&) {}); }), floor);
    row("expand and write: all sheets to CSV",
        median(5,
               [&] {
                   std::FILE* out = std::fopen(csv.c_str(), "wb");
                   std::string buffer;
                   CsvWriter writer(compiled.formulary);
                   writer.open(buffer);
                   const auto drain = [&](std::size_t beyond) {
                       if (buffer.size() < beyond) return;
                       std::fwrite(buffer.data(), 1, buffer.size(), out);
                       buffer.clear();
                   };
                   each([&](Sheet& sheet) {
                       writer.append(sheet, buffer);
                       drain(1u << 18);
                   });
                   drain(0);
                   std::fclose(out);
               }),
        floor);
    const Child child = median_command(5, whole, csv);
    row("the whole command", child.took, floor);
    row("the same with -o, which waits for the disk", median_command(5, kept).took, floor);
    fmt::print("{:<44} {:7.1f} MB\n", "its peak memory", memory);

    // The same check, in this process, without and with the rules of both regions.
    const auto check = [&](Library library, const char* what) {
        const double took = median(5, [&] {
            Compiled one = compile(disk_world(), file, library);
            LipJudge judge(one.formulary, one.names,
                           {{"US", one.names.intern("US")}, {"EU", one.names.intern("EU")}});
            if (library == Library::plain)
                check_all(one.formulary, one.names, {});
            else
                check_all(one.formulary, one.names, {},
                          [&](const Product& product) { judge.add(product); });
            judge.findings();
        });
        row(what, took, floor);
        return took;
    };
    const double bare = check(Library::plain, "check: compile and expand, no rules");
    const double ruled = check(Library::with_rules, "check by the rules of both regions");
    fmt::print("{:<44} {:7.2f}\n", "with rules to without", ruled / bare);

    write_file(file, catalogue(20000));
    const Child doubled = median_command(5, whole, csv);
    row("the whole command, twice the shades", doubled.took, floor);
    fmt::print("{:<44} {:7.2f}\n", "twice the shades to once", doubled.took / child.took);

    const std::string lines = long_file(2000);
    const auto world = memory_world({{"long.shade", lines}});
    const double two_thousand = median(21, [&] {
        const Compiled one = compile(world, "long.shade");
        check_all(one.formulary, one.names, {});
        expand(one.formulary, one.names, everything());
    });
    fmt::print("{:<44} {:7.2f} ms ({} lines)\n", "compile, check and expand a long file",
               two_thousand * 1000, std::count(lines.begin(), lines.end(), '\n'));
    const Child start = median_command(20, {"weigh", LEVIGATE_ROOT "/examples/orchard.shade"});
    fmt::print("{:<44} {:7.2f} ms\n", "the command on the demo, start to end", start.took * 1000);
    fs::remove_all(folder);
}
