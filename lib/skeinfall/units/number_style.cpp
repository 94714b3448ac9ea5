#include "skeinfall/units/number_style.hpp"

#include <utility>

namespace skeinfall::units {
namespace {

NumberStyle& in_force() {
    thread_local NumberStyle style;
    return style;
}

}  // namespace

const NumberStyle& number_style() {
    return in_force();
}

WithNumberStyle::WithNumberStyle(const NumberStyle& style)
    : before_(std::exchange(in_force(), style)) {}

WithNumberStyle::~WithNumberStyle() {
    in_force() = before_;
}

}  // namespace skeinfall::units
