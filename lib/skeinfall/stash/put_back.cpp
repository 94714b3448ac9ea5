#include "skeinfall/stash/put_back.hpp"

#include <utility>

#include "skeinfall/measure/propagate.hpp"

namespace skeinfall::stash {
namespace {

/// A skein as its movements make it, and the most it held before any of what is used now.
class Followed {
  public:
    void take(const Movement& movement) {
        if (movement.described) {
            skein_.yarn = movement.described->yarn;
            skein_.part = movement.described->part;
        }
        if (movement.kind == MovementKind::wound_from) skein_.since = Changes{.from_nothing = true};
        if (movement.kind == MovementKind::weighed) {
            if (movement.amount && movement.amount->index() == 1 && movement.scale) {
                skein_.weighing =
                    measure::Weighing{std::get<units::Printed<units::Mass>>(*movement.amount),
                                      *movement.scale, movement.tare};
                skein_.since.reset();
            }
        } else if (takes(movement.kind) && !movement.amount) {
            skein_.weighing.reset();
            skein_.since = Changes{.from_nothing = true};
        } else if (takes(movement.kind)) {
            change(movement, -1.0);
        } else if (movement.kind == MovementKind::ripped_back ||
                   movement.kind == MovementKind::wound_from) {
            change(movement, 1.0);
        }
        settle(movement.kind);
    }

    [[nodiscard]] const std::optional<Supply>& most() const { return most_; }
    [[nodiscard]] std::optional<Supply> now() const { return supply_of(skein_); }
    [[nodiscard]] bool none_left() const { return skein_.since && skein_.since->from_nothing; }

  private:
    void change(const Movement& movement, double sign) {
        if (!movement.amount) return;
        Changes since = skein_.since.value_or(Changes{});
        if (const auto* length = std::get_if<units::Printed<units::Length>>(&*movement.amount)) {
            since.length += sign * length->value;
            since.length_spread = measure::in_quadrature(
                since.length_spread, length->value * measure::within(changed_length_half_width));
        } else {
            since.mass += sign * std::get<units::Printed<units::Mass>>(*movement.amount).value;
            if (movement.scale)
                since.mass_spread =
                    measure::in_quadrature(since.mass_spread, movement.scale->value);
        }
        skein_.since = since;
    }

    void settle(MovementKind kind) {
        const auto held = supply_of(skein_);
        if (takes(kind)) {
            used_ = true;
        } else if (held && (!most_ || !used_ || most_->length < held->length)) {
            most_ = held;
            used_ = false;
        }
    }

    Skein skein_;
    std::optional<Supply> most_;
    bool used_ = false;
};

}  // namespace

std::optional<TooMuchBack> too_much_back(const std::vector<Event>& history,
                                         const Movement& movement) {
    Followed skein;
    for (const Event& event : history)
        if (!event.undone) skein.take(event.movement);
    const auto most = skein.most();
    const auto before = skein.now();
    if (!most) return std::nullopt;
    Followed then = skein;
    then.take(movement);
    const auto after = then.now();
    constexpr double beyond_doubt = 3.0;
    if (!after || after->length - most->length <=
                      beyond_doubt * measure::in_quadrature(after->own, most->own))
        return std::nullopt;
    const units::Length used = most->length - (before ? before->length : units::Length{});
    return TooMuchBack{used.value() > 0.0 ? std::optional(used) : std::nullopt};
}

}  // namespace skeinfall::stash
