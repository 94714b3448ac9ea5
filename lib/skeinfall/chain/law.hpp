#pragma once
/// \file
/// The law of skeins laid end to end over a role's steps: how far each of them reaches, what is
/// lost at the joins, and the chance that the last step is done.
///
/// Link i takes f m_i (1 + e_i): f is common to all links (tension from swatch to piece, the
/// swatch's own error, what all skeins' labels have in common), e_i is the link's own. A skein
/// never begins a link that it cannot finish: one that runs short in a row is taken back to the
/// last place and the row is begun with the next skein. Given f, skeins are independent of one
/// another, so the chances P_k(i) that skein k ends after link i follow from P_{k-1}; f is
/// integrated over even nodes. Derivation ours; total probability and the normal law are
/// textbook. The link that did not fit is a little longer than average; ignoring that costs less
/// than 0.3 % against simulation.

#include <cstddef>
#include <vector>

#include "skeinfall/measure/chance.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::chain {

/// What lies between two places where yarn may be joined.
struct Link {
    units::Length yarn{};
    units::Length spread{};  ///< its own, one standard deviation
};

/// A skein as the law sees it.
struct Strand {
    units::Length usable{};  ///< without its ends and what is cut or wound off
    units::Length own{};     ///< its own spread
    units::Length shared{};  ///< spread that all skeins of its yarn have in common: it adds up
};

/// How many links are done when a skein ends.
struct Reach {
    std::size_t safe = 0;    ///< reached at the confidence
    std::size_t likely = 0;  ///< as often passed as not
    std::size_t latest = 0;  ///< not passed at the confidence
    std::size_t first = 0;   ///< all but surely reached: once in ten thousand it is not
    std::size_t last = 0;    ///< all but surely not passed
    measure::Chance done;    ///< that all links are done by the end of this skein
};

struct Law {
    std::vector<Reach> reaches;  ///< one a strand

    /// That all links are done with all strands; certain without links, impossible without strands.
    [[nodiscard]] measure::Chance lasts() const;
    bool no_links = false;
};

/// `common` is the relative spread of f but for the strands' shared part. Cost: strands x links
/// that a strand may miss x places where it may begin, for each of 31 nodes.
[[nodiscard]] Law law_of(const std::vector<Link>& links, const std::vector<Strand>& strands,
                         units::Ratio common, measure::Chance confidence);

}  // namespace skeinfall::chain
