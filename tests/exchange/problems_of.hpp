#pragma once

#include <string>
#include <vector>

#include "skeinfall/base/problem.hpp"

namespace skeinfall::exchange {

/// The problems that reading gives, each as it is shown; empty when it succeeds.
template <class Read>
std::vector<std::string> problems_of(Read read) {
    std::vector<std::string> out;
    try {
        static_cast<void>(read());
    } catch (const base::InputError& error) {
        for (const base::Problem& problem : error.problems()) out.push_back(to_text(problem));
    }
    return out;
}

}  // namespace skeinfall::exchange
