#include "skeinfall/exchange/detail/toml_slip.hpp"

#include <algorithm>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/key_examples.hpp"
#include "skeinfall/exchange/source_text.hpp"

namespace skeinfall::exchange::detail {
namespace {

bool holds_words(std::string_view text, std::string_view part) {
    return text.find(part) != std::string_view::npos;
}

/// What the parser puts between '...'.
std::string_view name_in_quotes(std::string_view parser) {
    const std::size_t from = parser.find('\'');
    const std::size_t to = parser.rfind('\'');
    return from < to ? parser.substr(from + 1, to - from - 1) : std::string_view();
}

/// The numbers of the lines that begin so.
std::string lines_beginning(std::string_view text, std::string_view begin) {
    std::vector<std::string> out;
    std::size_t number = 0;
    for (const std::string& line : base::split(text, '\n')) {
        ++number;
        const std::string_view plain = base::trimmed(line);
        if (!plain.starts_with(begin)) continue;
        const std::string_view rest = base::trimmed(plain.substr(begin.size()));
        if (begin.ends_with(']') || rest.starts_with('=')) out.push_back(std::to_string(number));
    }
    return out.size() < 2 ? "" : " (lines " + base::join(out, ", ") + ")";
}

base::Problem said_twice(std::string_view parser, std::string_view text) {
    const std::string name = base::shown_inert(name_in_quotes(parser));
    if (holds_words(parser, "table"))
        return {"[" + name + "] stands in the file more than once" +
                    lines_beginning(text, "[" + name + "]"),
                {},
                "each table once",
                name.starts_with("yarn.") ? "Call a second yarn [yarn.CC1]."
                                          : "Put their lines into one table."};
    return {"\"" + name + "\" stands twice in this part of the file",
            {},
            "one line for it",
            "Keep the line that is right."};
}

/// "title = cowl", "stitches = 96 sts".
base::Problem value_not_in_quotes(std::string_view line) {
    const std::size_t sign = line.find('=');
    const std::string_view key = base::trimmed(line.substr(0, sign));
    std::string_view value = base::trimmed(line.substr(sign + 1));
    if (const std::size_t remark = value.find(" #"); remark != std::string_view::npos)
        value = base::trimmed(value.substr(0, remark));
    const bool begins_list = value.starts_with('[') || value.starts_with('{');
    if (value.empty())
        return {"there is nothing behind the = of " + in_quotes(key),
                {},
                fmt::format("a value, as in {} = \"{}\"", base::shown_inert(key),
                            key_example(key).empty() ? "..." : key_example(key)),
                "Leave the line out where there is nothing to say."};
    if (begins_list)
        return {"this list cannot be read: " + in_quotes(value),
                {},
                "values in quotes with commas between them, as in [\"S\", \"M\"]",
                ""};
    if (value.front() == '"' || value.front() == '\'')
        return {"something stands behind the closing quote: " + in_quotes(value),
                {},
                "one text in quotes, as in title = \"Cowl\"",
                ""};
    std::string plain(value);
    std::erase(plain, '"');
    const bool number = plain.front() >= '0' && plain.front() <= '9';
    return {in_quotes(plain) + " is not in quotes",
            {},
            fmt::format("{} = \"{}\"", base::shown_inert(key), base::shown_inert(plain)) +
                (number ? ", or the number alone" : ""),
            ""};
}

/// One that opens is never closed.
bool lacks_quote(std::string_view line) {
    char open = '\0';
    for (std::size_t at = 0; at < line.size(); ++at) {
        const char sign = line[at];
        if (open == '\0' && sign == '#') break;
        if (open == '"' && sign == '\\')
            ++at;
        else if (open == '\0' && (sign == '"' || sign == '\''))
            open = sign;
        else if (sign == open)
            open = '\0';
    }
    return open != '\0';
}

}  // namespace

base::Problem toml_slip(std::string_view parser, std::string_view given, std::string_view text) {
    // What phones write for a straight quote.
    std::string straight(base::trimmed(given));
    for (const std::string_view curly : {"\u201c", "\u201d", "\u201e", "\u201f"})
        for (std::size_t at = straight.find(curly); at != std::string::npos;
             at = straight.find(curly, at))
            straight.replace(at, curly.size(), "\"");
    const std::string_view line = straight;
    if (holds_words(parser, "cannot redefine")) return said_twice(parser, text);
    if (line.starts_with('['))
        return {in_quotes(line) + " cannot be read as the beginning of a part",
                {},
                "[gauge], [yarn.MC] or [[piece]], alone on its line",
                ""};
    if (lacks_quote(line))
        return {"a quote is missing in this line: " + in_quotes(line),
                {},
                "one before the words and one behind them, as in title = \"Cowl\"",
                ""};
    if (holds_words(parser, "control character"))
        return {"a character that no text has stands in this line: " + in_quotes(line),
                {},
                "letters, figures and signs",
                "Type the line again."};
    if (holds_words(parser, "representable"))
        return {"this number is too large: " + in_quotes(line), {}, "a smaller one", ""};
    if (holds_words(parser, "nested"))
        return {"too many brackets open in this line: " + in_quotes(line), {}, "one list", ""};
    if (line.find('=') != std::string_view::npos && line.find('=') > 0)
        return value_not_in_quotes(line);
    return {in_quotes(line) + " is not a line of such a file",
            {},
            "a line like title = \"Cowl\", or a remark that begins with #",
            ""};
}

}  // namespace skeinfall::exchange::detail
