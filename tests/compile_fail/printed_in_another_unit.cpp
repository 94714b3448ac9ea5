// A length is not printed in grams.
#include "skeinfall/units/format.hpp"
#include "skeinfall/units/quantity.hpp"

using namespace skeinfall::units;

const auto shown_yarn = text(3.0 * metre, shown::metres, Step::one, Rounding::up);
#ifdef FORBIDDEN
const auto bare = text(3.0 * metre, shown::grams, Step::one, Rounding::up);  // forbidden
#endif
