// Length per mass is not mass per length.
#include "skeinfall/units/quantity.hpp"

using namespace skeinfall::units;

const Grist grist = 2.0 * metre / gram;
const LinearDensity density = 1.0 / grist;
#ifdef FORBIDDEN
const LinearDensity bare = grist;  // forbidden
#endif
