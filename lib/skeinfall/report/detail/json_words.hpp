#pragma once
/// \file
/// Inside report: what every answer in JSON is written with. Numbers go in the units of their keys.

#include <string>

#include <nlohmann/json.hpp>

#include "skeinfall/units/format.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::report {

using Json = nlohmann::ordered_json;

/// The text of a whole answer; bytes that are not UTF-8 are replaced.
inline std::string finished(const Json& json) {
    return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

inline double m(units::Length length) {
    return length / units::metre;
}

inline double g(units::Mass mass) {
    return mass / units::gram;
}

inline double m_per_100g(units::Grist grist) {
    return units::Ratio(grist / units::shown::metres_per_100g.one);
}

}  // namespace skeinfall::report
