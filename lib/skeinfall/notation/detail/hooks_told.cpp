#include "skeinfall/notation/detail/hooks_told.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/line_kinds.hpp"

namespace skeinfall::notation {
namespace {

/// A hook as a sentence names it.
struct HookNamed {
    std::optional<units::Length> wide;
    char size = 0;         ///< "H"
    bool another = false;  ///< "change to", "a larger hook"
};

units::Length millimetres(std::string_view text) {
    return base::leading_number<double>(text) * units::millimetre;
}

std::optional<HookNamed> hook_named(const std::string& sentence) {
    const auto words = words_of(base::lower(sentence));
    const auto hook = std::find_if(words.begin(), words.end(), [](const std::string& word) {
        return word == "hook" || word == "hooks";
    });
    if (hook == words.end()) return std::nullopt;
    // "insert hook", "2nd ch from hook", "loops on hook"
    if (hook != words.begin() &&
        one_of(*(hook - 1), {"insert", "from", "on", "your", "remove", "the"}) &&
        !one_of(words[0], {"change", "switch"}))
        return std::nullopt;
    HookNamed out;
    for (std::size_t i = 0; i < words.size(); ++i) {
        const std::string& word = words[i];
        if (one_of(word, {"change", "changing", "switch", "switching", "larger", "smaller",
                          "bigger", "original"}))
            out.another = true;
        if (number(word) && i + 1 < words.size() && words[i + 1] == "mm") {
            std::string value = word;  // "5", "." and "5"
            if (i > 1 && words[i - 1] == "." && number(words[i - 2]))
                value = words[i - 2] + "." + word;
            out.wide = millimetres(value);
        }
        if (word.size() > 2 && word.ends_with("mm") && digit(word[0])) out.wide = millimetres(word);
        if (word.size() == 1 && word != "a" && letter(word[0]) &&
            words.begin() + static_cast<std::ptrdiff_t>(i) + 3 >= hook &&
            words.begin() + static_cast<std::ptrdiff_t>(i) < hook)
            out.size = word[0];
    }
    return out;
}

/// "Join new colour.", "Switch to PINK YARN.", "change colour every 2 rows": another yarn, and not
/// which of those that the make has.
bool another_yarn(const std::string& sentence) {
    const auto words = words_of(base::lower(sentence));
    const auto has = [&](Names names) {
        return std::any_of(words.begin(), words.end(),
                           [&](const std::string& word) { return one_of(word, names); });
    };
    return has({"yarn", "yarns", "color", "colors", "colour", "colours"}) &&
           has({"new", "another", "different", "change", "changing", "switch", "switching"}) &&
           !has({"can", "may", "needle", "if", "optional"});
}

/// What is in hand, row by row.
class HookInHand {
  public:
    explicit HookInHand(std::optional<units::Length> wide) : wide_(wide) {}

    /// Whether `next` is another one. It is in hand from then on.
    bool changes_to(const HookNamed& next, bool rows_before) {
        bool other = next.another;
        if (next.wide && wide_) {
            constexpr double near = 0.01;
            other = std::abs((*next.wide - *wide_) / units::Length(1.0 * units::millimetre)) > near;
        } else if (next.size != 0 && size_ != 0) {
            other = next.size != size_;
        }
        if (next.wide || next.another) wide_ = next.wide;
        if (next.size != 0 || next.another) size_ = next.size;
        return other && rows_before;
    }

  private:
    std::optional<units::Length> wide_;
    char size_ = 0;
};

}  // namespace

void tell_other_tools(Document& document, const std::string& file) {
    HookInHand hand(document.hook);
    bool rows_before = false;
    std::vector<project::Finding> open;
    std::size_t from = 0;  // lines up to here are looked at
    const auto look = [&](const std::string& sentence, std::size_t line) {
        const auto named = hook_named(sentence);
        const bool hook = named && hand.changes_to(*named, rows_before);
        const bool yarn = rows_before && document.yarns.empty() && another_yarn(sentence);
        if (!hook && !yarn) return;
        base::Place place;
        place.file = file;
        place.line = line;
        place.column = 1;
        const std::string said = "\"" + base::shown_inert(sentence) + "\": ";
        if (hook)
            open.push_back({project::Severity::caution, place,
                            said + "these rows are reckoned by the gauge and the yarn of the hook "
                                   "before",
                            "Make a swatch with this hook too, or keep some yarn in reserve."});
        if (yarn)
            open.push_back({project::Severity::caution, place,
                            said + "which yarn that is is not said, so these rows count with those "
                                   "before",
                            "Name the yarn of each row, like: Row 3: With A, ch 1, ..."});
    };
    for (Section& section : document.sections)
        for (std::size_t i = 0; i < section.readings.size(); ++i) {
            RowReading& row = section.readings[i];
            const std::size_t line = section.reading_lines[i];
            for (const DocumentPart& part : document.parts)
                if (part.line > from && part.line < line &&
                    (part.what == DocumentPart::What::remark ||
                     part.what == DocumentPart::What::heading ||
                     part.what == DocumentPart::What::may_work))
                    look(part.text, part.line);
            from = line;
            for (const WordsAside& aside : row.aside) look(aside.words, line);
            if (row.rows > 0) {
                row.findings.insert(row.findings.end(), open.begin(), open.end());
                open.clear();
            }
            rows_before = rows_before || row.rows > 0;
        }
}

}  // namespace skeinfall::notation
