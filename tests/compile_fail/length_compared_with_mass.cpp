// Metres and grams are not more or less than each other.
#include "skeinfall/units/quantity.hpp"

using namespace skeinfall::units;

const bool more = 3.0 * metre > 2.0 * metre;
#ifdef FORBIDDEN
const bool bare = 3.0 * metre > 2.0 * gram;  // forbidden
#endif
