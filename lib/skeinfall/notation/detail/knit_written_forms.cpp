#include "skeinfall/notation/detail/knit_written_forms.hpp"

#include <algorithm>
#include <cstddef>
#include <regex>
#include <string>
#include <vector>

#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/line_forms.hpp"
#include "skeinfall/notation/detail/line_kinds.hpp"

namespace skeinfall::notation {
namespace {

/// Cast-ons and joins.
void settle_begins(Line& line, const std::string& low) {
    static const std::vector<Spelling> spellings{
        {"mmcast", std::regex(R"((\d ?mm)(?=cast on \d))", any_case), "$1 "},
        {"co", std::regex(R"(^co ?: ?(?=\d))", any_case), "CO "},
        {"cast", std::regex(R"(^cast[- ]?on ?: ?(?=\d))", any_case), "Cast on "},
        {"loosely",
         std::regex(R"(\b(cast on|CO) \(?(?:very |fairly )?loosely\)? (?=\d))", any_case), "$1 "},
        {"magic loop",
         std::regex(
             R"(,? (?:and )?(?:with|using) (?:the )?magic loop(?: method| technique)?(?=,| join|\.|$))",
             any_case),
         ""},
        {"ing marker",
         std::regex(R"(\bplacing (?:a )?marker on (?:the )?first (?:st|stitch)\b)", any_case),
         "pm"},
        {"ing a marker",
         std::regex(R"(\bplacing a marker on (?:the )?first (?:st|stitch)\b)", any_case), "pm"},
        {"at ",
         std::regex(
             R"((^|[.] )at (?:the )?beg(?:\.|inning)? of (?:the )?next (row|\d rows),? (cast on|CO|bind off|cast off|BO) (\d+)(?: sts| stitches)?(?=\.|$))",
             any_case),
         "$1$3 $4 sts at beg of next $2"},
        {"and knit to end",
         std::regex(
             R"(^cast on (?:another |an additional )?(\d+) (?:more )?(?:sts|stitches)(?: for (?:the )?(?:second |other |first |left |right )?(?:arm|sleeve|leg|side))?,? and knit to end\b)",
             any_case),
         "Next row: CO $1, k to end"},
        {"off", std::regex(R"(^((?:bind|cast) off(?: loosely)?) ?: ?(?=k ?\d))", any_case),
         "$1 as follows: "},
        {"from holder",
         std::regex(
             R"(^(?:transfer|return|slip|place|put) (?:the )?(?:[a-z]+ ){0,3}(?:sts|stitches) from (?:the |a )?(?:stitch )?holder (?:on)?to (?:the |a )?needles?\.?$)",
             any_case),
         "Place held sts on needles."},
    };
    spell_as_told(line, low, spellings);
}

/// Fabrics, and how far they go.
void settle_stretches(Line& line, const std::string& low) {
    static const std::vector<Spelling> spellings{
        {", rib",
         std::regex(
             R"(\b(?:k|knit) ?(\d),? (?:and )?(?:p|purl) ?(\d),? (?=rib(?:bing)?(?: for| until|\.|$)))",
             any_case),
         "k$1, p$2 "},
        {"ing with a ",
         std::regex(
             R"(\brib(?:bing)?,? (?:starting|beginning|start|begin) with a (k ?\d, ?p ?\d|p ?\d, ?k ?\d)\b(?: row)?)",
             any_case),
         "$1 rib"},
        {"st",
         std::regex(
             R"(^(?:stst|st st|stockinette(?: st| stitch)?) (?:for )?(\d+ (?:rows|rounds|rnds))(?=\.|$))",
             any_case),
         "Work $1 in st st"},
        {"garter",
         std::regex(R"(^garter(?: st| stitch)? (?:for )?(\d+ (?:rows|rounds|rnds))(?=\.|$))",
                    any_case),
         "Work $1 in garter st"},
        {"there are",
         std::regex(
             R"(\b(even|straight|stitch|st|rib|(?:sts|stitches),?) until there are (\d+) (rows|rounds|rnds) (?:above|from|after|since) (?:the )?last (?:group of )?(?:cast[- ]on|inc)[a-z ]*(?=\.|,|;|$))",
             any_case),
         "$1 for $2 $3"},
        {".",
         std::regex(
             R"(([ (])(?:\d+\.\d+ ?(?:-|to) ?(?=\d)|\d+ ?(?:-|to) ?(?=\d+\.))(\d+(?:\.\d+)? ?(?:inches|inch|ins|in|cm|\"))(?= |\.|,|;|\)|$))",
             any_case),
         "$1$2"},
        {"beg",
         std::regex(R"(\bat (?:the )?beg(?:\.|inning)? and (?:the )?end of (?=every|each|next))",
                    any_case),
         "at each end of "},
    };
    spell_as_told(line, low, spellings);
}

/// Rows and their words.
void settle_rows_named(Line& line, const std::string& low) {
    static const std::vector<Spelling> spellings{
        {"and all ",
         std::regex(
             R"(^((?:row|rnd|round) \d+) ?:? ?\(and all (odd|even|other)(?:[- ]numbered)? (rows|rnds|rounds)\):? ?)",
             any_case),
         "$1 and all $2 $3: "},
        {"(buttonhole",
         std::regex(
             R"(((?:yo|k2tog|(?:bo|co|bind off|cast on) \d(?: sts)?),?) \(buttonhole(?: made)?\))",
             any_case),
         "$1"},
        {" marker,", std::regex(R"(, (?:stitch )?marker(?=,))", any_case), ", sm"},
        {"   ", std::regex(R"(   *(?=\d+ ?(?:sts|stitches)\.?$))", any_case), " - "},
    };
    spell_as_told(line, low, spellings);
}

/// "K2, P1, K2, P1 to end": the same list twice.
void halve_list(Line& line) {
    static const std::regex form(R"(((?:[kp] ?\d+,? ){3,15}[kp] ?\d+),? to (?:the )?end\b)",
                                 any_case);
    static const std::regex one(R"([kp] ?\d+)", any_case);
    std::smatch found;
    const std::string text = line.text;
    if (text.size() > 400 || !std::regex_search(text, found, form)) return;
    const std::string list = found[1].str();
    std::vector<std::string> items;
    std::vector<std::size_t> ends;
    for (auto item = std::sregex_iterator(list.begin(), list.end(), one);
         item != std::sregex_iterator(); ++item) {
        std::string word = base::lower(item->str());
        word.erase(std::remove(word.begin(), word.end(), ' '), word.end());
        items.push_back(word);
        ends.push_back(static_cast<std::size_t>(item->position(0) + item->length(0)));
    }
    const std::size_t half = items.size() / 2;
    if (items.size() % 2 != 0 || half < 2 ||
        !std::equal(items.begin(), items.begin() + static_cast<std::ptrdiff_t>(half),
                    items.begin() + static_cast<std::ptrdiff_t>(half)))
        return;
    put_words(line, static_cast<std::size_t>(found.position(1)) + ends[half - 1],
              list.size() - ends[half - 1], "");
}

}  // namespace

void settle_written_forms(Line& line) {
    settle_begins(line, base::lower(line.text));
    settle_stretches(line, base::lower(line.text));
    settle_rows_named(line, base::lower(line.text));
    halve_list(line);
}

void name_only_piece(std::vector<Line>& lines) {
    static const std::regex base(R"(^(?:(?:with|using) [^,:]{1,60},? )?(?:cast on|CO) \d)",
                                 any_case);
    static const std::regex any_base(R"(\b(?:cast on|CO) \d)", any_case);
    static const std::regex alike(
        R"(^(?:front(?: of [a-z ]+)?:? ?)?(?:work|knit|make)(?: the)?(?: same| exactly)? as (?:for |given for )?(?:the )?back\.?$)",
        any_case);
    std::size_t first = lines.size();
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const std::string& text = lines[i].text;
        if (text.size() > 2000) return;
        if (base::lower(text).starts_with("back")) return;
        if (std::regex_search(text, any_base)) {
            if (first < lines.size() || !std::regex_search(text, base)) return;
            first = i;
        }
        if (first == lines.size() || i == first || !std::regex_search(text, alike)) continue;
        put_words(lines[first], 0, 0, "BACK: ");
        return;
    }
}

}  // namespace skeinfall::notation
