#pragma once
/// \file
/// A pattern as it was read: rows with their counts and their own words, what was set aside, and
/// where it could not be followed.

#include <string>

#include "skeinfall/notation/document.hpp"

namespace skeinfall::report {

/// Whether every line of rows was read and agrees with itself.
[[nodiscard]] bool reads_whole(const notation::Document& document);

/// The verdict, every line of rows with its count, and what is to be done.
[[nodiscard]] std::string reading_text(const notation::Document& document, const std::string& file);

/// {title, craft, terms, sizes, lines, lines_read, gauge, definitions: [{name, meaning, followed}],
/// sections: [{name, times, round, rows: [{line, words, first_row, rows, state, stitches, declared,
/// kinds, findings, problem, set_aside, colours: [{yarn, stitches, carried}]}]}], where `colours`
/// is only there for a row that several yarns work; parts: [{line, what, text}]}
[[nodiscard]] std::string reading_json(const notation::Document& document);

}  // namespace skeinfall::report
