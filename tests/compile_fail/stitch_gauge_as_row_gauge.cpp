// Gauge across is not gauge up.
#include "skeinfall/units/quantity.hpp"

using namespace skeinfall::units;

RowCount rows_in(RowGauge gauge) {
    return gauge * metre;
}
const RowCount rows = rows_in(8.0 * row / metre);
#ifdef FORBIDDEN
const RowCount bare = rows_in(8.0 * stitch / metre);  // forbidden
#endif
