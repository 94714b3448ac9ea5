#include "skeinfall/exchange/problem_list.hpp"

#include <algorithm>
#include <string>
#include <tuple>
#include <utility>

namespace skeinfall::exchange {
namespace {

base::Problems by_place(base::Problems problems) {
    std::stable_sort(
        problems.begin(), problems.end(), [](const base::Problem& a, const base::Problem& b) {
            return std::tie(a.place.line, a.place.column) < std::tie(b.place.line, b.place.column);
        });
    return problems;
}

}  // namespace

void ProblemList::add(base::Problem problem) {
    if (problems_.size() < most) {
        problems_.push_back(std::move(problem));
        return;
    }
    base::Problems shown = by_place(problems_);
    shown.push_back({"there are more than " + std::to_string(most) + " mistakes",
                     shown.back().place,
                     {},
                     "Mend these first; the others are shown after that."});
    throw base::InputError(std::move(shown));
}

void ProblemList::withdraw(const base::Problem& problem) {
    const auto found =
        std::find_if(problems_.begin(), problems_.end(), [&](const base::Problem& one) {
            return one.what == problem.what && one.place == problem.place;
        });
    if (found != problems_.end()) problems_.erase(found);
}

void ProblemList::throw_if_any() const {
    if (!problems_.empty()) throw base::InputError(by_place(problems_));
}

}  // namespace skeinfall::exchange
