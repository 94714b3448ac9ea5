#include "skeinfall/exchange/pattern_project.hpp"

#include <algorithm>
#include <cstdint>
#include <regex>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/format.h>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/count_words.hpp"
#include "skeinfall/exchange/detail/amounts_in.hpp"
#include "skeinfall/exchange/detail/main_stitch.hpp"
#include "skeinfall/exchange/pattern_materials.hpp"
#include "skeinfall/notation/proposal_text.hpp"
#include "skeinfall/units/format.hpp"

namespace skeinfall::exchange {
namespace {

/// A text as TOML writes it, in one line.
std::string quoted_text(std::string_view text) {
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') out += '\\';
        if (static_cast<unsigned char>(c) < 0x20)
            out += ' ';
        else
            out += c;
    }
    return out + "\"";
}

/// For a remark: nothing in it ends the line.
std::string one_line(std::string_view text) {
    std::string out;
    for (const char c : text) out += static_cast<unsigned char>(c) < 0x20 || c == 0x7f ? ' ' : c;
    return out;
}

std::string gauge_text(double per_4in) {
    return fmt::format("{} per 4 in",
                       units::plain_number(units::Ratio::from_value(per_4in),
                                           units::Step::hundredth, units::Rounding::nearest));
}

/// A table for each yarn of the materials list, with what the list says of it.
std::string yarn_tables(const notation::Document& document) {
    const std::vector<PatternYarn> yarns = yarns_of_pattern(document);
    const bool main = std::any_of(yarns.begin(), yarns.end(),
                                  [](const PatternYarn& yarn) { return yarn.id == "MC"; });
    std::string out;
    if (!main)
        out +=
            "\n[yarn.MC]\n# class = 4  (write your yarn's weight class, or grist = \"200 yd / 100 "
            "g\")\n";
    for (const PatternYarn& yarn : yarns) {
        out += fmt::format("\n[yarn.{}]\n# the pattern says: {}\n", yarn.id, one_line(yarn.said));
        if (!yarn.weight_class.empty())
            out += "class = " + yarn.weight_class + "\n";
        else if (yarn.grist.empty())
            out += "# class = 4  (write your yarn's weight class)\n";
        if (!yarn.grist.empty()) out += "grist = " + quoted_text(yarn.grist) + "\n";
        if (!yarn.total.empty()) out += "total = " + quoted_text(yarn.total) + "\n";
        if (yarn.unclear)
            out +=
                "# Its amounts may be of parts, of each or of several yarns, so no total is "
                "taken.\n";
    }
    return out;
}

/// What is looked at of a line: expressions take their steps one within the other.
std::string beginning_of(const std::string& text) {
    constexpr std::size_t longest = 2000;
    return text.substr(0, longest);
}

/// "Fringe: cut 112 strands 12 in long" as a part of the finish; empty for anything else.
std::string fringe_of(const std::string& text) {
    static const std::regex form(
        R"rx(\bcut\s+(\d+)\s+(?:strands?|lengths?|pieces?|strips?)\b[^.]{0,40}?\b(\d+(?:\.\d+)?)[ -]*(inch(?:es)?|in\b|cm\b|"|'')[^.]*)rx",
        std::regex::icase);
    std::smatch found;
    const std::string looked_at = beginning_of(text);
    if (base::lower(text).find("fringe") == std::string::npos ||
        !std::regex_search(looked_at, found, form))
        return {};
    const std::string unit = base::lower(found[3].str());
    return fmt::format(
        "\n# {}\n[[finish]]\nkind = \"fringe\"\nname = \"fringe\"\nstrands = {}\ncut = \"{} {}\"\n",
        one_line(text), found[1].str(), found[2].str(), unit == "cm" ? "cm" : "in");
}

/// The parts of the finish that the pattern gives figures for. A total that the pattern states
/// holds them.
std::string finish_parts(const notation::Document& document) {
    const std::vector<PatternYarn> yarns = yarns_of_pattern(document);
    std::string out;
    for (const notation::DocumentPart& part : document.parts) {
        std::string fringe = part.work ? fringe_of(part.text) : "";
        if (!fringe.empty() && yarns.size() > 1)
            fringe += "yarn = " + quoted_text(yarns.front().id) + "\n";
        out += fringe;
    }
    return out;
}

/// "Mittens (make 2)": the number that a title or a heading counts; 1 where it counts none.
std::int64_t counted_by_name(const std::string& name) {
    const std::string counted = counted_in_figures(name);
    static const std::regex front(R"(^(\d{1,3}) )");
    std::smatch found;
    if (counted == name || !std::regex_search(counted, found, front)) return 1;
    return base::leading_number<std::int64_t>(found[1].str());
}

/// A heading such as "Mittens" over the rows of one of them.
bool one_of_a_pair(const notation::Document& document, const notation::Section& section) {
    const bool alone = document.sections.size() == 1;
    return section.times == 1 &&
           (comes_in_pairs(section.name) || (alone && comes_in_pairs(document.title)));
}

/// A total for every yarn holds all that is done with them.
bool has_totals(const notation::Document& document) {
    const std::vector<PatternYarn> yarns = yarns_of_pattern(document);
    return !yarns.empty() && std::all_of(yarns.begin(), yarns.end(), [](const PatternYarn& yarn) {
        return !yarn.total.empty();
    });
}

/// "Make 6.", "Work both alike", "x6", "Now make another one": a line that counts copies.
bool says_copies(const notation::DocumentPart& part) {
    using Kind = notation::DocumentPart::What;
    if (part.what == Kind::title || part.what == Kind::heading ||
        part.what == Kind::abbreviations || part.what == Kind::stitches || part.what == Kind::size)
        return false;
    static const std::regex copies(
        R"(\b(?:make|makes|made|work|knit|crochet|repeat for)\s+(?:up\s+)?(?:a\s+)?(?:the\s+)?(?:set of\s+)?(?:[2-9]|[1-9]\d+|two|three|four|five|six|seven|eight|nine|ten|twelve|another|a second|second|other|both)\b(?!\s*,\s*(?:p|purl)\b|\s*(?:rows?|rounds?|rnds?|r\b|tog|sts?\b|stitch|ch\b|chains?|sc\b|dc\b|hdc\b|tr\b|more\s+(?:rows?|rounds?|rnds?)|inch|in\b|cm\b|times|repeats?|sides?|edges?|ends?|colou?rs?|buttons?|beads?|markers?|needles?|hooks?|dpns?|loops?|balls?|skeins?|yds?|yards?|g\b))|\b(?:both|all)\s+alike\b|^\W*x\s*\d+\W*$|\bset of\s+(?:[2-9]|[1-9]\d+|two|three|four|five|six|eight|ten|twelve)\b(?!\s+(?:\S+\s+){0,8}(?:buttons?|beads?|markers?|needles?|hooks?|dpns?)))",
        std::regex::icase);
    return std::regex_search(beginning_of(part.text), copies);
}

/// "You will need 20 squares.", "6 rows of 8", "Make a pair.", "12 in A and 8 in B": how many there
/// are, in other words than "make 6". `things` are what the pattern makes, as alternatives.
bool says_how_many(const notation::DocumentPart& part, const std::string& things) {
    using Kind = notation::DocumentPart::What;
    // A heading of one word and its "Make 12 ..." may stand among the materials.
    const bool listed = part.what == Kind::materials && base::lower(part.text).starts_with("make ");
    if (part.what != Kind::remark && part.what != Kind::finishing && part.what != Kind::may_work &&
        !listed)
        return false;
    static const std::string many =
        R"((?:[2-9]|[1-9]\d+|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen|sixteen|eighteen|(?:twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety)(?:[ -][a-z]+)?))";
    static const std::regex plain(
        R"(\b\d+ rows? of \d+\b|\bmake (?:a|one) pair\b|^\W*(?:quantity|qty|number)\W+\d+|^\W*\d+\s*x\W*$|\b(?:make|work|crochet|knit)\s+)" +
            many +
            R"((?:\s*\.?\s*$|\s+in\s+(?:each|colou?r|[A-Z]\b|m\.?c|c\.?c)|\s+(?:of\s+)?each\b)|\b(?:make|need|needs|needed)\s+a\s+total\s+of\s+)" +
            many + R"(|\bneeds?\s+)" + many + R"(\W*$)",
        std::regex::icase);
    const std::string text = beginning_of(part.text);
    if (std::regex_search(text, plain)) return true;
    const std::regex named(R"(\b)" + many + R"(\s+(?:[a-z-]+\s+)?(?:)" + things + R"()\b)",
                           std::regex::icase);
    return std::regex_search(text, named);
}

/// "As back.", "Like the head but in pink.", "Front is the same.", "do it all again for the other
/// foot": a part that is worked like another. `sections` are those with rows, as alternatives.
bool says_another_part(const notation::DocumentPart& part, const std::string& sections) {
    using Kind = notation::DocumentPart::What;
    if (part.what != Kind::remark && part.what != Kind::heading) return false;
    static const std::regex plain(
        R"(^\W*(?:the\s+)?same\W*$|^(?:the\s+)?\w+(?:\s+\w+)?\s+(?:is|are)\s+(?:made\s+|worked\s+)?(?:exactly\s+)?the\s+same\W*$|\b(?:make|work|knit|crochet|worked|made)\b[^.]{0,40}\b(?:the\s+)?same\s+(?:way|manner)\b|\bthen\s+do\s+the\s+other\b|\bagain\s+for\s+the\s+(?:other|second)\b)",
        std::regex::icase);
    const std::string text = beginning_of(part.text);
    if (std::regex_search(text, plain)) return true;
    if (sections.empty()) return false;
    const std::regex like(
        R"((?:^|\b)(?:as|like|same as|identical to|(?:instructions|directions) (?:for|of)|way as)\s+(?:for\s+)?(?:the\s+)?(?:first\s+)?(?:)" +
            sections + R"()\b)",
        std::regex::icase);
    return std::regex_search(text, like);
}

/// "Same as back." below a heading: the reader has its rows.
bool worked_as_told(const notation::Document& document, const notation::DocumentPart& part,
                    const std::string& below) {
    static const std::regex form(
        R"(^\W*(?:work\s+|make\s+)?(?:the\s+)?(?:same\s+)?as\s+(?:for\s+)?(?:the\s+)?[a-z ]+\W*$)",
        std::regex::icase);
    // "Rnds 1-5: Same as head.": a piece begins with that line
    if (part.what == notation::DocumentPart::What::heading &&
        std::any_of(document.sections.begin(), document.sections.end(),
                    [&](const notation::Section& section) { return section.line == part.line; }))
        return true;
    return std::regex_match(beginning_of(part.text), form) &&
           std::any_of(document.sections.begin(), document.sections.end(),
                       [&](const notation::Section& section) {
                           return !section.name.empty() &&
                                  base::lower(below).find(base::lower(section.name)) !=
                                      std::string::npos;
                       });
}

bool fringe_is_told(const notation::DocumentPart& part) {
    return !fringe_of(part.text).empty();
}

/// Twisted, cut or crocheted together: yarn that no row has.
bool takes_yarn_beside_rows(const notation::DocumentPart& part) {
    using Kind = notation::DocumentPart::What;
    static const std::regex form(
        R"(\bcut\b[^.]{0,20}\b\d+\b[^.]{0,20}\b(?:strands?|lengths?|pieces?|strips?)\b|\b(?:twist|braid|plait)\b[^.]{0,30}\b(?:cord|strands?)\b|^\W*(?:slip\s?stitch|sl\s?st|sc|single\scrochet)\b[^.]{0,40}\btogether\b)",
        std::regex::icase);
    return (part.what == Kind::remark || part.what == Kind::finishing) && !fringe_is_told(part) &&
           std::regex_search(beginning_of(part.text), form);
}

/// Words of names, singular and plural, as alternatives of a regular expression; those of three
/// letters and more.
std::string as_alternatives(const std::vector<std::string>& names, std::string first) {
    for (const std::string& name : names) {
        std::string word;
        for (const char letter : base::lower(name) + " ") {
            if (letter >= 'a' && letter <= 'z') {
                word += letter;
                continue;
            }
            if (word.size() > 2 && word != "the" && word != "and" && word != "for") {
                if (word.back() == 's') word.pop_back();
                first += (first.empty() ? "" : "|") + word + "s?";
            }
            word.clear();
        }
    }
    return first;
}

/// "Use two strands held together throughout": what a row takes is not told by the class then.
bool says_strands(const notation::DocumentPart& part) {
    using Kind = notation::DocumentPart::What;
    return part.what != Kind::abbreviations && part.what != Kind::stitches &&
           part.what != Kind::finishing && detail::says_strands_together(part.text);
}

/// Whether a title, a heading or a section says how many there are.
bool counts_copies(const notation::Document& document) {
    return counted_by_name(document.title) > 1 ||
           std::any_of(document.sections.begin(), document.sections.end(),
                       [&](const notation::Section& section) {
                           return section.times > 1 || counted_by_name(section.name) > 1 ||
                                  one_of_a_pair(document, section);
                       });
}

/// Lines that may hold work and are no rows: nothing is worked out before somebody has read them.
/// Other lines of the finish are kept as remarks.
std::string lines_not_read(const notation::Document& document) {
    using Kind = notation::DocumentPart::What;
    const bool all_in_totals = has_totals(document);
    std::string stops;
    std::string remarks;
    for (const notation::DocumentPart& part : document.parts) {
        const bool told =
            part.what == Kind::finishing && (all_in_totals || !fringe_of(part.text).empty());
        if (part.work && !told)
            stops += "  " + quoted_text(part.text) + ",\n";
        else if (part.what == Kind::finishing)
            remarks += "# " + one_line(part.text) + "\n";
    }
    std::string out;
    if (!stops.empty())
        out +=
            "\n# Lines of the pattern that may hold work and were not read. Write each as rows of "
            "a\n# [[piece]], as its count, as a [[swatch]] with strands or as a [[finish]] part, "
            "and take\n# it out: until then nothing is worked out.\nnot_read = [\n" +
            stops + "]\n";
    if (!remarks.empty())
        out += std::string("\n# The pattern's finish; ") +
               (all_in_totals ? "the total holds its yarn" : "[[finish]] parts count its yarn") +
               ":\n" + remarks;
    return out;
}

/// What no command can work out yet, as remarks above the rows.
std::string unread_rows(const notation::Section& section) {
    std::string out;
    const auto add = [&](const base::Problem& problem, std::string_view words) {
        out += "#   " + (words.empty() ? "" : "\"" + one_line(words) + "\": ") +
               one_line(problem.what) + "." +
               (problem.remedy.empty() ? "" : " " + one_line(problem.remedy)) + "\n";
    };
    for (const base::Problem& problem : section.problems) add(problem, {});
    for (const notation::RowReading& reading : section.readings)
        if (const auto fault = notation::fault_of(reading)) add(*fault, reading.words);
    return out.empty() ? out : "# To be mended first, or no figure is worked out:\n" + out;
}

}  // namespace

void mark_what_is_open(notation::Document& document) {
    const bool counted = counts_copies(document);
    const bool totals = has_totals(document);
    std::vector<std::string> names{document.title};
    std::vector<std::string> sections;
    for (const notation::Section& section : document.sections) sections.push_back(section.name);
    names.insert(names.end(), sections.begin(), sections.end());
    const std::string things = as_alternatives(
        names, "squares|motifs|blocks|panels|strips|flowers|leaves|hexagons|triangles|circles");
    const std::string worked = as_alternatives(sections, "");
    std::string below;  // the heading above the part
    for (notation::DocumentPart& part : document.parts) {
        if (part.what == notation::DocumentPart::What::heading) below = part.text;
        if ((!counted && (says_copies(part) || says_how_many(part, things))) ||
            (says_another_part(part, worked) && !worked_as_told(document, part, below)) ||
            (!totals && (says_strands(part) || takes_yarn_beside_rows(part)))) {
            part.what = notation::DocumentPart::What::may_work;
            part.work = true;
        }
    }
}

std::string project_of_pattern(const notation::Document& document) {
    const bool knit = document.craft == project::Craft::knit;
    std::string out;
    out += "title = " + quoted_text(document.title.empty() ? "My pattern" : document.title) + "\n";
    out += fmt::format("craft = \"{}\"\nterms = \"{}\"\n", knit ? "knit" : "crochet",
                       document.terms == project::Terms::us ? "US" : "UK");
    if (document.sizes > 1) {
        out += "sizes = [";
        for (std::size_t size = 0; size < document.sizes; ++size)
            out +=
                (size == 0 ? "" : ", ") + quoted_text(document.size_names.size() == document.sizes
                                                          ? document.size_names[size]
                                                          : std::to_string(size + 1));
        out += "]\n";
    }
    out += lines_not_read(document) + "\n[gauge]\n";
    if (document.stitch_gauge)
        out += "stitches = \"" + gauge_text(*document.stitch_gauge / units::shown::per_4in.one) +
               "\"\n";
    else
        out += "# stitches = \"16 per 4 in\"  (the pattern does not say: write your own gauge)\n";
    if (document.row_gauge)
        out +=
            "rows = \"" + gauge_text(*document.row_gauge / units::shown::rows_per_4in.one) + "\"\n";
    else
        out += "# rows = \"16 per 4 in\"  (the pattern does not say: write your own gauge)\n";
    out += "stitch = " + quoted_text(detail::main_stitch(document)) +
           (document.gauge_stitch.empty() ? "  # as most of its rows are worked\n" : "\n");
    if (document.hook)
        out += fmt::format(
            "hook = \"{} mm\"\n",
            units::plain_number(units::Ratio::from_value(*document.hook / units::millimetre),
                                units::Step::hundredth, units::Rounding::nearest));
    if (document.needle)
        out += fmt::format(
            "needle = \"{} mm\"\n",
            units::plain_number(units::Ratio::from_value(*document.needle / units::millimetre),
                                units::Step::hundredth, units::Rounding::nearest));
    out += yarn_tables(document);
    for (const notation::Definition& one : document.definitions)
        out += fmt::format("\n[stitch.{}]\nof = {}\n", quoted_text(one.stitch.name),
                           quoted_text(one.stitch.of));
    std::size_t number = 0;
    for (const notation::Section& section : document.sections) {
        ++number;
        out += "\n[[piece]]\nname = " +
               quoted_text(section.name.empty() ? fmt::format("part {}", number) : section.name) +
               "\n";
        out += fmt::format("worked = \"{}\"\n", section.round ? "round" : "flat");
        const std::int64_t named =
            section.times > 1
                ? 1
                : std::max(counted_by_name(section.name), document.sections.size() == 1
                                                              ? counted_by_name(document.title)
                                                              : std::int64_t{1});
        if (named > 1)
            out += fmt::format("count = {}  # as its name says\n", named);
        else if (one_of_a_pair(document, section))
            out += "count = 2  # they come in pairs: 1 where these rows make both\n";
        if (section.times > 1) out += fmt::format("count = {}\n", section.times);
        out += unread_rows(section);
        out += "rows = [\n";
        for (const std::string& line : section.lines) out += "  " + quoted_text(line) + ",\n";
        out += "]\n";
    }
    out += finish_parts(document);
    return out;
}

}  // namespace skeinfall::exchange
