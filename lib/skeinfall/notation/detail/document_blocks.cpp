// Crochet from corner to corner, told by its blocks: "Row 3: Beg block, *block; rep from * across.
// (3 blocks)". Its first row shows what a block is; the rows above are written out.

#include <algorithm>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/document_reader.hpp"

namespace skeinfall::notation {
namespace {

/// What a block is made of, as row 1 says: "Ch 6, dc in 4th ch from hook, dc in next 2 ch".
struct CornerBlock {
    std::string stitch;
    std::int64_t chains = 0;  ///< that a row begins with
    std::int64_t from = 0;    ///< "4th ch from hook"
    std::string name;         ///< "block", "tile", "shell"
};

bool block_word(const std::string& word) {
    return one_of(word, {"block", "blocks", "tile", "tiles", "shell", "shells", "square", "squares",
                         "box", "boxes", "pixel", "pixels"});
}

std::int64_t blocks_figure(const std::string& word) {
    return digit(word[0]) && word.size() < 5 ? base::leading_number<std::int64_t>(word) : 0;
}

/// The number behind the last bracket: "(9 blocks)"; 0 where none counts blocks.
std::int64_t blocks_said(const std::vector<std::string>& words) {
    std::int64_t out = 0;
    for (std::size_t i = 0; i + 2 < words.size(); ++i)
        if (one_of(words[i], {"(", "["}) && number(words[i + 1]) && block_word(words[i + 2]))
            out = blocks_figure(words[i + 1]);
    return out;
}

std::optional<CornerBlock> block_of(const std::string& row) {
    const auto words = words_of(row);
    if (row_words(words) == 0 || blocks_said(words) != 1) return std::nullopt;
    CornerBlock out;
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (out.chains == 0 && one_of(words[i], {"ch", "chain"}) && i + 1 < words.size())
            out.chains = blocks_figure(words[i + 1]);
        if (out.stitch.empty() && one_of(words[i], {"dc", "hdc", "tr", "sc", "htr"}))
            out.stitch = words[i];
        if (i > 1 && words[i] == "from" && one_of(words[i - 1], {"ch", "chain", "st"}))
            out.from = blocks_figure(words[i - 2]);
        if (i > 1 && block_word(words[i]) && number(words[i - 1])) out.name = words[i];
    }
    if (out.stitch.empty() || out.chains < 4 || out.from < 2 || out.from != out.chains - 2)
        return std::nullopt;
    return out;
}

/// Whether behind the label only the names of blocks stand, and how they follow each other.
bool only_blocks(const std::vector<std::string>& words, std::size_t from, bool slips) {
    bool any = false;
    for (std::size_t i = from; i < words.size(); ++i) {
        const std::string& word = words[i];
        if (one_of(word, {"(", "["}) && i + 2 < words.size() && number(words[i + 1]) &&
            block_word(words[i + 2]))
            return any;
        any = any || block_word(word);
        if (slips &&
            one_of(word, {"sl",   "st",   "sts", "ss",    "slst",  "slip", "stitch", "stitches",
                          "over", "dc",   "hdc", "sp",    "space", "top",  "tops",   "along",
                          "ch-3", "ch-2", "up",  "first", "both",  "sides"}))
            continue;
        if (!block_word(word) && !number(word) &&
            !one_of(word, {":",        ".",     ",",      ";",          "*",          "-",
                           "turn",     "ch",    "beg",    "beginning",  "begin",      "work",
                           "worked",   "in",    "into",   "each",       "every",      "across",
                           "next",     "rep",   "repeat", "from",       "to",         "end",
                           "of",       "row",   "rows",   "the",        "make",       "made",
                           "previous", "first", "last",   "increase",   "inc",        "decrease",
                           "dec",      "then",  "and",    "increasing", "decreasing", "1st",
                           "with",     "more",  "one",    "a",          "on",         "1",
                           "until",    "you",   "have",   "below",      "another"}))
            return false;
    }
    return any;
}

/// "Beginning block (beg block): ch 6, ...", "CornerBlock: sl st in next ch-3 sp, ..."
bool names_block(const std::string& low) {
    const auto colon = low.find(':');
    if (colon == std::string::npos || colon > 40) return false;
    const auto words = words_of(low.substr(0, colon));
    return row_words(words) == 0 && std::any_of(words.begin(), words.end(), block_word) &&
           std::all_of(words.begin(), words.end(), [](const std::string& word) {
               return block_word(word) || one_of(word, {"beg", "beginning", "inc", "increase",
                                                        "dec", "decrease", "(", ")", "first", "-"});
           });
}

std::string row_of_blocks(const CornerBlock& block, bool more, bool fewer) {
    const std::int64_t space = block.from - 1;
    const std::string next =
        fmt::format("sl st in next ch-{0} sp, ch {0}, 3 {1} in same sp", space, block.stitch);
    std::string out =
        more ? fmt::format("Ch {}, turn, {} in {}{} ch from hook and in next 2 ch, *{}",
                           block.chains, block.stitch, block.from,
                           block.from == 2   ? "nd"
                           : block.from == 3 ? "rd"
                                             : "th",
                           next)
             : fmt::format(
                   "Ch 1, turn, sl st in next 3 {1} and in ch-{0} sp, ch {0}, 3 {1} in same sp, "
                   "*{2}",
                   space, block.stitch, next);
    out += fewer ? fmt::format("; rep from * to last block, sl st in last ch-{} sp.", space)
                 : std::string("; rep from * across.");
    return out;
}

}  // namespace

void DocumentReader::write_out_blocks() {
    if (document_.craft != Craft::crochet) return;
    std::optional<CornerBlock> block;
    std::int64_t before = 0;
    std::vector<Line*> told;  // "CornerBlock: sl st in next ch-3 sp, ...": the rows say it then
    for (Line& line : lines_) {
        const std::string low = base::lower(line.text);
        if (!block && names_block(low)) told.push_back(&line);
        if (const auto first = block_of(low)) {
            block = first;
            before = 1;
            continue;
        }
        if (!block) continue;
        auto words = words_of(low);
        if (words.empty()) continue;
        std::size_t label = row_words(words);
        if (label == 0) continue;
        std::int64_t rows = 1;
        if (label == 2 && number(words[1]) && label + 1 < words.size() &&
            one_of(words[label], {"-", "to"}) && number(words[label + 1])) {
            rows = blocks_figure(words[label + 1]) - blocks_figure(words[1]) + 1;
            label += 2;
        }
        const std::int64_t said = blocks_said(words);
        const bool more = low.find("increasing 1") != std::string::npos ||
                          low.find("increasing one") != std::string::npos;
        const bool fewer = low.find("decreasing 1") != std::string::npos ||
                           low.find("decreasing one") != std::string::npos;
        const bool slips = fewer || (said > 0 && said < before);
        if (!only_blocks(words, label, slips) || rows < 1 || (said == 0 && !more && !fewer)) {
            // written out, or told otherwise; a row that begins as row 1 did has a block more
            const std::string begins = fmt::format("ch {}", block->chains);
            const bool grows =
                said == 0 && rows == 1 && before > 0 && low.find(begins) != std::string::npos;
            before = grows ? before + 1 : said;
            continue;
        }
        const std::int64_t after = said > 0      ? said
                                   : before == 0 ? 0
                                   : more        ? before + rows
                                                 : before - rows;
        if (before == 0 || after < 1) {
            before = said;
            continue;
        }
        const std::int64_t change = after - before;
        if (change != rows && change != -rows && !(change == 0 && !more && !fewer)) {
            before = said;
            continue;
        }
        const auto colon = line.text.find(':');
        if (colon == std::string::npos || colon > 30) {
            before = said;
            continue;
        }
        const std::string written =
            fmt::format(" {} ({} {})", row_of_blocks(*block, change >= 0, change <= 0), after,
                        after == 1 ? "block" : "blocks");
        const std::size_t from = line.from[std::min(colon + 1, line.from.size() - 1)];
        line.text = line.text.substr(0, colon + 1) + written;
        line.from.resize(colon + 1);
        line.from.resize(line.text.size(), from);
        before = after;
        for (Line* const one : told) one->told = true;
    }
}

}  // namespace skeinfall::notation
