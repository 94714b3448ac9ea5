#pragma once
/// \file
/// The whole program as one function: arguments in, text and an exit code out.

#include <iosfwd>
#include <string>
#include <vector>

namespace skeinfall::cli {

/// `out` gets data, `err` messages. Returns the exit code of exit_code.hpp; never throws.
int run(const std::vector<std::string>& arguments, std::ostream& out, std::ostream& err);

}  // namespace skeinfall::cli
