// Crochet: stripes told in one line, "Rows 3-40: Repeat row 2 in this colour sequence: 4 rows MC,
// 2 rows A". Each stripe becomes a line of its own.

#include <algorithm>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/document_reader.hpp"

namespace skeinfall::notation {
namespace {

struct Stripe {
    std::int64_t rows = 0;
    std::string yarn;
};

std::int64_t figure(const std::string& word) {
    return number(word) && word.size() < 5 ? base::leading_number<std::int64_t>(word) : 0;
}

/// "in the following colour sequence", "in this stripe pattern": where it begins; npos where no
/// line says so.
std::size_t sequence_at(const std::string& low) {
    for (const std::string_view word :
         {"color sequence", "colour sequence", "stripe sequence", "color order", "colour order",
          "stripe pattern", "striping sequence", "stripes as follows"}) {
        const auto found = low.find(word);
        if (found == std::string::npos) continue;
        for (const std::string_view lead : {" in the ", " in this ", " in ", " using the ",
                                            " with the ", " following the ", " working "})
            if (const auto at = low.rfind(lead, found); at != std::string::npos && found - at < 30)
                return at;
        return std::string::npos;
    }
    return std::string::npos;
}

/// "4 rows MC, 2 rows of A and 2 rows in B"; nothing where something else stands among them.
std::vector<Stripe> stripes_of(const std::string& text) {
    std::vector<Stripe> out;
    const auto words = words_of(text);
    for (std::size_t i = 0; i < words.size();) {
        if (one_of(words[i], {",", ";", "and", ".", "-", ":", "then", "*"})) {
            ++i;
            continue;
        }
        Stripe stripe;
        stripe.rows = figure(words[i]);
        if (stripe.rows < 1 || i + 2 >= words.size() ||
            !one_of(words[i + 1], {"row", "rows", "rnd", "rnds", "round", "rounds"}))
            return {};
        i += 2;
        while (i < words.size() &&
               one_of(words[i], {"of", "in", "with", "color", "colour", "each"}))
            ++i;
        for (; i < words.size() && letter(words[i][0]) && words[i] != "and" && words[i] != "then";
             ++i)
            stripe.yarn += (stripe.yarn.empty() ? "" : " ") + words[i];
        if (stripe.yarn.empty() || stripe.yarn.size() > 24) return {};
        out.push_back(std::move(stripe));
    }
    return out;
}

}  // namespace

void DocumentReader::part_stripes() {
    if (document_.craft != Craft::crochet) return;
    for (std::size_t at = 0; at < lines_.size(); ++at) {
        const std::string low = base::lower(lines_[at].text);
        const std::size_t sequence = sequence_at(low);
        if (sequence == std::string::npos) continue;
        const auto words = words_of(low.substr(0, sequence));
        const auto colon = low.find(':', sequence);
        const bool rounds = words.size() > 3 && words[0].find("nd") != std::string::npos;
        // "Rows 3-40: repeat row 2"
        if (colon == std::string::npos || words.size() < 7 || row_words(words) != 2 ||
            !number(words[1]) || !one_of(words[2], {"-", "to"}) || !number(words[3]))
            continue;
        const auto label = low.find(':');
        const std::string again = std::string(base::trimmed(
            lines_[at].text.substr(label + 1, sequence > label ? sequence - label - 1 : 0)));
        const auto repeats = words_of(again);
        const bool one_row = repeats.size() == 3 && one_of(repeats[0], {"rep", "repeat"}) &&
                             one_of(repeats[1], {"row", "rnd", "round"}) && number(repeats[2]);
        std::string list = low.substr(colon + 1);
        if (const auto stop = list.find('.'); stop != std::string::npos && stop + 1 < list.size()) {
            continue;  // more is told behind it
        }
        std::vector<Stripe> stripes = stripes_of(list);
        for (Stripe& stripe : stripes)  // as it is written: "MC"
            if (const auto found = low.find(' ' + stripe.yarn, colon); found != std::string::npos)
                stripe.yarn = lines_[at].text.substr(found + 1, stripe.yarn.size());
        std::int64_t row = figure(words[1]);
        const std::int64_t last = figure(words[3]);
        constexpr std::int64_t most = 400;
        if (!one_row || stripes.size() < 2 || row < 1 || last < row || last - row > most) continue;
        std::vector<Line> parts;
        for (std::size_t i = 0; row <= last; i = (i + 1) % stripes.size()) {
            const std::int64_t to = std::min(last, row + stripes[i].rows - 1);
            Line part = lines_[at];
            const std::string_view name = rounds ? "Rnd" : "Row";
            part.text = row == to ? fmt::format("{} {}: With {}, {}.", name, row, stripes[i].yarn,
                                                base::lower(again))
                                  : fmt::format("{}s {}-{}: With {}, {}.", name, row, to,
                                                stripes[i].yarn, base::lower(again));
            part.from.assign(part.text.size(), lines_[at].from.front());
            parts.push_back(std::move(part));
            row = to + 1;
        }
        lines_.erase(lines_.begin() + static_cast<std::ptrdiff_t>(at));
        lines_.insert(lines_.begin() + static_cast<std::ptrdiff_t>(at), parts.begin(), parts.end());
        at += parts.size() - 1;
    }
}

}  // namespace skeinfall::notation
