#pragma once
/// \file
/// The settings of a maker: one TOML file, of which every key may be left out. Keys are "units"
/// (yards or metres first), "decimal_mark", "confidence", "scale" (its step), "terms", "margin",
/// "tail", rates such as stitch_rate.crochet.4 = "8.5 cm per stitch", tares of the maker's own such
/// as tare."plastic cone" = "25 g", and what headings of her sheets mean: column."shelf" = "note".

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/exchange/own_sheet.hpp"
#include "skeinfall/measure/chance.hpp"
#include "skeinfall/project/defaults.hpp"
#include "skeinfall/units/parse.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::exchange {

/// Which of two systems stands first where both are printed.
enum class FirstUnits { yards, metres };

/// A key of a file as it was written, and where.
struct Stated {
    std::string key;  ///< "stitch_rate.crochet.4" for a key of a table
    std::string text;
    base::Place place;
};

/// An empty cone, bag or tool of the maker's own.
struct NamedTare {
    std::string name;  ///< lower case, one blank between words
    units::Printed<units::Mass> mass;
};

struct Settings {
    std::string file;  ///< where they were read from, or would be
    std::optional<FirstUnits> units;
    std::optional<char> decimal_mark;
    std::optional<measure::Chance> confidence;
    std::optional<units::Printed<units::Mass>> scale;
    project::Defaults project;
    std::vector<NamedTare> tares;
    std::vector<ColumnMeaning> columns;  ///< as remembered from sheets that came before
    std::vector<Stated> stated;

    [[nodiscard]] const Stated* find(std::string_view key) const;
    /// The tare of that name, whatever its case.
    [[nodiscard]] const NamedTare* tare(std::string_view name) const;
};

/// What may be set.
struct SettingKey {
    std::string key;       ///< "stitch_rate.CRAFT.CLASS", "tare.NAME" stand for all of these
    std::string says;      ///< what it does
    std::string built_in;  ///< what holds when nobody says
};
[[nodiscard]] const std::vector<SettingKey>& setting_keys();

/// XDG_CONFIG_HOME/skeinfall/settings.toml, or HOME/.config/skeinfall/settings.toml; an empty or
/// relative folder counts as unset (XDG Base Directory Specification 0.8). Nothing without either.
[[nodiscard]] std::optional<std::filesystem::path> settings_path(
    const std::optional<std::string>& config_home, const std::optional<std::string>& home);

/// Throws base::InputError with every mistake; `file` names the text in their places.
[[nodiscard]] Settings parse_settings(std::string_view text, const std::string& file);

/// The same for a file. One that is not there holds no settings.
[[nodiscard]] Settings read_settings(const std::filesystem::path& path);

/// The settings with others before them, each "KEY=VALUE" of one run, given at `from`. Throws
/// base::InputError when one of these does not fit.
[[nodiscard]] Settings with_settings(Settings settings, const std::vector<std::string>& pairs,
                                     const std::string& from);

/// The key under which the meaning of a heading is kept.
[[nodiscard]] std::string column_key(std::string_view heading);

/// The text with the key `asked` set to `value`; the other lines and their remarks stay as they
/// are. Throws base::InputError when the key is none, the value does not fit, or the file needs a
/// person.
[[nodiscard]] std::string with_setting(std::string_view text, const std::string& asked,
                                       const std::string& value);

/// The text without the key `asked`; the same text when it is not set.
[[nodiscard]] std::string without_setting(std::string_view text, const std::string& asked);

/// Puts the text in the place of the file in one step. Throws base::InputError when it cannot.
void write_settings(const std::filesystem::path& path, std::string_view text);

/// The keys of "terms", "margin" and "tail" that a project file states.
[[nodiscard]] std::vector<Stated> stated_by_project(const std::filesystem::path& path);

}  // namespace skeinfall::exchange
