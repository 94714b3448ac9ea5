#include "skeinfall/notation/detail/rows_again_told.hpp"

#include <string>
#include <vector>

#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/line_forms.hpp"

namespace skeinfall::notation {
namespace {

// "R 3-5: ..." is no row 3 with a dash behind it.
const std::string one_row = R"(^((?:row|rnd|round|r)\s*\d+(?!\d|\s*-\s*\d)\s*)";
const std::string counts = R"((\d+|two|three|four|five|six|seven|eight|nine|ten))";

/// Without a label, or with one of a single row.
const std::vector<Spelling>& of_one_row() {
    static const std::vector<Spelling> all{
        // "Rnd 4 (x3): ...", "Row 4 [6 times]: ...", "Rnd 4 (work 6 times): ..."
        {"",
         std::regex(
             one_row +
                 R"()[(\[]\s*(?:x\s*(\d+)|(\d+)\s*x|(?:work(?:ed)?\s+|repeat\s+)?(\d+)\s*times?)\s*[)\]]\s*:\s*(.+?)\s*\.?\s*$)",
             any_case),
         "$1: $5. Work this row $2$3$4 times in all."},
        // "Row 4: sc across. Repeat 19 more times."
        {"rep",
         std::regex(one_row + R"([:.)-].*?[^*\s])\s*[.;,]\s*(?:and\s+)?rep(?:eat)?\s+)" + counts +
                        R"((\s+more)?(?:\s+times?)?(?:\s+more)?\s*\.?\s*$)",
                    any_case),
         "$1. Repeat this row $2$3 times."},
        {"twice",
         std::regex(
             one_row +
                 R"([:.)-].*?[^*\s])\s*[.;,]\s*(?:and\s+)?rep(?:eat)?\s+twice(?:\s+more)?\s*\.?\s*$)",
             any_case),
         "$1. Repeat this row 2 more times."},
        {"once",
         std::regex(
             one_row +
                 R"([:.)-].*?[^*\s)\]])\s*[.;,]\s*(?:and\s+)?rep(?:eat)?\s+once(?:\s+more)?\s*\.?\s*$)",
             any_case),
         "$1. Repeat this row once."},
        // "Row 3: sc across (100 rows)" is of one row or of a hundred: the label has to say.
        {"r",
         std::regex(
             one_row +
                 R"([:.)-].*?[^*\s])\s*[(-]\s*([2-9]|\d\d+)\s+(rows|rounds|rnds)\s*\)?\s*\.?\s*$)",
             any_case),
         "$1 for $2 $3."},
        // "Dc 100 rows.", "sc 6 rounds"
        {"r",
         std::regex(
             R"(^\s*((?:sc|dc|hdc|tr|htr|single crochet|double crochet|half double crochet|treble crochet))\s+(\d+)\s+(rows?|rounds?|rnds?)\s*\.?\s*$)",
             any_case),
         "$1 in each st for $2 $3."},
        // "Sc across - 100 rows", "sc around (6 rounds)", "Stockinette stitch: 100 rows."
        {"r",
         std::regex(
             R"(^\s*((?!(?:row|rnd|round|r)s?\s*\d)[a-z][^:()\d]{1,60}?)\s*[(:,-]\s*(\d+)\s+(rows?|rounds?|rnds?)\s*\)?\s*\.?\s*$)",
             any_case),
         "$1 for $2 $3."}};
    return all;
}

/// "Rows 4-13: sc across; rep twice more."
const std::vector<Spelling>& of_several_rows() {
    static const std::vector<Spelling> all{
        {"rep",
         std::regex(
             R"(^((?:rows|rnds|rounds)\s*(\d+\s*(?:-|to)\s*\d+)\s*[:.)-].*?[^*\s])\s*[.;,]\s*(?:and\s+)?rep(?:eat)?\s+)" +
                 counts + R"((\s+more)?(?:\s+times?)?(?:\s+more)?\s*\.?\s*$)",
             any_case),
         "$1. Repeat rows $2 $3$4 times."},
        {"twice",
         std::regex(
             R"(^((?:rows|rnds|rounds)\s*(\d+\s*(?:-|to)\s*\d+)\s*[:.)-].*?[^*\s])\s*[.;,]\s*(?:and\s+)?rep(?:eat)?\s+twice(?:\s+more)?\s*\.?\s*$)",
             any_case),
         "$1. Repeat rows $2 2 more times."},
        {"once",
         std::regex(
             R"(^((?:rows|rnds|rounds)\s*(\d+\s*(?:-|to)\s*\d+)\s*[:.)-].*?[^*\s)\]])\s*[.;,]\s*(?:and\s+)?rep(?:eat)?\s+once(?:\s+more)?\s*\.?\s*$)",
             any_case),
         "$1. Repeat rows $2 once."}};
    return all;
}

/// "Ch 10, skip 2 sts, sl st in third st. Repeat 7 times.": words that come to no end of the row
/// are repeated within it.
bool goes_on_within(const std::string& low) {
    static const std::regex within(R"(\b(?:skip|sk|miss|ch|chain)\s*\d)");
    static const std::regex covers(
        R"(\b(?:across|around|round|each|every|all|turn|join|row|rows|rnd|rounds|end)\b)");
    static const std::regex label(R"(^(?:row|rnd|round|r)\s*\d+\s*)");
    const std::string rest = std::regex_replace(low, label, "");
    return std::regex_search(rest, within) && !std::regex_search(rest, covers);
}

}  // namespace

void settle_plain_rows(Line& line) {
    static const std::string rows = R"((\d+)\s+(?:more\s+|additional\s+)?(rows?|rounds?|rnds?))";
    static const std::string count = R"((\s*[(\[]\s*\d+[^)\]]*[)\]])?\s*\.?\s*$)";
    static const std::string plain =
        R"((?:\s+(?:plain|even|evenly|straight|without\s+(?:any\s+)?(?:further\s+)?(?:increas|decreas)\w+|without\s+shaping)))";
    static const std::vector<Spelling> all{
        {"r",
         std::regex(
             R"(^\s*((?:sc|dc|hdc|tr|htr|single crochet|double crochet|half double crochet|treble crochet))\s+(?:for\s+)?)" +
                 rows + plain + "?" + count,
             any_case),
         "$1 in each st for $2 $3$4."},
        {"r",
         std::regex(
             R"(^\s*(?:now\s+)?(?:work|crochet|do|continue(?:\s+for)?)\s+)" + rows + plain + count,
             any_case),
         "Work $1 $2 even$3."}};
    // "sc around - 12 (x3)", "Rnd 4: sc around (12) x 3"
    static const std::string label = R"((?:(?:row|rnd|round|r)\s*\d+\s*[:.)-]\s*)?)";
    static const std::string often =
        R"(\s*(?:[(\[]\s*(?:x\s*(\d+)|(\d+)\s*x)\s*[)\]]|x\s*(\d+))\s*\.?\s*$)";
    static const std::vector<Spelling> times{
        {"x", std::regex("^(" + label + R"([^:*]*[a-z)\]])\s*[=-]\s*(\d+))" + often, any_case),
         "$1 for $3$4$5 rounds ($2 sts)."},
        {"x",
         std::regex("^(" + label +
                        R"([^:*]*[a-z)\]])\s*[(\[]\s*(\d+)(?:\s*(?:sts|sc|hdc|dc))?\s*[)\]])" +
                        often,
                    any_case),
         "$1 for $3$4$5 rounds ($2 sts)."}};
    constexpr std::size_t longest = 120;
    if (line.text.size() > longest) return;
    spell_as_told(line, base::lower(line.text), times);
    spell_as_told(line, base::lower(line.text), all);
}

void settle_rows_again(Line& line) {
    constexpr std::size_t longest = 300;  // of what tells one row
    // "*sc, dc; rep 5 times" repeats within the row.
    if (line.text.size() > longest || line.text.find('*') != std::string::npos) return;
    const std::string low = base::lower(line.text);
    if (goes_on_within(low)) return;
    spell_as_told(line, low, of_one_row());
    spell_as_told(line, base::lower(line.text), of_several_rows());
}

}  // namespace skeinfall::notation
