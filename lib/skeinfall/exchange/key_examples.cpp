#include "skeinfall/exchange/key_examples.hpp"

#include <algorithm>
#include <array>

namespace skeinfall::exchange {
namespace {

struct KeyExample {
    std::string_view key;
    std::string_view example;
};

constexpr auto known_examples = std::to_array<KeyExample>({{"title", "Cowl"},
                                                           {"name", "cowl"},
                                                           {"craft", "crochet"},
                                                           {"stitch", "hdc"},
                                                           {"stitches", "14 per 10 cm"},
                                                           {"rows", "10 per 10 cm"},
                                                           {"grist", "170 yd / 100 g"},
                                                           {"total", "380 yd"},
                                                           {"takes", "30 yd"},
                                                           {"width", "30 cm"},
                                                           {"widths", "30 cm"},
                                                           {"last_width", "20 cm"},
                                                           {"height", "15 cm"},
                                                           {"length", "1.5 m"},
                                                           {"lengths", "60 cm"},
                                                           {"along", "1.2 m"},
                                                           {"cut", "30 cm"},
                                                           {"across", "10 cm"},
                                                           {"marked", "10 m"},
                                                           {"ends", "15 cm"},
                                                           {"finish", "20 yd"},
                                                           {"mass", "14 g"},
                                                           {"scale", "1 g"},
                                                           {"tare", "25 g"},
                                                           {"before", "50 g"},
                                                           {"after", "36 g"},
                                                           {"area", "0.62 sq m"},
                                                           {"tail", "15 cm"},
                                                           {"margin", "10 %"},
                                                           {"confidence", "95 %"},
                                                           {"label_tolerance", "3 %"},
                                                           {"share", "40 %"},
                                                           {"colour", "sea green"},
                                                           {"colour_repeat", "4 m"},
                                                           {"first_wound_off", "2 m"},
                                                           {"carry_at_most", "3 cm"},
                                                           {"fibre", "100% wool"},
                                                           {"avoid", "wool"},
                                                           {"sizes", "S"},
                                                           {"hook", "5 mm"},
                                                           {"needle", "4 mm"},
                                                           {"multiple", "6 + 5"}});

}  // namespace

std::string_view key_example(std::string_view key) {
    const auto* const found = std::find_if(known_examples.begin(), known_examples.end(),
                                           [&](const KeyExample& one) { return one.key == key; });
    return found == known_examples.end() ? std::string_view() : found->example;
}

}  // namespace skeinfall::exchange
