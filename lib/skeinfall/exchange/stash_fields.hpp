#pragma once
/// \file
/// The fields of a skein and of what happens to it, as tables, JSON and people write them. All
/// readers share these rules, so a text means the same wherever it is entered.
///
/// Fields: id; those that describe a skein (stash::fields()); weighed ("62 g"); scale ("1 g");
/// tare; movement (a word of stash::word(), "bought" when not given); date ("2024-05-31"); amount
/// ("20 g", "30 yd"); other (id of the skein at the other end); purpose; role (which yarn of the
/// project a skein is set aside for).

#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/base/result.hpp"
#include "skeinfall/stash/fields.hpp"
#include "skeinfall/stash/movement.hpp"

namespace skeinfall::exchange {

/// A column of a stash file. What describes a skein comes from stash::fields().
struct Column {
    std::string_view name;     ///< heading, as it is written
    std::string_view meaning;  ///< says what a heading was taken for
    std::span<const std::string_view> other_headings;
    const stash::Field* describes = nullptr;  ///< of a movement that describes a skein
    std::string (*of_movement)(const stash::Movement&) = nullptr;  ///< of any other
};

/// In the order they are written.
[[nodiscard]] const std::vector<Column>& columns();

/// Their names.
[[nodiscard]] const std::vector<std::string>& field_names();

/// So many bytes a text may have; the title of a project may have more, as in its file.
inline constexpr std::size_t longest_text = 200;
inline constexpr std::size_t longest_title = 1000;

/// Where the texts of one row come from, and where its mistakes go.
class Fields {
  public:
    Fields() = default;
    Fields(const Fields&) = delete;
    Fields& operator=(const Fields&) = delete;
    Fields(Fields&&) = delete;
    Fields& operator=(Fields&&) = delete;
    virtual ~Fields() = default;

    /// Empty when the field is not given.
    [[nodiscard]] virtual std::string_view value(std::string_view field) const = 0;
    /// A mistake at a byte of the field's value; of the whole row when the field is not given.
    /// Whether they stand in cells of a table, which remedies may speak of.
    [[nodiscard]] virtual bool are_cells() const { return true; }
    virtual void fail(std::string_view field, std::size_t at, std::string what,
                      std::string expected, std::string remedy) = 0;
};

/// What a row says: one movement, or two for a skein that was bought and weighed. With mistakes
/// (all of them are given to fail()) what it returns means nothing.
[[nodiscard]] std::vector<stash::Movement> read_movements(Fields& fields);

/// "20 g" or "30 yd".
[[nodiscard]] base::Result<stash::Amount> parse_amount(std::string_view text);

/// The fields of a movement, the ones that are not empty, in the order of field_names. Reading
/// them gives the movement again.
struct Written {
    std::string_view field;
    std::string text;
};
[[nodiscard]] std::vector<Written> fields_of(const stash::Movement& movement);

/// The movements as rows: a weighing that follows at once, of the same day and without a note of
/// its own, stands in the row of its skein.
[[nodiscard]] std::vector<std::vector<Written>> rows_of(
    const std::vector<stash::Movement>& movements);

}  // namespace skeinfall::exchange
