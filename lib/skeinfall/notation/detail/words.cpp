#include "skeinfall/notation/detail/words.hpp"

#include <array>
#include <unordered_map>

#include "skeinfall/data/notation_words.hpp"

namespace skeinfall::notation {
namespace {

unsigned bit(Role role) {
    return 1U << static_cast<unsigned>(role);
}

std::unordered_map<std::string_view, unsigned> roles() {
    constexpr std::array<std::string_view, 11> names{"filler", "manner",  "finishing", "remark",
                                                     "work",   "group",   "prose",     "joining",
                                                     "tool",   "article", "assembly"};
    std::unordered_map<std::string_view, unsigned> out;
    for (const auto& row : data::notation_words)
        for (std::size_t role = 0; role < names.size(); ++role)
            if (row.role == names[role]) out[row.word] |= bit(static_cast<Role>(role));
    return out;
}

}  // namespace

bool has_role(std::string_view word, Role role) {
    static const std::unordered_map<std::string_view, unsigned> table = roles();
    const auto found = table.find(word);
    return found != table.end() && (found->second & bit(role)) != 0;
}

}  // namespace skeinfall::notation
