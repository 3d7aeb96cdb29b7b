#include "interpreter/cli/command_line.hpp"

#include <cstdlib>

int main(int count, char** words) {
    // All that was written has gone to the system by then, and kept() is not taken apart.
    std::_Exit(levigate::cli::run(count, words));
}
