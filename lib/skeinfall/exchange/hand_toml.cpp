#include "skeinfall/exchange/hand_toml.hpp"

#include <fmt/format.h>

#include "skeinfall/exchange/detail/answer_text.hpp"
#include "skeinfall/exchange/problem_list.hpp"
#include "skeinfall/exchange/source_text.hpp"
#include "skeinfall/exchange/text_file.hpp"
#include "skeinfall/exchange/toml_reader.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::exchange {
namespace {

/// A basic string of TOML; whatever is no plain letter is written by its number.

}  // namespace

std::filesystem::path hand_path(const std::filesystem::path& stash) {
    std::filesystem::path out = stash;
    out += ".hand.toml";
    return out;
}

std::vector<project::TaughtByMake> parse_hand(std::string_view text, const std::string& file) {
    const SourceText source(text, file);
    ProblemList problems;
    const TomlValue tree = parse_toml(source);
    TomlTable top(tree, source, problems);
    std::vector<project::TaughtByMake> out;
    for (TomlTable& table : top.tables("make")) {
        project::TaughtByMake make;
        make.make = table.required_text("title", "Lantern cowl");
        make.role = table.required_text("yarn", "MC");
        const auto share = [&](const char* key, double most) {
            const auto value = table.parsed(key, units::parse_percent);
            if (!table.has(key))
                table.missing(key, "a share", "Write it like \"94 %\".");
            else if (value && (value->value() <= 0.0 || value->value() > most))
                table.fail(key, "nobody's tension differs that much", "a share above 0 %");
            return value.value_or(units::Ratio(1.0));
        };
        make.times = share("times", 5.0);
        make.noise = share("noise", 2.0);
        table.finish();
        out.push_back(std::move(make));
    }
    top.finish();
    problems.throw_if_any();
    return out;
}

std::vector<project::TaughtByMake> read_hand(const std::filesystem::path& path) {
    std::error_code none;
    if (!std::filesystem::exists(path, none)) return {};
    return parse_hand(read_text_file(path), path.string());
}

std::string hand_text(const std::vector<project::TaughtByMake>& makes) {
    std::string out = "# What finished makes say about this maker's tension.\n";
    for (const project::TaughtByMake& make : makes)
        out += fmt::format(
            "\n[[make]]\ntitle = {}\nyarn = {}\ntimes = \"{:.2f} %\"\nnoise = \"{:.2f} %\"\n",
            detail::in_toml(make.make), detail::in_toml(make.role), 100.0 * make.times.value(),
            100.0 * make.noise.value());
    return out;
}

}  // namespace skeinfall::exchange
