// Crochet: how many stitches a border has that is told by its edges alone. It is proposed, never
// taken.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/document_reader.hpp"

namespace skeinfall::notation {
namespace {

using State = RowReading::State;

std::int64_t whole_of(units::StitchCount count) {
    return std::llround(count.value());
}

/// Stitches along the end of a row of this kind, where no gauge tells: one for a single crochet.
double usual_height(std::string_view kind) {
    if (kind == "dc" || kind == "fpdc" || kind == "bpdc") return 2.0;
    if (kind == "hdc" || kind == "ehdc") return 1.5;
    if (kind == "tr") return 3.0;
    return 1.0;
}

struct Flat {
    std::int64_t rows = 0;
    std::int64_t last = 0;
    std::int64_t first = 0;
    double ends = 0.0;  ///< stitches along one side, by the usual heights
};

/// "..., join.", "sc in each st around": a round, whose edge is the whole piece's already.
bool goes_in_rounds(const std::string& text) {
    const std::string low = base::lower(text);
    return low.find("join") != std::string::npos || low.find("st around") != std::string::npos ||
           low.find("sts around") != std::string::npos || low.find("edge") != std::string::npos;
}

/// The rows of a section in their order, up to its first row that makes none of them flat.
Flat flat_rows(const Section& section) {
    Flat out;
    for (const RowReading& reading : section.readings) {
        if (reading.state == State::unread || reading.state == State::adrift) break;
        if (reading.rows > 0 && goes_in_rounds(reading.words)) return {};
        if (reading.rows > 0 && reading.stitches) out.rows += reading.rows;
    }
    out.rows = std::min(out.rows, static_cast<std::int64_t>(section.rows.order.size()));
    for (std::int64_t row = 0; row < out.rows; ++row) {
        const project::RowWork& work =
            section.rows.distinct[section.rows.order[static_cast<std::size_t>(row)]];
        if (row == 0) out.first = whole_of(work.made);
        out.last = whole_of(work.made);
        const project::KindCount* most = nullptr;
        for (const project::KindCount& kind : work.kinds)
            if (kind.kind != "ch" && (most == nullptr || most->count < kind.count)) most = &kind;
        if (most != nullptr) out.ends += usual_height(most->kind);
    }
    return out;
}

/// "3 sc in each corner", "(sc, ch 1, sc) in corner": how many; 1 where nothing is said.
std::int64_t in_corner(const std::vector<std::string>& words) {
    const auto figure = [&](std::size_t i) -> std::int64_t {
        return digit(words[i][0]) && words[i].size() < 5 ? base::leading_number<int>(words[i]) : 0;
    };
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (!words[i].starts_with("corner")) continue;
        std::int64_t sum = 0;
        for (std::size_t before = i; before-- > 0 && before + 14 > i;) {
            if (one_of(words[before], {".", "*", ";", "to", "until"})) break;
            const bool chain = before > 0 && one_of(words[before - 1], {"ch", "chain"});
            if (!chain && !words[before].ends_with("ch")) sum += figure(before);
        }
        if (sum > 0) return std::min<std::int64_t>(5, sum);
        for (std::size_t behind = i + 1; behind < words.size() && behind < i + 4; ++behind)
            if (figure(behind) > 0) return std::min<std::int64_t>(5, figure(behind));
    }
    return 1;
}

/// Whether the words go round a piece once, by its edges.
bool goes_round(const std::vector<std::string>& words) {
    bool edge = false;
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (one_of(words[i], {"rounds", "rnds", "rows"}) && i > 0 &&
            (number(words[i - 1]) ||
             one_of(words[i - 1], {"two", "three", "four", "of", "more", "several"})))
            return false;
        edge = edge || one_of(words[i], {"evenly", "edge", "edges", "around", "round", "sides",
                                         "corner", "corners", "outside", "perimeter"});
    }
    return edge;
}

/// "Border", "Edging": a heading of rows that go on from the piece above them.
bool names_border(const std::string& heading) {
    const auto words = words_of(heading);
    return std::any_of(words.begin(), words.end(), [](const std::string& word) {
        return one_of(word, {"border", "edging", "edge", "trim"});
    });
}

}  // namespace

/// Whether the heading here names a border, and what it goes round are pieces that were joined.
bool DocumentReader::round_joined_pieces() const {
    if (document_.craft != Craft::crochet || pending_.empty() || !has_rows_ ||
        !names_border(heading_))
        return false;
    const Section& above = pending_.back().section;
    if (above.joined_before) return false;
    if (above.times > 1) return true;
    return std::any_of(
        document_.parts.begin(), document_.parts.end(), [&](const DocumentPart& part) {
            if (part.line <= pending_.back().lines.back().number) return false;
            const auto words = words_of(part.text);
            const auto has = [&](Names names) {
                return std::any_of(words.begin(), words.end(),
                                   [&](const std::string& word) { return one_of(word, names); });
            };
            return has({"squares", "motifs", "hexagons", "blocks", "granny", "grannies",
                        "strips"}) &&
                   has({"join", "joining", "sew", "seam", "together", "make", "joined", "stitch"});
        });
}

/// "ARM (Make 2)" above "R1: 6 sc (6)": a piece of its own, though its first row names no base.
bool DocumentReader::other_piece(const Line& line) const {
    if (document_.craft != Craft::crochet || pending_.empty() || !has_rows_ || heading_.empty() ||
        names_border(heading_))
        return false;
    // What follows a piece that is made twice is no part of both.
    if (times_said(heading_) < 2 && pending_.back().section.times < 2) return false;
    const auto words = words_of(base::lower(line.text));
    return words.size() > 2 && (words[0] == "r1" || words[0] == "rnd1" ||
                                (row_words(words) == 2 && one_of("1", {words[1], words[2]})));
}

/// The stitch that a border is worked in, as the pattern writes it; empty where none is named.
std::string DocumentReader::border_stitch(const std::vector<std::string>& words) {
    for (std::size_t i = 0; i + 1 < words.size(); ++i)  // "single crochet"
        if (words[i + 1].starts_with("crochet"))
            if (const auto found = book_->find(words[i] + " crochet"))
                if (const Stitch& stitch = book_->at(found->kind);
                    one_of(stitch.name, {"sc", "hdc", "dc"}))
                    return stitch.written;
    for (const std::string& word : words) {
        std::string_view name = word;
        while (!name.empty() && digit(name.front())) name.remove_prefix(1);
        const auto found = name.empty() ? std::nullopt : book_->find(name);
        if (!found) continue;
        const Stitch& stitch = book_->at(found->kind);
        if (one_of(stitch.name, {"sc", "hdc", "dc", "rsc", "esc"})) return stitch.written;
    }
    return {};
}

std::optional<DocumentReader::Border> DocumentReader::border_of(
    const Section& section, const std::vector<std::string>& words) {
    const std::string stitch = border_stitch(words);
    const Flat flat = flat_rows(section);
    const bool even = std::llabs(flat.last - flat.first) * 5 <= flat.first;
    if (stitch.empty() || flat.rows < 2 || flat.first < 2 || !even || !goes_round(words))
        return std::nullopt;
    Border out;
    out.stitch = stitch;
    double side = flat.ends;
    out.how = "1 along a row of sc, 2 along one of dc";
    const auto row_gauge = options_->row_gauge ? options_->row_gauge : document_.row_gauge;
    const bool each_row = std::any_of(words.begin(), words.end(), [&](const std::string& word) {
        return one_of(word, {"row", "rows"}) && &word != words.data() &&
               one_of(*(&word - 1), {"each", "every"});
    });
    if (each_row) {
        side = static_cast<double>(flat.rows);
        out.how = "1 at each row's end";
    } else if (row_gauge && document_.stitch_gauge) {
        side = static_cast<double>(flat.rows) * units::row / *row_gauge * *document_.stitch_gauge /
               units::stitch;
        out.how = "by the gauge";
    }
    out.corner = in_corner(words);
    out.side = std::llround(side);
    out.ends = flat.first + flat.last;
    out.all = out.ends + 2 * out.side + 4 * (out.corner - 1);
    return out;
}

/// Rows and lines of the finish that go round by edges: what to write for them.
void DocumentReader::propose_borders() {
    if (document_.craft != Craft::crochet || document_.sections.empty()) return;
    for (std::size_t at = 0; at < document_.sections.size(); ++at) {
        Section& section = document_.sections[at];
        std::int64_t below = 0;
        for (RowReading& reading : section.readings) {
            // "sc around, 3 sc in each corner" of a piece of rows
            const bool round = std::any_of(
                reading.findings.begin(), reading.findings.end(), [](const project::Finding& one) {
                    return one.what.find("goes round a piece of rows") != std::string::npos;
                });
            if ((!reading.problem && !round) || reading.declared) continue;
            const auto words = words_of(reading.words);
            if (round && below == 0) {
                const auto border = border_of(section, words);
                if (!border) break;
                below = border->all;
                propose_round(reading, border->all, border->stitch);
                continue;
            }
            if (!reading.problem) continue;
            const bool first =
                below == 0 &&
                (reading.problem->what.find("evenly") != std::string::npos ||
                 reading.problem->what.find("how many row ends") != std::string::npos ||
                 (reading.problem->what.find("how often") != std::string::npos &&
                  goes_round(words)));
            if (first) {
                const bool own =
                    at > 0 && &reading == section.readings.data() && names_border(section.name);
                const auto border = border_of(own ? document_.sections[at - 1] : section, words);
                if (!border) break;
                below = border->all;
                reading.problem->remedy = border_text(*border, "");
                propose_round(reading, border->all, border->stitch);
            } else if (below > 0 && goes_round(words) && !border_stitch(words).empty()) {
                below += 4 * (in_corner(words) - 1);
                reading.problem->remedy = fmt::format(
                    "With the round below as proposed, write: ch 1, {} {} evenly "
                    "around the edge, join.",
                    below, border_stitch(words));
                propose_round(reading, below, border_stitch(words));
            }
        }
    }
    const Section& section = document_.sections.back();
    for (DocumentPart& part : document_.parts) {
        const bool asks =
            part.what == What::may_work || (part.what == What::finishing && part.work);
        if (!asks || part.line < section.line) continue;
        const auto words = words_of(part.text);
        if (part.text.find("round") != std::string::npos || goes_round(words))
            if (const auto border = border_of(section, words))
                part.remedy = border_text(*border, "Rnd 1: ");
    }
}

/// The same as a change to the row.
void DocumentReader::propose_round(RowReading& reading, std::int64_t count,
                                   const std::string& stitch) {
    if (reading.proposal) return;
    Proposal proposal;
    proposal.words = reading.words;
    proposal.instead = fmt::format("ch 1, {} {} evenly around the edge, join.", count, stitch);
    proposal.makes = static_cast<double>(count) * units::stitch;
    proposal.guess = true;
    proposal.why = "where it goes all round once";
    reading.proposal = std::move(proposal);
}

std::string DocumentReader::border_text(const Border& border, std::string_view label) const {
    return fmt::format(
        "Where it goes all round once, write: {}ch 1, {} {} evenly around the edge, join. "
        "({} along both ends, {} along each side, {}{})",
        label, border.all, border.stitch, border.ends, border.side, border.how,
        border.corner > 1 ? fmt::format(", {} in each corner", border.corner) : "");
}

}  // namespace skeinfall::notation
