#pragma once
#include <chrono>
#include <filesystem>
#include <string>
#include <vector>

namespace levigate::testing {

struct Command {
    std::vector<std::string> words;        // the program's path, then its arguments
    std::filesystem::path folder;          // where it runs; empty: here
    std::vector<std::string> environment;  // NAME=value, beside the plain ones of every run
    std::string input;                     // what stands on its standard input
    std::chrono::milliseconds patience{20'000};
};

struct Outcome {
    int status = 0;  // exit status; 128 + signal for one that was killed; 127 if it didn't start
    std::string out;
    std::string err;
    bool out_of_patience = false;  // it was still running, and was killed
};

// Runs a program without a shell and in an environment that is the same everywhere (PATH, a
// UTF-8 locale, TERM=dumb, and what sanitizers read), and waits for its end.
Outcome run(const Command& command);

}  // namespace levigate::testing
