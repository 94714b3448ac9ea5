#include "skeinfall/stash/fields.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "skeinfall/base/name.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::stash {
namespace {

using yarn::Label;
using yarn::Yarn;

template <auto First, auto... Rest, class From>
constexpr auto& follow(From& from) {
    if constexpr (sizeof...(Rest) == 0)
        return from.*First;
    else
        return follow<Rest...>(from.*First);
}

/// The member at the end of a path of members that begins at the skein.
template <auto... Path>
constexpr auto member() {
    using T = std::remove_cvref_t<decltype(follow<Path...>(std::declval<Skein&>()))>;
    return Member<T>{[](Skein& skein) -> T& { return follow<Path...>(skein); },
                     [](const Skein& skein) -> const T& { return follow<Path...>(skein); }};
}

constexpr auto table = std::to_array<Field>({
    {.name = "yarn",
     .column = "name",
     .title = "the yarn's name",
     .meaning = "name of the yarn",
     .owner = Owner::yarn,
     .telling = true,
     .value_name = "NAME",
     .hint = "the name you know it by",
     .prompt = "Yarn (the name you know it by): ",
     .held = member<&Skein::yarn, &Yarn::name>()},
    {.name = "colourway",
     .column = "colourway",
     .title = "the colourway",
     .meaning = "colourway",
     .other_headings = {"colorway", "colour", "color"},
     .telling = true,
     .value_name = "NAME",
     .hint = "colour name or number",
     .prompt = "Colourway: ",
     .held = member<&Skein::colourway>()},
    {.name = "dye_lot",
     .column = "dye_lot",
     .title = "the dye lot",
     .meaning = "dye lot",
     .other_headings = {"lot"},
     .alike = Alike::lot,
     .telling = true,
     .value_name = "TEXT",
     .hint = "dye lot; leave out when not known",
     .prompt = "Dye lot: ",
     .held = member<&Skein::dye_lot>()},
    {.name = "shade_group",
     .column = "shade_group",
     .title = "the shade group",
     .meaning = "shade group, skeins judged alike by eye",
     .telling = true,
     .value_name = "TEXT",
     .hint = "skeins judged alike by eye",
     .held = member<&Skein::shade_group>()},
    {.name = "class",
     .column = "class",
     .title = "the class",
     .meaning = "Council's yarn weight class",
     .owner = Owner::yarn,
     .value_name = "NUMBER",
     .hint = "weight class 0 to 7",
     .prompt = "Weight class, 0 to 7: ",
     .held = member<&Skein::yarn, &Yarn::weight>()},
    {.name = "fibre",
     .column = "fibre_json",
     .title = "the fibre content",
     .meaning = "fibre content",
     .other_headings = {"fiber"},
     .owner = Owner::yarn,
     .value_name = "TEXT",
     .hint = "such as \"80% wool 20% nylon\"",
     .prompt = "Fibre, such as 80% wool 20% nylon: ",
     .held = member<&Skein::yarn, &Yarn::fibre>()},
    {.name = "label_length",
     .column = "label_length",
     .title = "the label's length",
     .meaning = "length on the label",
     .owner = Owner::yarn,
     .telling = true,
     .held = member<&Skein::yarn, &Yarn::label, &Label::length>()},
    {.name = "label_mass",
     .column = "label_mass",
     .title = "the label's mass",
     .meaning = "mass on the label",
     .owner = Owner::yarn,
     .telling = true,
     .held = member<&Skein::yarn, &Yarn::label, &Label::mass>()},
    {.name = "colour_repeat",
     .column = "colour_repeat",
     .title = "the colour repeat",
     .meaning = "length of one colour repeat",
     .other_headings = {"color_repeat"},
     .owner = Owner::yarn,
     .value_name = "LENGTH",
     .hint = "of a colour-changing yarn",
     .held = member<&Skein::yarn, &Yarn::colour_repeat>()},
    {.name = "state",
     .column = "state",
     .title = "the state",
     .meaning = "whole skein or part of one",
     .telling = true,
     .prompt = "Whole or part: ",
     .held = member<&Skein::part>()},
    {.name = "knots",
     .column = "knots",
     .title = "the knots",
     .meaning = "knots inside the skein",
     .value_name = "COUNT",
     .hint = "known knots inside",
     .held = member<&Skein::knots>()},
    {.name = "note",
     .column = "note",
     .title = "the note",
     .meaning = "note",
     .breaks = true,
     .value_name = "TEXT",
     .hint = "anything else",
     .held = member<&Skein::note>()},
});

/// A share so that parse_fibre_content() gives the same number again.
std::string share_text(units::Ratio share) {
    std::string out;
    for (int digits = 1; digits <= 17; ++digits) {
        out = fmt::format("{:.{}g}", 100.0 * share.value(), digits) + "%";
        const auto read = units::parse_percent(out);
        if (read && read->value() == share.value()) break;
    }
    return out;
}

struct Written {
    std::string operator()(const std::string& text) const { return text; }
    std::string operator()(const std::optional<std::string>& text) const {
        return text.value_or("");
    }
    std::string operator()(const std::optional<yarn::WeightClass>& weight) const {
        return weight ? std::to_string(weight->number) : "";
    }
    std::string operator()(const yarn::FibreContent& content) const {
        std::string out;
        for (const yarn::FibreShare& part : content.shares)
            out += (out.empty() ? "" : ", ") + share_text(part.share) + " " + part.fibre;
        return out;
    }
    template <class Q>
    std::string operator()(const std::optional<units::Printed<Q>>& printed) const {
        return printed ? printed->text : "";
    }
    std::string operator()(Begun part) const { return part ? "part" : "whole"; }
    std::string operator()(Count count) const { return count > 0 ? std::to_string(count) : ""; }
};

struct KeyOfField {
    Alike alike;

    std::string operator()(const std::string& text) const {
        return alike == Alike::lot ? base::lot_name_key(text) : base::name_key(text);
    }
    std::string operator()(const std::optional<std::string>& text) const {
        return text ? (*this)(*text) : std::string();
    }
    std::string operator()(const yarn::FibreContent& content) const {
        std::string out;
        for (const yarn::FibreShare& share : content.shares)
            out += fmt::format("{:.4f} {},", share.share.value(), base::name_key(share.fibre));
        return out;
    }
    template <class Q>
    std::string operator()(const std::optional<units::Printed<Q>>& printed) const {
        return printed ? fmt::format("{:.9g}", printed->value.value()) : std::string();
    }
    template <class T>
    std::string operator()(const T& value) const {
        return Written()(value);
    }
};

struct Correct {
    void operator()(std::string& into, const std::string& row) const {
        if (!row.empty()) into = row;
    }
    template <class T>
    void operator()(std::optional<T>& into, const std::optional<T>& row) const {
        if (row) into = row;
    }
    void operator()(yarn::FibreContent& into, const yarn::FibreContent& row) const {
        if (row.known()) into = row;
    }
    void operator()(Begun& into, Begun row) const { into = into || row; }
    void operator()(Count& into, Count row) const {
        if (row > 0) into = row;
    }
};

struct AddTexts {
    std::vector<std::string_view>& to;

    void operator()(const std::string& text) const { to.emplace_back(text); }
    void operator()(const std::optional<std::string>& text) const {
        if (text) to.emplace_back(*text);
    }
    void operator()(const yarn::FibreContent& content) const {
        for (const yarn::FibreShare& part : content.shares) to.emplace_back(part.fibre);
    }
    template <class Q>
    void operator()(const std::optional<units::Printed<Q>>& printed) const {
        if (printed) to.emplace_back(printed->text);
    }
    void operator()(const std::optional<yarn::WeightClass>& /*weight*/) const {}
    void operator()(Begun /*part*/) const {}
    void operator()(Count /*count*/) const {}
};

template <class Do>
decltype(auto) with_value(const Field& field, const Skein& skein, const Do& act) {
    return std::visit([&](const auto& member) { return act(member.seen(skein)); }, field.held);
}

}  // namespace

std::span<const Field> fields() {
    return table;
}

const Field* find_field(std::string_view name) {
    const auto* const found = std::find_if(table.begin(), table.end(),
                                           [&](const Field& field) { return field.name == name; });
    return found == table.end() ? nullptr : found;
}

std::string written(const Field& field, const Skein& skein) {
    return with_value(field, skein, Written());
}

std::string key_of(const Field& field, const Skein& skein) {
    return with_value(field, skein, KeyOfField{field.alike});
}

bool same(const Field& field, const Skein& one, const Skein& other) {
    return std::visit([&](const auto& member) { return member.seen(one) == member.seen(other); },
                      field.held);
}

void add_texts(const Field& field, const Skein& skein, std::vector<std::string_view>& to) {
    with_value(field, skein, AddTexts{to});
}

void correct(const Field& field, Skein& skein, const Skein& row) {
    std::visit([&](const auto& member) { Correct()(member.of(skein), member.seen(row)); },
               field.held);
}

}  // namespace skeinfall::stash
