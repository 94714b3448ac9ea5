#include "skeinfall/exchange/stash_table.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "skeinfall/base/problem.hpp"

namespace skeinfall::exchange {

std::vector<stash::Skein> skeins_of(const StashTable& table) {
    std::vector<stash::Skein> skeins;
    for (const stash::Line& line : table.lines) {
        const stash::Movement& movement = line.movement;
        if (begins(movement.kind) && movement.described) {
            skeins.push_back(*movement.described);
            skeins.back().id = movement.skein;
        } else if (movement.kind == stash::MovementKind::weighed && !skeins.empty() &&
                   skeins.back().id == movement.skein && movement.amount && movement.scale) {
            if (const auto* mass = std::get_if<units::Printed<units::Mass>>(&*movement.amount))
                skeins.back().weighing = measure::Weighing{*mass, *movement.scale, movement.tare};
        }
    }
    return skeins;
}

RowTaker::RowTaker(const SourceText& source, StashTable& table) : source_(source), table_(table) {
    // Lines are large, and a quantity has no move that a growing vector trusts: it would copy all.
    const auto rows =
        static_cast<std::size_t>(std::count(source.text().begin(), source.text().end(), '\n'));
    table_.lines.reserve(std::min(rows, most_rows));
}

void RowTaker::take(Fields& fields, std::size_t offset) {
    for (stash::Movement& movement : read_movements(fields)) {
        if (begins(movement.kind) && !movement.skein.empty()) {
            const auto [first, fresh] = begun_.emplace(movement.skein, offset);
            if (!fresh)
                fields.fail("id", 0,
                            fmt::format("{} is the id of line {} too", in_quotes(movement.skein),
                                        source_.place(first->second).line),
                            "an id of its own for each skein",
                            "Leave the cell empty to have an id given.");
        }
        table_.lines.push_back({std::move(movement), source_.place(offset), {}});
    }
    if (++rows_ > most_rows)
        throw base::InputError({fmt::format("the file has more than {} rows", most_rows),
                                source_.place(offset), "fewer rows",
                                "Check that it is the right file, or take it apart."});
}

}  // namespace skeinfall::exchange
