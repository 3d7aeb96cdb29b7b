#include "interpreter/cli/command_line.hpp"

int main(int count, char** words) { return levigate::cli::run(count, words); }
