#include "skeinfall/units/example.hpp"

#include <algorithm>

#include "skeinfall/base/text.hpp"

namespace skeinfall::units {
namespace {

constexpr std::string_view of_figures = "0123456789.,";

}  // namespace

std::string fitted_example(std::string_view text, std::string_view example) {
    const std::string_view figure = base::trimmed(text);
    const bool above_zero = figure.find_first_of("123456789") != std::string_view::npos;
    const std::size_t own = std::min(example.find_first_not_of(of_figures), example.size());
    if (!above_zero || figure.find_first_not_of(of_figures) != std::string_view::npos || own == 0 ||
        own == example.size())
        return std::string(example);
    return std::string(figure) + std::string(example.substr(own));
}

base::Problem with_example(base::Problem problem, std::string_view text, std::string_view before,
                           std::string_view example) {
    if (example.empty() || !problem.remedy.starts_with(shows_form)) return problem;
    const std::string fitted = fitted_example(text, example);
    const bool count = fitted.find_first_not_of(of_figures) == std::string::npos;
    problem.remedy = "Write " + std::string(before) + (count ? fitted : "\"" + fitted + "\"") + ".";
    return problem;
}

}  // namespace skeinfall::units
