// The corpus of rows: every line is read, and comes to its count.

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "helpers.hpp"
#include "page_reading.hpp"

namespace skeinfall::notation {
namespace {

struct Piece {
    std::string head;
    std::size_t line = 0;
    std::vector<std::string> texts;
    std::vector<std::string> counts;
};

std::vector<Piece> pieces_of(const std::filesystem::path& file) {
    std::vector<Piece> out;
    std::ifstream in(file);
    std::string line;
    for (std::size_t number = 1; std::getline(in, line); ++number) {
        if (line.empty() || line.front() == '#') continue;
        if (line.starts_with("== ")) {
            out.push_back({line.substr(3), number, {}, {}});
            continue;
        }
        const auto mark = line.rfind(" ## ");
        EXPECT_NE(mark, std::string::npos) << file << ":" << number;
        if (out.empty() || mark == std::string::npos) continue;
        out.back().texts.push_back(line.substr(0, mark));
        out.back().counts.push_back(line.substr(mark + 4));
    }
    return out;
}

NotationOptions options_of(const std::string& head) {
    std::istringstream words(head);
    std::string craft;
    std::string terms;
    std::string shape;
    words >> craft >> terms >> shape;
    NotationOptions options;
    options.craft = craft == "knit" ? Craft::knit : Craft::crochet;
    options.terms = terms == "uk" ? Terms::uk : Terms::us;
    options.round = shape == "round";
    options.lenient = true;
    return options;
}

std::string state_of(const RowReading& reading) {
    switch (reading.state) {
        case RowReading::State::foundation:
        case RowReading::State::read:
            return "";
        default:
            break;
    }
    std::string why = reading.problem ? reading.problem->what : "";
    for (const Finding& finding : reading.findings) why += " | " + finding.what;
    return why;
}

/// A page as it is pasted, each line with the stitches that are on the needle behind it.
void expect_page(const Piece& piece, const std::string& where) {
    std::string text = "A thing\n\n";
    for (const std::string& line : piece.texts) text += line + '\n';
    const Document document = knit_page(text);
    std::vector<std::string> got(piece.texts.size(), "-");
    for (const Section& section : document.sections)
        for (std::size_t i = 0; i < section.readings.size(); ++i) {
            const std::size_t line = section.reading_lines[i];
            if (line < 3 || line - 3 >= got.size()) continue;
            const RowReading& reading = section.readings[i];
            const std::string why = state_of(reading);
            std::string& mine = got[line - 3];
            if (!why.empty())
                mine = why;
            else if (reading.stitches && (mine.find(' ') == std::string::npos))
                mine = std::to_string(whole(*reading.stitches));
        }
    for (std::size_t i = 0; i < got.size(); ++i)
        EXPECT_EQ(got[i], piece.counts[i]) << where << " " << piece.texts[i];
    EXPECT_TRUE(lines_that_may_work(document).empty()) << where;
}

TEST(Corpus, EveryLineComesToItsCount) {
    std::size_t lines = 0;
    const std::filesystem::path folder =
        std::filesystem::path(SKEINFALL_SOURCE_DIR) / "tests/notation/corpus";
    std::vector<std::filesystem::path> files;
    for (const auto& entry : std::filesystem::directory_iterator(folder))
        files.push_back(entry.path());
    std::sort(files.begin(), files.end());
    for (const auto& file : files)
        for (const Piece& piece : pieces_of(file)) {
            const std::string where = file.filename().string() + ":" + std::to_string(piece.line);
            lines += piece.texts.size();
            if (piece.head.starts_with("page")) {
                expect_page(piece, where);
                continue;
            }
            std::vector<WrittenRows> entries;
            for (const std::string& text : piece.texts) entries.push_back({text, std::nullopt});
            const NotationResult result = work_rows(entries, options_of(piece.head));
            EXPECT_TRUE(result.problems.empty()) << where << " " << problems(result).front();
            std::vector<std::string> got(piece.texts.size(), "not worked");
            for (const RowReading& reading : result.readings) {
                if (reading.entry >= got.size()) continue;
                std::string& mine = got[reading.entry];
                const std::string why = state_of(reading);
                if (!why.empty())
                    mine = why;
                else if (reading.stitches && mine.find(' ') != std::string::npos)
                    mine = std::to_string(whole(*reading.stitches));
                else if (reading.stitches)
                    mine = std::to_string(whole(*reading.stitches));
                else if (mine == "not worked")
                    mine = "-";
            }
            for (std::size_t i = 0; i < got.size(); ++i)
                if (piece.counts[i] != "-") {
                    EXPECT_EQ(got[i], piece.counts[i])
                        << where << " " << piece.head << ": " << piece.texts[i];
                }
        }
    EXPECT_GE(lines, 400U);
}

}  // namespace
}  // namespace skeinfall::notation
