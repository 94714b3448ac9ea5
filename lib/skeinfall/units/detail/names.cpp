#include "skeinfall/units/detail/names.hpp"

#include <algorithm>
#include <array>

#include "skeinfall/base/letters.hpp"
#include "skeinfall/data/unit_names.hpp"
#include "skeinfall/data/units.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::units::detail {
namespace {

using base::lower_letter;

/// Order of names without regard to case; below zero, zero or above.
constexpr int order(std::string_view a, std::string_view b) {
    const std::size_t both = std::min(a.size(), b.size());
    for (std::size_t i = 0; i < both; ++i) {
        const auto x = static_cast<unsigned char>(lower_letter(a[i]));
        const auto y = static_cast<unsigned char>(lower_letter(b[i]));
        if (x != y) return x < y ? -1 : 1;
    }
    return a.size() == b.size() ? 0 : (a.size() < b.size() ? -1 : 1);
}

constexpr std::size_t row_of(std::string_view unit) {
    std::size_t row = 0;
    while (data::units.at(row).id != unit) ++row;  // beyond the table this does not compile
    return row;
}

constexpr Kind kind_of(std::string_view words) {
    if (words == "length") return Kind::length;
    if (words == "mass") return Kind::mass;
    if (words == "stitches") return Kind::stitches;
    if (words == "rows") return Kind::rows;
    if (words == "linear density, direct") return Kind::direct;
    if (words == "yarn count, indirect") return Kind::indirect;
    throw "unknown kind in units.csv";
}

constexpr auto in_table_order = [] {
    std::array<Name, data::unit_names.size()> out;
    for (std::size_t i = 0; i < out.size(); ++i) {
        const auto& name = data::unit_names[i];
        const std::size_t row = row_of(name.unit);
        const auto& unit = data::units[row];
        out[i] = {
            name.name, kind_of(unit.kind), exact_number_of(unit.exact_value),
            row,       name.caution,       unit.status == "memory" || name.status == "memory"};
    }
    return out;
}();

constexpr auto sorted = [] {
    auto out = in_table_order;
    std::sort(out.begin(), out.end(), [](const Name& a, const Name& b) {
        const int by_name = order(a.name, b.name);
        return by_name != 0 ? by_name < 0 : a.row < b.row;
    });
    return out;
}();

/// Where in `sorted` the names of each first letter begin, so that a look-up compares few names.
constexpr auto first_of_letter = [] {
    std::array<std::size_t, 257> out{};
    for (const Name& name : sorted)
        ++out.at(static_cast<unsigned char>(lower_letter(name.name.at(0))) + 1U);
    for (std::size_t i = 1; i < out.size(); ++i) out[i] += out[i - 1];
    return out;
}();

// The table and the constants of quantity.hpp state the same agreement.
static_assert(exact_number_of(data::units[row_of("yard")].exact_value) == yard.value());
static_assert(exact_number_of(data::units[row_of("foot")].exact_value) == foot.value());
static_assert(exact_number_of(data::units[row_of("inch")].exact_value) == inch.value());
static_assert(exact_number_of(data::units[row_of("pound")].exact_value) == pound.value());
static_assert(exact_number_of(data::units[row_of("ounce")].exact_value) == ounce.value());

template <class Passes>
std::vector<std::string> names_where(Passes passes) {
    std::vector<std::string> out;
    for (const Name& name : in_table_order)
        if (passes(name) && named(name.name).names.size() == 1) out.emplace_back(name.name);
    return out;
}

}  // namespace

Match named(std::string_view key) {
    if (key.empty()) return {};
    const auto letter = static_cast<unsigned char>(lower_letter(key[0]));
    const auto* const end = sorted.data() + first_of_letter[letter + 1U];
    const auto* const first = std::lower_bound(
        sorted.data() + first_of_letter[letter], end, key,
        [](const Name& name, std::string_view k) { return order(name.name, k) < 0; });
    const auto* last = first;
    while (last != end && order(last->name, key) == 0) ++last;
    const bool longer = last != end && last->name.size() > key.size() &&
                        last->name[key.size()] == ' ' &&
                        order(last->name.substr(0, key.size()), key) == 0;
    return {{first, last}, longer};
}

std::vector<std::string> names_of(Kind kind) {
    return names_where([kind](const Name& name) { return name.kind == kind; });
}

std::vector<std::string> count_names() {
    return names_where([](const Name& name) { return is_count(name.kind); });
}

std::vector<std::string> every_name() {
    return names_where([](const Name&) { return true; });
}

std::string_view unit_symbol(const Name& name) {
    const std::string_view symbols = data::units.at(name.row).symbol;
    return symbols.empty() ? unit_title(name) : symbols.substr(0, symbols.find(','));
}

std::string_view unit_title(const Name& name) {
    return data::units.at(name.row).unit;
}

std::string_view unit_definition(const Name& name) {
    return data::units.at(name.row).definition;
}

}  // namespace skeinfall::units::detail
