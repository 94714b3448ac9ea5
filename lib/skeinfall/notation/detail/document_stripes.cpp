// Crochet: stripes told in one line, "Rows 3-40: Repeat row 2 in this colour sequence: 4 rows MC,
// 2 rows A". Each stripe becomes a line of its own.

#include <algorithm>
#include <cctype>
#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/document_reader.hpp"

namespace skeinfall::notation {
namespace {

struct ToldStripe {
    std::int64_t rows = 0;
    std::string yarn;
};

std::int64_t rows_figure(const std::string& word) {
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
std::vector<ToldStripe> stripes_of(const std::string& text) {
    std::vector<ToldStripe> out;
    const auto words = words_of(text);
    for (std::size_t i = 0; i < words.size();) {
        if (one_of(words[i], {",", ";", "and", ".", "-", ":", "then", "*"})) {
            ++i;
            continue;
        }
        ToldStripe stripe;
        stripe.rows = rows_figure(words[i]);
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
        std::vector<ToldStripe> stripes = stripes_of(list);
        for (ToldStripe& stripe : stripes)  // as it is written: "MC"
            if (const auto found = low.find(' ' + stripe.yarn, colon); found != std::string::npos)
                stripe.yarn = lines_[at].text.substr(found + 1, stripe.yarn.size());
        std::int64_t row = rows_figure(words[1]);
        const std::int64_t last = rows_figure(words[3]);
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

namespace {

struct ColourRun {
    std::int64_t count = 0;
    std::string yarn;
    std::string stitch;
};

/// "a", "mc", "cc1": a yarn by a letter or a short form.
bool short_yarn(const std::string& word) {
    return (word.size() == 1 && word[0] >= 'a' && word[0] <= 'h') || word == "mc" ||
           (word.starts_with("cc") && word.size() < 4);
}

/// "3a", "a3": both halves of it.
std::optional<ColourRun> glued_run(const std::string& word) {
    ColourRun run;
    std::string figures;
    for (const char c : word) (digit(c) ? figures : run.yarn) += c;
    const bool parted = word == figures + run.yarn || word == run.yarn + figures;
    run.count = rows_figure(figures);
    return parted && run.count > 0 && run.yarn.size() == 1 && short_yarn(run.yarn)
               ? std::optional<ColourRun>(run)
               : std::nullopt;
}

/// "A A A B B", "AAABB": each stitch by its yarn.
std::vector<ColourRun> letters_of(const std::vector<std::string>& words) {
    std::string all;
    for (const std::string& word : words) {
        if (one_of(word, {",", ".", ":", "-"})) continue;
        if (word.size() > 1 && words.size() > 3) return {};
        all += word;
    }
    constexpr std::size_t fewest = 4;
    if (all.size() < fewest ||
        std::any_of(all.begin(), all.end(), [](char c) { return c < 'a' || c > 'h'; }))
        return {};
    std::vector<ColourRun> out;
    for (const char c : all) {
        if (out.empty() || out.back().yarn[0] != c) out.push_back({0, std::string(1, c), {}});
        ++out.back().count;
    }
    return out;
}

/// "3A, 4B, 3A", "(A) x 3, (B) x 4", "3 sc in A, 4 sc in B": the runs of a row told by its yarns
/// alone; none where anything else stands among them.
std::vector<ColourRun> runs_of(const std::vector<std::string>& words, std::size_t from) {
    std::vector<ColourRun> out;
    if (auto letters = letters_of(words); !letters.empty()) return letters;
    for (std::size_t i = from; i < words.size();) {
        const auto at = [&](std::size_t by) {
            return i + by < words.size() ? words[i + by] : std::string();
        };
        if (one_of(words[i], {",", ";", ".", "and", "then", "-", ":"})) {
            ++i;
            continue;
        }
        ColourRun run;
        if (at(0) == "(" && short_yarn(at(1)) && at(2) == ")" && at(3) == "x" &&
            rows_figure(at(4)) > 0) {
            run = {rows_figure(at(4)), at(1), {}};
            i += 5;
        } else if (at(0) == "(" && rows_figure(at(1)) > 0 && at(2) == ")" && short_yarn(at(3))) {
            run = {rows_figure(at(1)), at(3), {}};
            i += 4;
        } else if (rows_figure(at(0)) > 0 && short_yarn(at(1))) {
            run = {rows_figure(at(0)), at(1), {}};
            i += 2;
        } else if (short_yarn(at(0)) && rows_figure(at(1)) > 0) {
            run = {rows_figure(at(1)), at(0), {}};
            i += 2;
        } else if (rows_figure(at(0)) > 0 && one_of(at(1), {"sc", "dc", "hdc"}) &&
                   one_of(at(2), {"in", "with", "of"}) && short_yarn(at(3))) {
            run = {rows_figure(at(0)), at(3), at(1)};
            i += 4;
        } else if (const auto glued = glued_run(at(0))) {
            run = *glued;
            ++i;
        } else {
            return {};
        }
        out.push_back(std::move(run));
    }
    return out;
}

}  // namespace

void DocumentReader::write_out_runs() {
    if (document_.craft != Craft::crochet) return;
    std::string stitch;
    std::vector<std::pair<Line*, std::string>> found;
    std::set<std::string> yarns;
    for (Line& line : lines_) {
        const auto words = words_of(line.text);
        if (words.empty()) continue;
        const std::size_t label = row_words(words);
        const auto colon = line.text.find(':');
        if (label == 0 || colon == std::string::npos || colon > 20) continue;
        const std::vector<ColourRun> runs = runs_of(words_of(line.text.substr(colon + 1)), 0);
        const bool rows = words[0].starts_with("row") || words[0] == "r";
        if (runs.empty()) {
            stitch.clear();
            for (const std::string& word : words)
                if (one_of(word, {"sc", "hdc", "dc"})) stitch = word;
            continue;
        }
        std::string text = line.text.substr(0, colon + 1);
        if (rows && stitch == "sc") text += " Ch 1, turn,";
        for (const ColourRun& run : runs) {
            const std::string& kind = run.stitch.empty() ? stitch : run.stitch;
            if (kind.empty()) return;
            std::string name = run.yarn;
            for (char& c : name) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
            text += fmt::format(" with {}, {} {},", name, run.count, kind);
            yarns.insert(run.yarn);
        }
        text.back() = '.';
        found.emplace_back(&line, std::move(text));
    }
    // A single such line, or a single yarn, may mean anything.
    if (found.size() < 2 || yarns.size() < 2) return;
    for (auto& [line, text] : found) {
        const std::size_t from = line->from.front();
        line->text = std::move(text);
        line->from.assign(line->text.size(), from);
    }
}

}  // namespace skeinfall::notation
