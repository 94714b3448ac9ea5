#pragma once
/// \file
/// Whole knitting pages, read with a row gauge and a wished length.

#include <string>
#include <vector>

#include "skeinfall/notation/document.hpp"

#include "helpers.hpp"

namespace skeinfall::notation {

inline Document knit_page(const std::string& text) {
    DocumentOptions options;
    options.craft = Craft::knit;
    options.row_gauge = 20.0 * units::row / (10.0 * units::centimetre);
    options.desired = 10.0 * units::centimetre;
    return read_document(text, options);
}

/// "8 x 40": rows and stitches of each line of rows; what is not read, or does not fit, has a "?".
inline std::vector<std::string> rows_told(const Document& document) {
    using State = RowReading::State;
    std::vector<std::string> out;
    for (const Section& section : document.sections)
        for (const RowReading& reading : section.readings) {
            if (reading.rows == 0 && reading.state == State::read) continue;
            const bool fine = reading.state == State::read || reading.state == State::foundation ||
                              reading.state == State::two_ways;
            out.push_back(
                std::to_string(reading.rows) + " x " +
                (fine && reading.stitches ? std::to_string(whole(*reading.stitches)) : "?"));
        }
    return out;
}

inline std::vector<std::string> lines_that_may_work(const Document& document) {
    std::vector<std::string> out;
    for (const DocumentPart& part : document.parts)
        if (part.what == DocumentPart::What::may_work) out.push_back(part.text);
    return out;
}

}  // namespace skeinfall::notation
