#pragma once
/// \file
/// Yarn wound off between pieces that begin with the same colour. Inner header of need.

#include <map>
#include <string>
#include <vector>

#include "skeinfall/need/need.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::need {

/// Puts before every piece of a role with Role::pieces_begin_with a step of its own: before the
/// first Role::first_wound_off, else a repeat, for where the ball begins is not known; before
/// further ones the yarn up to the place in the repeat at which the first began. Says how much that
/// is of each such role.
std::map<std::string, units::Length> wind_off_between_pieces(const project::Project& project,
                                                             std::vector<Step>& steps);

}  // namespace skeinfall::need
