#include "skeinfall/exchange/yarn_toml.hpp"

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/rates_toml.hpp"
#include "skeinfall/exchange/yarn_words.hpp"
#include "skeinfall/yarn/avoid.hpp"
#include "skeinfall/yarn/put_up.hpp"
#include "skeinfall/yarn/stated_total.hpp"
#include "skeinfall/yarn/weight_class.hpp"

namespace skeinfall::exchange {
namespace {

using project::PerSize;

/// A mass becomes a length by the yarn's length per mass; of a yarn of which only the class is
/// known, by all that such yarns may have.
void add_mass(TomlTable& in, project::Role& role, const yarn::Between<units::Mass>& mass,
              PerSize<units::Length>& least, PerSize<units::Length>& lengths,
              PerSize<units::Mass>& masses) {
    if (role.grist) {
        if (role.total_range == project::TotalRange::none) {
            masses.values.push_back(mass.most);
            return;
        }
        least.values.push_back(mass.least * role.grist->value);
        lengths.values.push_back(mass.most * role.grist->value);
        return;
    }
    if (in.has("grist")) return;  // told already
    const auto range = role.weight ? yarn::published_grist(*role.weight) : std::nullopt;
    if (!range || !range->least || !range->most) {
        in.fail("total", "a mass without the yarn's length per mass", "a grist as well",
                role.weight ? "The class leaves the length open. Add a line like grist = \"200 "
                              "yd / 100 g\" to this yarn."
                            : "Add a line like grist = \"200 yd / 100 g\" to this yarn, or "
                              "class = 4 for what yarns of a class may have.");
        return;
    }
    role.total_range = project::TotalRange::class_grist;
    role.total_as_mass.values.push_back(mass.most);
    least.values.push_back(mass.least * *range->least);
    lengths.values.push_back(mass.most * *range->most);
}

}  // namespace

void read_class(TomlTable& in, project::Role& role) {
    const TomlValue* const value = in.value("class");
    if (value == nullptr) return;
    const auto* const name = std::get_if<std::string>(&value->held);
    const auto* const number = std::get_if<std::int64_t>(&value->held);
    if (name != nullptr)
        if (const auto said = parse_class(*name)) role.weight = *said;
    if (number != nullptr) role.weight = yarn::parse_weight_class(std::to_string(*number));
    if (role.weight) return;
    const auto classes = yarn::known_classes();
    std::vector<std::string> names;
    names.reserve(classes.size());
    for (const yarn::WeightClass one : classes) names.push_back(yarn::text(one));
    in.fail(
        "class",
        number != nullptr ? fmt::format("there is no weight class {}", *number)
                          : std::string("this is not a weight class"),
        fmt::format("a whole number from {} to {}", classes.front().number, classes.back().number),
        "They are " + base::join(names, ", ") + ".");
}

void read_label_tolerance(TomlTable& in, project::Role& role) {
    role.label_tolerance = in.parsed("label_tolerance", units::parse_percent);
    constexpr double most = 0.25;
    if (!role.label_tolerance ||
        (role.label_tolerance->value() > 0.0 && role.label_tolerance->value() <= most))
        return;
    in.fail("label_tolerance", "so far off no label can be meant",
            "a share above 0 % and up to 25 %",
            "Weigh a measured length of several skeins, and say how far they lie apart.");
    role.label_tolerance.reset();
}

void read_avoided(TomlTable& in, project::Role& role) {
    const TomlValue* const value = in.value("avoid");
    if (value != nullptr && !std::holds_alternative<TomlValue::List>(value->held)) {
        role.avoid = in.texts("avoid");
        return;
    }
    for (const TomlValue* one : in.values("avoid", in.list_size("avoid")))
        if (auto fibre = in.parsed_of("avoid", *one, yarn::parse_avoided))
            role.avoid.push_back(std::move(*fibre));
}

void read_total(TomlTable& in, project::Role& role, std::optional<std::size_t> sizes) {
    using project::TotalRange;
    PerSize<units::Length> least;
    PerSize<units::Length> lengths;
    PerSize<units::Mass> masses;
    const yarn::Label put_up = role.grist ? yarn::put_up_in(role.grist->text) : yarn::Label{};
    for (const TomlValue* value : in.values("total", sizes)) {
        auto text = in.text_of("total", *value);
        if (!text) continue;
        text = without_second_length(*text, "total", role);
        const auto stated = yarn::parse_stated_total(*text);
        if (!stated) {
            in.fail_in_text("total", *value, stated.problem());
            continue;
        }
        const yarn::StatedTotal total = yarn::with_put_up(*stated, put_up);
        if (total.range) role.total_range = TotalRange::stated;
        if (total.skeins > 0) {
            role.total_range = TotalRange::whole_skeins;
            role.total_basis = project::TotalBasis::whole_skeins;
        }
        if (total.length) {
            least.values.push_back(total.length->least);
            lengths.values.push_back(total.length->most);
        } else if (total.mass) {
            add_mass(in, role, *total.mass, least, lengths, masses);
        } else {
            in.fail("total", "how much one skein holds is not said",
                    "the length of one skein as well, as in \"6 balls of 110 yd\"",
                    "Write it so, or give the label in grist = \"110 yd / 50 g\".");
        }
    }
    if (lengths.stated() && masses.stated())
        in.fail("total", "lengths and masses in one list", "all lengths or all masses");
    if (role.total_range != TotalRange::none) role.total_least = std::move(least);
    role.total_length = std::move(lengths);
    role.total_mass = std::move(masses);
}

void read_total_size(TomlTable& in, const std::vector<std::string>& sizes, project::Role& role) {
    const auto size = in.text("total_for_size");
    if (!size) return;
    const auto known = std::find_if(sizes.begin(), sizes.end(), [&](const std::string& one) {
        return base::same_word(one, *size);
    });
    if (known == sizes.end())
        return in.fail("total_for_size", "there is no size " + in_quotes(*size),
                       sizes.empty() ? "a graded make" : base::join(sizes, ", "));
    if (role.total_length.values.size() + role.total_mass.values.size() != 1)
        return in.fail("total_for_size", "there is not one total that the sizes could share",
                       "one total beside it");
    role.total_of_size = *known;
}

}  // namespace skeinfall::exchange
