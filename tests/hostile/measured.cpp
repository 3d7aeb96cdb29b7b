#include "tests/hostile/measured.hpp"

#include <array>
#include <chrono>
#include <csignal>
#include <fcntl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

namespace levigate::testing {
namespace {

using Clock = std::chrono::steady_clock;

// Files in place of pipes: a flood of findings can't block the program, nor fill our memory.
int open_end(const std::filesystem::path& path) {
    return open(path.c_str(), O_RDWR | O_CREAT | O_TRUNC | O_CLOEXEC, 0600);
}

std::string first_megabyte(int file) {
    std::string text(1u << 20, '\0');
    const ssize_t got = pread(file, text.data(), text.size(), 0);
    text.resize(got > 0 ? static_cast<std::size_t>(got) : 0);
    text.shrink_to_fit();
    return text;
}

[[noreturn]] void become(const std::vector<std::string>& words, const std::filesystem::path& folder,
                         int out, int err, unsigned long address_space, unsigned long stack) {
    std::vector<char*> pointers;
    for (const std::string& word : words) pointers.push_back(const_cast<char*>(word.c_str()));
    pointers.push_back(nullptr);
    if (address_space > 0) {
        const rlimit limit{address_space << 20, address_space << 20};
        setrlimit(RLIMIT_AS, &limit);
    }
    if (stack > 0) {
        const rlimit limit{stack << 10, stack << 10};
        setrlimit(RLIMIT_STACK, &limit);
    }
    const rlimit no_core{0, 0};
    setrlimit(RLIMIT_CORE, &no_core);
    if (chdir(folder.c_str()) != 0) _exit(127);
    dup2(out, 1);
    dup2(err, 2);
    execv(pointers[0], pointers.data());
    _exit(127);
}

// Waits for its end; ends it where it takes too long.
void await(pid_t child, Clock::time_point deadline, Measured& measured) {
    int status = 0;
    rusage usage{};
    for (;;) {
        const pid_t ended = wait4(child, &status, measured.killed ? 0 : WNOHANG, &usage);
        if (ended == child) break;
        if (ended < 0) return;
        if (Clock::now() > deadline) {
            measured.killed = true;
            kill(child, SIGKILL);
        }
        usleep(1000);
    }
    measured.status = WIFSIGNALED(status) ? 128 + WTERMSIG(status) : WEXITSTATUS(status);
    measured.megabytes = static_cast<double>(usage.ru_maxrss) / 1024;
}

}  // namespace

Measured run_guarded(const std::vector<std::string>& words, const std::filesystem::path& folder,
                     double patience, unsigned long address_space, unsigned long stack) {
    Measured measured;
    const int out = open_end(folder / "out.txt");
    const int err = open_end(folder / "err.txt");
    const auto begin = Clock::now();
    const pid_t child = fork();
    if (child == 0) become(words, folder, out, err, address_space, stack);
    if (child > 0) {
        const std::chrono::duration<double> most(patience);
        await(child, begin + std::chrono::duration_cast<Clock::duration>(most), measured);
    } else {
        measured.status = 127;
    }
    measured.seconds = std::chrono::duration<double>(Clock::now() - begin).count();
    measured.out = first_megabyte(out);
    measured.err = first_megabyte(err);
    close(out);
    close(err);
    return measured;
}

}  // namespace levigate::testing
