#pragma once
/// \file
/// Remarks on what was entered.

#include <iosfwd>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "skeinfall/base/day.hpp"
#include "skeinfall/base/problem.hpp"
#include "skeinfall/stash/skein.hpp"

#include "command.hpp"

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
    [[nodiscard]] const std::string& odd_fibres(const yarn::FibreContent& content);

    std::ostream& err_;
    std::set<std::string> said_;
    std::unordered_map<std::string, std::string> fibres_;  ///< what is odd about them; most recur
};

/// The same of a list.
void note_odd_figures(const std::vector<stash::Skein>& skeins, std::ostream& err);

/// Says which step was taken from the digits of a reading, for a scale may have a coarser one;
/// nothing of an empty one.
void note_step(const std::string& step, std::ostream& err);

/// What a weight in whole ounces or pounds is taken for: it may be half of one off.
void note_coarse_step(const std::string& shown, units::Mass step, std::ostream& err);

/// Whether a day lies ahead, wherever one is.
[[nodiscard]] bool is_to_come(const base::Day& day, const World& world);

/// A label with a length per mass that no hand yarn has; its place is left open.
[[nodiscard]] std::optional<base::Problem> impossible_label(const yarn::Label& label);

}  // namespace skeinfall::cli
