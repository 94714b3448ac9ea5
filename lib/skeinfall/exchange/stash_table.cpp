#include "skeinfall/exchange/stash_table.hpp"

#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/problem.hpp"

namespace skeinfall::exchange {

void for_each_skein(const StashTable& table, const std::function<void(const stash::Skein&)>& take) {
    std::optional<stash::Skein> skein;
    const auto give = [&] {
        if (skein) take(*std::exchange(skein, std::nullopt));
    };
    for (const stash::Line& line : table.lines) {
        const stash::Movement& movement = line.movement;
        if (begins(movement.kind) && movement.described) {
            give();
            skein = *movement.described;
            skein->id = movement.skein;
        } else if (movement.kind == stash::MovementKind::weighed && skein &&
                   skein->id == movement.skein && movement.amount && movement.scale) {
            if (const auto* mass = std::get_if<units::Printed<units::Mass>>(&*movement.amount))
                skein->weighing = measure::Weighing{*mass, *movement.scale, movement.tare};
        }
    }
    give();
}

std::vector<stash::Skein> skeins_of(const StashTable& table) {
    std::vector<stash::Skein> skeins;
    for_each_skein(table, [&](const stash::Skein& skein) { skeins.push_back(skein); });
    return skeins;
}

RowTaker::RowTaker(const SourceText& source, StashTable& table, std::size_t most)
    : source_(source), table_(table), most_(most) {}

void RowTaker::take(Fields& fields, std::size_t offset) {
    for (stash::Movement& movement : read_movements(fields)) {
        const std::size_t number = table_.lines.size();
        table_.lines.push_back({std::move(movement), source_.place(offset), {}});
        const std::string_view id = table_.lines.skein_of(number);
        if (!begins(table_.lines.kind_of(number)) || id.empty()) continue;
        const auto [first, fresh] = begun_.emplace(id, offset);
        if (!fresh)
            fields.fail("id", 0,
                        fmt::format("{} is the id of line {} too", in_quotes(id),
                                    source_.place(first->second).line),
                        "an id of its own for each skein",
                        "Leave the cell empty to have an id given.");
    }
    if (++rows_ > most_)
        throw base::InputError({fmt::format("the file has more than {} rows", most_),
                                source_.place(offset), "fewer rows",
                                "Check that it is the right file, or take it apart."});
}

}  // namespace skeinfall::exchange
