#include "skeinfall/exchange/stash_json.hpp"

#include <algorithm>
#include <cstdint>
#include <optional>
#include <utility>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/problem_list.hpp"
#include "skeinfall/exchange/reading_fields.hpp"
#include "skeinfall/exchange/text_file.hpp"

namespace skeinfall::exchange {
namespace {

using Json = nlohmann::json;

constexpr std::string_view format_name = "skeinfall stash";
constexpr int format_version = 1;

bool holds_number(std::string_view field) {
    if (const stash::Field* const known = stash::find_field(field))
        return std::holds_alternative<stash::Member<stash::Count>>(known->held) ||
               std::holds_alternative<stash::Member<std::optional<yarn::WeightClass>>>(known->held);
    return field == "copy" || field == "row";
}

bool holds_truth(std::string_view field) {
    return field == "afresh";
}

/// Counts the bytes that the parser has taken.
class CountingIterator {
  public:
    using iterator_category = std::input_iterator_tag;
    using value_type = char;
    using difference_type = std::ptrdiff_t;
    using pointer = const char*;
    using reference = const char&;

    CountingIterator(const char* at, std::size_t* taken) : at_(at), taken_(taken) {}
    reference operator*() const { return *at_; }
    CountingIterator& operator++() {
        ++at_;
        ++*taken_;
        return *this;
    }
    CountingIterator operator++(int) {
        CountingIterator before = *this;
        ++*this;
        return before;
    }
    bool operator==(const CountingIterator& other) const { return at_ == other.at_; }
    bool operator!=(const CountingIterator& other) const { return at_ != other.at_; }

  private:
    const char* at_;
    std::size_t* taken_;
};

/// Takes the events of the parser. The document is read as it comes, never held as a whole.
class Reader : public Fields {
  public:
    Reader(std::string_view text, const std::string& file)
        : source_(text, file), taker_(source_, table_) {}

    StashTable read() {
        if (const auto problem = source_.encoding_problem()) throw base::InputError(*problem);
        const std::string_view text = source_.text();
        Json::sax_parse(CountingIterator(text.data(), &taken_),
                        CountingIterator(text.data() + text.size(), &taken_), this);
        if (broken_) throw base::InputError(*broken_);
        if (!format_seen_)
            fail_at(0, "this is not a stash", fmt::format("\"format\": \"{}\"", format_name),
                    "Export a stash as JSON to see what such a file looks like.");
        if (!movements_seen_)
            fail_at(0, "there is no list \"movements\"", "a list of movements", "");
        problems_.throw_if_any();
        table_.days_stated = true;
        return std::move(table_);
    }

    // What the parser calls; false stops it.
    bool null() { return scalar("null", std::nullopt, std::nullopt); }
    bool boolean(bool value) {
        return scalar(value ? "true" : "false", std::nullopt, std::nullopt);
    }
    bool number_integer(std::int64_t value) {
        return scalar(std::to_string(value), std::nullopt, value);
    }
    bool number_unsigned(std::uint64_t value) {
        const bool fits = value <= static_cast<std::uint64_t>(INT64_MAX);
        return scalar(std::to_string(value), std::nullopt,
                      fits ? std::optional(static_cast<std::int64_t>(value)) : std::nullopt);
    }
    bool number_float(double /*value*/, const std::string& text) {
        return scalar(text, std::nullopt, std::nullopt);
    }
    bool string(std::string& value) { return scalar({}, value, std::nullopt); }
    bool binary(Json::binary_t& /*value*/) { return true; }

    bool start_object(std::size_t /*size*/) {
        const std::size_t place = container_place();
        ++depth_;
        if (skipping_ != 0) return true;
        if (depth_ == 1) return true;
        if (depth_ == 3 && list_ != List::none) {
            values_.clear();
            row_offset_ = place;
            return true;
        }
        return refuse_container(place, "an object");
    }
    bool end_object() {
        if (depth_ == 3 && skipping_ == 0) {
            if (list_ == List::movements) taker_.take(*this, row_offset_);
            if (list_ == List::readings) table_.readings.push_back(read_reading(*this));
        }
        return leave();
    }
    bool start_array(std::size_t /*size*/) {
        const std::size_t place = container_place();
        ++depth_;
        if (skipping_ != 0) return true;
        if (depth_ == 2 && (key_ == "movements" || key_ == "readings")) {
            list_ = key_ == "movements" ? List::movements : List::readings;
            movements_seen_ = movements_seen_ || list_ == List::movements;
            return true;
        }
        return refuse_container(place, "a list");
    }
    bool end_array() {
        if (depth_ == 2) list_ = List::none;
        return leave();
    }
    bool key(std::string& name) {
        key_ = name;
        // Behind the closing quote; the value stands after the colon.
        const std::string_view text = source_.text();
        const std::size_t colon = text.find(':', std::min(taken_, text.size()));
        value_offset_ = std::min(text.find_first_not_of(" \t\r\n:", colon), text.size());
        if (skipping_ != 0) return true;
        if (depth_ == 1 && key_ != "format" && key_ != "version" && key_ != "movements" &&
            key_ != "readings")
            fail_at(value_offset_, "unknown key " + in_quotes(key_),
                    "format, version, movements, readings", "Leave it out.");
        if (depth_ == 3) check_field();
        return true;
    }
    bool parse_error(std::size_t /*position*/, const std::string& token,
                     const Json::exception& /*error*/) {
        const std::size_t size = source_.text().size();
        // The offending byte was taken already, unless the text ended.
        const std::size_t at = taken_ >= size ? size : (taken_ > 0 ? taken_ - 1 : 0);
        broken_ = base::Problem{
            at >= size
                ? std::string("the text ends too early")
                : "this is not JSON" + (token.empty() ? std::string() : ", at " + in_quotes(token)),
            source_.place(at), "a JSON text (RFC 8259)",
            "Check quotes, commas and brackets there."};
        return false;
    }

    [[nodiscard]] std::string_view value(std::string_view field) const override {
        const Value* found = find(field);
        return found == nullptr ? std::string_view() : std::string_view(found->text);
    }
    void fail(std::string_view field, std::size_t /*at*/, std::string what, std::string expected,
              std::string remedy) override {
        const Value* found = find(field);
        if (found == nullptr || found->text.empty())
            fail_at(row_offset_, std::move(what), std::move(expected), std::move(remedy));
        else
            fail_at(found->offset, fmt::format("{}: {}", field, what), std::move(expected),
                    std::move(remedy));
    }

  private:
    struct Value {
        std::string_view field;
        std::string text;
        std::size_t offset = 0;
    };

    [[nodiscard]] const Value* find(std::string_view field) const {
        const auto found = std::find_if(values_.begin(), values_.end(),
                                        [&](const Value& value) { return value.field == field; });
        return found == values_.end() ? nullptr : &*found;
    }

    void fail_at(std::size_t offset, std::string what, std::string expected, std::string remedy) {
        problems_.add(
            {std::move(what), source_.place(offset), std::move(expected), std::move(remedy)});
    }

    /// Of the bracket just taken; in a list there is no key before it.
    [[nodiscard]] std::size_t container_place() const { return taken_ > 0 ? taken_ - 1 : 0; }

    bool leave() {
        if (skipping_ == depth_) skipping_ = 0;
        --depth_;
        return true;
    }

    /// Passes over all of it.
    bool refuse_container(std::size_t place, const std::string& what) {
        skipping_ = depth_;
        const std::string expected = depth_ == 1           ? "an object with \"format\""
                                     : depth_ == 3         ? "an object for each of the list"
                                     : list_ != List::none ? "a text"
                                                           : "a list of movements";
        fail_at(place, what + " cannot stand here", expected, "");
        return true;
    }

    void check_field() {
        const bool readings = list_ == List::readings;
        std::vector<std::string_view> known(field_names().begin(), field_names().end());
        if (readings) known.assign(reading_field_names.begin(), reading_field_names.end());
        const auto found = std::find(known.begin(), known.end(), key_);
        field_ = found == known.end() ? std::string_view() : *found;
        if (field_.empty()) {
            const std::vector<std::string> names(known.begin(), known.end());
            const auto near = base::nearest_name(key_, names);
            fail_at(value_offset_, "unknown field " + in_quotes(key_),
                    "one of " + base::join(names, ", "), base::did_you_mean(near, "Leave it out."));
        } else if (find(field_) != nullptr) {
            fail_at(value_offset_, "a second " + key_, "each field once", "Leave one of them out.");
            field_ = {};
        }
    }

    /// `text`: of a string; `number`: of a whole number that fits; `shown`: of what is neither.
    bool scalar(const std::string& shown, const std::optional<std::string>& text,
                std::optional<std::int64_t> number) {
        if (skipping_ != 0) return true;
        if (depth_ == 1) {
            head(shown, text, number);
        } else if (depth_ == 3 && list_ != List::none) {
            if (field_.empty()) return true;
            const bool fits = holds_number(field_)  ? number.has_value()
                              : holds_truth(field_) ? shown == "true" || shown == "false"
                                                    : text.has_value();
            if (!fits)
                fail_at(value_offset_,
                        fmt::format("{}: {} cannot stand here", field_,
                                    text ? in_quotes(*text) : shown),
                        holds_number(field_)  ? "a whole number"
                        : holds_truth(field_) ? "true or false"
                                              : "a text between quotes",
                        "");
            else
                values_.push_back({field_, text ? *text : shown, value_offset_});
        } else {
            fail_at(depth_ == 0 ? 0 : container_place(), "this cannot stand here",
                    depth_ == 0 ? "an object with \"format\"" : "an object for each of the list",
                    "");
        }
        return true;
    }

    void head(const std::string& shown, const std::optional<std::string>& text,
              std::optional<std::int64_t> number) {
        const std::string said = text ? in_quotes(*text) : shown;
        if (key_ == "format") {
            format_seen_ = true;
            if (!text || *text != format_name)
                fail_at(value_offset_, "the format is " + said, fmt::format("\"{}\"", format_name),
                        "");
        } else if (key_ == "version") {
            if (!number || *number != format_version)
                fail_at(value_offset_, "the version is " + said, std::to_string(format_version),
                        "A newer skeinfall may read it.");
        } else if (key_ == "movements" || key_ == "readings") {
            movements_seen_ = movements_seen_ || key_ == "movements";
            fail_at(value_offset_, said + " is not a list", "a list of " + key_, "");
        }
    }

    SourceText source_;
    ProblemList problems_;
    StashTable table_;
    RowTaker taker_;
    std::size_t taken_ = 0;
    std::size_t depth_ = 0;
    std::size_t skipping_ = 0;  // depth of the container that is passed over; 0: none
    enum class List { none, movements, readings };
    List list_ = List::none;
    bool movements_seen_ = false;
    bool format_seen_ = false;
    std::string key_;
    std::string_view field_;  // empty when it is to be passed over
    std::size_t value_offset_ = 0;
    std::size_t row_offset_ = 0;
    std::vector<Value> values_;
    std::optional<base::Problem> broken_;
};

/// On one line.
std::string object_of(const std::vector<Written>& row) {
    nlohmann::ordered_json object = nlohmann::ordered_json::object();
    for (const Written& written : row) {
        const std::string field(written.field);
        if (holds_number(written.field)) {
            object[field] = base::leading_number<int>(written.text);
        } else if (holds_truth(written.field)) {
            object[field] = written.text == "true";
        } else {
            object[field] = written.text;
        }
    }
    return object.dump();
}

}  // namespace

StashTable parse_stash_json(std::string_view text, const std::string& file) {
    return Reader(text, file).read();
}

StashTable read_stash_json(const std::filesystem::path& path) {
    return parse_stash_json(read_text_file(path, largest_stash), path.string());
}

std::string stash_json(const std::vector<stash::Movement>& movements,
                       const std::vector<stash::WorkReading>& readings) {
    std::string out = fmt::format("{{\n\"format\": \"{}\",\n\"version\": {},\n\"movements\": [",
                                  format_name, format_version);
    const char* between = "\n";
    for (const auto& row : rows_of(movements))
        out += std::exchange(between, ",\n") + object_of(row);
    out += "\n]";
    if (!readings.empty()) {
        out += ",\n\"readings\": [";
        between = "\n";
        for (const stash::WorkReading& reading : readings)
            out += std::exchange(between, ",\n") + object_of(fields_of(reading));
        out += "\n]";
    }
    return out + "\n}\n";
}

}  // namespace skeinfall::exchange
