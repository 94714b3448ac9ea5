#pragma once
/// \file
/// The amount a yarn is sold in, out of a text.

#include <string>

#include "skeinfall/yarn/yarn.hpp"

namespace skeinfall::yarn {

/// "200 yd / 100 g" as a put-up of 200 yd and 100 g. A count such as "992 yd/lb" is no put-up:
/// the mass has no figure. Empty label then.
[[nodiscard]] Label put_up_in(const std::string& grist_text);

}  // namespace skeinfall::yarn
