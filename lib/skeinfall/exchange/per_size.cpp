#include "skeinfall/exchange/per_size.hpp"

#include <cstdint>

#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::exchange {

using project::PerSize;

PerSize<std::int64_t> read_wholes(TomlTable& in, std::string_view key,
                                  std::optional<std::size_t> sizes, std::int64_t least) {
    PerSize<std::int64_t> out;
    const auto values = in.values(key, sizes);
    for (const TomlValue* value : values)
        if (const auto number = in.whole_of(key, *value, least, largest_count))
            out.values.push_back(*number);
    return out.values.size() == values.size() ? out : PerSize<std::int64_t>();
}

PerSize<units::Length> read_lengths(TomlTable& in, std::string_view key,
                                    std::optional<std::size_t> sizes) {
    PerSize<units::Length> out;
    const auto values = in.values(key, sizes);
    for (const TomlValue* value : values)
        if (const auto length = in.parsed_of<units::Length>(key, *value, units::parse_length))
            out.values.push_back(*length);
    return out.values.size() == values.size() ? out : PerSize<units::Length>();
}

}  // namespace skeinfall::exchange
