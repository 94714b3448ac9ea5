#include "answer_line.hpp"

#include <istream>
#include <ostream>

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

}  // namespace skeinfall::cli
