#pragma once
/// \file
/// A folder that goes away with its object, and with the program however that ends.

#include <filesystem>

namespace skeinfall::cli {

/// A new folder below the system's folder for temporary files. A process of its own keeps it: once
/// this program has ended, killed or not, it removes the folder.
class TemporaryFolder {
  public:
    /// Throws base::InputError when none can be made.
    TemporaryFolder();
    TemporaryFolder(const TemporaryFolder&) = delete;
    TemporaryFolder(TemporaryFolder&&) = delete;
    TemporaryFolder& operator=(const TemporaryFolder&) = delete;
    TemporaryFolder& operator=(TemporaryFolder&&) = delete;
    ~TemporaryFolder();

    [[nodiscard]] const std::filesystem::path& path() const { return path_; }

  private:
    std::filesystem::path path_;
    int keeper_ = -1;  ///< process
    int alive_ = -1;   ///< the end of a pipe that closes with the program
};

}  // namespace skeinfall::cli
