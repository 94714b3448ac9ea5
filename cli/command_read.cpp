#include <iostream>
#include <iterator>
#include <optional>
#include <ostream>
#include <string>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/file_kind.hpp"
#include "skeinfall/exchange/pattern_project.hpp"
#include "skeinfall/exchange/text_file.hpp"
#include "skeinfall/notation/document.hpp"
#include "skeinfall/report/reading.hpp"
#include "skeinfall/units/parse.hpp"

#include "commands.hpp"
#include "exit_code.hpp"
#include "options.hpp"
#include "output_file.hpp"

namespace skeinfall::cli {
namespace {

std::string text_of(const std::optional<std::string>& file) {
    if (file && *file != "-") return exchange::read_text_file(*file);
    std::string text;
    std::istreambuf_iterator<char> in(std::cin);
    for (; in != std::istreambuf_iterator<char>() && text.size() <= exchange::largest_file; ++in)
        text += *in;
    if (text.size() > exchange::largest_file)
        throw base::InputError(
            base::Problem{"standard input is too long", {}, "at most 8 MiB", ""});
    return text;
}

notation::DocumentOptions options_of(const Values& values, const std::string& file) {
    notation::DocumentOptions options;
    options.file = file;
    if (const auto craft = values.one("craft")) {
        if (*craft != "crochet" && *craft != "knit")
            refuse_option("craft", base::quoted(*craft) + " is not a craft", "crochet or knit", "");
        options.craft = *craft == "knit" ? project::Craft::knit : project::Craft::crochet;
    }
    if (const auto terms = values.one("terms")) {
        const std::string low = base::lower(*terms);
        if (low != "us" && low != "uk")
            refuse_option("terms", base::quoted(*terms) + " are not one of the two terms",
                          "US or UK", "");
        options.terms = low == "uk" ? project::Terms::uk : project::Terms::us;
    }
    if (const auto rows = values.one("row-gauge")) {
        const auto parsed = units::parse_row_gauge(*rows);
        if (!parsed)
            refuse_option("row-gauge", parsed.problem().what, parsed.problem().expected,
                          "Write it like --row-gauge \"20 per 4 in\".");
        options.row_gauge = *parsed;
    }
    if (const auto length = values.one("length")) {
        const auto parsed = units::parse_length(*length);
        if (!parsed)
            refuse_option("length", parsed.problem().what, parsed.problem().expected,
                          "Write it like --length \"60 in\".");
        options.desired = *parsed;
    }
    if (const auto size = values.one("size")) {
        const auto parsed = units::parse_whole(*size);
        if (!parsed || *parsed < 1 || *parsed > 100)
            refuse_option("size", base::quoted(*size) + " is not the number of a size",
                          "1 for the first size, 2 for the next one", "");
        options.size = static_cast<std::size_t>(*parsed - 1);
    }
    return options;
}

/// A size that the pattern does not have is not another one.
void refuse_missing_size(const Values& values, const notation::Document& document) {
    const auto size = values.one("size");
    if (!size) return;
    const auto wanted = static_cast<std::size_t>(units::parse_whole(*size).value());
    if (wanted <= document.sizes) return;
    if (document.sizes == 1)
        refuse_option("size", "this pattern has one size", "no --size", "Leave --size out.");
    refuse_option("size", fmt::format("the pattern is written in {} sizes", document.sizes),
                  fmt::format("1 to {}", document.sizes), "");
}

}  // namespace

Command read_command() {
    Command command;
    command.name = "read";
    command.arguments = "[FILE]";
    command.summary = "a published pattern: its rows, their counts, and what to check";
    command.purpose =
        "Reads a pattern pasted whole from a file or from standard input. Finds title,\n"
        "materials, gauge, notes, stitches and rows. Each row is printed with its stitch\n"
        "count. Where a row cannot be followed, or its count disagrees, it says where\n"
        "and why. Lines that are not rows are listed.\n"
        "\n"
        "\"until piece measures 20 in\" is closed by the row gauge, of the pattern or by\n"
        "--row-gauge; \"to desired length\" needs --length. Exit code 1 when something\n"
        "needs your attention.";
    command.options = {{"craft",
                        "CRAFT",
                        "crochet or knit, where the text leaves it open",
                        false,
                        {"crochet", "knit"}},
                       {"terms", "TERMS", "US or UK names of stitches", false, {"US", "UK"}},
                       {"size", "NUMBER", "which of several sizes, from 1", false},
                       {"row-gauge", "GAUGE", "rows up a length, like \"20 per 4 in\"", false},
                       {"length", "LENGTH", "for rows \"to desired length\"", false},
                       replace_option(),
                       {"save", "FILE.toml", "write a project file with these rows", false},
                       format_option("text (default) or json")};
    command.examples = {{"skeinfall read hat.txt", "a pattern, row by row"},
                        {"skeinfall read hat.txt --save cap.toml", "a project file with its rows"}};
    command.yes = "every line of rows is read, and agrees";
    command.no = "something could not be followed, or does not agree";
    command.run = [](const Values& values, const World& world) -> int {
        const std::string format = format_of(values, {"text", "json"});
        const auto file = values.one(positional);
        const std::string name = file && *file != "-" ? *file : "standard input";
        const std::string text = text_of(file);
        if (const auto other = exchange::other_kind(text, name, exchange::Wanted::pattern))
            throw base::InputError(*other);
        if (base::first_invalid_utf8(text))
            throw base::InputError(base::Problem{"this is not plain text in UTF-8",
                                                 {.file = name, .line = 0, .column = 0},
                                                 "a text file",
                                                 "Save the pattern as plain text in UTF-8."});
        const notation::DocumentOptions options = options_of(values, name);
        notation::Document document = notation::read_document(text, options);
        exchange::mark_what_is_open(document);
        // What she says stands above the text, in the project that is saved too.
        if (options.row_gauge) document.row_gauge = options.row_gauge;
        refuse_missing_size(values, document);
        *world.out << (format == "json" ? report::reading_json(document)
                                        : report::reading_text(document, name));
        if (const auto save = values.one("save")) {
            write_output("save", *save, exchange::project_of_pattern(document), values, world);
            *world.err
                << "note: written: " << base::shown_inert(*save)
                << (report::reads_whole(document)
                        ? "\n"
                        : ", but it cannot be used yet: correct the lines marked above the rows\n");
        } else if (format == "text" && !document.sections.empty()) {
            *world.err << "note: --save NAME.toml writes these rows as a project file\n";
        }
        return report::reads_whole(document) ? done : not_so;
    };
    return command;
}

}  // namespace skeinfall::cli
