#include "skeinfall/stash/in_work.hpp"

#include <algorithm>
#include <map>

#include "skeinfall/base/name.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/units/format.hpp"

namespace skeinfall::stash {
namespace {

/// Nothing was entered of the skein since it was weighed so.
bool is_latest(const Skein& skein, const WorkReading& reading) {
    return skein.weighing && !skein.since && skein.weighing->shown == reading.mass &&
           skein.weighing->scale == reading.scale && skein.weighing->tare == reading.tare;
}

Skein* find(std::vector<Skein>& skeins, const std::string& id) {
    const auto found =
        std::find_if(skeins.begin(), skeins.end(), [&](const Skein& one) { return one.id == id; });
    return found == skeins.end() ? nullptr : &*found;
}

}  // namespace

void keep_for(Skein& skein, const Work& work) {
    const bool kept = std::any_of(
        skein.set_aside.begin(), skein.set_aside.end(),
        [&](const Promise& promise) { return base::same_word(promise.project, work.project); });
    if (kept) return;
    Promise promise;
    promise.project = work.project;
    promise.role = work.role;
    skein.set_aside.push_back(std::move(promise));
}

std::vector<Work> works_of(const std::vector<WorkReading>& readings) {
    std::vector<Work> out;
    for (const WorkReading& reading : readings) {
        auto work = std::find_if(out.begin(), out.end(), [&](const Work& one) {
            return base::same_word(one.project, reading.project) && one.role == reading.role;
        });
        if (work == out.end()) work = out.insert(out.end(), {reading.project, reading.role, {}});
        if (reading.afresh) work->readings.clear();
        work->readings.push_back(reading);
        if (work->readings.back().skein.empty() && work->readings.size() > 1)
            work->readings.back().skein = work->readings[work->readings.size() - 2].skein;
    }
    return out;
}

std::optional<Movement> movement_of(const WorkReading& reading, const Skein& skein) {
    Movement out;
    out.skein = skein.id;
    out.day = reading.day;
    out.scale = reading.scale;
    const bool amounts =
        std::any_of(skein.set_aside.begin(), skein.set_aside.end(),
                    [](const Promise& promise) { return promise.amount.has_value(); });
    if (!amounts) {
        out.kind = MovementKind::weighed;
        out.amount = reading.mass;
        out.tare = reading.tare;
        out.note = "in work";
        return out;
    }
    const auto grist = yarn::label_grist(skein.yarn.label);
    const auto supply = supply_of(skein);
    if (!grist || !supply) return std::nullopt;
    measure::ScaleReading scale{reading.mass.value, reading.scale.value, {}};
    if (reading.tare) scale.tare = reading.tare->value;
    const units::Mass gone = supply->length / grist->centre - measure::net_mass(scale).centre;
    if (gone < 0.5 * reading.scale.value) return std::nullopt;
    out.kind = MovementKind::used_in;
    out.purpose = reading.project;
    out.amount = units::Printed<units::Mass>{
        units::text(gone, units::shown::grams, units::Step::tenth, units::Rounding::nearest), gone};
    return out;
}

void forget_amount(Skein& skein) {
    skein.part = true;
    skein.weighing.reset();
    skein.since.reset();
}

std::vector<Skein> as_worked(std::vector<Skein> skeins, const std::vector<WorkReading>& readings) {
    for (const Work& work : works_of(readings)) {
        std::map<std::string, const WorkReading*> latest;
        for (const WorkReading& reading : work.readings)
            if (!reading.skein.empty()) latest[reading.skein] = &reading;
        const std::string& in_hand = work.readings.back().skein;
        for (const auto& [id, reading] : latest) {
            Skein* skein = find(skeins, id);
            if (skein == nullptr || !is_latest(*skein, *reading)) continue;
            if (id == in_hand)
                keep_for(*skein, work);
            else
                forget_amount(*skein);
        }
    }
    return skeins;
}

std::set<std::string> begun_for(const std::vector<Movement>& movements, std::string_view project) {
    std::set<std::string> out;
    for (const Movement& movement : movements)
        if (movement.kind == MovementKind::used_in && base::same_word(movement.purpose, project))
            out.insert(movement.skein);
    return out;
}

units::Mass used_in(const std::vector<Movement>& movements, std::string_view project,
                    std::string_view yarn, const std::vector<std::string>& but_of) {
    std::map<std::string, yarn::Yarn> described;
    units::Mass sum{};
    for (const Movement& movement : movements) {
        if (movement.described) described[movement.skein] = movement.described->yarn;
        if (movement.kind != MovementKind::used_in && movement.kind != MovementKind::ripped_back)
            continue;
        const auto of = described.find(movement.skein);
        if (of == described.end() || !base::same_word(movement.purpose, project)) continue;
        if (!yarn.empty() && !base::same_name(of->second.name, yarn)) continue;
        if (std::find(but_of.begin(), but_of.end(), movement.skein) != but_of.end()) continue;
        const yarn::Label& label = of->second.label;
        units::Mass mass = label.mass ? label.mass->value : units::Mass{};
        if (movement.amount) {
            if (const auto* told = std::get_if<units::Printed<units::Mass>>(&*movement.amount))
                mass = told->value;
            else if (const auto grist = yarn::label_grist(label))
                mass =
                    std::get<units::Printed<units::Length>>(*movement.amount).value / grist->centre;
        }
        sum += movement.kind == MovementKind::used_in ? mass : -mass;
    }
    return sum;
}

}  // namespace skeinfall::stash
