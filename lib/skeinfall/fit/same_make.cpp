#include "skeinfall/fit/same_make.hpp"

#include <algorithm>
#include <cmath>

#include "skeinfall/need/need.hpp"

namespace skeinfall::fit {

bool same_make(const project::Project& made, project::Project read, std::size_t size) {
    read.hand = made.hand;
    const std::vector<project::Row> rows = project::row_sequence(made, size);
    const std::vector<project::Row> again = project::row_sequence(read, size);
    const bool same_rows = std::equal(rows.begin(), rows.end(), again.begin(), again.end(),
                                      [](const project::Row& a, const project::Row& b) {
                                          return a.piece == b.piece && a.number == b.number &&
                                                 a.role == b.role &&
                                                 std::abs((a.stitches - b.stitches).value()) < 0.5;
                                      });
    if (!same_rows) return false;
    const need::MakeNeed need = need::need_of(made, size);
    const need::MakeNeed need_again = need::need_of(read, size);
    constexpr double rounded = 0.11;  // a tenth of a metre, and of a yard
    constexpr double share = 0.001;
    return std::equal(
        need.roles.begin(), need.roles.end(), need_again.roles.begin(), need_again.roles.end(),
        [&](const need::RoleNeed& a, const need::RoleNeed& b) {
            const double apart = (a.length.centre - b.length.centre).value();
            return a.role == b.role && std::abs(apart) <= rounded + share * a.length.centre.value();
        });
}

}  // namespace skeinfall::fit
