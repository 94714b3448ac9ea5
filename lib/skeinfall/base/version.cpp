#include "skeinfall/base/version.hpp"

namespace skeinfall::base {
std::string_view version() {
    return SKEINFALL_VERSION;
}
}  // namespace skeinfall::base
