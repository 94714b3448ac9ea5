#pragma once
// Join plans as an arc-flow model (J. M. Valerio de Carvalho, EJOR 141 (2002) 253, for cutting
// stock; here with the items in order) for the solver cbc: an arc for every skein class and every
// pair of rows that it can cover, a unit of flow from the first row to the last.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace skeinfall::oracle {

struct ArcFlow {
    std::vector<std::int64_t> rows;  ///< yarn of each
    struct Class {
        std::int64_t length = 0;
        std::int64_t count = 0;
    };
    std::vector<Class> classes;
    std::int64_t distance = 0;  ///< least rows between joins
    std::vector<int> marks;     ///< of a join after each row; -1: none is permitted there
};

struct FlowCost {
    std::int64_t pieces = 0;
    std::int64_t length = 0;
    std::int64_t marks = 0;

    bool operator==(const FlowCost&) const = default;
};

/// Level by level: pieces, length begun, marks. Nothing when there is no plan. `folder` is made
/// for the model files. Only the first `levels` objectives are solved, the others stay 0.
[[nodiscard]] std::optional<FlowCost> solve_with_cbc(const ArcFlow& problem,
                                                     const std::string& folder, int levels = 3);

}  // namespace skeinfall::oracle
