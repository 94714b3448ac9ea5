// Crochet: rows to a length that no row gauge closes, or that is left to the maker. What is
// proposed is a guess by the usual height of such rows; nothing is taken.

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/data/body_sizes.hpp"
#include "skeinfall/data/made_to_fit.hpp"
#include "skeinfall/notation/detail/document_reader.hpp"
#include "skeinfall/notation/detail/tokens.hpp"

namespace skeinfall::notation {
namespace {

using State = RowReading::State;

/// A row's height over the width of a stitch: swatches of one yarn and hook, common practice.
double height_over_width(std::string_view kind) {
    if (kind == "dc" || kind == "fpdc" || kind == "bpdc" || kind == "edc") return 1.75;
    if (kind == "hdc" || kind == "ehdc" || kind == "fphdc" || kind == "bphdc") return 1.3;
    if (kind == "tr") return 2.3;
    if (kind == "sl st") return 0.5;
    return 0.88;
}

/// Where "until", "till", "for" or "to" of an open length begins; npos where none does.
std::size_t length_begins(const std::string& low) {
    std::size_t at = std::string::npos;
    for (const std::string_view word : {" until ", " till ", " for ", " to "})
        at = std::min(at, low.find(word));
    return at;
}

std::optional<units::Length> largest_length(const std::string& low, std::size_t size,
                                            std::size_t sizes) {
    std::optional<units::Length> out;
    for (const Token& token : tokens_of(low, size, sizes).tokens)
        if (token.kind == TokenKind::length && (!out || *out < token.length)) out = token.length;
    return out;
}

bool listed(std::string_view list, std::string_view word, char sign) {
    for (const std::string& one : base::split(std::string(list), sign))
        if (one == word) return true;
    return false;
}

/// The middle of what a table says of this make for this person, along or across it.
std::optional<units::Length> usual_size(std::string_view of, std::string_view who, bool along) {
    for (const auto& row : data::body_sizes) {
        if (row.of != of || !listed(row.who, who, ';')) continue;
        const auto least = base::leading_number<double>(along ? row.along_least : row.across_least);
        const auto most = base::leading_number<double>(along ? row.along_most : row.across_most);
        if (most <= 0.0) continue;
        return (least + most) / 2.0 * (row.unit == "cm" ? 0.01 : 0.0254) * units::metre;
    }
    return std::nullopt;
}

}  // namespace

/// How long a make is that the pattern leaves to its maker: its finished size, else what such makes
/// usually measure.
std::optional<units::Length> DocumentReader::usual_length() const {
    std::optional<units::Length> out;
    for (const DocumentPart& part : document_.parts)
        if (part.what == What::size)
            if (const auto length =
                    largest_length(base::lower(part.text), options_->size, document_.sizes);
                length && (!out || *out < *length))
                out = length;
    if (out) return out;
    const auto title = words_of(document_.title);
    const auto says = [&](std::string_view word) {
        return std::find(title.begin(), title.end(), word) != title.end();
    };
    std::string_view who = "adult";
    for (const std::string_view other : {"baby", "newborn", "toddler", "child"})
        if (says(other)) who = other;
    for (const auto& row : data::made_to_fit) {
        bool mine = says(row.make);
        for (const std::string& name : base::split(std::string(row.also_called), '|'))
            mine = mine || base::lower(document_.title).find(name) != std::string::npos;
        if (!mine) continue;
        // One that is worked sideways is as long as what it goes round.
        const bool round = row.sideways == "yes" && row.across_of == "head";
        const std::string_view of = round ? row.across_of : row.along_of;
        if (of.empty()) return std::nullopt;
        return usual_size(of, who, !round);
    }
    return std::nullopt;
}

/// The usual height of the rows of a section, by their stitch and the pattern's gauge or hook.
units::Length DocumentReader::usual_row(const Section& section) const {
    constexpr double stitch_by_hook = 1.45;   // width of a stitch over the hook's diameter
    constexpr double usual_stitch = 0.00726;  // metres: 14 to 4 inches
    units::Length width = usual_stitch * units::metre;
    if (document_.hook) width = stitch_by_hook * *document_.hook;
    if (document_.stitch_gauge) width = 1.0 * units::stitch / *document_.stitch_gauge;
    std::string_view kind = "sc";
    for (const RowReading& reading : section.readings) {
        const project::KindCount* most = nullptr;
        for (const project::KindCount& one : reading.kinds)
            if (one.kind != "ch" && one.kind != "sl st" &&
                (most == nullptr || most->count < one.count))
                most = &one;
        if (most != nullptr) kind = most->kind;
    }
    return height_over_width(kind) * width;
}

void DocumentReader::propose_lengths() {
    if (document_.craft != Craft::crochet) return;
    for (Section& section : document_.sections) {
        std::int64_t before = 0;
        for (RowReading& reading : section.readings) {
            const std::int64_t rows = reading.rows;
            const bool unknown =
                reading.problem &&
                reading.problem->what.find("how many rows this length") != std::string::npos;
            const bool left = reading.problem &&
                              reading.problem->what.find("leaves this length") != std::string::npos;
            if ((unknown || left) && !reading.proposal)
                propose_length(section, reading, before, left);
            if (!reading.problem) before += rows;
        }
    }
}

void DocumentReader::propose_length(const Section& section, RowReading& reading,
                                    std::int64_t before, bool left) const {
    const std::string low = base::lower(reading.words);
    const std::size_t at = length_begins(low);
    const auto length =
        left ? usual_length() : largest_length(low, options_->size, document_.sizes);
    if (!length || at == std::string::npos) return;
    const auto gauge = options_->row_gauge ? options_->row_gauge : document_.row_gauge;
    const units::Length row = gauge ? 1.0 * units::row / *gauge : usual_row(section);
    const auto words = words_of(low);
    const bool part = std::any_of(words.begin(), words.end(), [](const std::string& word) {
        return one_of(word, {"strap", "handle", "cuff", "brim", "band", "tie", "foot", "hand"});
    });
    const bool two = low.find(" and ") < at || low.find(" & ") < at || low.find('-') < at;
    double whole = *length / row;
    if (low.find("for ") != at + 1 && !part && whole > static_cast<double>(before))
        whole -= static_cast<double>(before);
    std::int64_t rows = std::max<std::int64_t>(1, std::llround(whole));
    if (two && rows % 2 == 1) ++rows;
    Proposal proposal;
    proposal.words = reading.words;
    proposal.instead = fmt::format("{} for {} rows.", reading.words.substr(0, at), rows);
    proposal.guess = true;
    proposal.why = fmt::format("a guess for {}{}", left ? "such a make, " : "this length, ",
                               gauge ? "by the row gauge" : "by the usual height of such rows");
    reading.proposal = std::move(proposal);
}

/// A row that can be read two ways: its words with the count of the usual one.
void DocumentReader::propose_counts() {
    if (document_.craft != Craft::crochet) return;
    for (Section& section : document_.sections)
        for (RowReading& reading : section.readings) {
            if (reading.state != State::two_ways || reading.proposal || reading.declared ||
                !reading.stitches || reading.rows != 1)
                continue;
            const bool doubt = std::any_of(reading.findings.begin(), reading.findings.end(),
                                           [](const project::Finding& one) {
                                               return one.severity == project::Severity::caution &&
                                                      one.remedy.find("count") != std::string::npos;
                                           });
            if (!doubt) continue;
            Proposal proposal;
            proposal.words = reading.words;
            proposal.instead =
                fmt::format("{} ({} sts)", reading.words, std::llround(reading.stitches->value()));
            proposal.makes = *reading.stitches;
            proposal.guess = true;
            proposal.why = "where the usual reading is meant";
            reading.proposal = std::move(proposal);
        }
}

}  // namespace skeinfall::notation
