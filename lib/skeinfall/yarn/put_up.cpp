#include "skeinfall/yarn/put_up.hpp"

#include <string_view>

#include "skeinfall/base/text.hpp"
#include "skeinfall/yarn/label_text.hpp"

namespace skeinfall::yarn {

Label put_up_in(const std::string& grist_text) {
    // "50 g = 125 m", as bands of the Continent have it.
    if (const auto printed = parse_put_up(grist_text)) return printed->label;
    const std::string_view text = grist_text;
    for (const std::string_view separator : {" per ", "/"}) {
        // A fraction has a slash too, so every one is tried.
        for (auto at = text.find(separator); at != std::string_view::npos;
             at = text.find(separator, at + 1)) {
            const std::string first(base::trimmed(text.substr(0, at)));
            const std::string second(base::trimmed(text.substr(at + separator.size())));
            const auto length = units::parse_length(first);
            const auto mass = units::parse_mass(second);
            if (length && mass)
                return {units::Printed<units::Length>{first, *length},
                        units::Printed<units::Mass>{second, *mass}};
        }
    }
    return {};
}

}  // namespace skeinfall::yarn
