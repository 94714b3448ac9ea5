#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/exchange/project_toml.hpp"

#include "problems_of.hpp"

namespace skeinfall::exchange {

inline std::vector<std::string> project_problems(std::string_view text) {
    return problems_of([&] { return parse_project(text, "p"); });
}

inline const std::string hdc_gauge =
    "[gauge]\nstitches = '10 per 10 cm'\nrows = '10 per 10 cm'\nstitch = 'hdc'\n";

}  // namespace skeinfall::exchange
