#pragma once
/// \file
/// Internal to the store: a file in the making, where nobody else can put a hand on it.

#include <filesystem>

namespace skeinfall::store {

/// A new folder beside the file to be made, open to its owner alone, with the file in it. It goes
/// away with its object. Those that a killed program of the same owner left are removed first.
class PartFolder {
  public:
    /// Throws std::filesystem::filesystem_error.
    explicit PartFolder(const std::filesystem::path& target);
    PartFolder(const PartFolder&) = delete;
    PartFolder(PartFolder&&) = delete;
    PartFolder& operator=(const PartFolder&) = delete;
    PartFolder& operator=(PartFolder&&) = delete;
    ~PartFolder();

    /// Not made yet.
    [[nodiscard]] std::filesystem::path file() const;

    /// Gives the file its name, with the rights of `like`. Throws filesystem_error, also where
    /// something has that name.
    void publish(const std::filesystem::path& like);

  private:
    std::filesystem::path target_;
    std::filesystem::path folder_;
    int lock_ = -1;
};

}  // namespace skeinfall::store
