#include "skeinfall/report/stash_text.hpp"

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/says.hpp"
#include "skeinfall/report/words.hpp"
#include "skeinfall/stash/reserve.hpp"

namespace skeinfall::report {
namespace {

using base::shown_inert;
using stash::MovementKind;

/// What was, or all there was.
std::string amount_text(const stash::Movement& movement) {
    if (movement.amount) return stash::text(*movement.amount);
    return takes(movement.kind) || movement.kind == MovementKind::set_aside ? "all" : "";
}

/// The other end, the make, or what it was described as.
std::string about(const stash::Movement& movement) {
    switch (movement.kind) {
        case MovementKind::wound_off:
            return "into " + movement.other;
        case MovementKind::wound_from:
            return movement.other;
        case MovementKind::bought:
        case MovementKind::corrected:
            return movement.described
                       ? movement.described->yarn.name + " " + movement.described->colourway
                       : "";
        case MovementKind::set_aside:
            return "for " + movement.purpose +
                   (movement.role.empty() ? "" : " (" + movement.role + ")");
        case MovementKind::released:
            return "from " + movement.purpose;
        default:
            return movement.purpose;
    }
}

/// Nobody said that a skein which came in was paid for.
std::string what_happened(MovementKind kind) {
    return kind == MovementKind::bought ? "added" : std::string(word(kind));
}

}  // namespace

std::string movement_text(const stash::Movement& movement) {
    std::string out = what_happened(movement.kind);
    const std::string object = shown_inert(base::trimmed(about(movement)));
    if (!object.empty()) out += " " + object;
    const std::string amount = shown_inert(amount_text(movement));
    out += ", " + (amount.empty() ? "" : amount + " of ") + shown_inert(movement.skein);
    if (movement.day) out += " (" + base::to_text(*movement.day) + ")";
    return out;
}

std::string left_text(const stash::Skein& skein) {
    const auto supply = stash::supply_of(skein);
    const std::string kept = set_aside_text(skein);
    return skein.id + ": " +
           (supply ? yards_and_metres(supply->length, units::Rounding::down) + " left"
                   : "length unknown; " + said(*stash::supply_gap(skein))) +
           (kept.empty() ? "" : "; set aside: " + kept);
}

std::string set_aside_text(const stash::Skein& skein) {
    std::vector<std::string> out;
    for (const stash::Promise& promise : skein.set_aside)
        out.push_back(shown_inert(stash::promise_text(promise)));
    return base::join(out, ", ");
}

std::string reading_text(const stash::WorkReading& reading) {
    std::string out = "row " + std::to_string(reading.row);
    if (!reading.piece.empty()) out += " of " + reading.piece;
    if (reading.copy > 1) out += " " + std::to_string(reading.copy);
    out += ": " + reading.mass.text;
    if (!reading.skein.empty()) out += " of " + reading.skein;
    return shown_inert(out + " (" + base::to_text(reading.day) + ")");
}

std::string history_text(const std::vector<stash::Event>& events) {
    std::vector<std::vector<std::string>> rows{
        {"day", "what", "amount", "scale", "what or who", "note", ""}};
    for (const stash::Event& event : events) {
        const stash::Movement& movement = event.movement;
        std::string amount = amount_text(movement);
        if (movement.tare) amount += ", tare " + movement.tare->text;
        const std::string& note = movement.described ? movement.described->note : movement.note;
        rows.push_back({movement.day ? base::to_text(*movement.day) : "?",
                        what_happened(movement.kind), shown_inert(amount),
                        movement.scale ? shown_inert(movement.scale->text) : "",
                        shown_inert(base::trimmed(about(movement))), shown_inert(note),
                        event.undone ? "undone" : ""});
    }
    return table(rows, {false, false, true, true, false, false, false}, 0);
}

std::string totals_text(const std::vector<stash::YarnTotal>& totals) {
    if (totals.empty()) return "No skein.\n";
    std::vector<std::vector<std::string>> rows{{"yarn", "class", "label", "skeins", "length"}};
    for (const stash::YarnTotal& total : totals) {
        const yarn::Label& label = total.yarn.label;
        std::string length = total.length.centre.value() > 0.0
                                 ? yards_and_metres(total.length.centre, units::Rounding::down)
                                 : "?";
        if (total.unknown > 0 && length != "?")
            length += " and " + std::to_string(total.unknown) + " unknown";
        rows.push_back({shown_inert(total.yarn.name),
                        total.yarn.weight ? std::to_string(total.yarn.weight->number) : "?",
                        shown_inert((label.length ? label.length->text : "?") + " / " +
                                    (label.mass ? label.mass->text : "?")),
                        std::to_string(total.skeins), length});
    }
    return table(rows, {false, true, false, true, true}, 0);
}

}  // namespace skeinfall::report
