// Centre and spread of an estimate are alike.
#include "skeinfall/measure/estimate.hpp"
#include "skeinfall/units/quantity.hpp"

using namespace skeinfall::units;

using skeinfall::measure::Estimate;
const Estimate<Length> need{3.0 * metre, 1.0 * metre};
#ifdef FORBIDDEN
const Estimate<Length> bare{3.0 * metre, 1.0 * gram};  // forbidden
#endif
