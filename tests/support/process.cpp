#include "tests/support/process.hpp"

#include <array>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <fcntl.h>
#include <poll.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

namespace levigate::testing {
namespace {

using Clock = std::chrono::steady_clock;

struct Pipe {
    int read_end = -1;
    int write_end = -1;
    Pipe() {
        std::array<int, 2> ends{-1, -1};
        if (pipe2(ends.data(), O_CLOEXEC) == 0) {
            read_end = ends[0];
            write_end = ends[1];
        }
    }
    Pipe(const Pipe&) = delete;
    Pipe& operator=(const Pipe&) = delete;
    ~Pipe() {
        close_end(read_end);
        close_end(write_end);
    }
    static void close_end(int& end) {
        if (end >= 0) close(end);
        end = -1;
    }
};

std::vector<std::string> full_environment(const std::vector<std::string>& extra) {
    std::vector<std::string> all{"LC_ALL=C.UTF-8", "TERM=dumb"};
    for (const char* name : {"PATH", "HOME", "ASAN_OPTIONS", "UBSAN_OPTIONS", "LSAN_OPTIONS"}) {
        if (const char* value = std::getenv(name)) all.push_back(std::string(name) + "=" + value);
    }
    all.insert(all.end(), extra.begin(), extra.end());
    return all;
}

std::vector<char*> pointers(std::vector<std::string>& strings) {
    std::vector<char*> result;
    for (std::string& string : strings) result.push_back(string.data());
    result.push_back(nullptr);
    return result;
}

// An unlinked file instead of a pipe: a program that doesn't read its input can't block us.
std::FILE* input_file(const std::string& input) {
    std::FILE* file = std::tmpfile();
    if (file == nullptr) return nullptr;
    std::fwrite(input.data(), 1, input.size(), file);
    std::fflush(file);
    std::rewind(file);
    return file;
}

bool start(const Command& command, int input, int out, int err, pid_t& child) {
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_adddup2(&actions, input, 0);
    posix_spawn_file_actions_adddup2(&actions, out, 1);
    posix_spawn_file_actions_adddup2(&actions, err, 2);
    if (!command.folder.empty()) {
        posix_spawn_file_actions_addchdir_np(&actions, command.folder.c_str());
    }
    std::vector<std::string> words = command.words;
    std::vector<std::string> environment = full_environment(command.environment);
    const int error = posix_spawn(&child, words.at(0).c_str(), &actions, nullptr,
                                  pointers(words).data(), pointers(environment).data());
    posix_spawn_file_actions_destroy(&actions);
    return error == 0;
}

// Reads both pipes until both are closed. False when the deadline came first.
bool drain(int out, int err, Clock::time_point deadline, Outcome& outcome) {
    std::array<pollfd, 2> ends{{{out, POLLIN, 0}, {err, POLLIN, 0}}};
    std::array<std::string*, 2> texts{&outcome.out, &outcome.err};
    std::array<char, 65536> buffer{};
    while (ends[0].fd >= 0 || ends[1].fd >= 0) {
        const auto left =
            std::chrono::duration_cast<std::chrono::milliseconds>(deadline - Clock::now());
        if (left.count() <= 0) return false;
        if (poll(ends.data(), ends.size(), static_cast<int>(left.count())) <= 0) continue;
        for (std::size_t i = 0; i < ends.size(); ++i) {
            if (ends[i].fd < 0 || ends[i].revents == 0) continue;
            const ssize_t count = read(ends[i].fd, buffer.data(), buffer.size());
            if (count > 0) texts[i]->append(buffer.data(), static_cast<std::size_t>(count));
            if (count <= 0) ends[i].fd = -1;
        }
    }
    return true;
}

}  // namespace

Outcome run(const Command& command) {
    Outcome outcome;
    Pipe out;
    Pipe err;
    std::FILE* input = input_file(command.input);
    pid_t child = 0;
    const bool started = input != nullptr && out.read_end >= 0 && err.read_end >= 0 &&
                         start(command, fileno(input), out.write_end, err.write_end, child);
    if (input != nullptr) std::fclose(input);
    if (!started) {
        outcome.status = 127;
        outcome.err = "the test can't start " + command.words.at(0) + "\n";
        return outcome;
    }
    Pipe::close_end(out.write_end);
    Pipe::close_end(err.write_end);
    const auto deadline = Clock::now() + command.patience;
    if (!drain(out.read_end, err.read_end, deadline, outcome)) {
        outcome.out_of_patience = true;
        kill(child, SIGKILL);
    }
    int status = 0;
    waitpid(child, &status, 0);
    outcome.status = WIFSIGNALED(status) ? 128 + WTERMSIG(status) : WEXITSTATUS(status);
    return outcome;
}

}  // namespace levigate::testing
