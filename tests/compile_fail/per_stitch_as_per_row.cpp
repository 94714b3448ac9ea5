// Yarn per stitch is not yarn per row.
#include "skeinfall/units/quantity.hpp"

using namespace skeinfall::units;

const YarnPerStitch rate = 0.07 * metre / stitch;
const Length yarn = rate * (10.0 * stitch);
#ifdef FORBIDDEN
const Length bare = rate * (10.0 * row);  // forbidden
#endif
