// What was read as a mass is no length.
#include "skeinfall/units/parse.hpp"
#include "skeinfall/units/quantity.hpp"

using namespace skeinfall::units;

const Length yarn = parse_length("3 m").value();
#ifdef FORBIDDEN
const Length bare = parse_mass("3 g").value();  // forbidden
#endif
