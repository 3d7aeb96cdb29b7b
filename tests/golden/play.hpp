#pragma once
#include "tests/golden/case.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace levigate::testing {

struct Stage {
    std::filesystem::path program;     // the command under test
    std::filesystem::path repository;  // what `copy` sections copy from
    std::filesystem::path beside;      // the case's folder: its other files are copied; or empty
};

struct Played {
    std::string report;   // what differs, for a person; empty when all is as expected
    std::string trouble;  // what no blessing can make right: a crash, a hang, a bad set-up
    std::vector<Section> as_it_came;  // the case with its expected sections as they would be now
};

// Plays all commands of a case in a folder of its own.
Played play(const std::vector<Section>& sections, const Stage& stage);

}  // namespace levigate::testing
