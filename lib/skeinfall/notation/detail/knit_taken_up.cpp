#include <regex>
#include <string>
#include <vector>

#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/knit_worded.hpp"
#include "skeinfall/notation/detail/line_forms.hpp"

namespace skeinfall::notation {
namespace {

/// "Work 10 sts from right holder", "knit up 10 sts on right side of instep", "knit across the 12
/// sts of the toe", "K 15; place on st-holder", "place first and last 10 sts on a holder".
void take_up(Line& line, const std::string& low) {
    static const std::vector<Spelling> spellings{
        {"pick up",
         std::regex(
             R"(\b(pick up (?:and (?:k|knit) )?\d+ ?(?:sts|stitches)) (?:on|along|down|up|from|at|in) (?:the )?(?:right|left|other|first|second|1st|2nd)?(?: hand)? ?(?:side|edge|base)(?: of (?:the )?(?:(?:toe |heel )?flap|instep|heel|foot|toe|thumb|tongue|top))?)",
             any_case),
         "$1"},
        {" of ",
         std::regex(
             R"(\b(?:knit|k|work) (?:across )?(?:the )?(\d+) (?:sts|stitches) of (?:the )?(?:instep|toe|foot|heel|top|flap|front|back)(?= ?[,;.]| and\b))",
             any_case),
         "k $1"},
        {"needle",
         std::regex(
             R"(\b(?:knit|k|work) (?:across )?(?:the )?(\d+) (?:sts|stitches) on (?:the )?(?:needle(?: at (?:the )?(?:right|left) side of (?:the )?[a-z]+(?: flap)?)?|other needle|left needle|right needle|second needle)(?= ?[,;.]|$))",
             any_case),
         "k $1"},
        {"holder",
         std::regex(
             R"(\b(?:knit|k|work) (?:across )?(?:the )?(\d+) (?:sts|stitches) from (?:the )?(?:right|left|first|second|1st|2nd|other) (?:stitch |st |st-)?holder\b)",
             any_case),
         "k $1"},
        {"holder",
         std::regex(
             R"(\b([kp]) ?(\d+)[;,] place on (?:a )?(?:1st |first |2nd |second )?(?:st-|st |stitch )?holder\b)",
             any_case),
         "$1 $2, place these $2 sts on a holder"},
        {"slip to ",
         std::regex(
             R"(\bslip to (?:\d|one|two|three) needles? the (\d+) (?:sts|stitches) from (?:the )?(?:stitch |st |st-)?holder\b)",
             any_case),
         "Place the $1 sts from holder on 2 needles"},
        {". ", std::regex(R"(\b(k \d+)\. (?:then )?(?=pick up and (?:k|knit) \d))", any_case),
         "$1, "},
        {"on the needle",
         std::regex(
             R"(^(?:with (?:the )?right side facing,? )?(?:work|knit|k) (?:the )?(\d+) (?:sts|stitches) on the needle at the (?:right|left) side of the [a-z ]{2,20}\. (?:then )?pick up\b)",
             any_case),
         "K $1, pick up"},
        {"pick up",
         std::regex(
             R"(\b(pick up and (?:k|knit) \d+ sts)\. (?:knit|k) (?:across )?(?:the )?(\d+)(?: sts of the (?:toe|instep|flap|foot))?(?= ?,| then| sts,))",
             any_case),
         "$1, k $2"},
        {"now on the ",
         std::regex(
             R"(\. now on the \d+ (?:sts|stitches) (?:on|at) (?:the )?(?:left|right)[^:.]{0,40}: )",
             any_case),
         ", "},
        {" rows in ",
         std::regex(
             R"(\b(work \d+ rows in [a-z ]{2,24}?) for (?:the )?(?:toe |heel )?(?:flap|tongue|instep)\b)",
             any_case),
         "$1"},
        {"cast on st",
         std::regex(
             R"((?:with (?:3rd|third|the third|a third) needle,? )?(pick up (?:and (?:k|knit) ))on (?:the )?(\d+) cast[- ]on (sts|stitches))",
             any_case),
         "$1$2 $3"},
        {"center ",
         std::regex(
             R"((^|[.] )working on (?:these|the) cent(?:er|re) (\d+) (?:sts|stitches)(?: only)?,? work (\d+) rows)",
             any_case),
         "$1Working on these $2 sts only. Work $3 rows"},
        {"there should be ",
         std::regex(
             R"(^cast on (\d+) (?:sts|stitches)[,.;] there should (?:now )?be (\d+) (?:sts|stitches)(?: on)?(?: now)?\.?$)",
             any_case),
         "Next round: cast on $1 sts over gap, k to end. ($2 sts)"},
        {"over the gap",
         std::regex(R"((^|[.] )cast on (\d+) (?:sts|stitches) over (?:the )?gap(?=\.))", any_case),
         "$1Next round: cast on $2 sts over gap, k to end"},
        {"left needle",
         std::regex(R"(\bon left needle, (?:co|cast on) (\d+) (?:st|sts|stitches)\b)", any_case),
         "cast on $1 sts"},
    };
    spell_as_told(line, low, spellings);
}

/// "slip 3 sts from cable needle back to left needle and knit those 3", "cable 3 left", "slip next
/// st", "work each stitch in the manner it presents".
void settle_crossed(Line& line, const std::string& low) {
    static const std::vector<Spelling> spellings{
        {"cable needle back",
         std::regex(
             R"(\b(?:slip|sl|place|put) (?:the )?(\d) (?:sts|stitches) from (?:the )?cable needle back (?:on)?to (?:the )?left(?:[- ]hand)? needle,?(?: and)? (k|knit|p|purl) (?:those|them|these)(?: \d)?(?: sts| stitches)?)",
             any_case),
         "$2 $1 from cable needle"},
        {"cable ", std::regex(R"(\bcable (\d) left\b)", any_case), "C$1L"},
        {"cable ", std::regex(R"(\bcable (\d) right\b)", any_case), "C$1R"},
        {"cable ", std::regex(R"(\bcable (\d) back\b)", any_case), "C$1B"},
        {"cable ", std::regex(R"(\bcable (\d) front\b)", any_case), "C$1F"},
        {"next st", std::regex(R"(\b(slip|sl) (?:the )?next (?:st|stitch)(?=,|;))", any_case),
         "$1 1"},
        {" needle",
         std::regex(
             R"(\b(?:slip|sl|place|put) (?:the )?(?:next )?(\d) (?:sts|stitches) (?:on)?to (?:a |the |an )?(?:dble pt|dbl\.? pt\.?|double[- ]point(?:ed)?|dp|dpn|cable|spare|extra)(?: needle)?,? (?:and )?(?:hold|leave|drop)(?: it| them)? (?:in|at|to)(?: the)? (front|back)(?: of (?:the )?work)?[,;] (knit|k|purl|p) (?:the )?next (\d) (?:sts|stitches)[,;] (?:then |and )?(knit|k|purl|p) (?:the )?(\d) (?:sts|stitches) (?:off|from|on) (?:of )?(?:the )?(?:dble pt|dbl\.? pt\.?|double[- ]point(?:ed)?|dp|dpn|cable|spare|extra)(?: needle)?)",
             any_case),
         "sl $1 to cn and hold in $2, $3 $4, $5 $6 from cn"},
        {"knitting the k",
         std::regex(
             R"(\b((?:bind|cast) off[^.,;]*)[,;] knitting the (?:k|knit) (?:sts|stitches)[;,]?(?: and)? purling the (?:p|purl) (?:sts|stitches))",
             any_case),
         "$1"},
        {"needles and on",
         std::regex(
             R"(\b(needles),? and,? on (?:the )?(?:remaining|rem) (?:sts|stitches),? (?=work\b))",
             any_case),
         "$1. "},
        {"as on the",
         std::regex(R"(\b(work(?: in)? ribbing) as (?:on|for) (?:the )?(?:back|front)\b)",
                    any_case),
         "$1"},
        {"slip, k and pass", std::regex(R"(\bslip, k and pass\b)", any_case), "sl 1, k1, psso"},
        {"it presents",
         std::regex(
             R"(\bwork each (?:st|stitch) (?:in the manner|as|the way) it presents(?: itself)?,? ([kp]) ?(\d+)(?=\.|$))",
             any_case),
         "work in pattern to last $2 sts, $1$2"},
        {"instead of",
         std::regex(
             R"(\((?:you (?:will )?(?:now )?(?:will )?have )?\d+ (?:sts|stitches) instead of (?:one|two|1|2|\d+)\)\.?)",
             any_case),
         ""},
        {" ribbing",
         std::regex(R"(\bwork (\d+(?: \([^)]*\))?) (?:sts|stitches)(?: in)? ribbing\b)", any_case),
         "rib $1 sts"},
        {"ribbing for",
         std::regex(R"(\bwork ribbing for (\d+(?: \([^)]*\))?) (?:sts|stitches)\b)", any_case),
         "rib $1 sts"},
        {"center ",
         std::regex(
             R"(\b(?:next row(?: \((?:rs|ws)\))?:? )?place (?:the )?first and last \d+ (?:sts|stitches) on (?:a )?(?:st |stitch )?holders? and work (\d+) rows in (garter st|st st|stockinette st(?:itch)?|garter stitch) on (?:the )?cent(?:er|re) (\d+) (?:sts|stitches))",
             any_case),
         "Working on these $3 sts only. Work $1 rows in $2"},
        {"work cent",
         std::regex(
             R"(\bwork (?:the )?cent(?:er|re) (\d+) (?:sts|stitches)(?: on (?:the )?needle)?(?=,))",
             any_case),
         "k $1"},
        {"each side of ",
         std::regex(
             R"(\b(inc|dec)(?:rease)?\.? (?:1|one) st(?:itch)? (?:at |on )?each side of (?:the )?cent(?:er|re) \d+ (?:sts|stitches))",
             any_case),
         "$1 2 sts evenly"},
        {"bind off",
         std::regex(R"(\bbeginning with (?:the )?next \d (?:sts|stitches),? (?=bind off))",
                    any_case),
         ""},
        {" from holder",
         std::regex(
             R"(\b(?:knit|k) across (\d+) (?:new|cast[- ]on) (?:sts|stitches) and (?:across )?(\d+) (?:sts |stitches )?from (?:the )?holder\b)",
             any_case),
         "K $1, knit across $2 held sts"},
        {"finish row",
         std::regex(R"(\bfinish (?:the )?row(?: in (?:ribbing|rib|pattern|patt))?(?=[.;,]|$))",
                    any_case),
         "rib to end"},
    };
    spell_as_told(line, low, spellings);
}

}  // namespace

void settle_taken_up(Line& line) {
    take_up(line, base::lower(line.text));
    settle_crossed(line, base::lower(line.text));
}

}  // namespace skeinfall::notation
