// A supply in grams is not set against a need in metres.
#include "skeinfall/measure/chance.hpp"
#include "skeinfall/units/quantity.hpp"

using namespace skeinfall::units;

using skeinfall::measure::Estimate;
const Estimate<Length> need{3.0 * metre, 1.0 * metre};
const Estimate<Mass> ball{3.0 * gram, 1.0 * gram};
const auto chance = skeinfall::measure::chance_enough(need, need);
#ifdef FORBIDDEN
const auto bare = skeinfall::measure::chance_enough(ball, need);  // forbidden
#endif
