#pragma once
/// \file
/// Yarn for a class of makers, as text and as JSON.

#include <cstdint>
#include <string>
#include <vector>

#include "skeinfall/materials/class_of.hpp"

namespace skeinfall::report {

[[nodiscard]] std::string class_text(const std::string& title, std::int64_t makers,
                                     const std::vector<materials::ClassYarn>& yarns,
                                     measure::Chance confidence);
/// {title, makers, yarns: [{role, yarn, colour, put_up, middle_m, each_m, skeins_each,
/// skeins_all}]}.
[[nodiscard]] std::string class_json(const std::string& title, std::int64_t makers,
                                     const std::vector<materials::ClassYarn>& yarns);

}  // namespace skeinfall::report
