#include "skeinfall/store/rows.hpp"

#include <cmath>

#include <boost/crc.hpp>
#include <nlohmann/json.hpp>

#include "skeinfall/base/text.hpp"

namespace skeinfall::store {
namespace {

/// Throws nlohmann::json::exception.
yarn::FibreContent fibre_of(const std::string& json) {
    yarn::FibreContent content;
    for (const nlohmann::json& part : nlohmann::json::parse(json))
        content.shares.push_back(
            {part.at(0).get<std::string>(), units::Ratio::from_value(part.at(1).get<double>())});
    return content;
}

/// Every text of a movement that a person wrote.
std::vector<std::string_view> texts_of(const stash::Movement& movement) {
    std::vector<std::string_view> texts = {movement.skein, movement.other, movement.purpose,
                                           movement.note};
    const auto take = [&texts](const auto& printed) {
        if (printed) texts.emplace_back(printed->text);
    };
    if (movement.amount) texts.emplace_back(stash::text(*movement.amount));
    take(movement.scale);
    take(movement.tare);
    if (!movement.described) return texts;
    const stash::Skein& skein = *movement.described;
    texts.insert(texts.end(), {skein.yarn.name, skein.colourway, skein.note});
    if (skein.dye_lot) texts.emplace_back(*skein.dye_lot);
    if (skein.shade_group) texts.emplace_back(*skein.shade_group);
    for (const yarn::FibreShare& part : skein.yarn.fibre.shares) texts.emplace_back(part.fibre);
    take(skein.yarn.label.length);
    take(skein.yarn.label.mass);
    take(skein.yarn.colour_repeat);
    return texts;
}

}  // namespace

std::string json_of(const yarn::FibreContent& content) {
    nlohmann::json list = nlohmann::json::array();
    for (const yarn::FibreShare& part : content.shares)
        list.push_back(nlohmann::json::array({part.fibre, part.share.value()}));
    return list.dump();
}

Values& Values::add_known(const std::optional<stash::Amount>& amount) {
    if (!amount) return add_unknown().add_unknown().add_unknown();
    if (const auto* mass = std::get_if<units::Printed<units::Mass>>(&*amount))
        return add(*mass, units::gram).add_unknown();
    const auto& length = std::get<units::Printed<units::Length>>(*amount);
    add(length.text).add_unknown();
    statement_.bind(++at_, static_cast<double>(length.value / units::metre));
    return *this;
}

std::string Cells::text() {
    std::string out = row_.getColumn(at_++).getString();
    if (base::first_invalid_utf8(out)) from_.fail_damaged("a text in it is not UTF-8");
    return out;
}

std::optional<base::Day> Cells::known_day() {
    const auto written = known_text();
    if (!written) return std::nullopt;
    const auto day = base::parse_day(*written);
    if (!day) from_.fail_damaged("a day in it is none of the calendar");
    return *day;
}

std::optional<stash::Amount> Cells::known_amount() {
    if (unknown()) return nothing<stash::Amount>(3);
    std::string shown = text();
    if (unknown()) {
        ++at_;
        return units::Printed<units::Length>{std::move(shown), real() * units::metre};
    }
    units::Printed<units::Mass> mass{std::move(shown), real() * units::gram};
    ++at_;
    return mass;
}

yarn::Yarn Cells::yarn() {
    yarn::Yarn yarn;
    yarn.name = text();
    if (!unknown())
        yarn.weight = yarn::WeightClass{number()};
    else
        ++at_;
    if (const auto json = known_text()) {
        try {
            yarn.fibre = fibre_of(*json);
        } catch (const nlohmann::json::exception&) {
            from_.fail_damaged("a fibre content in it cannot be read");
        }
    }
    yarn.label.length = known_printed(units::metre);
    yarn.label.mass = known_printed(units::gram);
    yarn.colour_repeat = known_printed(units::metre);
    return yarn;
}

void Cells::describe(stash::Skein& skein) {
    skein.colourway = text();
    skein.dye_lot = known_text();
    skein.shade_group = known_text();
    skein.part = text() == "part";
    skein.knots = number();
    skein.note = text();
}

std::string fault_of(const stash::Movement& movement) {
    for (const std::string_view text : texts_of(movement)) {
        const std::string shown = "the text \"" + base::shown_inert(text) + "\"";
        if (base::first_invalid_utf8(text)) return shown + " is not UTF-8";
        if (text.find('\0') != std::string_view::npos) return shown + " holds a zero byte";
    }
    if (movement.described)
        for (const yarn::FibreShare& part : movement.described->yarn.fibre.shares)
            if (!std::isfinite(part.share.value()) || part.share.value() <= 0.0)
                return "the share of " + base::shown_inert(part.fibre) + " is not above zero";
    return {};
}

const char* const select_skeins_sql =
    "SELECT holding.id, name, class, fibre_json, label_length_text, label_length_m,"
    " label_mass_text, label_mass_g, colour_repeat_text, colour_repeat_m,"
    " colourway, dye_lot, shade_group, state, knots, note, counted_from,"
    " weighed_text, weighed_g, scale_text, scale_g, tare_text, tare_g,"
    " since_g, since_scale_g2, since_m, since_amount_m2"
    " FROM holding JOIN yarn ON yarn.number = holding.yarn";

const char* const select_movements_sql =
    "SELECT skein.id, told.kind, told.day, amount_text, amount_g, amount_m, scale_text, scale_g,"
    " tare_text, tare_g, far.id, told.purpose, told.note, told.entry, entry.day,"
    " told.digest,"
    " name, class, fibre_json, label_length_text, label_length_m, label_mass_text, label_mass_g,"
    " colour_repeat_text, colour_repeat_m, colourway, dye_lot, shade_group, state, knots,"
    " description.note"
    " FROM movement AS told JOIN skein ON skein.number = told.skein"
    " JOIN entry ON entry.number = told.entry"
    " LEFT JOIN skein AS far ON far.number = told.other"
    " LEFT JOIN description ON description.movement = told.number"
    " LEFT JOIN yarn ON yarn.number = description.yarn";
const char* const that_stands =
    " NOT EXISTS (SELECT 1 FROM entry AS undoing WHERE undoing.undoes = told.entry)";

stash::Skein held(Cells cells) {
    stash::Skein skein;
    skein.id = cells.text();
    skein.yarn = cells.yarn();
    cells.describe(skein);
    const std::string counted_from = cells.text();
    if (cells.unknown()) {
        cells.pass_over(6);
    } else {
        measure::Weighing weighing;
        weighing.shown = cells.printed(units::gram);
        weighing.scale = cells.printed(units::gram);
        weighing.tare = cells.known_printed(units::gram);
        skein.weighing = std::move(weighing);
    }
    stash::Changes since;
    since.from_nothing = counted_from == "nothing";
    since.mass = cells.real() * units::gram;
    // A rectangle one step wide for each amount, as for a reading without a tare.
    since.mass_spread = std::sqrt(cells.real().value() / 12.0) * units::gram;
    since.length = cells.real() * units::metre;
    since.length_spread = std::sqrt(cells.real().value() / 3.0) *
                          stash::changed_length_half_width.value() * units::metre;
    if (counted_from != "unknown" && since != stash::Changes{}) skein.since = since;
    return skein;
}

Told told(Cells cells, const Connection& from) {
    Told out;
    stash::Movement& movement = out.movement;
    movement.skein = cells.text();
    const auto kind = stash::parse_movement_kind(cells.text());
    if (!kind) from.fail_damaged("a movement in it is of no kind that is known");
    movement.kind = *kind;
    movement.day = cells.known_day();
    movement.amount = cells.known_amount();
    movement.scale = cells.known_printed(units::gram);
    movement.tare = cells.known_printed(units::gram);
    movement.other = cells.known_text().value_or("");
    movement.purpose = cells.text();
    movement.note = cells.text();
    out.entry = cells.long_number();
    out.entered = cells.known_day();
    if (cells.unknown())
        cells.pass_over(1);
    else
        out.digest = cells.long_number();
    if (cells.unknown()) {
        if (describes(movement.kind)) from.fail_damaged("a description in it is gone");
        return out;
    }
    movement.described.emplace();
    movement.described->yarn = cells.yarn();
    cells.describe(*movement.described);
    return out;
}

std::int64_t digest_of(const stash::Movement& movement, const std::string& id,
                       const std::optional<base::Day>& entered) {
    // Every part with its length or as whole bytes, so that no two contents look alike.
    boost::crc_optimal<32, 0x1EDC6F41, 0xFFFFFFFF, 0xFFFFFFFF, true, true> crc;  // CRC-32C
    const auto take_number = [&crc](const auto number) {
        crc.process_bytes(&number, sizeof number);
    };
    const auto take_text = [&](std::string_view text) {
        take_number(std::uint64_t{text.size()});
        crc.process_bytes(text.data(), text.size());
    };
    const auto take_printed = [&](const auto& printed) {
        take_text(printed ? printed->text : std::string_view());
        take_number(printed ? printed->value.value() : 0.0);
    };
    const auto take_known = [&](const auto& text) { take_text(text ? "+" + *text : ""); };
    take_text(id);
    take_text(word(movement.kind));
    for (const auto& day : {movement.day, entered}) take_text(day ? base::to_text(*day) : "");
    take_number(std::uint64_t{movement.amount ? movement.amount->index() + 1 : 0});
    if (movement.amount)
        std::visit([&](const auto& printed) { take_printed(&printed); }, *movement.amount);
    take_printed(movement.scale);
    take_printed(movement.tare);
    for (const std::string_view text : {movement.other, movement.purpose, movement.note})
        take_text(text);
    if (movement.described) {
        const stash::Skein& skein = *movement.described;
        take_text(skein.yarn.name);
        take_number(std::int64_t{skein.yarn.weight ? skein.yarn.weight->number : -1});
        take_text(skein.yarn.fibre.known() ? json_of(skein.yarn.fibre) : "");
        take_printed(skein.yarn.label.length);
        take_printed(skein.yarn.label.mass);
        take_printed(skein.yarn.colour_repeat);
        take_text(skein.colourway);
        take_known(skein.dye_lot);
        take_known(skein.shade_group);
        take_number(std::int64_t{skein.part ? 1 : 0});
        take_number(std::int64_t{skein.knots});
        take_text(skein.note);
    }
    return std::int64_t{crc.checksum()};
}

}  // namespace skeinfall::store
