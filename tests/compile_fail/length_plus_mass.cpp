// Metres and grams do not add up.
#include "skeinfall/units/quantity.hpp"

using namespace skeinfall::units;

const Length yarn = 3.0 * metre;
const Mass ball = 2.0 * gram;
#ifdef FORBIDDEN
const auto sum = yarn + ball;  // forbidden
#endif
