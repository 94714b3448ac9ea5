#include "skeinfall/materials/grading.hpp"

#include <algorithm>

namespace skeinfall::materials {

std::vector<OutOfLine> out_of_line(const std::vector<units::Length>& totals) {
    constexpr std::size_t enough_sizes = 4;
    constexpr double far = 2.5;
    constexpr double worth_saying = 0.05;
    std::vector<units::Length> steps;
    for (std::size_t size = 1; size < totals.size(); ++size)
        steps.push_back(totals[size] - totals[size - 1]);
    units::Length usual{};
    if (totals.size() >= enough_sizes) {
        std::vector<units::Length> sorted = steps;
        std::sort(sorted.begin(), sorted.end());
        usual = sorted[sorted.size() / 2];
    }
    std::vector<OutOfLine> out;
    for (std::size_t size = 1; size < totals.size(); ++size) {
        const units::Length step = steps[size - 1];
        if (step < units::Length{})
            out.push_back({size, Step::falls});
        else if (totals.size() >= enough_sizes && step > far * usual &&
                 step > worth_saying * totals[size - 1])
            out.push_back({size, Step::leaps});
    }
    return out;
}

std::string words_of(Step step, const std::string& role, const std::string& before,
                     const std::string& size) {
    return step == Step::falls ? "size " + size + " takes less " + role + " than size " + before
                               : "from size " + before + " to size " + size + " " + role +
                                     " grows far more than elsewhere";
}

}  // namespace skeinfall::materials
