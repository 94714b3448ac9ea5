#include "skeinfall/exchange/toml_reader.hpp"

#include <algorithm>
#include <cstdint>

#include <fmt/format.h>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/key_examples.hpp"
#include "skeinfall/units/example.hpp"

namespace skeinfall::exchange {

namespace {

/// "a", "b" or "c", each in quotes.
std::string one_of(const std::vector<std::string>& words) {
    std::string out;
    for (std::size_t i = 0; i < words.size(); ++i)
        out += (i == 0 ? "" : i + 1 == words.size() ? " or " : ", ") + ("\"" + words[i] + "\"");
    return out;
}

}  // namespace

TomlTable::TomlTable(const TomlValue& table, const SourceText& source, ProblemList& problems)
    : entries_(&std::get<TomlValue::Table>(table.held)),
      offset_(table.offset),
      source_(&source),
      problems_(&problems) {}

const TomlEntry* TomlTable::find_entry(std::string_view key) const {
    const auto found = std::find_if(entries_->begin(), entries_->end(),
                                    [&](const TomlEntry& entry) { return entry.key == key; });
    return found == entries_->end() ? nullptr : &*found;
}

const TomlValue* TomlTable::find(std::string_view key) {
    if (std::find(known_.begin(), known_.end(), key) == known_.end()) known_.emplace_back(key);
    const TomlEntry* entry = find_entry(key);
    return entry == nullptr ? nullptr : &entry->value;
}

void TomlTable::note_places(const std::string& name,
                            std::map<std::string, base::Place>& places) const {
    places.emplace(name, place());
    for (const TomlEntry& entry : *entries_)
        places.emplace(name + "." + entry.key, source_->place(entry.value.offset));
}

void TomlTable::fail_at(std::size_t offset, std::string_view key, std::string_view what,
                        std::string expected, std::string remedy) {
    problems_->add({key.empty() ? std::string(what) : fmt::format("{}: {}", key, what),
                    source_->place(offset), std::move(expected), std::move(remedy)});
}

void TomlTable::fail(std::string_view key, std::string_view what, std::string expected,
                     std::string remedy) {
    const TomlValue* value = key.empty() ? nullptr : find(key);
    fail_at(value == nullptr ? offset_ : value->offset, key, what, std::move(expected),
            std::move(remedy));
}

void TomlTable::fail_in_text(std::string_view key, const TomlValue& value,
                             const base::Problem& given) {
    const auto& text = std::get<std::string>(value.held);
    const base::Problem problem =
        units::with_example(given, text, fmt::format("{} = ", key), key_example(key));
    const std::size_t at = problem.place.column == 0 ? 0 : problem.place.column - 1;
    problems_->add({fmt::format("{}: {}", key, problem.what),
                    source_->place_inside(value.offset, text, at), problem.expected,
                    problem.remedy});
}

void TomlTable::missing(std::string_view key, std::string expected, std::string remedy) {
    find(key);
    base::Problem problem{fmt::format("\"{}\" is missing", key), source_->place(offset_),
                          std::move(expected), std::move(remedy)};
    missing_.push_back({std::string(key), problem});
    problems_->add(std::move(problem));
}

void TomlTable::wrong_kind(std::string_view key, const TomlValue& value, std::string expected) {
    const auto* const whole = std::get_if<std::int64_t>(&value.held);
    const auto* const real = std::get_if<double>(&value.held);
    const auto* const text = std::get_if<std::string>(&value.held);
    if (expected == "a text" && (whole != nullptr || real != nullptr)) {
        const std::string number =
            whole != nullptr ? std::to_string(*whole) : fmt::format("{}", *real);
        // Of one in a list nobody knows what it was to be.
        if (find(key) != &value)
            return fail_at(value.offset, key, number + " is not in quotes", "\"" + number + "\"",
                           {});
        const std::string_view example = key_example(key);
        const std::string fitted = units::fitted_example(number, example);
        const bool has_unit = fitted.starts_with(number);
        return fail_at(
            value.offset, key, number + (has_unit ? " has no unit" : " is not in quotes"),
            fmt::format("{} = \"{}\"", key, has_unit || !example.empty() ? fitted : number), {});
    }
    if (expected.starts_with("a whole number") && text != nullptr) {
        const bool counts = base::number_of<std::int64_t>(base::trimmed(*text)).has_value();
        return fail_at(value.offset, key,
                       counts ? base::quoted(*text) + " is in quotes"
                              : base::quoted(*text) + " is not a whole number",
                       counts ? fmt::format("{} = {}", key, base::trimmed(*text)) : expected,
                       "Write the number without quotes.");
    }
    fail_at(value.offset, key, fmt::format("this is {}", value.kind()), std::move(expected), {});
}

std::optional<std::string> TomlTable::text_of(std::string_view key, const TomlValue& value,
                                              std::size_t most_bytes) {
    const auto* text = std::get_if<std::string>(&value.held);
    if (text == nullptr) {
        wrong_kind(key, value, "a text");
        return std::nullopt;
    }
    const auto fault = base::trimmed(*text).empty()
                           ? std::optional<std::string>("the text is empty")
                           : text_fault(*text, most_bytes, true);
    if (!fault) return *text;
    fail_at(value.offset, key, *fault,
            fmt::format("a text of 1 to {} bytes without control characters", most_bytes),
            "Leave the key out when there is nothing to say.");
    return std::nullopt;
}

std::optional<std::int64_t> TomlTable::whole_of(std::string_view key, const TomlValue& value,
                                                std::int64_t least, std::int64_t most) {
    const std::string expected = fmt::format("a whole number from {} to {}", least, most);
    const auto* number = std::get_if<std::int64_t>(&value.held);
    if (number == nullptr) {
        wrong_kind(key, value, expected);
        return std::nullopt;
    }
    if (*number >= least && *number <= most) return static_cast<std::int64_t>(*number);
    fail_at(value.offset, key,
            fmt::format("{} is too {}", *number, *number < least ? "small" : "large"), expected,
            {});
    return std::nullopt;
}

std::optional<std::string> TomlTable::text(std::string_view key) {
    const TomlValue* value = find(key);
    return value == nullptr ? std::nullopt : text_of(key, *value);
}

std::string TomlTable::required_text(std::string_view key, std::string_view example) {
    if (!has(key)) missing(key, fmt::format("a line like {} = \"{}\"", key, example));
    return text(key).value_or(std::string());
}

std::optional<bool> TomlTable::flag(std::string_view key) {
    const TomlValue* value = find(key);
    if (value == nullptr) return std::nullopt;
    if (const auto* held = std::get_if<bool>(&value->held)) return *held;
    wrong_kind(key, *value, "true or false, without quotes");
    return std::nullopt;
}

std::optional<std::int64_t> TomlTable::whole(std::string_view key, std::int64_t least,
                                             std::int64_t most) {
    const TomlValue* value = find(key);
    return value == nullptr ? std::nullopt : whole_of(key, *value, least, most);
}

std::optional<units::Ratio> TomlTable::number(std::string_view key, units::Ratio least,
                                              units::Ratio most) {
    const TomlValue* value = find(key);
    if (value == nullptr) return std::nullopt;
    const std::string expected = fmt::format("a number from {} to {}", least.value(), most.value());
    double number = 0.0;
    if (const auto* whole = std::get_if<std::int64_t>(&value->held)) {
        number = static_cast<double>(*whole);
    } else if (const auto* real = std::get_if<double>(&value->held)) {
        number = *real;
    } else {
        wrong_kind(key, *value, expected);
        return std::nullopt;
    }
    // Written so that NaN fails.
    if (number >= least.value() && number <= most.value()) return units::Ratio(number);
    fail_at(value->offset, key, fmt::format("{} is out of range", number), expected, {});
    return std::nullopt;
}

std::vector<std::string> TomlTable::texts(std::string_view key) {
    std::vector<std::string> out;
    const TomlValue* value = find(key);
    if (value == nullptr) return out;
    const auto* list = std::get_if<TomlValue::List>(&value->held);
    if (list == nullptr) {
        const auto* const one = std::get_if<std::string>(&value->held);
        const std::string_view example = key_example(key);
        fail_at(value->offset, key, "one or several belong between [ and ] here",
                fmt::format("{} = [\"{}\"]", key,
                            one != nullptr     ? base::shown_inert(*one)
                            : !example.empty() ? std::string(example)
                                               : "one\", \"two"),
                {});
        return out;
    }
    for (const TomlValue& one : *list)
        if (auto text = text_of(key, one)) out.push_back(std::move(*text));
    return out;
}

std::optional<std::size_t> TomlTable::list_size(std::string_view key) {
    const TomlValue* value = find(key);
    const auto* list = value == nullptr ? nullptr : std::get_if<TomlValue::List>(&value->held);
    return list == nullptr ? std::nullopt : std::optional(list->size());
}

std::optional<std::size_t> TomlTable::word_of(std::string_view key,
                                              const std::vector<std::string>& words) {
    const auto word = text(key);
    if (!word) return std::nullopt;
    for (std::size_t i = 0; i < words.size(); ++i)
        if (base::same_word(*word, words[i])) return i;
    const auto near = base::nearest_name(*word, words);
    fail(key, fmt::format("unknown word {}", in_quotes(*word)), one_of(words),
         base::did_you_mean(near));
    return std::nullopt;
}

std::vector<TomlTable> TomlTable::tables(std::string_view key) {
    std::vector<TomlTable> out;
    const TomlValue* value = find(key);
    if (value == nullptr) return out;
    const auto* list = std::get_if<TomlValue::List>(&value->held);
    if (list == nullptr) {
        const bool one = std::holds_alternative<TomlValue::Table>(value->held);
        fail_at(value->offset, key,
                one ? "this is a single table" : fmt::format("this is {}", value->kind()),
                "a list of tables", fmt::format("Write [[{}]], with two brackets.", key));
        return out;
    }
    for (const TomlValue& one : *list) {
        if (std::holds_alternative<TomlValue::Table>(one.held))
            out.emplace_back(one, *source_, *problems_);
        else
            wrong_kind(key, one, "a table");
    }
    return out;
}

std::optional<TomlTable> TomlTable::table(std::string_view key) {
    const TomlValue* value = find(key);
    if (value == nullptr) return std::nullopt;
    if (std::holds_alternative<TomlValue::Table>(value->held))
        return TomlTable(*value, *source_, *problems_);
    wrong_kind(key, *value, fmt::format("a table that starts with [{}]", key));
    return std::nullopt;
}

std::vector<std::string> TomlTable::keys() const {
    std::vector<std::string> out;
    for (const TomlEntry& entry : *entries_) out.push_back(entry.key);
    return out;
}

std::vector<std::pair<std::string, TomlTable>> TomlTable::named_tables(std::string_view key) {
    std::vector<std::pair<std::string, TomlTable>> out;
    const auto all = table(key);
    if (!all) return out;
    const bool unnamed =
        !all->entries_->empty() &&
        std::none_of(all->entries_->begin(), all->entries_->end(), [](const TomlEntry& entry) {
            return std::holds_alternative<TomlValue::Table>(entry.value.held);
        });
    if (unnamed) {
        fail(key, "this table has no name of its own", fmt::format("a name in it: [{}.NAME]", key));
        return out;
    }
    for (const TomlEntry& entry : *all->entries_) {
        if (std::holds_alternative<TomlValue::Table>(entry.value.held))
            out.emplace_back(entry.key, TomlTable(entry.value, *source_, *problems_));
        else
            fail_at(entry.offset, fmt::format("{}.{}", key, base::shown_inert(entry.key)),
                    fmt::format("this is {}", entry.value.kind()),
                    fmt::format("a table that starts with [{}.NAME]", key), {});
    }
    return out;
}

std::vector<const TomlValue*> TomlTable::values(std::string_view key,
                                                std::optional<std::size_t> entries) {
    std::vector<const TomlValue*> out;
    const TomlValue* value = find(key);
    if (value == nullptr) return out;
    const auto* list = std::get_if<TomlValue::List>(&value->held);
    if (list == nullptr) return {value};
    if (!entries) {
        fail(key, "a list, but the project has no sizes", "one value for all",
             "Name the sizes at the top, as in sizes = [\"S\", \"M\"], or write one value.");
        return out;
    }
    if (list->size() != *entries) {
        fail(key,
             fmt::format("the number of values is {}, the number of sizes {}", list->size(),
                         *entries),
             "one value a size, or one value for all");
        return out;
    }
    for (const TomlValue& one : *list) out.push_back(&one);
    return out;
}

void TomlTable::finish() {
    for (const TomlEntry& entry : *entries_) {
        if (std::find(known_.begin(), known_.end(), entry.key) != known_.end()) continue;
        const auto near = base::nearest_name(entry.key, known_);
        // What is missing is there, with a slip in it.
        for (const Missing& one : missing_)
            if (near == one.key) problems_->withdraw(one.problem);
        problems_->add({"unknown key " + in_quotes(entry.key), source_->place(entry.offset),
                        near ? std::string() : "one of " + base::join(known_, ", "),
                        base::did_you_mean(near)});
    }
}

}  // namespace skeinfall::exchange
