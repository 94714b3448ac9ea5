#include "skeinfall/exchange/settings_toml.hpp"

#include <algorithm>
#include <array>
#include <fstream>
#include <system_error>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/detail/answer_text.hpp"
#include "skeinfall/exchange/problem_list.hpp"
#include "skeinfall/exchange/source_text.hpp"
#include "skeinfall/exchange/text_file.hpp"
#include "skeinfall/exchange/toml_reader.hpp"
#include "skeinfall/units/quantity.hpp"
#include "skeinfall/yarn/weight_class.hpp"

namespace skeinfall::exchange {
namespace {

constexpr std::string_view rate_table = "stitch_rate";
constexpr std::string_view tare_table = "tare";
constexpr std::string_view column_table = "column";

/// Texts of a tree with their whole keys, in the order of the file.
void gather(const TomlValue::Table& table, const std::string& before, const SourceText& source,
            std::vector<Stated>& out) {
    for (const TomlEntry& entry : table) {
        const std::string key = before + entry.key;
        if (const auto* inner = std::get_if<TomlValue::Table>(&entry.value.held))
            gather(*inner, key + ".", source, out);
        else if (const auto* text = std::get_if<std::string>(&entry.value.held))
            out.push_back({key, *text, source.place(entry.offset)});
    }
}

void read_rates(TomlTable& top, Settings& settings) {
    auto rates = top.table(rate_table);
    if (!rates) return;
    for (const auto& [word, craft] :
         {std::pair{"crochet", project::Craft::crochet}, std::pair{"knit", project::Craft::knit}}) {
        auto table = rates->table(word);
        if (!table) continue;
        for (const yarn::WeightClass& weight : yarn::known_classes())
            if (const auto rate =
                    table->parsed(std::to_string(weight.number), units::parse_yarn_per_stitch))
                settings.project.rates.push_back({craft, weight, *rate});
        table->finish();
    }
    rates->finish();
}

void read_named(TomlTable& top, Settings& settings) {
    if (auto tares = top.table(tare_table)) {
        for (const std::string& name : tares->keys())
            if (auto mass = tares->printed(name, units::parse_mass))
                settings.tares.push_back({words_of(name), *std::move(mass)});
        tares->finish();
    }
    if (auto columns = top.table(column_table)) {
        for (const std::string& heading : columns->keys()) {
            const auto field = columns->text(heading);
            if (!field) continue;
            const auto meaning = parse_column_meaning(words_of(heading) + "=" + *field);
            if (meaning)
                settings.columns.push_back({meaning->heading, meaning->field, meaning->unit, true});
            else
                columns->fail(heading, meaning.problem().what, meaning.problem().expected,
                              meaning.problem().remedy);
        }
        columns->finish();
    }
}

std::string_view line_at(std::string_view text, std::size_t begin) {
    return text.substr(begin, text.find('\n', begin) - begin);
}

/// Where a line "key = ..." above the first table begins, or npos; `header` becomes where that
/// table begins, or the end.
std::size_t line_of(std::string_view text, std::string_view key, std::size_t& header) {
    header = text.size();
    for (std::size_t at = 0; at < text.size(); at += line_at(text, at).size() + 1) {
        const std::string_view line = base::trimmed(line_at(text, at));
        if (line.starts_with('[')) {
            header = at;
            break;
        }
        if (base::trimmed(line.substr(0, line.find('='))) == key) return at;
    }
    return std::string_view::npos;
}

[[noreturn]] void refuse_key(const std::string& key) {
    std::vector<std::string> keys;
    for (const SettingKey& known : setting_keys()) keys.push_back(known.key);
    const auto near = base::nearest_name(key, keys);
    throw base::InputError(
        base::Problem{base::quoted(key) + " is not a setting",
                      {},
                      base::join(keys, ", "),
                      base::did_you_mean(near, "A rate is stitch_rate.crochet.4 or the like.")});
}

/// What the maker names herself stands between quotes in the file: tare."plastic cone".
std::string written_key(const std::string& key) {
    for (const std::string_view table : {tare_table, column_table}) {
        const std::string before = std::string(table) + ".";
        if (!key.starts_with(before)) continue;
        const std::string name = words_of(std::string_view(key).substr(before.size()));
        return name.empty() ? key : before + "\"" + name + "\"";
    }
    return key;
}

bool is_key(const std::string& key) {
    if (key.starts_with(rate_table) && std::count(key.begin(), key.end(), '.') == 2) return true;
    if (key.ends_with('"')) return true;
    return std::any_of(setting_keys().begin(), setting_keys().end(), [&](const SettingKey& known) {
        return known.key == key && key.find('.') == std::string::npos;
    });
}

/// How a remedy begins that sets a key.
constexpr std::string_view by_command = "Write skeinfall settings set ";

/// The text read again; a mistake in what is being set has no place in a file yet.
void check(const std::string& text) {
    try {
        static_cast<void>(parse_settings(text, ""));
    } catch (const base::InputError& error) {
        base::Problem problem = error.problems().front();
        problem.place = {};
        // "Write tail = "20 cm"." is a line of the file.
        constexpr std::string_view write = "Write ";
        if (const std::size_t sign = problem.remedy.find(" = \"");
            problem.remedy.starts_with(write) && sign != std::string::npos)
            problem.remedy = std::string(by_command) +
                             problem.remedy.substr(write.size(), sign - write.size()) + " " +
                             problem.remedy.substr(sign + 3);
        throw base::InputError(problem);
    }
}

[[noreturn]] void leave_to_a_person(const std::string& key) {
    throw base::InputError(base::Problem{
        key + " stands in a table of the file", {}, "", "Change it there with an editor."});
}

}  // namespace

const Stated* Settings::find(std::string_view key) const {
    const auto found = std::find_if(stated.begin(), stated.end(),
                                    [&](const Stated& one) { return one.key == key; });
    return found == stated.end() ? nullptr : &*found;
}

const NamedTare* Settings::tare(std::string_view name) const {
    const std::string wanted = words_of(name);
    const auto found = std::find_if(tares.begin(), tares.end(),
                                    [&](const NamedTare& one) { return one.name == wanted; });
    return found == tares.end() ? nullptr : &*found;
}

std::string column_key(std::string_view heading) {
    return std::string(column_table) + "." + words_of(heading);
}

const std::vector<SettingKey>& setting_keys() {
    static const std::vector<SettingKey> keys{
        {"units", "what stands first where both are printed: yards or metres", "yards"},
        {"decimal_mark", "the mark in printed decimals: point or comma", "."},
        {"terms", "stitch names of projects that do not say: US or UK", "US"},
        {"margin", "asked for on top of a need", "0 %"},
        {"confidence", "how sure \"covered\" must be", "95 %"},
        {"scale", "the step of your scale", "1 g"},
        {"tail", "one end to weave in", "15 cm"},
        {"tare.NAME", "what an empty cone, bag or tool of yours weighs", "none"},
        {"column.HEADING", "what a heading of your own sheets means", "none"},
        {"stitch_rate.CRAFT.CLASS", "yarn of a stitch where there is no swatch", "none"}};
    return keys;
}

std::optional<std::filesystem::path> settings_path(const std::optional<std::string>& config_home,
                                                   const std::optional<std::string>& home) {
    constexpr const char* file = "skeinfall/settings.toml";
    const auto usable = [](const std::optional<std::string>& folder) {
        return folder && std::filesystem::path(*folder).is_absolute();
    };
    if (usable(config_home)) return std::filesystem::path(*config_home) / file;
    if (usable(home)) return std::filesystem::path(*home) / ".config" / file;
    return std::nullopt;
}

Settings parse_settings(std::string_view text, const std::string& file) {
    const SourceText source(text, file);
    const TomlValue tree = parse_toml(source);
    ProblemList problems;
    TomlTable top(tree, source, problems);
    Settings settings;
    settings.file = file;
    if (top.has("units"))
        settings.units = top.choice<FirstUnits>(
            "units", {{"yards", FirstUnits::yards}, {"metres", FirstUnits::metres}},
            FirstUnits::yards);
    if (top.has("decimal_mark"))
        settings.decimal_mark = top.choice<char>(
            "decimal_mark", {{".", '.'}, {",", ','}, {"point", '.'}, {"comma", ','}}, '.');
    if (const auto share = top.parsed("confidence", units::parse_percent)) {
        if (*share < measure::least_confidence.value || *share > measure::most_confidence.value)
            top.fail("confidence", "a confidence that is out of range", "50 % to 99.99 %");
        settings.confidence = measure::Chance{*share};
    }
    settings.scale = top.printed("scale", units::parse_mass);
    if (top.has("terms"))
        settings.project.terms = top.choice<project::Terms>(
            "terms", {{"US", project::Terms::us}, {"UK", project::Terms::uk}}, project::Terms::us);
    settings.project.margin = top.parsed("margin", units::parse_percent);
    if (settings.project.margin && settings.project.margin->value() > 1.0)
        top.fail("margin", "a margin above the need itself", "0 % to 100 %");
    settings.project.tail = top.parsed("tail", units::parse_length);
    read_rates(top, settings);
    read_named(top, settings);
    top.finish();
    problems.throw_if_any();
    gather(std::get<TomlValue::Table>(tree.held), "", source, settings.stated);
    return settings;
}

Settings read_settings(const std::filesystem::path& path) {
    std::error_code error;
    if (!std::filesystem::exists(path, error)) {
        Settings none;
        none.file = path.string();
        return none;
    }
    try {
        return parse_settings(read_text_file(path), path.string());
    } catch (const base::InputError& mistakes) {
        // Every command reads them: there must be a way out.
        base::Problems problems = mistakes.problems();
        std::string& remedy = problems.front().remedy;
        remedy += (remedy.empty() ? "" : " ") +
                  std::string(
                      "Correct your settings there, or delete the file to go on with the "
                      "built-in ones.");
        throw base::InputError(std::move(problems));
    }
}

Settings with_settings(Settings settings, const std::vector<std::string>& pairs,
                       const std::string& from) {
    std::string text;
    for (const std::string& pair : pairs) {
        const std::size_t sign = pair.find('=');
        try {
            if (sign == std::string::npos)
                throw base::InputError(base::Problem{base::quoted(pair) + " sets nothing",
                                                     {},
                                                     "KEY=VALUE, as in confidence=90%",
                                                     ""});
            text = with_setting(text, std::string(base::trimmed(pair.substr(0, sign))),
                                std::string(base::trimmed(pair.substr(sign + 1))));
        } catch (const base::InputError& error) {
            base::Problem problem = error.problems().front();
            problem.place.file = from;
            if (problem.remedy.starts_with(by_command)) {
                std::string said = problem.remedy.substr(by_command.size());
                if (const std::size_t blank = said.find(' '); blank != std::string::npos)
                    said[blank] = '=';
                problem.remedy = "Write " + from + " " + said;
            }
            throw base::InputError(problem);
        }
    }
    Settings above = parse_settings(text, from);
    for (Stated& one : above.stated) one.place.line = 0;
    if (above.units) settings.units = above.units;
    if (above.decimal_mark) settings.decimal_mark = above.decimal_mark;
    if (above.confidence) settings.confidence = above.confidence;
    if (above.scale) settings.scale = above.scale;
    if (above.project.terms) settings.project.terms = above.project.terms;
    if (above.project.margin) settings.project.margin = above.project.margin;
    if (above.project.tail) settings.project.tail = above.project.tail;
    // The last that fits counts.
    settings.project.rates.insert(settings.project.rates.end(), above.project.rates.begin(),
                                  above.project.rates.end());
    settings.tares.insert(settings.tares.begin(), above.tares.begin(), above.tares.end());
    settings.columns.insert(settings.columns.begin(), above.columns.begin(), above.columns.end());
    settings.stated.insert(settings.stated.begin(), above.stated.begin(), above.stated.end());
    return settings;
}

std::string with_setting(std::string_view text, const std::string& asked,
                         const std::string& value) {
    const std::string key = written_key(asked);
    if (!is_key(key)) refuse_key(asked);
    const std::string line = key + " = " + detail::in_toml(value) + "\n";
    std::size_t header = 0;
    const std::size_t at = line_of(text, key, header);
    std::string out(text);
    if (at != std::string_view::npos) {
        out.replace(at, line_at(text, at).size() + 1, line);
    } else {
        if (header == out.size() && !out.empty() && out.back() != '\n') {
            out += '\n';
            ++header;
        }
        out.insert(header, line);
    }
    if (at == std::string_view::npos && parse_settings(text, "").find(key) != nullptr)
        leave_to_a_person(key);
    check(out);
    return out;
}

std::string without_setting(std::string_view text, const std::string& asked) {
    const std::string key = written_key(asked);
    if (!is_key(key)) refuse_key(asked);
    std::size_t header = 0;
    const std::size_t at = line_of(text, key, header);
    std::string out(text);
    if (at != std::string_view::npos)
        out.erase(at, line_at(text, at).size() + 1);
    else if (parse_settings(text, "").find(key) != nullptr)
        leave_to_a_person(key);
    return out;
}

void write_settings(const std::filesystem::path& path, std::string_view text) {
    std::error_code error;
    std::filesystem::create_directories(path.parent_path(), error);
    std::filesystem::path part = path;
    part += ".part";
    std::ofstream out(part, std::ios::binary);
    out << text;
    out.close();
    if (out) std::filesystem::rename(part, path, error);
    if (!out || error) {
        std::error_code ignored;
        std::filesystem::remove(part, ignored);
        throw base::InputError(base::Problem{"the settings cannot be written",
                                             {.file = path.string(), .line = 0, .column = 0},
                                             "a file in a folder that may be written to",
                                             "Name another folder in XDG_CONFIG_HOME."});
    }
}

std::vector<Stated> stated_by_project(const std::filesystem::path& path) {
    constexpr std::array<std::string_view, 3> keys{"terms", "margin", "tail"};
    const std::string text = read_text_file(path);
    const SourceText source(text, path.string());
    const TomlValue tree = parse_toml(source);
    std::vector<Stated> all;
    gather(std::get<TomlValue::Table>(tree.held), "", source, all);
    std::erase_if(all, [&](const Stated& one) {
        return std::find(keys.begin(), keys.end(), one.key) == keys.end();
    });
    return all;
}

}  // namespace skeinfall::exchange
