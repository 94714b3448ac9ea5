// A length is not assigned to a mass.
#include "skeinfall/units/quantity.hpp"

using namespace skeinfall::units;

void set(Mass& ball) {
    ball = 3.0 * gram;
#ifdef FORBIDDEN
    ball = 3.0 * metre;  // forbidden
#endif
}
