#pragma once
/// \file
/// The program's exit codes; the same for every command.

namespace skeinfall::cli {

enum ExitCode : int {
    done = 0,        ///< done; for cover: covered
    not_so = 1,      ///< the answer is no, or undecided, or not found
    bad_input = 2,   ///< arguments or input that cannot be used
    store_fault = 3  ///< the stash file cannot be used
};

}  // namespace skeinfall::cli
