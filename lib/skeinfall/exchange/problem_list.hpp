#pragma once
/// \file
/// Gathers the mistakes of one file, so that a person mends it once.

#include "skeinfall/base/problem.hpp"

namespace skeinfall::exchange {

/// Holds up to `most` problems: more than that help nobody, and a file full of nonsense must not
/// cost time and memory for each piece of it.
class ProblemList {
  public:
    static constexpr std::size_t most = 1000;

    /// Throws as throw_if_any() does when the list is full, with a remark that there are more.
    void add(base::Problem problem);
    /// Takes one back that follows from another.
    void withdraw(const base::Problem& problem);
    [[nodiscard]] std::size_t size() const { return problems_.size(); }
    /// Throws base::InputError with the problems in the order of their places.
    void throw_if_any() const;

  private:
    base::Problems problems_;
};

}  // namespace skeinfall::exchange
