#include "skeinfall/report/rescue_text.hpp"

#include <cstdint>
#include <vector>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/words.hpp"

namespace skeinfall::report {

std::string rescue_words(const std::string& one, std::size_t entered, bool counted,
                         std::size_t sound, std::size_t doubtful, std::size_t undone,
                         std::size_t left_out, std::size_t lost) {
    std::vector<std::string> parts{std::to_string(sound) + " sound",
                                   std::to_string(doubtful) + " doubtful",
                                   std::to_string(lost) + " lost"};
    if (left_out > 0) parts.push_back(std::to_string(left_out) + " of no use without what is lost");
    if (undone > 0) parts.push_back(std::to_string(undone) + " undone earlier");
    return std::string(counted ? "" : "at least ") +
           report::counted(static_cast<std::int64_t>(entered), one, one + "s") +
           " entered: " + base::join(parts, ", ") +
           (counted ? "\n" : "; how many there were is lost too\n");
}

}  // namespace skeinfall::report
