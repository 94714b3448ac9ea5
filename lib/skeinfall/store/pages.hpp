#pragma once
/// \file
/// Internal to the store: the pages of an SQLite file and the records on them, read without SQLite.

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <map>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace skeinfall::store {

/// A cell of a row: NULL, a whole number, a number, a text (or bytes).
using ScrapCell = std::variant<std::monostate, std::int64_t, double, std::string>;
struct ScrapRow {
    std::int64_t number = 0;
    std::vector<ScrapCell> cells;
};

/// As the file and the committed part of its "-wal" have them.
class Pages {
  public:
    /// Throws base::StoreError when the file cannot be read.
    explicit Pages(const std::filesystem::path& file);

    /// What the file's header says, or what fits in the file.
    [[nodiscard]] std::size_t count() const { return count_; }
    [[nodiscard]] std::size_t size() const { return size_; }

    /// The rows on a page (from 1), when it is a leaf of a table; what does not hold together is
    /// passed over.
    [[nodiscard]] std::vector<ScrapRow> rows(std::size_t page) const;

  private:
    [[nodiscard]] std::string_view page(std::size_t number) const;
    [[nodiscard]] std::string payload(std::string_view page, std::size_t at,
                                      std::size_t size) const;
    void read_log(const std::filesystem::path& log);
    [[nodiscard]] std::size_t likely_size() const;

    std::string bytes_;
    std::string log_;
    std::map<std::size_t, std::size_t> in_log_;  // page to its place in log_
    std::size_t size_ = 0;
    std::size_t usable_ = 0;
    std::size_t count_ = 0;
};

}  // namespace skeinfall::store
