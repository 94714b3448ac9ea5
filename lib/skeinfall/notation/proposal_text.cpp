#include "skeinfall/notation/proposal_text.hpp"

#include <cmath>
#include <string_view>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"

namespace skeinfall::notation {

std::string text(const Proposal& proposal) {
    const std::string words = base::shown_inert(proposal.words);
    const std::string change =
        proposal.instead.empty()
            ? fmt::format("Leave out \"{}\"", words)
            : fmt::format("Write \"{}\" for \"{}\"", base::shown_inert(proposal.instead), words);
    if (!proposal.why.empty()) return fmt::format("{}: {}.", change, proposal.why);
    const std::string_view why = proposal.guess
                                     ? "; a guess, to be checked against the rows behind it"
                                 : proposal.counted ? ", as its count says"
                                                    : " and fits the row below";
    return fmt::format("{}: the row then makes {} stitches{}.", change,
                       std::llround(proposal.makes.value()), why);
}

bool told_in_remedy(const RowReading& reading) {
    return reading.proposal && reading.problem && !reading.proposal->instead.empty() &&
           reading.problem->remedy.find(reading.proposal->instead) != std::string::npos;
}

std::optional<base::Problem> fault_of(const RowReading& reading) {
    if (!reading.problem) return std::nullopt;
    base::Problem out = *reading.problem;
    if (reading.proposal && !told_in_remedy(reading))
        out.remedy += (out.remedy.empty() ? "" : " ") + text(*reading.proposal);
    return out;
}

}  // namespace skeinfall::notation
