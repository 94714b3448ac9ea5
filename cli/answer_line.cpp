#include "answer_line.hpp"

#include <istream>
#include <ostream>

#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/make_words.hpp"
#include "skeinfall/project/thing_words.hpp"

#include "module.hpp"

namespace skeinfall::cli {

std::optional<std::string> answer_line(const World& world, const std::string& prompt,
                                       const std::vector<std::string>& likely) {
    std::string line;
    // Without the module a plain line will do.
    if (world.edits_lines) {
        static const auto edited =
            reinterpret_cast<LineEntry>(module_entry(line_module, line_entry));
        if (edited != nullptr) {
            *world.err << std::flush;
            return edited(prompt, likely, line) ? std::optional(line) : std::nullopt;
        }
    }
    *world.err << prompt << std::flush;
    if (!std::getline(*world.in, line)) return std::nullopt;
    return line;
}

bool says_nothing(const std::string& answer) {
    std::string plain(base::trimmed(exchange::plain_signs(answer)));
    while (!plain.empty() && (plain.back() == '.' || plain.back() == '!')) plain.pop_back();
    return project::is_thing(plain, project::Thing::unsaid);
}

}  // namespace skeinfall::cli
