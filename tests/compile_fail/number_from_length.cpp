// A length leaves by dividing by a unit.
#include "skeinfall/units/quantity.hpp"

using namespace skeinfall::units;

const double metres = 3.0 * metre / metre;
#ifdef FORBIDDEN
const double bare = 3.0 * metre;  // forbidden
#endif
