#include "skeinfall/notation/detail/knit_leaflets.hpp"

#include <cctype>
#include <cstddef>
#include <cstdint>
#include <regex>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/knit_told.hpp"
#include "skeinfall/notation/detail/line_forms.hpp"

namespace skeinfall::notation {
namespace {

/// "wl.fwd.", "y.o.n.", "st.-st.", "P S S O": abbreviations with stops, hyphens and blanks.
void plain_abbreviations(Line& line, const std::string& low) {
    static const std::vector<Spelling> spellings{
        {"fwd",
         std::regex(R"(\b(?:wl\.? ?|[wy]\. ?|(?:wool|yarn)\. ?)fwd\.?(?=[\s,;)*\]]|$))", any_case),
         "yo"},
        {"f", std::regex(R"(\bw\.f\.(?=[\s,;)*\]]|$))", any_case), "yo"},
        {"n.", std::regex(R"(\b[wy]\.? ?[or]\. ?n\.(?=[\s,;)*\]]|$))", any_case), "yo"},
        {"st.-st", std::regex(R"(\bst\.? ?- ?st\.?(?=[\s,;:)]|$))", any_case), "st st"},
        {"g.", std::regex(R"(\bg\.-? ?st\.?(?=[\s,;:)]|$))", any_case), "garter st"},
        {"s s o", std::regex(R"(\bp\.? s\.? s\.? o\b\.?)", any_case), "psso"},
        {"rpt", std::regex(R"(\brpt\b\.?)", any_case), "rep"},
        {"t.b.l", std::regex(R"(\bt\.b\.l\.?)", any_case), "tbl"},
        {"all-", std::regex(R"(\ball-(even|odd)\b)", any_case), "all $1"},
        {"foll.", std::regex(R"(\bfoll\. (?=alt|row|rnd|round|\d))", any_case), "foll "},
        {"alt.", std::regex(R"(\balt\. (?=row|rnd|round))", any_case), "alt "},
        {"wl", std::regex(R"(\bwl\. (?=fwd))", any_case), "wl "},
        // What the next rows are worked in is no row of its own.
        {"needle",
         std::regex(
             R"((\bchange to (?:[\w./()]+ ){0,4}needles?)(?:[.,]|,? and) (?:(?:work|cont(?:inue)?) )?)"
             R"((?:in )?(?:st[ -]st|s ?s|stockinette(?: st(?:itch)?)?|stocking st(?:itch)?|)"
             R"(garter st(?:itch)?|g[ -]st)(?=\.(?:\s|$)))",
             any_case),
         "$1"},
    };
    spell_as_told(line, low, spellings);
}

/// "Knit 16 sts from Needle 1 onto Needle 3. Heel flap is worked back and forth over these 32
/// sts. Turn.": the turn stands behind those 16.
void turn_before_heel(Line& line, const std::string& low) {
    if (low.find("these") == std::string::npos || low.find("forth") == std::string::npos) return;
    static const std::regex form(
        R"(^((?:.*[.:] )?)((?:knit|k|purl|p) ?\d+)(?: sts| stitches)?(?: (?:from|of) needle \d)?(?: (?:on)?to needle \d)?\. (?:the )?(?:heel|heel flap|flap) (?:is|will be) worked back and forth (?:in rows )?(?:on|over) (these \d+)(?: heel)? (?:sts|stitches)(?: only)?\.(?: turn(?: work)?\.)?$)",
        any_case);
    put_everywhere(line, form, "$1$2, turn. Work back and forth over $3 sts.");
}

/// "Knit to last 3 sts on Needle 1, k2tog, k1; knit across Needle 2; on Needle 3, k1, ...": each
/// needle has its part.
void name_needles(Line& line, const std::string& low) {
    if (low.find("needle") == std::string::npos && low.find("ndl") == std::string::npos) return;
    static const std::vector<Spelling> spellings{
        {"on",
         std::regex(R"((^|[:;.,] )(?:knit|k) to last (\d+) sts? (?:on|of) (?:needle|ndl) ?(\d), )",
                    any_case),
         "$1Needle $3: knit to last $2 sts, "},
        {"across",
         std::regex(R"([;,] (?:knit|k) (?:across|all sts on|sts on) (?:needle|ndl) ?(\d)(?=[;,.]))",
                    any_case),
         ". Needle $1: knit"},
        {"on", std::regex(R"([;,.] ?(?:and |then )?on (?:needle|ndl) ?(\d), )", any_case),
         ". Needle $1: "},
        {"to last st",
         std::regex(R"(\bto (?:last|within 1) st (?:on|of) (?:first |the |each )?needle, )",
                    any_case),
         "to 1 st before marker, "},
        {"second needle",
         std::regex(
             R"(\b(rep(?:eat)? from \*) (?:on|for|across) (?:the )?(?:second|other|2nd) needle\b)",
             any_case),
         "$1 once more"},
        {"needle 2",
         std::regex(R"(\b(rep(?:eat)? from \*) (?:on|for|across) needle 2\b)", any_case),
         "$1 once more"},
    };
    spell_as_told(line, low, spellings);
}

/// "to last for sts", "to last to stitches": a number as it sounds.
void number_by_sound(Line& line, const std::string& low) {
    static const std::vector<Spelling> spellings{
        {"last to s", std::regex(R"(\bto (?:the )?last to (?=sts\b|stitches\b))", any_case),
         "to last 2 "},
        {"last too s", std::regex(R"(\bto (?:the )?last too (?=sts\b|stitches\b))", any_case),
         "to last 2 "},
        {"last for s", std::regex(R"(\bto (?:the )?last for (?=sts\b|stitches\b))", any_case),
         "to last 4 "},
    };
    spell_as_told(line, low, spellings);
}

/// "Work on these last 16 sts for 9 rows.": the others wait, and the rows.
void part_one_side(Line& line, const std::string& low) {
    if (low.find(" on ") == std::string::npos && low.find(" over ") == std::string::npos) return;
    static const std::regex rows_on(
        R"((^|[.] )(work|knit|purl) (\d+) (?:more )?rows (?:even )?(?:on|over) (?:the |these |those )(?:cent(?:er|re) |middle |rem |remaining )?(\d+) (?:sts|stitches)(?: only)?(?: \(\d+ ridges\))?)",
        any_case);
    put_everywhere(line, rows_on, "$1Working on these $4 sts only. $2 $3 rows");
    static const std::regex form(
        R"((^|[.] )(?:work|continue|cont) (?:on|over) (?:these|those) (?:last |first |rem |remaining )?(\d+) (?:sts|stitches)(?: only)? (for \d+ rows|until [^.]*))",
        any_case);
    put_everywhere(line, form, "$1Working on these $2 sts only. Work even $3");
}

/// "BACK-With white cast on 86", "1ST ROW-Knit 1, purl 1", "Dividing row - right side - Work 21":
/// names with a dash behind them.
void name_before_dash(Line& line, const std::string& low) {
    if (low.find('-') == std::string::npos && low.find("\xe2\x80\x94") == std::string::npos) return;
    static const std::regex row(
        R"(^(\d+(?:st|nd|rd|th)) (rows?|rnds?|rounds?) ?(?:-|\xe2\x80\x94) ?(?=[a-z]))", any_case);
    put_everywhere(line, row, "$1 $2: ");
    static const std::regex span(
        R"(^(\d+) ?- ?(\d+)(?:th|st|nd|rd)? (rows|rnds|rounds) ?(?:-|:) ?(?=[a-z]))", any_case);
    put_everywhere(line, span, "$3 $1-$2: ");
    static const std::regex piece(
        R"(^([A-Z]{4,}(?: [A-Z]{3,}){0,2})(?:-|\xe2\x80\x94)(?=[A-Z][a-z]))", std::regex::optimize);
    put_everywhere(line, piece, "$1: ");
    static const std::regex named(
        R"(^([a-z]+ (?:row|rnd|round)) ?(?:-|\xe2\x80\x94) ?(?:right side|wrong side|rs|ws) ?(?:-|\xe2\x80\x94) ?)",
        any_case);
    put_everywhere(line, named, "$1: ");
}

/// "14 rows even.", "K. the next 2 sts", "Join in the round. 36 sts.", "K5. Graft": sentences that
/// belong together, or begin with a number.
void settle_sentences(Line& line, const std::string& low) {
    static const std::vector<Spelling> spellings{
        {"rep",
         std::regex(
             R"((^|: )((?:[KP]\d+,? ?){2,}?),? rep(?:eat)? (?:across )?and end (?:on|with) )",
             any_case),
         "$1*$2; rep from *, end "},
        {". r",
         std::regex(R"(^(inc|dec)\. (row|rnd|round) ?(?:--|-|:|\xe2\x80\x94|\xe2\x80\x93) ?)",
                    any_case),
         "$1 $2: "},
        {" and ",
         std::regex(R"(^(rep(?:eat)? rows? \d+(?: ?- ?\d+)?) and (bind off|cast off|bo)\b)",
                    any_case),
         "$1 once. $2"},
        {"ridges (", std::regex(R"(\b(\d+) ridges \((\d+) rows\))", any_case), "$2 rows"},
        {"holder",
         std::regex(
             R"(((?:for|until) [^.]*?), (?:then )?(?:place|slip|leave)(?: sts| them| these sts)? on (?:a |the )?(?:second |2nd |another |spare )?holder\.?$)",
             any_case),
         "$1. Place remaining sts on a holder."},
        {"row row", std::regex(R"(\b(across|end of|along) (?:the )?row (row \d+\b))", any_case),
         "$1 row. $2"},
        {" more times",
         std::regex(R"(\b([a-z0-9]+) or [a-z0-9]+ (\([^)]*\) )more times)", any_case),
         "$1 more times $2"},
        {"rows even",
         std::regex(R"((^|\. )(?:make )?(\d+) rows (?:even|straight|plain)\b)", any_case),
         "$1Work $2 rows even"},
        {"make ", std::regex(R"((^|\. )make (\d+) (rows|rounds|rnds)\b)", any_case),
         "$1Work $2 $3"},
        {"k. ", std::regex(R"(\b([Kk])\. (?=(?:the|next|to|across|in|all|them)\b))"), "$1 "},
        {"p. ", std::regex(R"(\b([Pp])\. (?=(?:the|next|to|across|in|all|them)\b))"), "$1 "},
        {" of work. ",
         std::regex(
             R"((hold (?:it |them )?(?:in|at|to) (?:the )?(?:front|back) of (?:the )?work)\. (?=[KkPp]))"),
         "$1, "},
        {"join",
         std::regex(
             R"(\. ((?:then )?join (?:to work |for working |and work )?in (?:the )?(?:round|rnd)[^.]*)\. (\d+(?: \([^)]*\)| \[[^\]]*\])? (?:sts|stitches))\.?$)",
             any_case),
         ". $2. $1."},
        {"k",
         std::regex(
             R"((^|\. )(k(?:nit)? ?\d+)(?: sts)?\. (?=(?:graft|kitchener|use kitchener|using kitchener|divide|arrange)\b))",
             any_case),
         "$1$2, leaving rest unworked. "},
        {"then every",
         std::regex(
             R"((^|\. )(continue (?:to )?dec[a-z]*)([^.]*until \d+ (?:sts|stitches) (?:remain|rem)[a-z]*),? then (?:dec[a-z]* )?(every (?:round|rnd|row) until))",
             any_case),
         "$1$2$3. Continue decreasing in this manner $4"},
        {"between",
         std::regex(
             R"((times?|more)\. (\d+(?: \([^)]*\)| \[[^\]]*\])? (?:sts|stitches) between (?:the )?(?:thumb |gusset )?(?:markers|m)\b))",
             any_case),
         "$1 ($2)"},
    };
    spell_as_told(line, low, spellings);
}

/// "place the sts from needles 1 and 2 onto one needle (30 sts)": those alone are worked.
void place_heel(Line& line, const std::string& low) {
    if (low.find("one needle") == std::string::npos) return;
    static const std::regex form(
        R"((^|[-:.,] )(?:place|put|slip) (?:the )?(?:sts|stitches) (?:from|of) needles? \d (?:and|&) \d (?:on|onto|to) one needle,? \((\d+) (?:sts|stitches)\)(?:,? then)?,?:?)",
        any_case);
    put_everywhere(line, form, "$1Work back and forth on these $2 sts only.");
    static const std::regex lead(
        R"(^(?:preparation|heel|heel flap|set-?up) ?[-:] ?(?=work back and forth))", any_case);
    put_everywhere(line, lead, "");
}

/// "K4 ridges.": two rows each.
void rows_of_ridges(Line& line, const std::string& low) {
    if (low.find(" ridges") == std::string::npos) return;
    static const std::regex form(R"(\b(k(?:nit)?|work) ?(\d{1,3}) (?:garter )?ridges\b)", any_case);
    for (int turn = 0; turn < 20; ++turn) {
        std::smatch found;
        const std::string text = line.text;
        if (!std::regex_search(text, found, form)) return;
        const std::int64_t rows = 2 * base::leading_number<std::int64_t>(found[2].str());
        put_words(line, static_cast<std::size_t>(found.position(0)),
                  static_cast<std::size_t>(found.length(0)),
                  "Knit " + std::to_string(rows) + " rows");
    }
}

/// "28 (Med 32, Lge 40)": the numbers of the sizes alone.
void plain_sizes(Line& line) {
    static const std::regex form(
        R"((\d ?)\((?:s|m|l|xl|sm|med|medium|lg|lge|large|x-large)\.? ?(\d+(?:\.\d+)?)(?: ?in)?(?:, (?:m|l|xl|med|medium|lg|lge|large|x-large)\.? ?(\d+(?:\.\d+)?)(?: ?in)?)\))",
        any_case);
    if (line.text.find(" (") != std::string::npos) put_everywhere(line, form, "$1($2, $3)");
}

/// "Set-up (RS): k12, pm": a row.
void name_first_row(Line& line, const std::string& low) {
    if (!low.starts_with("set")) return;
    static const std::regex form(R"(^set-?up ?(\((?:rs|ws)\))? ?: ?)", any_case);
    put_everywhere(line, form, "Set-up row $1: ");
}

}  // namespace

void settle_leaflets(Line& line) {
    // No sentence is so long; what is told in such a line stays as it stands.
    constexpr std::size_t longest = 6000;
    if (line.text.size() < 4 || line.text.size() > longest) return;
    settle_told(line);
    plain_sizes(line);
    rows_of_ridges(line, base::lower(line.text));
    place_heel(line, base::lower(line.text));
    name_first_row(line, base::lower(line.text));
    name_before_dash(line, base::lower(line.text));
    plain_abbreviations(line, base::lower(line.text));
    settle_sentences(line, base::lower(line.text));
    turn_before_heel(line, base::lower(line.text));
    name_needles(line, base::lower(line.text));
    part_one_side(line, base::lower(line.text));
    number_by_sound(line, base::lower(line.text));
    part_rows_behind(line);
}

void number_heel(Line& line, std::string& heel) {
    const std::string low = base::lower(line.text);
    static const std::regex across(
        R"(\b(knit|k) across (?:the )?(?:remaining |rem )?heel (?:sts|stitches)(?=[,;]))",
        any_case);
    if (!heel.empty() && low.find("heel s") != std::string::npos)
        put_everywhere(line, across, ("$1 " + heel).c_str());
    static const std::regex remain(R"((\d+) (?:heel )?(?:sts|stitches) (?:remain|rem|left)\b)",
                                   any_case);
    std::smatch found;
    if (low.find("turn") != std::string::npos && std::regex_search(line.text, found, remain))
        heel = found[1].str();
}

void part_rows_behind(Line& line) {
    const std::string low = base::lower(line.text);
    if (low.find("rep") == std::string::npos && low.find("work ") == std::string::npos) return;
    if (low.find("then") == std::string::npos && low.find(" and row") == std::string::npos) return;
    // "rep last 2 rows 5 times more, then first of these rows once", "then first row once more"
    static const std::regex first(
        R"((^|[.!] )(rep(?:eat)? (?:the |these |last |the last |previous )+(\d+) (?:rows|rnds|rounds)\b[^.]*?),? (?:and )?then (?:work |rep |repeat |knit )?(?:the )?(?:first|1st|rs)(?: of these| of last \d+| of the last \d+)? (row|rows|rnd|rnds|round|rounds)(?: only)?(?: once| again)?(?: more)?(?=\.|,|;|$))",
        any_case);
    put_everywhere(line, first, "$1$2. Repeat first 1 of last $3 $4 once");
    // "rep rows 1-8 five more times, then rows 1-4 once", "then work row 1 once more"
    static const std::regex rows(
        R"((^|[.!] )((?:rep|repeat|work) (?:rows|rnds|rounds|row|rnd|round|the|these|last|previous)\b[^.]*?),? (?:and )?then (?:work |rep |repeat |knit )?(rows?|rnds?|rounds?) (\d+)((?: ?(?:-|to|through|and|&) ?\d+)?)(?: only)?(?: once| one more time| again)?(?: more)?(?=\.|,|;|$))",
        any_case);
    put_everywhere(line, rows, "$1$2. Repeat $3 $4$5 once");
}

}  // namespace skeinfall::notation
