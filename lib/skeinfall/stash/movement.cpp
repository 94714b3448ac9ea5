#include "skeinfall/stash/movement.hpp"

#include <algorithm>
#include <array>

#include "skeinfall/base/text.hpp"

namespace skeinfall::stash {
namespace {

struct Word {
    MovementKind kind;
    std::string_view text;
};

constexpr auto movement_words = std::to_array<Word>({
    {MovementKind::bought, "bought"},
    {MovementKind::wound_from, "wound from"},
    {MovementKind::weighed, "weighed"},
    {MovementKind::wound_off, "wound off"},
    {MovementKind::used_in, "used in"},
    {MovementKind::given, "given"},
    {MovementKind::ripped_back, "ripped back"},
    {MovementKind::corrected, "corrected"},
    {MovementKind::set_aside, "set aside"},
    {MovementKind::released, "released"},
});

}  // namespace

std::string_view word(MovementKind kind) {
    return std::find_if(movement_words.begin(), movement_words.end(),
                        [&](const Word& w) { return w.kind == kind; })
        ->text;
}

std::optional<MovementKind> parse_movement_kind(std::string_view text) {
    const auto* const found =
        std::find_if(movement_words.begin(), movement_words.end(),
                     [&](const Word& w) { return base::same_word(w.text, text); });
    if (found == movement_words.end()) return std::nullopt;
    return found->kind;
}

bool begins(MovementKind kind) {
    return kind == MovementKind::bought || kind == MovementKind::wound_from;
}

bool describes(MovementKind kind) {
    return begins(kind) || kind == MovementKind::corrected;
}

bool takes(MovementKind kind) {
    return kind == MovementKind::wound_off || kind == MovementKind::used_in ||
           kind == MovementKind::given;
}

}  // namespace skeinfall::stash
