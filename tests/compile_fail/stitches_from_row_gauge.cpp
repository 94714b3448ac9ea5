// Rows are what a row gauge gives.
#include "skeinfall/units/quantity.hpp"

using namespace skeinfall::units;

const RowGauge gauge = 8.0 * row / metre;
const RowCount rows = gauge * metre;
#ifdef FORBIDDEN
const StitchCount bare = gauge * metre;  // forbidden
#endif
