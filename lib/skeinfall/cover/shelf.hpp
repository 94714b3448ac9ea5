#pragma once
/// \file
/// The skeins of a stash, found by what a role asks for: yarn, colour, class, length per mass.

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "skeinfall/project/project.hpp"
#include "skeinfall/stash/skein.hpp"

namespace skeinfall::cover {

/// Refers to the stash, which must outlive it and stay as it is. What it needs to find a skein is
/// worked out when it is first asked for; copies share it. Use it from one thread.
class Shelf {
  public:
    Shelf();  ///< holds nothing
    // NOLINTNEXTLINE(google-explicit-constructor): a stash that is asked once is given as it is.
    Shelf(const std::vector<stash::Skein>& stash);

    [[nodiscard]] const std::vector<stash::Skein>& skeins() const { return *stash_; }

    /// All that candidate_for() may let in, or keep out only because nobody weighed it, in the
    /// stash's order. Others may be among them.
    [[nodiscard]] std::vector<const stash::Skein*> that_may_serve(const project::Role& role) const;

    /// Those of the yarn of that name, in the stash's order.
    [[nodiscard]] std::vector<const stash::Skein*> of_yarn(const std::string& name) const;

  private:
    using Places = std::vector<std::uint32_t>;  ///< in the stash, in order
    struct Index;
    [[nodiscard]] const Places& named(const std::string& name) const;
    [[nodiscard]] Places of_class_and_grist(const project::Role& role) const;

    const std::vector<stash::Skein>* stash_;
    std::shared_ptr<Index> index_;
};

}  // namespace skeinfall::cover
