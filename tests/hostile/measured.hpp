#pragma once
// Runs a program under a guard and tells what it cost.

#include <filesystem>
#include <string>
#include <vector>

namespace levigate::testing {

struct Measured {
    int status = 0;        // exit status; 128 + signal where one ended it; 127: it didn't start
    bool killed = false;   // it was still running when the guard's time was over
    double seconds = 0;    // by the wall clock
    double megabytes = 0;  // the most that it held at a time (ru_maxrss)
    std::string out, err;  // the first megabyte of each
};

// What stands in `words` runs in `folder`. It may run `patience` seconds and ask for
// `address_space` megabytes (0: no limit), on a stack of `stack` kilobytes (0: the usual). Linux
// counts the memory of the process that starts another to that other's peak, so the caller must
// stay small.
Measured run_guarded(const std::vector<std::string>& words, const std::filesystem::path& folder,
                     double patience, unsigned long address_space, unsigned long stack = 0);

}  // namespace levigate::testing
