#pragma once
/// \file
/// A value, or the problem that kept it from being read.

#include <utility>
#include <variant>

#include "skeinfall/base/problem.hpp"

namespace skeinfall::base {

/// Holds a T or a Problem. value() of a failed result throws InputError.
template <class T>
class Result {
  public:
    Result(T value) : state_(std::in_place_index<0>, std::move(value)) {}
    Result(Problem problem) : state_(std::in_place_index<1>, std::move(problem)) {}

    [[nodiscard]] bool ok() const noexcept { return state_.index() == 0; }
    explicit operator bool() const noexcept { return ok(); }

    [[nodiscard]] const T& value() const {
        if (!ok()) throw InputError(std::get<1>(state_));
        return std::get<0>(state_);
    }
    [[nodiscard]] const T& operator*() const { return value(); }
    [[nodiscard]] const T* operator->() const { return &value(); }

    /// Precondition: !ok().
    [[nodiscard]] const Problem& problem() const { return std::get<1>(state_); }

  private:
    std::variant<T, Problem> state_;
};

}  // namespace skeinfall::base
