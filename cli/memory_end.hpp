#pragma once
/// \file
/// One clear line where memory runs out in what cannot throw.

#include <exception>

namespace skeinfall::cli {

inline constexpr const char* memory_ran_out =
    "skeinfall: memory ran out. Close other programs, or ask for less at once.\n";

/// While it lives, the program ends with `bad_input` and that line, on the standard error, where
/// memory runs out in a destructor: those of the JSON library ask for some. Nothing is written
/// then; what the stash was told is whole, as after a kill.
class MemoryEnd {
  public:
    MemoryEnd();
    ~MemoryEnd();
    MemoryEnd(const MemoryEnd&) = delete;
    MemoryEnd(MemoryEnd&&) = delete;
    MemoryEnd& operator=(const MemoryEnd&) = delete;
    MemoryEnd& operator=(MemoryEnd&&) = delete;

  private:
    std::terminate_handler before_;
};

}  // namespace skeinfall::cli
