#include "skeinfall/exchange/pattern_toml.hpp"

#include <cstdint>
#include <filesystem>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/exchange/text_file.hpp"
#include "skeinfall/notation/document.hpp"
#include "skeinfall/notation/proposal_text.hpp"

namespace skeinfall::exchange {
namespace {

using State = notation::RowReading::State;

/// The text, and where its bytes stand.
struct Pasted {
    std::string text;
    notation::DocumentOptions options;
};

std::optional<Pasted> pasted(TomlTable& top, const SourceText& source) {
    Pasted out;
    if (top.has("pattern") && top.has("pattern_file")) {
        top.fail("pattern_file", "both a pattern and a file with one", "one of them",
                 "Leave one of the two lines out.");
        return std::nullopt;
    }
    if (const TomlValue* value = top.value("pattern")) {
        auto text = top.text_of("pattern", *value, largest_file);
        if (!text) return std::nullopt;
        out.text = std::move(*text);
        out.options.file = source.file();
        const std::size_t offset = value->offset;
        out.options.place = [&source, offset](std::string_view whole, std::size_t at) {
            return source.place_inside(offset, whole, at);
        };
        return out;
    }
    const auto name = top.text("pattern_file");
    if (!name) return std::nullopt;
    const std::filesystem::path file = std::filesystem::path(source.file()).parent_path() / *name;
    try {
        out.text = read_text_file(file);
    } catch (const base::InputError& error) {
        top.fail("pattern_file", error.problems().front().what, "a text file beside the project",
                 "Check the name of the file.");
        return std::nullopt;
    }
    out.options.file = file.string();
    return out;
}

}  // namespace

void refuse_what_is_not_read(TomlTable& top) {
    for (const TomlValue* value : top.values("not_read", top.list_size("not_read"))) {
        const auto line = top.text_of("not_read", *value, largest_file);
        if (!line) continue;
        top.fail_in_text("not_read", *value,
                         {"this line of the pattern may hold work, and nobody has read it",
                          {},
                          "its rows in a [[piece]], or its yarn in a [[finish]] part",
                          "Write it there, and take it out of not_read."});
    }
}

std::vector<project::Piece> read_pattern(TomlTable& top, const notation::NotationOptions& given,
                                         const std::string& role, const SourceText& source,
                                         ProblemList& problems) {
    std::vector<project::Piece> out;
    auto text = pasted(top, source);
    if (!text) return out;
    notation::DocumentOptions& options = text->options;
    options.craft = given.craft;
    options.terms = given.terms;
    options.own = given.own;
    options.row_gauge = given.row_gauge;
    for (options.size = 0; options.size < std::max<std::size_t>(1, given.sizes); ++options.size) {
        notation::Document document = notation::read_document(text->text, options);
        mark_what_is_open(document);
        if (given.sizes > 1 && document.sizes != given.sizes) {
            top.fail(top.has("pattern") ? "pattern" : "pattern_file",
                     fmt::format("the pattern gives figures for {} sizes", document.sizes),
                     fmt::format("{}, as the project names", given.sizes), "");
            return {};
        }
        const std::size_t before = problems.size();
        for (notation::Section& section : document.sections) {
            for (base::Problem& problem : section.problems) problems.add(std::move(problem));
            for (notation::RowReading& reading : section.readings)
                if (auto fault = notation::fault_of(reading)) problems.add(*std::move(fault));
        }
        for (const notation::DocumentPart& part : document.parts)
            if (part.work)
                problems.add({part.what == notation::DocumentPart::What::may_work
                                  ? "this line stands among the rows and may hold work"
                                  : "this line of the finish holds work, which no row counts",
                              {.file = options.file, .line = part.line, .column = 1},
                              "rows, or remarks without stitches",
                              "Write it as a row or as a [[finish]] part, or take it out."});
        if (document.sections.empty())
            top.fail(top.has("pattern") ? "pattern" : "pattern_file", "there is no row in it",
                     "rows such as \"Row 1: sc in each st across.\"");
        if (problems.size() != before) return {};
        for (std::size_t i = 0; i < document.sections.size(); ++i) {
            notation::Section& section = document.sections[i];
            if (options.size == 0) {
                project::Piece piece;
                piece.name = section.name.empty() ? fmt::format("part {}", i + 1) : section.name;
                piece.role = role;
                piece.worked = section.round ? project::Worked::round : project::Worked::flat;
                piece.count = project::PerSize<std::int64_t>(section.times);
                out.push_back(std::move(piece));
            }
            if (i >= out.size()) continue;
            if (options.craft == project::Craft::knit) section.rows.take_bind_off_out();
            out[i].pattern.values.push_back(std::move(section.rows));
        }
    }
    return out;
}

}  // namespace skeinfall::exchange
