#include "skeinfall/store/rows.hpp"

#include <cmath>
#include <cstdint>

#include <nlohmann/json.hpp>

#include "skeinfall/base/text.hpp"
#include "skeinfall/store/crc32c.hpp"

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
                                           movement.role, movement.note};
    const auto take = [&texts](const auto& printed) {
        if (printed) texts.emplace_back(printed->text);
    };
    if (movement.amount) texts.emplace_back(stash::text(*movement.amount));
    take(movement.scale);
    take(movement.tare);
    if (!movement.described) return texts;
    for (const stash::Field& field : stash::fields())
        stash::add_texts(field, *movement.described, texts);
    return texts;
}

/// What is wrong with the first text that is no text; empty when none is.
std::string fault_in(const std::vector<std::string_view>& texts) {
    for (const std::string_view text : texts) {
        const std::string shown = "the text \"" + base::shown_inert(text) + "\"";
        if (base::first_invalid_utf8(text)) return shown + " is not UTF-8";
        if (text.find('\0') != std::string_view::npos) return shown + " holds a zero byte";
    }
    return {};
}

/// Takes part by part, each with its length or as whole bytes, so that no two contents look alike.
class Digest {
  public:
    template <class Number>
    void take_number(Number number) {
        crc_.take(&number, sizeof number);
    }
    void take_text(std::string_view text) {
        take_number(std::uint64_t{text.size()});
        crc_.take(text.data(), text.size());
    }
    template <class Pointer>
    void take_printed(const Pointer& printed) {
        take_text(printed ? printed->text : std::string_view());
        take_number(printed ? printed->value.value() : 0.0);
    }
    void take_known(const std::optional<std::string>& text) {
        if (!text) return take_text({});
        take_number(std::uint64_t{text->size() + 1});
        crc_.take("+", 1);
        crc_.take(text->data(), text->size());
    }
    void take_day(const std::optional<base::Day>& day) {
        take_text(day ? base::to_text(*day) : "");
    }
    [[nodiscard]] std::int64_t value() const { return std::int64_t{crc_.value()}; }

  private:
    Crc32c crc_;
};

struct DigestField {
    Digest& digest;
    const std::string* fibre;  ///< see digest_of()

    void operator()(const std::string& text) const { digest.take_text(text); }
    void operator()(const std::optional<std::string>& text) const { digest.take_known(text); }
    void operator()(const std::optional<yarn::WeightClass>& weight) const {
        digest.take_number(std::int64_t{weight ? weight->number : -1});
    }
    void operator()(const yarn::FibreContent& content) const {
        if (fibre != nullptr)
            digest.take_text(*fibre);
        else
            digest.take_text(content.known() ? json_of(content) : "");
    }
    template <class Q>
    void operator()(const std::optional<units::Printed<Q>>& printed) const {
        digest.take_printed(printed);
    }
    void operator()(stash::Begun part) const { digest.take_number(std::int64_t{part ? 1 : 0}); }
    void operator()(stash::Count count) const { digest.take_number(std::int64_t{count}); }
};

/// A field in the cells of a row, from left to right.
struct BindField {
    Values& values;

    void operator()(const std::string& text) const { values.add(text); }
    void operator()(const std::optional<std::string>& text) const { values.add_known(text); }
    void operator()(const std::optional<yarn::WeightClass>& weight) const {
        weight ? values.add(std::int64_t{weight->number}) : values.add_unknown();
    }
    void operator()(const yarn::FibreContent& content) const {
        content.known() ? values.add(json_of(content)) : values.add_unknown();
    }
    void operator()(const std::optional<units::Printed<units::Length>>& printed) const {
        values.add_known(printed, units::metre);
    }
    void operator()(const std::optional<units::Printed<units::Mass>>& printed) const {
        values.add_known(printed, units::gram);
    }
    void operator()(stash::Begun part) const { values.add(std::string(part ? "part" : "whole")); }
    void operator()(stash::Count count) const { values.add(std::int64_t{count}); }
};

struct TakeField {
    Cells& cells;
    const Source& from;

    void operator()(std::string& text) const { text = cells.text(); }
    void operator()(std::optional<std::string>& text) const { text = cells.known_text(); }
    void operator()(std::optional<yarn::WeightClass>& weight) const {
        if (cells.unknown())
            cells.pass_over(1);
        else
            weight = yarn::WeightClass{cells.number()};
    }
    void operator()(yarn::FibreContent& content) const {
        const auto json = cells.known_text();
        if (!json) return;
        try {
            content = fibre_of(*json);
        } catch (const nlohmann::json::exception&) {
            from.fail_damaged("a fibre content in it cannot be read");
        }
    }
    void operator()(std::optional<units::Printed<units::Length>>& printed) const {
        printed = cells.known_printed(units::metre);
    }
    void operator()(std::optional<units::Printed<units::Mass>>& printed) const {
        printed = cells.known_printed(units::gram);
    }
    void operator()(stash::Begun& part) const { part = cells.text() == "part"; }
    void operator()(stash::Count& count) const { count = cells.number(); }
};

struct ColumnsOf {
    std::string_view column;

    std::vector<StoredColumn> operator()(const stash::Member<std::string>& /*text*/) const {
        return one('t');
    }
    std::vector<StoredColumn> operator()(
        const stash::Member<std::optional<std::string>>& /*text*/) const {
        return one('T');
    }
    std::vector<StoredColumn> operator()(
        const stash::Member<std::optional<yarn::WeightClass>>& /*weight*/) const {
        return one('I');
    }
    std::vector<StoredColumn> operator()(
        const stash::Member<yarn::FibreContent>& /*content*/) const {
        return one('T');
    }
    std::vector<StoredColumn> operator()(
        const stash::Member<std::optional<units::Printed<units::Length>>>& /*printed*/) const {
        return printed("_m");
    }
    std::vector<StoredColumn> operator()(
        const stash::Member<std::optional<units::Printed<units::Mass>>>& /*printed*/) const {
        return printed("_g");
    }
    std::vector<StoredColumn> operator()(const stash::Member<stash::Begun>& /*part*/) const {
        return one('t');
    }
    std::vector<StoredColumn> operator()(const stash::Member<stash::Count>& /*count*/) const {
        return one('i');
    }

  private:
    [[nodiscard]] std::vector<StoredColumn> one(char holds) const {
        return {{std::string(column), holds}};
    }
    [[nodiscard]] std::vector<StoredColumn> printed(const char* unit) const {
        return {{std::string(column) + "_text", 'T'}, {std::string(column) + unit, 'R'}};
    }
};

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

void Cells::take(stash::Owner owner, stash::Skein& skein) {
    const TakeField take_one{*this, from_};
    for (const stash::Field& field : stash::fields())
        if (field.owner == owner)
            std::visit([&](const auto& member) { take_one(member.of(skein)); }, field.held);
}

Values& Values::add(stash::Owner owner, const stash::Skein& skein) {
    const BindField bind{*this};
    for (const stash::Field& field : stash::fields())
        if (field.owner == owner)
            std::visit([&](const auto& member) { bind(member.seen(skein)); }, field.held);
    return *this;
}

std::vector<StoredColumn> stored_columns(stash::Owner owner) {
    std::vector<StoredColumn> out;
    for (const stash::Field& field : stash::fields())
        if (field.owner == owner)
            for (StoredColumn& column : std::visit(ColumnsOf{field.column}, field.held))
                out.push_back(std::move(column));
    return out;
}

std::string column_list(stash::Owner owner, std::string_view of_table) {
    std::string out;
    for (const StoredColumn& column : stored_columns(owner))
        out += (out.empty() ? "" : ", ") + std::string(of_table) + column.name;
    return out;
}

std::string fault_of(const stash::Movement& movement) {
    if (std::string fault = fault_in(texts_of(movement)); !fault.empty()) return fault;
    if (movement.described)
        for (const yarn::FibreShare& part : movement.described->yarn.fibre.shares)
            if (!std::isfinite(part.share.value()) || part.share.value() <= 0.0)
                return "the share of " + base::shown_inert(part.fibre) + " is not above zero";
    return {};
}

std::string fault_of(const stash::WorkReading& reading) {
    return fault_in({reading.project, reading.role, reading.piece, reading.skein, reading.mass.text,
                     reading.scale.text,
                     reading.tare ? std::string_view(reading.tare->text) : std::string_view(),
                     reading.note});
}

const std::string& select_skeins() {
    static const std::string sql =
        "SELECT id, yarn, " + column_list(stash::Owner::skein) +
        ", counted_from, weighed_text, weighed_g, scale_text, scale_g, tare_text, tare_g,"
        " since_g, since_scale_g2, since_m, since_amount_m2 FROM counted";
    return sql;
}

Yarns::Yarns(const Connection& from)
    : from_(from),
      find_(from.database(),
            "SELECT " + column_list(stash::Owner::yarn) + " FROM yarn WHERE number = ?") {}

const Yarns::Known& Yarns::known(std::int64_t number) {
    if (const auto known = read_.find(number); known != read_.end()) return known->second;
    Values(find_).add(number);
    if (!find_.executeStep()) from_.fail_damaged("a yarn in it is gone");
    stash::Skein of_it;
    Cells(find_, from_).take(stash::Owner::yarn, of_it);
    Known out{std::move(of_it.yarn), {}};
    if (out.yarn.fibre.known()) out.fibre = json_of(out.yarn.fibre);
    return read_.emplace(number, std::move(out)).first->second;
}

const std::string& select_movements() {
    static const std::string sql =
        "SELECT skein.id, told.kind, told.day, amount_text, amount_g, amount_m, scale_text,"
        " scale_g, tare_text, tare_g, far.id, told.purpose, promise.role, told.note, told.entry,"
        " entry.day, told.digest, " +
        column_list(stash::Owner::yarn, "yarn.") + ", " +
        column_list(stash::Owner::skein, "description.") +
        " FROM movement AS told JOIN skein ON skein.number = told.skein"
        " JOIN entry ON entry.number = told.entry"
        " LEFT JOIN skein AS far ON far.number = told.other"
        " LEFT JOIN promise ON promise.movement = told.number"
        " LEFT JOIN description ON description.movement = told.number"
        " LEFT JOIN yarn ON yarn.number = description.yarn";
    return sql;
}
const char* const that_stands =
    " NOT EXISTS (SELECT 1 FROM entry AS undoing WHERE undoing.undoes = told.entry)";

stash::Skein held(Cells cells, Yarns& yarns) {
    stash::Skein skein;
    skein.id = cells.text();
    skein.yarn = yarns.of(cells.long_number());
    cells.take(stash::Owner::skein, skein);
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

Told told(Cells cells, const Source& from) {
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
    movement.role = cells.known_text().value_or("");
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
    cells.take(stash::Owner::yarn, *movement.described);
    cells.take(stash::Owner::skein, *movement.described);
    return out;
}

std::int64_t digest_of(const stash::Movement& movement, const std::string& id,
                       const std::optional<base::Day>& entered, const std::string* fibre) {
    Digest digest;
    digest.take_text(id);
    digest.take_text(word(movement.kind));
    digest.take_day(movement.day);
    digest.take_day(entered);
    digest.take_number(std::uint64_t{movement.amount ? movement.amount->index() + 1 : 0});
    if (movement.amount)
        std::visit([&](const auto& printed) { digest.take_printed(&printed); }, *movement.amount);
    digest.take_printed(movement.scale);
    digest.take_printed(movement.tare);
    for (const std::string_view text : {movement.other, movement.purpose, movement.note})
        digest.take_text(text);
    if (movement.kind == stash::MovementKind::set_aside) digest.take_text(movement.role);
    if (movement.described) {
        const DigestField take{digest, fibre};
        for (const stash::Owner owner : {stash::Owner::yarn, stash::Owner::skein})
            for (const stash::Field& field : stash::fields())
                if (field.owner == owner)
                    std::visit([&](const auto& member) { take(member.seen(*movement.described)); },
                               field.held);
    }
    return digest.value();
}

std::int64_t digest_of(const stash::WorkReading& reading, const std::optional<base::Day>& entered) {
    Digest digest;
    for (const std::string_view text :
         {reading.project, reading.role, reading.piece, reading.skein, reading.note})
        digest.take_text(text);
    for (const std::int64_t number : {reading.copy, reading.row})
        digest.take_number(std::int64_t{number});
    digest.take_printed(&reading.mass);
    digest.take_printed(&reading.scale);
    digest.take_printed(reading.tare);
    digest.take_number(std::int64_t{reading.afresh ? 1 : 0});
    digest.take_day(reading.day);
    digest.take_day(entered);
    return digest.value();
}

const char* const select_promises_sql =
    "SELECT skein.id, project, role, amount_text, amount_g, amount_m, used_g, used_m, day"
    " FROM set_aside JOIN skein ON skein.number = set_aside.skein";

Promised promised(Cells cells) {
    Promised out;
    out.skein = cells.text();
    out.promise.project = cells.text();
    out.promise.role = cells.text();
    out.promise.amount = cells.known_amount();
    out.promise.used_mass = cells.real() * units::gram;
    out.promise.used_length = cells.real() * units::metre;
    out.promise.day = cells.known_day();
    return out;
}

const char* const select_readings_sql =
    "SELECT project, role, piece, copy, after_row, skein, mass_text, mass_g, scale_text, scale_g,"
    " tare_text, tare_g, afresh, told.day, note, entry.day, digest, told.entry"
    " FROM reading AS told JOIN entry ON entry.number = told.entry";

Noted noted(Cells cells, const Source& from) {
    Noted out;
    stash::WorkReading& reading = out.reading;
    reading.project = cells.text();
    reading.role = cells.text();
    reading.piece = cells.text();
    reading.copy = cells.number();
    reading.row = cells.number();
    reading.skein = cells.text();
    reading.mass = cells.printed(units::gram);
    reading.scale = cells.printed(units::gram);
    reading.tare = cells.known_printed(units::gram);
    reading.afresh = cells.number() != 0;
    const auto day = cells.known_day();
    if (!day) from.fail_damaged("a reading in it has no day");
    reading.day = *day;
    reading.note = cells.text();
    out.entered = cells.known_day();
    if (cells.unknown())
        cells.pass_over(1);
    else
        out.digest = cells.long_number();
    out.entry = cells.long_number();
    return out;
}

}  // namespace skeinfall::store
