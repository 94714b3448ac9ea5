// No number is assigned to it either.
#include "skeinfall/units/quantity.hpp"

using namespace skeinfall::units;

void set(Length& yarn) {
    yarn = 3.0 * metre;
#ifdef FORBIDDEN
    yarn = 3.0;  // forbidden
#endif
}
