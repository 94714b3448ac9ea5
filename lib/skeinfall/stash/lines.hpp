#pragma once
/// \file
/// The lines of a file, kept small: a stash::Line has room for all that can be said of a skein, and
/// most lines say a tenth of it.

#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/stash/fields.hpp"
#include "skeinfall/stash/movement.hpp"

namespace skeinfall::stash {

/// The fields of one owner as bytes: the same for the very same contents, and for no other.
[[nodiscard]] std::string packed(const Skein& skein, Owner owner);

/// Grows at its end. A line is worked out anew each time it is asked for. Of a description it keeps
/// what a movement holds of it: no id, no weighing, no changes.
class Lines {
  public:
    Lines() = default;
    Lines(std::initializer_list<Line> lines);
    explicit Lines(const std::vector<Movement>& movements);

    void push_back(const Line& line);

    [[nodiscard]] std::size_t size() const { return starts_.size(); }
    [[nodiscard]] bool empty() const { return starts_.empty(); }
    /// Precondition of all that takes a number: it is below size().
    [[nodiscard]] Line operator[](std::size_t number) const;

    /// Parts of a line, at little cost. The id stays where it is while the list lives.
    [[nodiscard]] MovementKind kind_of(std::size_t number) const;
    [[nodiscard]] std::string_view skein_of(std::size_t number) const;

    /// All of them happened on that day, whatever they say.
    void all_on(const base::Day& day) { day_ = day; }

    class Iterator {
      public:
        Iterator(const Lines& lines, std::size_t at) : lines_(&lines), at_(at) {}
        Line operator*() const { return (*lines_)[at_]; }
        Iterator& operator++() {
            ++at_;
            return *this;
        }
        bool operator==(const Iterator& other) const { return at_ == other.at_; }

      private:
        const Lines* lines_;
        std::size_t at_;
    };
    [[nodiscard]] Iterator begin() const { return {*this, 0}; }
    [[nodiscard]] Iterator end() const { return {*this, size()}; }

  private:
    struct Start {
        std::uint32_t block = 0;
        std::uint32_t at = 0;
    };
    [[nodiscard]] std::string_view bytes_of(std::size_t number) const;

    std::vector<std::string> blocks_;  // none grows beyond the room it began with
    std::vector<Start> starts_;
    std::vector<std::string> files_;  // of places: nearly always one
    std::optional<base::Day> day_;
};

}  // namespace skeinfall::stash
