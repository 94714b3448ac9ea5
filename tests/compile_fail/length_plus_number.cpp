// A number is added to no length.
#include "skeinfall/units/quantity.hpp"

using namespace skeinfall::units;

const Length yarn = 3.0 * metre + 2.0 * metre;
#ifdef FORBIDDEN
const Length bare = 3.0 * metre + 2.0;  // forbidden
#endif
