#pragma once
/// \file
/// What a command is: it declares its options, reads them, and then runs.

#include <chrono>
#include <cstddef>
#include <functional>
#include <iosfwd>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "skeinfall/base/day.hpp"
#include "skeinfall/exchange/settings_toml.hpp"

namespace skeinfall::cli {

class Busy;

/// What the program may see of the world around it.
struct World {
    std::optional<std::string> home;                    ///< HOME
    std::optional<std::string> xdg_data_home;           ///< XDG_DATA_HOME
    std::optional<std::string> stash;                   ///< SKEINFALL_STASH
    std::ostream* out = nullptr;                        ///< data only
    std::ostream* err = nullptr;                        ///< messages only
    base::Day today = std::chrono::year{1970} / 1 / 1;  ///< where the maker is
    bool edits_lines = false;     ///< answers are typed on a terminal that lines can be edited on
    std::istream* in = nullptr;   ///< answers to questions; nothing unless a person can be asked
    bool shows_progress = false;  ///< messages go to a terminal
    std::size_t columns = 0;      ///< of the terminal that data goes to; 0 when it goes elsewhere
    bool colour = false;          ///< that terminal may show colours
    Busy* busy = nullptr;         ///< set by run() while a command works on a terminal
    std::optional<std::string> xdg_config_home = std::nullopt;  ///< XDG_CONFIG_HOME
    std::string command_line{};           ///< set by run(): tells commands apart, see identity_of()
    std::function<void()> show_so_far{};  ///< set by run(): shows what waits to be folded
};

/// Values of one command line. Every option takes its last value but for those that may be given
/// several times; a switch that was given holds one empty text.
class Values {
  public:
    void add(const std::string& name, std::string value) {
        all_.push_back({name, std::move(value)});
    }
    [[nodiscard]] std::optional<std::string> one(const std::string& name) const;
    [[nodiscard]] std::vector<std::string> all(const std::string& name) const;
    /// The maker's settings, which hold where no option says otherwise.
    [[nodiscard]] const exchange::Settings& settings() const { return settings_; }
    void use(exchange::Settings settings) { settings_ = std::move(settings); }
    /// The yarn is told in grams alone, on both sides: see in_grams_alone().
    [[nodiscard]] bool in_grams() const { return in_grams_; }
    void reckon_in_grams() { in_grams_ = true; }
    /// The answer names rows, so that a gauge which nobody counted will not do.
    [[nodiscard]] bool rows_matter() const { return rows_matter_; }
    void let_rows_matter() { rows_matter_ = true; }
    /// To ask whether it was given does not read its value.
    [[nodiscard]] bool given(const std::string& name) const;
    /// Options with a value that nothing has read so far.
    [[nodiscard]] std::vector<std::string> unread() const;

  private:
    struct Value {
        std::string name;
        std::string text;
        mutable bool read = false;
    };
    std::vector<Value> all_;
    exchange::Settings settings_;
    bool in_grams_ = false;
    bool rows_matter_ = false;
};

struct Option {
    std::string name;      ///< without dashes
    std::string argument;  ///< "LENGTH"; empty for a switch
    std::string help;
    bool repeatable = false;
    std::vector<std::string> words{};  ///< all values that fit, where they are few
    char letter = '\0';                ///< of its short form, such as 'h' of -h
};

/// Before the help of an option that says what a project file else would.
inline constexpr std::string_view in_place_of_a_file = "without a file: ";

struct Example {
    std::string command;
    std::string does;
};

/// One row of the command table.
struct Command {
    std::string name;       ///< "stash import"
    std::string arguments;  ///< "FILE.csv", "[PROJECT]"; empty when it takes none
    std::string summary;    ///< a line for the list of commands
    std::string purpose;    ///< a paragraph for its help
    std::vector<Option> options;
    std::vector<Example> examples;
    std::function<int(const Values&, const World&)> run;
    std::size_t most_arguments = 1;               ///< positional ones
    std::string yes = "done";                     ///< what exit code 0 says
    std::string no = "no, or too close to call";  ///< exit code 1; empty: it never ends so
    std::vector<std::string> words{};  ///< what the first argument may be, where that is few
    bool verbatim = false;             ///< prints words to copy, and no quantity to put in order
    bool asks = false;                 ///< it may ask a person
    bool grams_serve = false;          ///< its answer can be told in grams of yarn alone
    bool tells_rows = false;           ///< its answer names rows of the make
    bool keeps = false;                ///< it enters something into a stash
};

/// Positional arguments are kept under this name.
inline const std::string positional;

/// Every command, in the order help lists them.
[[nodiscard]] const std::vector<Command>& command_table();

}  // namespace skeinfall::cli
