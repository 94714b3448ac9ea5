#include "skeinfall/exchange/file_kind.hpp"

#include <algorithm>
#include <cstddef>

#include "skeinfall/base/text.hpp"

namespace skeinfall::exchange {
namespace {

constexpr std::size_t looked_at = 4096;

/// As somebody would type it behind a command.
std::string as_typed(const std::string& file) {
    const std::string shown = base::shown_inert(file);
    return shown.find(' ') == std::string::npos ? shown : "\"" + shown + "\"";
}

std::string what_is_wanted(Wanted wanted) {
    switch (wanted) {
        case Wanted::project:
            return "a project file";
        case Wanted::pattern:
            return "a pattern as plain text";
        case Wanted::sheet:
            return "a table saved as CSV";
        case Wanted::section:
            break;
    }
    return "a materials section";
}

/// How to have the words of a file that a word processor or a printer understands.
std::string how_to_save(Wanted wanted) {
    if (wanted == Wanted::sheet) return "Save the table as CSV, and import that.";
    return "Save it as plain text (.txt), or copy its words into a new text file.";
}

/// "Brand,Name,Left": names with one sign between them, in two lines alike.
bool looks_like_table(std::string_view text) {
    const std::size_t end = text.find('\n');
    const std::string_view first = base::trimmed(text.substr(0, end));
    if (first.empty() || first.front() == '[' || first.front() == '#' ||
        first.find('=') != std::string_view::npos)
        return false;
    const std::string_view second = end == std::string_view::npos
                                        ? std::string_view()
                                        : text.substr(end + 1, text.find('\n', end + 1) - end - 1);
    for (const char sign : {',', ';', '\t'}) {
        const auto signs = std::count(first.begin(), first.end(), sign);
        if (signs < 1) continue;
        const bool alike =
            second.empty() || std::count(second.begin(), second.end(), sign) >= (signs + 1) / 2;
        const bool sentence = sign == ',' && (first.ends_with('.') || first.ends_with(':'));
        if (alike && !sentence) return true;
    }
    return false;
}

/// Rows of a pattern, by the words that begin them.
bool looks_like_pattern(std::string_view text) {
    for (const std::string& line : base::split(text, '\n')) {
        const std::string low = base::lower(base::trimmed(line));
        for (const std::string_view word : {"row ", "rows ", "rnd ", "rnds ", "round "})
            if (low.starts_with(word) && low.size() > word.size() && low[word.size()] >= '0' &&
                low[word.size()] <= '9')
                return true;
    }
    return false;
}

/// Begins with a key of a project, or with one of its tables.
bool looks_like_project(std::string_view text) {
    for (const std::string& line : base::split(text, '\n')) {
        const std::string_view plain = base::trimmed(line);
        if (plain.empty() || plain.front() == '#') continue;
        for (const std::string_view table : {"[gauge]", "[yarn.", "[[piece]]", "[[swatch]]"})
            if (plain.starts_with(table)) return true;
        const std::string_view key = base::trimmed(plain.substr(0, plain.find('=')));
        for (const std::string_view known : {"title", "craft", "terms", "made_for", "margin",
                                             "skill", "sizes", "tail", "notions", "care"})
            if (key == known && key.size() < plain.size()) return true;
        return false;
    }
    return false;
}

bool holds_nothing(std::string_view text) {
    for (const std::string& line : base::split(text, '\n')) {
        const std::string_view plain = base::trimmed(line);
        if (!plain.empty() && plain.front() != '#') return false;
    }
    return true;
}

/// What no text editor wrote.
std::optional<base::Problem> not_text(std::string_view bytes, Wanted wanted) {
    const std::string expected = what_is_wanted(wanted);
    const auto problem = [&](std::string what, std::string remedy) {
        return base::Problem{std::move(what), {}, expected, std::move(remedy)};
    };
    if (bytes.starts_with("SQLite format 3")) {
        if (wanted == Wanted::sheet)
            return problem("this is a stash, not a table",
                           "To use it as your stash: skeinfall stash restore FILE");
        return problem("this is a stash", "Name it with --stash, beside the file that is wanted.");
    }
    if (bytes.starts_with("%PDF-")) return problem("this is a PDF", how_to_save(wanted));
    if (bytes.starts_with("PK\x03\x04"))
        return problem("this is a document of an office program", how_to_save(wanted));
    if (bytes.starts_with("\xff\xfe") || bytes.starts_with("\xfe\xff"))
        return problem("this is saved as Unicode with two bytes a letter (UTF-16)",
                       "Save the file again with the encoding UTF-8.");
    if (bytes.substr(0, looked_at).find('\0') != std::string_view::npos)
        return problem("this is not text, but a file for programs",
                       "Check that it is the right file.");
    return std::nullopt;
}

}  // namespace

std::optional<base::Problem> other_kind(std::string_view bytes, const std::string& file,
                                        Wanted wanted) {
    auto out = not_text(bytes, wanted);
    const std::string name = as_typed(file);
    const std::string expected = what_is_wanted(wanted);
    if (out) {
        if (const std::size_t at = out->remedy.find("FILE"); at != std::string::npos)
            out->remedy.replace(at, 4, name);
    } else if (wanted == Wanted::project && holds_nothing(bytes)) {
        out = base::Problem{"the file is empty",
                            {},
                            expected,
                            "\"skeinfall new\" writes one from questions, \"skeinfall help "
                            "project\" prints one to copy."};
    } else if (looks_like_project(bytes)) {
        if (wanted != Wanted::project)
            out = base::Problem{
                "this is a project file", {}, expected, "To check it: skeinfall check " + name};
    } else if (wanted == Wanted::project && looks_like_pattern(bytes)) {
        out = base::Problem{
            "this is a pattern in words",
            {},
            expected,
            "To make a project of it: skeinfall read " + name + " --save pattern.toml"};
    } else if (wanted == Wanted::section && looks_like_pattern(bytes)) {
        out = base::Problem{"this is a pattern, without a materials section",
                            {},
                            expected,
                            "To check its rows: skeinfall read " + name};
    } else if (wanted != Wanted::sheet && looks_like_table(bytes) &&
               (wanted == Wanted::project || base::lower(file).ends_with(".csv"))) {
        // Words with commas between them begin many a pattern.
        out = base::Problem{"this is a table",
                            {},
                            expected,
                            "To load it into the stash: skeinfall stash import " + name};
    }
    if (out) out->place = {.file = file, .line = 0, .column = 0};
    return out;
}

}  // namespace skeinfall::exchange
