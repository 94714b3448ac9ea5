#pragma once
/// \file
/// A folder that goes away with its object, and on Ctrl-C.

#include <filesystem>

namespace skeinfall::cli {

/// A new folder below the system's folder for temporary files. SIGINT, SIGTERM and SIGHUP remove
/// it and then end the program as they always do. Make no more than one at a time.
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
};

}  // namespace skeinfall::cli
