#include "skeinfall/store/store.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <set>
#include <utility>

#include <SQLiteCpp/SQLiteCpp.h>
#include <nlohmann/json.hpp>
#include <sqlite3.h>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/store/connection.hpp"

namespace skeinfall::store {
namespace {

constexpr const char* find_yarn_sql =
    "SELECT number FROM yarn WHERE name = ? AND class IS ? AND fibre_json IS ?"
    " AND label_length_text IS ? AND label_length_m IS ?"
    " AND label_mass_text IS ? AND label_mass_g IS ?"
    " AND colour_repeat_text IS ? AND colour_repeat_m IS ?";
constexpr const char* insert_yarn_sql =
    "INSERT INTO yarn (name, class, fibre_json, label_length_text, label_length_m,"
    " label_mass_text, label_mass_g, colour_repeat_text, colour_repeat_m)"
    " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)";
constexpr const char* insert_skein_sql =
    "INSERT INTO skein (number, yarn, colourway, dye_lot, shade_group, state, knots, note)"
    " VALUES (?, ?, ?, ?, ?, ?, ?, ?)";
constexpr const char* insert_weighing_sql =
    "INSERT INTO weighing (skein, weighed_text, weighed_g, scale_text, scale_g, tare_text, tare_g)"
    " VALUES (?, ?, ?, ?, ?, ?, ?)";
constexpr const char* select_skeins_sql =
    "SELECT skein_id.id, yarn.name, yarn.class, yarn.fibre_json,"
    " yarn.label_length_text, yarn.label_length_m, yarn.label_mass_text, yarn.label_mass_g,"
    " yarn.colour_repeat_text, yarn.colour_repeat_m,"
    " skein.colourway, skein.dye_lot, skein.shade_group, skein.state, skein.knots, skein.note,"
    " weighing.weighed_text, weighing.weighed_g, weighing.scale_text, weighing.scale_g,"
    " weighing.tare_text, weighing.tare_g"
    " FROM skein JOIN skein_id ON skein_id.number = skein.number"
    " JOIN yarn ON yarn.number = skein.yarn"
    " LEFT JOIN weighing ON weighing.number ="
    " (SELECT max(number) FROM weighing WHERE skein = skein.number)";
constexpr const char* select_ids_sql =
    "SELECT id FROM skein JOIN skein_id USING (number) ORDER BY number";

/// "[["wool",0.8],["nylon",0.2]]"
std::string json_of(const yarn::FibreContent& content) {
    nlohmann::json list = nlohmann::json::array();
    for (const yarn::FibreShare& part : content.shares)
        list.push_back(nlohmann::json::array({part.fibre, part.share.value()}));
    return list.dump();
}

/// Throws nlohmann::json::exception.
yarn::FibreContent fibre_of(const std::string& json) {
    yarn::FibreContent content;
    for (const nlohmann::json& part : nlohmann::json::parse(json))
        content.shares.push_back(
            {part.at(0).get<std::string>(), units::Ratio::from_value(part.at(1).get<double>())});
    return content;
}

/// Fills the parameters of a statement from left to right.
class Values {
  public:
    explicit Values(SQLite::Statement& statement) : statement_(statement) {
        // reset() would throw the error of the last run once more.
        statement_.tryReset();
        statement_.clearBindings();
    }

    Values& add(const std::string& text) {
        statement_.bind(++at_, text);
        return *this;
    }
    Values& add(std::int64_t number) {
        statement_.bind(++at_, number);
        return *this;
    }
    Values& add_known(const std::optional<std::string>& text) {
        return text ? add(*text) : add_unknown();
    }
    template <class Q>
    Values& add(const units::Printed<Q>& printed, const Q& unit) {
        add(printed.text);
        statement_.bind(++at_, static_cast<double>(printed.value / unit));
        return *this;
    }
    template <class Q>
    Values& add_known(const std::optional<units::Printed<Q>>& printed, const Q& unit) {
        return printed ? add(*printed, unit) : add_unknown().add_unknown();
    }
    Values& add_unknown() {
        statement_.bind(++at_);
        return *this;
    }

  private:
    SQLite::Statement& statement_;
    int at_ = 0;
};

/// Takes the cells of a row from left to right. What the layout cannot check is checked here.
class Cells {
  public:
    Cells(SQLite::Statement& row, const Connection& from) : row_(row), from_(from) {}

    [[nodiscard]] bool unknown() const { return row_.isColumnNull(at_); }

    std::string text() {
        std::string out = row_.getColumn(at_++).getString();
        if (base::first_invalid_utf8(out)) from_.fail_damaged("a text in it is not UTF-8");
        return out;
    }
    int number() { return row_.getColumn(at_++).getInt(); }

    std::optional<std::string> known_text() {
        if (unknown()) return skip<std::string>(1);
        return text();
    }
    template <class Q>
    units::Printed<Q> printed(const Q& unit) {
        std::string shown = text();
        return {std::move(shown), row_.getColumn(at_++).getDouble() * unit};
    }
    template <class Q>
    std::optional<units::Printed<Q>> known_printed(const Q& unit) {
        if (unknown()) return skip<units::Printed<Q>>(2);
        return printed(unit);
    }
    std::optional<yarn::WeightClass> known_class() {
        if (unknown()) return skip<yarn::WeightClass>(1);
        return yarn::WeightClass{number()};
    }
    yarn::FibreContent fibre() {
        const auto json = known_text();
        if (!json) return {};
        try {
            return fibre_of(*json);
        } catch (const nlohmann::json::exception&) {
            from_.fail_damaged("a fibre content in it cannot be read");
        }
    }

  private:
    template <class T>
    std::optional<T> skip(int cells) {
        at_ += cells;
        return std::nullopt;
    }

    SQLite::Statement& row_;
    const Connection& from_;
    int at_ = 0;
};

stash::Skein skein_of(Cells cells) {
    stash::Skein skein;
    skein.id = cells.text();
    skein.yarn.name = cells.text();
    skein.yarn.weight = cells.known_class();
    skein.yarn.fibre = cells.fibre();
    skein.yarn.label.length = cells.known_printed(units::metre);
    skein.yarn.label.mass = cells.known_printed(units::gram);
    skein.yarn.colour_repeat = cells.known_printed(units::metre);
    skein.colourway = cells.text();
    skein.dye_lot = cells.known_text();
    skein.shade_group = cells.known_text();
    skein.part = cells.text() == "part";
    skein.knots = cells.number();
    skein.note = cells.text();
    if (!cells.unknown()) {
        measure::Weighing weighing;
        weighing.shown = cells.printed(units::gram);
        weighing.scale = cells.printed(units::gram);
        weighing.tare = cells.known_printed(units::gram);
        skein.weighing = std::move(weighing);
    }
    return skein;
}

/// Every text of a skein that a person wrote.
std::vector<std::string_view> texts_of(const stash::Skein& skein) {
    std::vector<std::string_view> texts = {skein.id, skein.yarn.name, skein.colourway, skein.note};
    const auto take = [&texts](const auto& printed) {
        if (printed) texts.emplace_back(printed->text);
    };
    if (skein.dye_lot) texts.emplace_back(*skein.dye_lot);
    if (skein.shade_group) texts.emplace_back(*skein.shade_group);
    for (const yarn::FibreShare& part : skein.yarn.fibre.shares) texts.emplace_back(part.fibre);
    take(skein.yarn.label.length);
    take(skein.yarn.label.mass);
    take(skein.yarn.colour_repeat);
    if (skein.weighing) {
        texts.emplace_back(skein.weighing->shown.text);
        texts.emplace_back(skein.weighing->scale.text);
        take(skein.weighing->tare);
    }
    return texts;
}

/// What the layout cannot check by itself; empty when nothing is wrong.
std::string fault_of(const stash::Skein& skein) {
    for (const std::string_view text : texts_of(skein)) {
        const std::string shown = "the text \"" + base::shown_inert(text) + "\"";
        if (base::first_invalid_utf8(text)) return shown + " is not UTF-8";
        if (text.find('\0') != std::string_view::npos) return shown + " holds a zero byte";
    }
    for (const yarn::FibreShare& part : skein.yarn.fibre.shares)
        if (!std::isfinite(part.share.value()) || part.share.value() <= 0.0)
            return "the share of " + base::shown_inert(part.fibre) + " is not above zero";
    return {};
}

/// "CHECK constraint failed: skein_knots_at_least_zero" in words.
std::string fault_of(const SQLite::Exception& broken) {
    std::string rule = broken.what();
    rule.erase(0, rule.rfind(": ") + 2);
    std::replace(rule.begin(), rule.end(), '_', ' ');
    return "it breaks the rule \"" + rule + "\"";
}

/// Adds the skeins of one call, gathering what is wrong with them. Runs inside a transaction.
class Adder {
  public:
    Adder(SQLite::Database& database, const std::vector<stash::Skein>& skeins)
        : skeins_(skeins),
          database_(database),
          find_id_(database, "SELECT number FROM skein_id WHERE id = ?"),
          insert_id_(database, "INSERT INTO skein_id (id) VALUES (?)"),
          find_yarn_(database, find_yarn_sql),
          insert_yarn_(database, insert_yarn_sql),
          insert_skein_(database, insert_skein_sql),
          insert_weighing_(database, insert_weighing_sql) {
        SQLite::Statement last(database, "SELECT seq FROM sqlite_sequence WHERE name = 'skein_id'");
        if (last.executeStep()) next_ = last.getColumn(0).getInt64() + 1;
    }

    /// The ids in order. Throws base::InputError.
    std::vector<std::string> run() {
        reserve_given_ids();
        std::vector<std::string> ids;
        ids.reserve(skeins_.size());
        for (std::size_t i = 0; i < skeins_.size(); ++i) {
            ids.push_back(skeins_[i].id.empty() ? new_id() : skeins_[i].id);
            // One that was used before has its problem already.
            if (!was_used(ids.back())) add(i, ids.back());
        }
        if (!problems_.empty()) throw base::InputError(std::move(problems_));
        return ids;
    }

  private:
    bool was_used(const std::string& id) {
        Values(find_id_).add(id);
        return find_id_.executeStep();
    }

    void reserve_given_ids() {
        for (std::size_t i = 0; i < skeins_.size(); ++i) {
            const std::string& id = skeins_[i].id;
            if (id.empty() || (given_.insert(id).second && !was_used(id))) continue;
            report(i, "the id \"" + base::shown_inert(id) + "\" was used before",
                   "an id that no skein of this stash ever had",
                   "Choose another, or leave the id empty and the stash gives one.");
        }
    }

    std::string new_id() {
        while (true) {
            std::string id = "s" + std::to_string(next_++);
            if (!given_.contains(id) && !was_used(id)) return id;
        }
    }

    void add(std::size_t index, const std::string& id) {
        std::string fault = fault_of(skeins_[index]);
        if (fault.empty()) {
            try {
                insert(skeins_[index], id);
                return;
            } catch (const SQLite::Exception& error) {
                if (error.getErrorCode() != SQLITE_CONSTRAINT) throw;
                fault = fault_of(error);
            }
        }
        report(index, std::move(fault), "a skein that the stash can hold",
               "Correct it, then add the skeins again.");
    }

    void report(std::size_t index, std::string fault, std::string expected, std::string remedy) {
        std::string which =
            "skein " + std::to_string(index + 1) + " of " + std::to_string(skeins_.size());
        const std::string name = base::shown_inert(skeins_[index].yarn.name);
        if (!name.empty()) which += " (" + name + ")";
        problems_.push_back(
            {which + ": " + std::move(fault), {}, std::move(expected), std::move(remedy)});
    }

    void insert(const stash::Skein& skein, const std::string& id) {
        const std::int64_t yarn = yarn_number(skein.yarn);
        Values(insert_id_).add(id);
        insert_id_.exec();
        const std::int64_t number = database_.getLastInsertRowid();
        next_ = std::max(next_, number + 1);
        Values(insert_skein_)
            .add(number)
            .add(yarn)
            .add(skein.colourway)
            .add_known(skein.dye_lot)
            .add_known(skein.shade_group)
            .add(std::string(skein.part ? "part" : "whole"))
            .add(std::int64_t{skein.knots})
            .add(skein.note);
        insert_skein_.exec();
        if (!skein.weighing) return;
        Values(insert_weighing_)
            .add(number)
            .add(skein.weighing->shown, units::gram)
            .add(skein.weighing->scale, units::gram)
            .add_known(skein.weighing->tare, units::gram);
        insert_weighing_.exec();
    }

    std::int64_t yarn_number(const yarn::Yarn& yarn) {
        fill(find_yarn_, yarn);
        if (find_yarn_.executeStep()) return find_yarn_.getColumn(0).getInt64();
        fill(insert_yarn_, yarn);
        insert_yarn_.exec();
        return database_.getLastInsertRowid();
    }

    static void fill(SQLite::Statement& statement, const yarn::Yarn& yarn) {
        Values values(statement);
        values.add(yarn.name);
        yarn.weight ? values.add(std::int64_t{yarn.weight->number}) : values.add_unknown();
        yarn.fibre.known() ? values.add(json_of(yarn.fibre)) : values.add_unknown();
        values.add_known(yarn.label.length, units::metre)
            .add_known(yarn.label.mass, units::gram)
            .add_known(yarn.colour_repeat, units::metre);
    }

    const std::vector<stash::Skein>& skeins_;
    SQLite::Database& database_;
    SQLite::Statement find_id_;
    SQLite::Statement insert_id_;
    SQLite::Statement find_yarn_;
    SQLite::Statement insert_yarn_;
    SQLite::Statement insert_skein_;
    SQLite::Statement insert_weighing_;
    std::int64_t next_ = 1;  // number that the next id is tried with
    std::set<std::string, std::less<>> given_;
    base::Problems problems_;
};

}  // namespace

Store::Store(std::unique_ptr<Connection> connection) : connection_(std::move(connection)) {}
Store::Store(Store&&) noexcept = default;
Store& Store::operator=(Store&&) noexcept = default;
Store::~Store() = default;

Store Store::open(const std::filesystem::path& path, Access access) {
    return Store(std::make_unique<Connection>(path, access));
}

std::vector<std::string> Store::add(const std::vector<stash::Skein>& skeins) {
    try {
        SQLite::Database& database = connection_->database();
        SQLite::Transaction transaction(database, SQLite::TransactionBehavior::IMMEDIATE);
        std::vector<std::string> ids = Adder(database, skeins).run();
        transaction.commit();
        return ids;
    } catch (const SQLite::Exception& error) {
        connection_->fail(error);
    }
}

std::vector<stash::Skein> Store::skeins() const {
    try {
        SQLite::Statement rows(connection_->database(),
                               std::string(select_skeins_sql) + " ORDER BY skein.number");
        std::vector<stash::Skein> out;
        while (rows.executeStep()) out.push_back(skein_of(Cells(rows, *connection_)));
        return out;
    } catch (const SQLite::Exception& error) {
        connection_->fail(error);
    }
}

std::optional<stash::Skein> Store::skein(std::string_view id) const {
    try {
        SQLite::Statement rows(connection_->database(),
                               std::string(select_skeins_sql) + " WHERE skein_id.id = ?");
        rows.bind(1, std::string(id));
        if (!rows.executeStep()) return std::nullopt;
        return skein_of(Cells(rows, *connection_));
    } catch (const SQLite::Exception& error) {
        connection_->fail(error);
    }
}

std::vector<std::string> Store::ids() const {
    try {
        SQLite::Statement rows(connection_->database(), select_ids_sql);
        std::vector<std::string> out;
        while (rows.executeStep()) out.push_back(Cells(rows, *connection_).text());
        return out;
    } catch (const SQLite::Exception& error) {
        connection_->fail(error);
    }
}

}  // namespace skeinfall::store
