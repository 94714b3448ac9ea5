#include "temporary_folder.hpp"

#include <csignal>
#include <cstdlib>
#include <string>
#include <system_error>
#include <thread>

#include "skeinfall/base/problem.hpp"

namespace skeinfall::cli {
namespace {

sigset_t stopping_signals() {
    sigset_t set;
    sigemptyset(&set);
    for (const int number : {SIGINT, SIGTERM, SIGHUP}) sigaddset(&set, number);
    return set;
}

/// Waits for a signal that would end the program; a thread of its own may do what no signal
/// handler may.
void remove_when_stopped(const std::filesystem::path& folder) {
    const sigset_t set = stopping_signals();
    int number = 0;
    if (sigwait(&set, &number) != 0) return;
    std::error_code ignored;
    std::filesystem::remove_all(folder, ignored);
    pthread_sigmask(SIG_UNBLOCK, &set, nullptr);
    std::raise(number);
}

}  // namespace

TemporaryFolder::TemporaryFolder() {
    std::error_code error;
    const auto parent = std::filesystem::temp_directory_path(error);
    std::string name = (parent / "skeinfall-XXXXXX").string();
    const sigset_t set = stopping_signals();
    pthread_sigmask(SIG_BLOCK, &set, nullptr);
    if (error || mkdtemp(name.data()) == nullptr) {
        pthread_sigmask(SIG_UNBLOCK, &set, nullptr);
        throw base::InputError(base::Problem{"no temporary folder can be made",
                                             {.file = parent.string(), .line = 0, .column = 0},
                                             "a folder that may be written to",
                                             "Name one in TMPDIR."});
    }
    path_ = name;
    std::thread(remove_when_stopped, path_).detach();
}

TemporaryFolder::~TemporaryFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
}

}  // namespace skeinfall::cli
