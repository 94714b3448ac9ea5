#pragma once
/// \file
/// Inside units: the closed list of unit and count names (lib/data/unit_names.csv) and their
/// factors (lib/data/units.csv), looked up without regard to case and without allocating.

#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace skeinfall::units::detail {

enum class Kind { length, mass, stitches, rows, direct, indirect };

[[nodiscard]] constexpr bool is_count(Kind kind) {
    return kind == Kind::direct || kind == Kind::indirect;
}

/// One way to write a unit. `factor` leads to metre, gram, stitch or row; for a direct count it is
/// tex per unit, for an indirect one tex times count.
struct Name {
    std::string_view name;
    Kind kind = Kind::length;
    double factor = 0.0;
    std::size_t row = 0;  ///< in lib/data/units.csv
    std::string_view caution;
    bool from_memory = false;
};

/// Names that read as `key`, and whether some longer name starts with `key` and a blank. A word
/// of the trade that means several units ("hank") has several names.
struct Match {
    std::span<const Name> names;
    bool longer = false;
};
[[nodiscard]] Match named(std::string_view key);

/// The names of a kind, in the order of the table, without those that mean several units.
[[nodiscard]] std::vector<std::string> names_of(Kind kind);
[[nodiscard]] std::vector<std::string> count_names();
/// All of them.
[[nodiscard]] std::vector<std::string> every_name();

/// What a row of the unit table is called, in short and in full, and how it is defined.
[[nodiscard]] std::string_view unit_symbol(const Name& name);
[[nodiscard]] std::string_view unit_title(const Name& name);
[[nodiscard]] std::string_view unit_definition(const Name& name);

/// A number of the table, "0.9144" or "45359237/9144"; both parts are below 2^53, so the result
/// is the nearest double.
[[nodiscard]] constexpr double exact_number_of(std::string_view text) {
    double top = 0.0;
    double bottom = 1.0;
    double denominator = 0.0;
    bool after_stop = false;
    bool after_slash = false;
    for (const char c : text) {
        if (c == '.') {
            after_stop = true;
        } else if (c == '/') {
            after_slash = true;
        } else if (after_slash) {
            denominator = 10.0 * denominator + (c - '0');
        } else {
            top = 10.0 * top + (c - '0');
            if (after_stop) bottom *= 10.0;
        }
    }
    return top / (after_slash ? denominator : bottom);
}

}  // namespace skeinfall::units::detail
