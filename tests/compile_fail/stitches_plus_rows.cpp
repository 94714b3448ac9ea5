// Stitches and rows are counted apart.
#include "skeinfall/units/quantity.hpp"

using namespace skeinfall::units;

const StitchCount stitches = 3.0 * stitch;
const RowCount rows = 2.0 * row;
#ifdef FORBIDDEN
const auto sum = stitches + rows;  // forbidden
#endif
