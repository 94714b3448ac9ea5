#pragma once
/// \file
/// What went wrong, where, what was expected and how to put it right.
///
/// Every bad input becomes one Problem. Readers collect all problems of a file before they
/// throw, so that a person mends the file once. A shortfall of yarn is an answer, not a Problem.

#include <cstddef>
#include <stdexcept>
#include <string>
#include <vector>

namespace skeinfall::base {

/// A place in a text. Lines and columns count from 1, columns in bytes; 0 means "not known".
struct Place {
    std::string file;
    std::size_t line = 0;
    std::size_t column = 0;

    bool operator==(const Place&) const = default;
};

/// One mistake. `what` and `expected` are phrases without a full stop; `remedy` is a sentence.
struct Problem {
    std::string what;
    Place place;
    std::string expected;
    std::string remedy;
};

using Problems = std::vector<Problem>;

/// "file:line:column: what; expected ...\n    remedy", leaving out what is not known.
[[nodiscard]] std::string to_text(const Problem& problem);

/// The same for a list, one after the other, sorted by place.
[[nodiscard]] std::string to_text(const Problems& problems);

/// The input cannot be used. Holds at least one problem.
class InputError : public std::runtime_error {
  public:
    explicit InputError(Problems problems);
    explicit InputError(Problem problem);
    [[nodiscard]] const Problems& problems() const noexcept { return problems_; }

  private:
    Problems problems_;
};

/// The stash file cannot be opened, read or written.
class StoreError : public std::runtime_error {
  public:
    explicit StoreError(Problem problem);
    [[nodiscard]] const Problem& problem() const noexcept { return problem_; }

  private:
    Problem problem_;
};

}  // namespace skeinfall::base
