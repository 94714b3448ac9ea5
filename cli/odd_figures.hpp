#pragma once
/// \file
/// Remarks on what was entered.

#include <iosfwd>
#include <set>
#include <string>
#include <vector>

#include "skeinfall/stash/skein.hpp"

namespace skeinfall::cli {

/// What is odd about labels and weighings, said once a yarn; it stops nothing.
class OddFigures {
  public:
    explicit OddFigures(std::ostream& err) : err_(err) {}
    void look_at(const stash::Skein& skein);
    /// After the last.
    void say_how_many_more() const;

  private:
    void say(const stash::Skein& skein, const std::string& what);

    std::ostream& err_;
    std::set<std::string> said_;
};

/// The same of a list.
void note_odd_figures(const std::vector<stash::Skein>& skeins, std::ostream& err);

}  // namespace skeinfall::cli
