// A number is no length until it has a unit.
#include "skeinfall/units/quantity.hpp"

using namespace skeinfall::units;

const Length yarn = 3.0 * metre;
#ifdef FORBIDDEN
const Length bare = 3.0;  // forbidden
#endif
