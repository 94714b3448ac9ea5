// A function that takes a mass takes no length.
#include "skeinfall/units/quantity.hpp"
#include "skeinfall/yarn/yarn.hpp"

using namespace skeinfall::units;

const Mass spread = skeinfall::yarn::label_mass_spread(100.0 * gram);
#ifdef FORBIDDEN
const Mass bare = skeinfall::yarn::label_mass_spread(100.0 * metre);  // forbidden
#endif
