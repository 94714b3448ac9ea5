#include "skeinfall/yarn/burn_signs.hpp"

#include <algorithm>

#include "skeinfall/base/text.hpp"
#include "skeinfall/data/burn_groups.hpp"
#include "skeinfall/data/burn_signs.hpp"

namespace skeinfall::yarn {
namespace {

bool fits(std::string_view sign, std::string_view group) {
    for (const auto& row : data::burn_signs)
        if (row.sign == sign) {
            const std::vector<std::string> groups = base::split(row.fits, ';');
            return std::find(groups.begin(), groups.end(), group) != groups.end();
        }
    return false;
}

}  // namespace

std::vector<BurnSign> burn_signs() {
    std::vector<BurnSign> out;
    out.reserve(std::size(data::burn_signs));
    for (const auto& row : data::burn_signs) out.push_back({row.sign, row.kind, row.seen_as});
    return out;
}

base::Result<std::vector<std::string>> parse_burn_signs(std::string_view text) {
    std::vector<std::string> known;
    for (const BurnSign& sign : burn_signs()) known.emplace_back(sign.sign);
    std::vector<std::string> out;
    for (const std::string& piece : base::split(text, ',')) {
        const std::string word = base::lower(piece);
        if (std::find(known.begin(), known.end(), word) == known.end()) {
            const auto near = base::nearest_name(word, known);
            return base::Problem{
                base::quoted(piece) + " is not a sign of burning",
                {},
                "some of: " + base::join(known, ", "),
                base::did_you_mean(near, "Write them with commas, like \"hair, crumbles\".")};
        }
        if (std::find(out.begin(), out.end(), word) == out.end()) out.push_back(word);
    }
    return out;
}

std::vector<FibreGuess> fibre_guesses(const std::vector<std::string>& signs) {
    std::vector<FibreGuess> out;
    for (const auto& row : data::burn_groups) {
        FibreGuess guess{std::string(row.fibre_group), std::string(row.fibres), 0,
                         static_cast<int>(signs.size()), Confidence::unlikely};
        guess.agree = static_cast<int>(
            std::count_if(signs.begin(), signs.end(),
                          [&](const std::string& sign) { return fits(sign, row.fibre_group); }));
        if (guess.agree == 0) continue;
        if (guess.agree == guess.signs)
            guess.confidence = guess.signs >= 2 ? Confidence::likely : Confidence::possible;
        else if (2 * guess.agree >= guess.signs)
            guess.confidence = Confidence::possible;
        out.push_back(std::move(guess));
    }
    // Signs that fit two groups alike cannot tell them apart.
    const auto best = std::count_if(out.begin(), out.end(), [](const FibreGuess& guess) {
        return guess.confidence == Confidence::likely;
    });
    if (best > 1)
        for (FibreGuess& guess : out)
            if (guess.confidence == Confidence::likely) guess.confidence = Confidence::possible;
    std::stable_sort(out.begin(), out.end(),
                     [](const FibreGuess& a, const FibreGuess& b) { return a.agree > b.agree; });
    return out;
}

}  // namespace skeinfall::yarn
