// How fast the catalogue is read, resolved, expanded and written, as ratios to a bare-arithmetic
// floor measured in the same run. Measures and prints; asserts nothing. See README.md beside it.

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

#include <fmt/compile.h>

#include "grammar/read.hpp"
#include "interpreter/compile.hpp"
#include "interpreter/render/csv.hpp"
#include "tests/bench/catalogue.hpp"

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

/// One row, ready: all that is left to do is to multiply, round and write.
struct Ready {
    std::string_view shade, finish, batch, bowl, ingredient;
    double share, total;
};

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

/// The floor: doubles from a ready array to the same rows of CSV.
std::size_t floor_program(const std::vector<Ready>& rows, const fs::path& to) {
    std::FILE* file = std::fopen(to.c_str(), "wb");
    fmt::memory_buffer out;
    std::size_t bytes = 0;
    for (const Ready& row : rows) {
        const double grams = row.share * row.total;
        const double reads = std::floor(grams * 100 + 0.5) / 100;
        const double percent = std::floor(row.share * 1000000 + 0.5) / 10000;
        fmt::format_to(std::back_inserter(out), FMT_COMPILE("{},,{},{},{},{},{:.2f},{},{}\n"),
                       row.shade, row.finish, row.batch, row.bowl, row.ingredient, reads, percent,
                       grams);
        if (out.size() < (1u << 18)) continue;
        bytes += std::fwrite(out.data(), 1, out.size(), file);
        out.clear();
    }
    bytes += std::fwrite(out.data(), 1, out.size(), file);
    std::fclose(file);
    return bytes;
}

void write_file(const fs::path& path, const std::string& text) {
    std::ofstream(path, std::ios::binary) << text;
}

struct Child {
    double took = 0;
    double megabytes = 0;
};

/// The whole command, from its start to its end.
Child command(std::vector<std::string> words) {
    words.insert(words.begin(), LEVIGATE_BINARY);
    std::vector<char*> arguments;
    for (std::string& word : words) arguments.push_back(word.data());
    arguments.push_back(nullptr);
    Child out;
    struct rusage used = {};
    std::fflush(stdout);
    out.took = seconds([&] {
        const pid_t child = fork();
        if (child == 0) {
            if (std::freopen("/dev/null", "w", stderr) == nullptr) _exit(126);
            if (std::freopen("/dev/null", "w", stdout) == nullptr) _exit(126);
            execv(arguments[0], arguments.data());
            _exit(127);
        }
        int status = 0;
        wait4(child, &status, 0, &used);
    });
    out.megabytes = static_cast<double>(used.ru_maxrss) / 1024;
    return out;
}

Child median_command(int times, const std::vector<std::string>& words) {
    std::vector<Child> all;
    for (int i = 0; i < times; ++i) all.push_back(command(words));
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

    const std::vector<std::string> whole = {"weigh", file, "--all", "--as",
                                            "csv",   "-o", csv,     "--replace"};
    // First of all: a child's peak begins with what this process held when it parted.
    const double memory = command(whole).megabytes;

    const Compiled compiled = compile(disk_world(), file);
    const Sheets sheets = expand(compiled.formulary, compiled.names, everything());
    const auto rows = ready_rows(compiled, sheets);
    std::size_t bytes = 0;
    const double floor = median(5, [&] { bytes = floor_program(rows, csv); });
    fmt::print("{} bytes of text, {} findings, {} sheets, {} rows, {} bytes of CSV (floor)\n\n",
               text.size(), compiled.findings.size() + sheets.findings.size(), sheets.sheets.size(),
               rows.size(), bytes);
    fmt::print("{:<44} {:>9} {:>8}\n", "median of 5", "took", "to floor");
    row("floor: doubles from a ready array to CSV", floor, floor);
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
    row("expand: all sheets",
        median(5, [&] { expand(compiled.formulary, compiled.names, everything()); }), floor);
    row("write: sheets to CSV",
        median(5,
               [&] {
                   std::FILE* out = std::fopen(csv.c_str(), "wb");
                   std::string buffer;
                   const Drain drain = [&](std::string& full) {
                       std::fwrite(full.data(), 1, full.size(), out);
                       full.clear();
                   };
                   write_csv(compiled.formulary, sheets.sheets, buffer, drain);
                   drain(buffer);
                   std::fclose(out);
               }),
        floor);
    const Child child = median_command(5, whole);
    row("the whole command", child.took, floor);
    fmt::print("{:<44} {:7.1f} MB\n", "its peak memory", memory);

    write_file(file, catalogue(20000));
    const Child doubled = median_command(5, whole);
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
    const Child start =
        median_command(21, {"weigh", LEVIGATE_ROOT "/examples/orchard.shade", "--shade", "Damson"});
    fmt::print("{:<44} {:7.2f} ms\n", "the command on the demo, start to end", start.took * 1000);
    fs::remove_all(folder);
}
