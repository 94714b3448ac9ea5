// Gauge and tools, as a pattern's page tells them.

#include <algorithm>
#include <cstdint>
#include <optional>
#include <regex>
#include <string>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/document_reader.hpp"

namespace skeinfall::notation {

namespace {

/// The number right before byte `at`: "4.5 ", "5\xc2\xbd ", "33 1/2 "; 0 where none stands there.
double amount_before(const std::string& text, std::size_t at) {
    static const std::regex form(
        R"((?:^|[^\d.,/])(\d{1,4}(?:\.\d{1,3})?)?(?: ?(\xc2[\xbc-\xbe]|\d/\d))? ?$)",
        std::regex::optimize);
    const std::size_t from = at > 16 ? at - 16 : 0;
    const std::string before = text.substr(from, at - from);
    std::smatch found;
    if (!std::regex_search(before, found, form)) return 0;
    double out = found[1].matched ? base::leading_number<double>(found[1].str()) : 0;
    const std::string part = found[2].matched ? found[2].str() : "";
    if (part == "\xc2\xbc") out += 0.25;
    if (part == "\xc2\xbd") out += 0.5;
    if (part == "\xc2\xbe") out += 0.75;
    if (part.size() == 3 && part[1] == '/' && part[2] != '0')
        out += base::leading_number<double>(part.substr(0, 1)) /
               base::leading_number<double>(part.substr(2));
    return out;
}

}  // namespace

/// "until tie measures 12 in" of the piece "Tie": all of it, from its cast-on.
void DocumentReader::name_own_length(const std::string& name, std::vector<Line>& lines) {
    const auto named = words_of(name);
    for (Line& line : lines) {
        const std::string low = base::lower(line.text);
        const auto until = low.find("until ");
        if (until == std::string::npos) continue;
        const auto words = words_of(low.substr(until + 6));
        const std::size_t own = !words.empty() && words[0] == "the" ? 1 : 0;
        if (own + 1 >= words.size() || !one_of(words[own + 1], {"measures", "is"}) ||
            std::find(named.begin(), named.end(), words[own]) == named.end())
            continue;
        const auto at = low.find(words[own], until + 6);
        const std::size_t from = line.from[at];
        line.text.replace(at, words[own].size(), "piece");
        line.from.erase(line.from.begin() + static_cast<std::ptrdiff_t>(at),
                        line.from.begin() + static_cast<std::ptrdiff_t>(at + words[own].size()));
        line.from.insert(line.from.begin() + static_cast<std::ptrdiff_t>(at), 5, from);
    }
}

/// "14 sts and 18 rows = 4 in in St st", where no heading says what it is.
bool DocumentReader::gives_gauge(const std::string& low) const {
    const auto words = words_of(low);
    if (document_.craft != Craft::knit || in_rows_ || words.size() < 6 || words.size() > 24 ||
        !number(words[0]) || !one_of(words[1], {"st", "sts", "stitches"}))
        return false;
    const auto has = [&](Names names) {
        return std::any_of(words.begin(), words.end(),
                           [&](const std::string& word) { return one_of(word, names); });
    };
    return has({"row", "rows", "rnds", "rounds"}) && has({"=", "to", "over", "per", "equals"}) &&
           has({"\"", "in", "inch", "inches", "cm"});
}

void DocumentReader::gauge_of(const Line& line) {
    const std::string low = base::lower(line.text);
    const bool said = zone_ == What::gauge || low.starts_with("gauge") ||
                      low.starts_with("tension") || gives_gauge(low);
    if (!said) return;
    const Tokens tokens = tokens_of(low, 0, 1);
    std::optional<double> stitches;
    std::optional<double> rows;
    std::optional<units::Length> length;
    // "7 sts = 2 in, 5 rows = 1 in": each by the length behind it, else by the first.
    std::optional<units::Length> of_stitches;
    std::optional<units::Length> of_rows;
    for (std::size_t i = 0; i + 1 < tokens.tokens.size(); ++i) {
        const Token& token = tokens.tokens[i];
        const Token& next = tokens.tokens[i + 1];
        if (token.kind == TokenKind::length) {
            if (!length) length = token.length;
            if (stitches && !of_stitches) of_stitches = token.length;
            if (rows && !of_rows) of_rows = token.length;
        }
        // "6 stitches per inch", "10 rows to the inch"
        if ((next.text == "inch" || next.text == "in") && next.kind == TokenKind::word &&
            one_of(token.text, {"per", "the", "an", "each"})) {
            if (!length) length = 0.0254 * units::metre;
            if (stitches && !of_stitches) of_stitches = 0.0254 * units::metre;
            if (rows && !of_rows) of_rows = 0.0254 * units::metre;
        }
        if (next.kind != TokenKind::word) continue;
        const double amount = amount_before(low, next.at);
        if (amount <= 0) continue;
        if (one_of(next.text, {"row", "rows", "rnds", "rounds", "r"})) {
            if (!rows) rows = amount;
        } else if ((one_of(next.text, {"st", "sts", "stitches"}) || book_->find(next.text)) &&
                   !stitches) {
            stitches = amount;
        }
        if (document_.gauge_stitch.empty() && book_->find(next.text) &&
            !one_of(next.text, {"st", "sts", "stitches", "row", "rows"}))
            document_.gauge_stitch = next.text;
    }
    // "16 sts and 20 rows in hdc"
    for (std::size_t i = 0; i + 1 < tokens.tokens.size(); ++i)
        if (document_.gauge_stitch.empty() && tokens.tokens[i].text == "in" &&
            tokens.tokens[i + 1].kind == TokenKind::word &&
            book_->find(tokens.tokens[i + 1].text) &&
            !one_of(tokens.tokens[i + 1].text, {"st", "sts", "stitches", "row", "rows"}))
            document_.gauge_stitch = tokens.tokens[i + 1].text;
    if (!length || *length <= units::Length{}) return;
    if (stitches && !document_.stitch_gauge && of_stitches.value_or(*length) > units::Length{})
        document_.stitch_gauge = *stitches * units::stitch / of_stitches.value_or(*length);
    if (rows && !document_.row_gauge && of_rows.value_or(*length) > units::Length{})
        document_.row_gauge = *rows * units::row / of_rows.value_or(*length);
}

void DocumentReader::tools_of(const Line& line) {
    const std::string low = base::lower(line.text);
    const bool hook = low.find("hook") != std::string::npos;
    const bool needle =
        low.find("needle") != std::string::npos && low.find("tapestry") == std::string::npos &&
        low.find("darning") == std::string::npos && low.find("yarn needle") == std::string::npos;
    if (!hook && !needle) return;
    for (const Token& token : tokens_of(low, 0, 1).tokens)
        if (token.kind == TokenKind::length && token.length < 0.03 * units::metre &&
            token.text.ends_with("mm")) {
            if (hook && !document_.hook) document_.hook = token.length;
            if (needle && !document_.needle) document_.needle = token.length;
            return;
        }
}

}  // namespace skeinfall::notation
