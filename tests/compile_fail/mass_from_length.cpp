// A mass is no length.
#include "skeinfall/units/quantity.hpp"

using namespace skeinfall::units;

const Length yarn = 3.0 * metre;
const Mass ball = yarn / (2.0 * metre / gram);
#ifdef FORBIDDEN
const Mass bare = yarn;  // forbidden
#endif
