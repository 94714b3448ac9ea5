#include "memory_end.hpp"

#include <cstdlib>
#include <cstring>
#include <new>

#include <unistd.h>

#include "exit_code.hpp"

namespace skeinfall::cli {
namespace {

void tell_and_leave() {
    try {
        if (const std::exception_ptr thrown = std::current_exception())
            std::rethrow_exception(thrown);
    } catch (const std::bad_alloc&) {
        // Nothing is left to do where even that cannot be said.
        static_cast<void>(write(STDERR_FILENO, memory_ran_out, std::strlen(memory_ran_out)) < 0);
        _exit(bad_input);
    } catch (...) {
        std::abort();
    }
    std::abort();
}

}  // namespace

MemoryEnd::MemoryEnd() : before_(std::set_terminate(tell_and_leave)) {}

MemoryEnd::~MemoryEnd() {
    std::set_terminate(before_);
}

}  // namespace skeinfall::cli
