#pragma once
/// \file
/// What is written down of a skein: one table, a row a field. Files, the rows and digests of the
/// stash, comparisons, options and prompts walk it, so a new field is a row here and a step of the
/// stash file's layout (schema/README.md).

#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <variant>

#include "skeinfall/stash/skein.hpp"
#include "skeinfall/units/parse.hpp"
#include "skeinfall/units/quantity.hpp"
#include "skeinfall/yarn/fibre.hpp"
#include "skeinfall/yarn/weight_class.hpp"

namespace skeinfall::stash {

/// Where a skein holds a value.
template <class T>
struct Member {
    using Value = T;
    T& (*of)(Skein&) = nullptr;
    const T& (*seen)(const Skein&) = nullptr;
};

/// Whether the skein is a part of a whole one.
using Begun = bool;
using Count = int;

/// A field is read, printed, compared and stored by the type of what it holds.
using Held =
    std::variant<Member<std::string>, Member<std::optional<std::string>>,
                 Member<std::optional<yarn::WeightClass>>, Member<yarn::FibreContent>,
                 Member<std::optional<units::Printed<units::Length>>>,
                 Member<std::optional<units::Printed<units::Mass>>>, Member<Begun>, Member<Count>>;

/// Skeins of one yarn share what belongs to it; the rest is the skein's own.
enum class Owner { yarn, skein };

/// How two texts of a field are compared, where people type one thing in several ways.
enum class Alike {
    name,  ///< base::name_key()
    lot,   ///< base::lot_name_key()
};

struct Field {
    std::string_view name{};     ///< heading of files: "dye_lot"
    std::string_view column{};   ///< in the stash file; a figure adds "_text" and its unit to it
    std::string_view title{};    ///< says what differs: "the dye lot"
    std::string_view meaning{};  ///< says what a column of a file was taken for: "dye lot"
    std::array<std::string_view, 3> other_headings{};
    Owner owner = Owner::skein;
    Alike alike = Alike::name;
    /// Tells which yarn it is, or how much of it: a row that agrees in these is the same one.
    bool telling = false;
    bool breaks = false;            ///< may have several lines
    std::string_view value_name{};  ///< of an option's value: "LENGTH"; empty: no option of its own
    std::string_view hint{};        ///< what the option holds
    std::string_view prompt{};      ///< the question about it; empty: not asked
    Held held{};
};

/// All of them, in the order they are written; those of a yarn, and those of a skein, are stored
/// and digested in this order too.
[[nodiscard]] std::span<const Field> fields();

/// Null for a name that is none of them.
[[nodiscard]] const Field* find_field(std::string_view name);

/// As a table writes it: read again, it gives the same value. Empty when nothing is known.
[[nodiscard]] std::string written(const Field& field, const Skein& skein);

/// What two values are compared by: equal for what people hold for the same.
[[nodiscard]] std::string key_of(const Field& field, const Skein& skein);

/// Whether both skeins hold the very same, to the letter.
[[nodiscard]] bool same(const Field& field, const Skein& one, const Skein& other);

/// The texts in it that a person wrote.
void add_texts(const Field& field, const Skein& skein, std::vector<std::string_view>& to);

/// Takes over what a later row says. What it leaves open takes nothing away, and a part never
/// becomes whole again.
void correct(const Field& field, Skein& skein, const Skein& row);

}  // namespace skeinfall::stash
