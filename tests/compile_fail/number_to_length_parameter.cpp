// A function that takes a length takes no number.
#include "skeinfall/units/quantity.hpp"
#include "skeinfall/yarn/tools.hpp"

using namespace skeinfall::units;

const auto label = skeinfall::yarn::us_hook_label(5.5 * millimetre);
#ifdef FORBIDDEN
const auto bare = skeinfall::yarn::us_hook_label(5.5);  // forbidden
#endif
