#include "temporary_folder.hpp"

#include <array>
#include <csignal>
#include <cstdlib>
#include <string>
#include <system_error>

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include "skeinfall/base/problem.hpp"

namespace skeinfall::cli {
namespace {

sigset_t stopping_signals() {
    sigset_t set;
    sigemptyset(&set);
    for (const int number : {SIGINT, SIGTERM, SIGHUP}) sigaddset(&set, number);
    return set;
}

/// Waits until nobody holds the other end of the pipe, then turns into rm. Between fork and exec
/// only what is safe there.
[[noreturn]] void remove_at_the_end(int end_of_program, const char* folder) {
    for (const int number : {SIGINT, SIGTERM, SIGHUP}) std::signal(number, SIG_IGN);
    char byte = 0;
    while (read(end_of_program, &byte, 1) > 0) {
    }
    execlp("rm", "rm", "-rf", "--", folder, nullptr);
    _exit(1);
}

}  // namespace

TemporaryFolder::TemporaryFolder() {
    std::error_code error;
    const auto parent = std::filesystem::temp_directory_path(error);
    std::string name = (parent / "skeinfall-XXXXXX").string();
    std::array<int, 2> pipe_ends{-1, -1};
    // A signal waits until the keeper is there.
    const sigset_t stopping = stopping_signals();
    sigset_t before;
    pthread_sigmask(SIG_BLOCK, &stopping, &before);
    if (error || pipe2(pipe_ends.data(), O_CLOEXEC) != 0 || mkdtemp(name.data()) == nullptr) {
        for (const int end : pipe_ends)
            if (end >= 0) close(end);
        pthread_sigmask(SIG_SETMASK, &before, nullptr);
        throw base::InputError(base::Problem{"no temporary folder can be made",
                                             {.file = parent.string(), .line = 0, .column = 0},
                                             "a folder that may be written to",
                                             "Name one in TMPDIR."});
    }
    path_ = name;
    keeper_ = fork();
    if (keeper_ == 0) {
        close(pipe_ends[1]);
        remove_at_the_end(pipe_ends[0], name.c_str());
    }
    close(pipe_ends[0]);
    alive_ = pipe_ends[1];
    pthread_sigmask(SIG_SETMASK, &before, nullptr);
}

TemporaryFolder::~TemporaryFolder() {
    close(alive_);
    if (keeper_ > 0) waitpid(keeper_, nullptr, 0);
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
}

}  // namespace skeinfall::cli
