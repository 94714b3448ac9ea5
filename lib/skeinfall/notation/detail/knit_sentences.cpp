#include "skeinfall/notation/detail/knit_sentences.hpp"

#include <cstddef>
#include <cstdint>
#include <regex>
#include <string>
#include <vector>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/knit_written_forms.hpp"
#include "skeinfall/notation/detail/line_forms.hpp"
#include "skeinfall/notation/detail/line_kinds.hpp"

namespace skeinfall::notation {
namespace {

/// "across.Work", "k1Rep", "7 stsCut", "further19": words that a page ran together.
void part_run_together(Line& line, const std::string& low) {
    static const std::vector<Spelling> spellings{
        {"",
         std::regex(
             R"(\b(rows?|rounds?|rnds?|end|across|around|sts?|stitches|times|once|twice|even|[kp]\d+)\.?(?=(?:Rep|Repeat|Rows?|Rnds?|Rounds?|Work|Cut|Knit|Purl|Next|Bind|Cast|Break|Change|Continue|Weave)\b))",
             std::regex::optimize),
         "$1. "},
        {"",
         std::regex(R"(\b(further|another|these|every|last|next|first)(\d{1,3})(?= ))", any_case),
         "$1 $2"},
        {"holder",
         std::regex(R"((\bholder\b[^.()]{0,12}\([^()]{4,40}\)) (?=(?:Knit|Purl|Work|Rib|Cont)))",
                    std::regex::optimize),
         "$1. "},
        {"on to ",
         std::regex(
             R"(\bon to (?=(?:the |a |your )?(?:double|dpn|needle|holder|spare|waste|stitch)))",
             any_case),
         "onto "},
        {"double", std::regex(R"(\b(onto|on) (?:the )?double[- ]pointed needles\b)", any_case),
         "$1 needles"},
        {"p", std::regex(R"(\b(k\d)(p\d)\b)", any_case), "$1, $2"},
        {" x p", std::regex(R"(\b(k ?\d) x (p ?\d)(?= rib))", any_case), "$1, $2"},
        {"slm", std::regex(R"(\bslm\b)", any_case), "sm"},
        {" pat", std::regex(R"(\bpat\b)", any_case), "pattern"},
    };
    spell_as_told(line, low, spellings);
}

/// "C/O 80 sts", "Use the long-tail cast-on, ... cast on 60 sts", "cast on 52 sts, 18 on each of
/// two needles and 16 on a third", "cast on 40 sts in k1, p1 rib".
void settle_cast_on(Line& line, const std::string& low) {
    static const std::vector<Spelling> spellings{
        {"begin here", std::regex(R"(^\((?:begin|start) here\) ?)", any_case), ""},
        {"c/o", std::regex(R"(\bc/o(?= \d))", any_case), "CO"},
        {"b/o", std::regex(R"(\bb/o(?= |\.|$))", any_case), "BO"},
        {"use ",
         std::regex(
             R"(^use (?:the |a |your )?[a-z' -]{3,30}? cast[- ]on(?: method)?,? (?:and |to )?(?=(?:with|using) [^.]*?cast on \d|cast on \d|CO \d))",
             any_case),
         ""},
        {" on ",
         std::regex(
             R"(\b((?:cast on|CO) \d+ (?:sts|stitches))(?: (?:on|onto|over|across) (?:two|three|four|[234]) (?:dpns?|needles|double[- ]pointed needles))?(?:,| -|:) (?:having |with |placing |putting )?\d+(?: (?:sts|stitches))?(?:,| on) [^.;()]*?(?:needles?|third|fourth|others?|\d+ (?:sts|stitches))(?=\.|$|;))",
             any_case),
         "$1"},
        {" rib",
         std::regex(
             R"(\b((?:cast on|CO) \d+ (?:sts|stitches)) in (?:[12] ?x ?[12]|k[12],? ?p[12]) rib(?:bing)? ?(?=\.|$))",
             any_case),
         "$1"},
        {"join",
         std::regex(
             R"((^|[.] )place (?:a )?(?:stitch )?marker,? (?:&|and) join(?: together)?(?: by knitting (?:the )?first (?:st|stitch))?(?:,? (?:being|taking) care[^.]*)?(?=\.|$))",
             any_case),
         "$1Join"},
        {"pick up the ",
         std::regex(
             R"(\b(?:for (?:the )?thumb,? )?(?:take|pick) up the (\d+) (?:thumb )?(?:sts|stitches)(?: that were| which were)?(?: left| held)? (?:on|from) (?:the )?(?:thread|holder|waste yarn|spare yarn|safety pin|stitch holder)(?: and divide them (?:onto|on|over|between|among) (?:two|three|[23]) needles)?)",
             any_case),
         "Place $1 held sts on needles"},
        {"take up the ",
         std::regex(
             R"(\b(?:for (?:the )?thumb,? )?take up the (\d+) (?:thumb )?(?:sts|stitches)(?: that were| which were)?(?: left| held)? (?:on|from) (?:the )?(?:thread|holder|waste yarn|spare yarn|safety pin|stitch holder)(?: and divide them (?:onto|on|over|between|among) (?:two|three|[23]) needles)?)",
             any_case),
         "Place $1 held sts on needles"},
        {"knit up ",
         std::regex(
             R"(;? ?(?:and )?with (?:the|a) (?:third|second|fourth|new|spare|3rd|2nd) needle,? (?:knit|pick) up (?=\d))",
             any_case),
         ", pick up and knit "},
        {"take care",
         std::regex(R"(,? (?:and )?take care not to twist(?: the| your)?(?: sts| stitches)?)",
                    any_case),
         ""},
        {"back and forth",
         std::regex(
             R"((^|[.] )working back and forth (?:across (?:the )?needle )?(?:in rows|in rows across (?:the )?needle),? (?:proceed|work) as follows)",
             any_case),
         "$1Now work as follows"},
        {" and knit",
         std::regex(
             R"(\b((?:cast on|CO) \d+ (?:sts|stitches)),? and knit (?:across|back|a row|one row|1 row)(?=\.|$))",
             any_case),
         "$1. Knit 1 row"},
        {", (", std::regex(R"((\d), \((?=\d+(?: ?[,:-] ?\d+)*,? ?\)))", std::regex::optimize),
         "$1 ("},
        {" )", std::regex(R"((\(\d+(?: ?[,:-] ?\d+)*),? \))", std::regex::optimize), "$1)"},
        {"cast of ", std::regex(R"(\bcast of (?=\d))", any_case), "Cast off "},
        {"cast on",
         std::regex(
             R"(\b((?:cast on|CO) \d+ (?:sts|stitches)) (?:in|with) (?:[a-z]+ )?(?:red|white|blue|green|yellow|orange|pink|brown|black|gr[ae]y|purple|cream|beige|natural)(?: yarn| wool)?(?=\.|,|$))",
             any_case),
         "$1"},
        {"marker",
         std::regex(
             R"(\bplace (?:a )?(?:stitch )?marker (?:for|at) (?:the )?beg[a-z]* of (?:the )?(?:round|rnd|row) and (?=work|knit|purl|k ))",
             any_case),
         "Place marker. "},
    };
    spell_as_told(line, low, spellings);
}

/// "in rib of K2 and P2", "work 6 rounds in rib and cast off loosely", "Then, work in pattern as
/// follows:", "knit round", "(32 sts on needle)".
void settle_fabrics_told(Line& line, const std::string& low) {
    static const std::vector<Spelling> spellings{
        {"work, in", std::regex(R"(\bwork, in\b)", any_case), "work in"},
        {" of k",
         std::regex(R"(\b(?:in )?(?:a )?rib(?:bing)? of k ?(\d) ?(?:and|,) ?p ?(\d)\b)", any_case),
         "in k$1, p$2 rib"},
        {" off",
         std::regex(
             R"(\b(rib|ribbing|st|stitch|pattern|patt|rows?|rounds?|rnds?|across|end|around|garter|stockinette|knit|purl),? (?:and |then |and then )((?:cast|bind) off)((?: loosely| tightly| all(?: sts| stitches)?| in (?:rib|ribbing|pattern|patt)(?: st)?| knitwise| purlwise)*)(?=\.|$|;))",
             any_case),
         "$1. Bind off$3"},
        {"then",
         std::regex(R"((^|[.] )then,? (?=work in (?:the )?patt(?:ern)? as foll))", any_case),
         "$1Now "},
        {"round", std::regex(R"((: |^)(knit|purl) (?:round|row)(?=\.|$))", any_case), "$1$2"},
        {" on ",
         std::regex(
             R"(\((\d+) (sts|stitches)(?: now| left| remaining)? on (?:the |your )?needles? ?\))",
             any_case),
         "($1 $2)"},
        {" stitches for ",
         std::regex(R"(\bwork the \d+ stitches for (\d+ (?:rows|rounds|rnds))\b)", any_case),
         "Work $1"},
        {"m1", std::regex(R"((^|: ?)([kp] ?\d+, m1[lr]?) to (?:the )?end\b)", any_case),
         "$1*$2; rep from * to end"},
        {"make 1", std::regex(R"((^|: ?)([kp] ?\d+, )make (?:1|one) to (?:the )?end\b)", any_case),
         "$1*$2m1; rep from * to end"},
        {", a",
         std::regex(
             R"((^|: ?)((?:[a-z]+ ?\d*[a-z]*, ){1,8}[a-z]+ ?\d*[a-z]*), (around|across)(?=\.|$| \())",
             any_case),
         "$1*$2; rep from * $3"},
        {"ending",
         std::regex(
             R"(\b([kp]) ?(\d+) ?, ?([kp] ?\d+) to (?:the )?end,? ending (?:with )?\1 ?\2\b)",
             any_case),
         "*$1$2, $3; rep from * to last $2 sts, $1$2"},
        {" before ", std::regex(R"(\bto 1 before (?:the )?last (?:st|stitch)\b)", any_case),
         "to last 2 sts"},
        {"over,", std::regex(R"(([(,;:.] ?)over(?=, ?(?:knit|narrow|purl|k|slip)\b))", any_case),
         "$1yo"},
        {" these ",
         std::regex(
             R"(\. these (?:\d+|\w+) (?:rows|rounds) (?:comprise|form|make|complete) (?:the )?patt(?:ern)?,? and are repeated[^.]*(?=\.))",
             any_case),
         ""},
        {" end",
         std::regex(
             R"((^|[:.] ?)((?:[kp] ?\d+,? ){0,3}[kp] ?\d+,? [kp] ?\d+) to (?:the )?end(?: of (?:the )?(?:row|round|rnd))?(?=\.|$|,))",
             any_case),
         "$1*$2; rep from * to end"},
        {" back",
         std::regex(
             R"(\b(k|knit|p|purl) (?:in|into|through) (?:the )?back(?: loops?)? of (?:each|every) (?:st|stitch)(?= to| across| around|\.|$))",
             any_case),
         "$1"},
        {"across ",
         std::regex(
             R"(\b(k|knit|p|purl) across (?:the )?(?:remaining|last|other) (\d+) (?:sts|stitches))",
             any_case),
         "$1 $2"},
        {" for ",
         std::regex(
             R"(\b((?:k|p|knit|purl|work) \d+ (?:rounds|rows|rnds)) for (?:the )?(?:cuff|leg|foot|hand|brim|body|thumb|ribbing)[ /a-z]{0,30}(?=\.|$))",
             any_case),
         "$1"},
        {"row and knit for",
         std::regex(
             R"(\b(?:k|knit) ?1 row,? (?:and )?(?:p|purl) ?1 row\.? ?(?:and )?knit for (?=\d))",
             any_case),
         "Work in stockinette for "},
        {"row.and knit for",
         std::regex(
             R"(\b(?:k|knit) ?1 row,? (?:and )?(?:p|purl) ?1 row\.? ?(?:and )?knit for (?=\d))",
             any_case),
         "Work in stockinette for "},
        {"rib to ",
         std::regex(R"((^|[:.] )rib (?=to (?:the )?(?:next |last |first )?marker))", any_case),
         "$1work "},
        {"sts st", std::regex(R"(\bsts st\b)", any_case), "st st"},
        {" off ",
         std::regex(
             R"(\b((?:bind|cast) off(?: all(?: sts| stitches)?)?(?: loosely)?) along (?:the )?(?:top|edge|bottom|side)(?: of (?:the )?[a-z]+)?(?=\.|$))",
             any_case),
         "$1"},
        {" row",
         std::regex(
             R"(^((?:inc|dec|next|eyelet|buttonhole|ribbing|increase|decrease|set-?up)\.? (?:row|rnd|round))(?: +- +|\. |  ?)(?=[kp] ?\d|[kp](?:nit|url)\b|[*\[(][kp]))",
             any_case),
         "$1: "},
        {" r",
         std::regex(
             R"(^((?:inc|dec|eyelet|ribbing|increase|decrease)\.? (?:rnd|round))(?: +- +|\. )(?=[kp] ?\d|[*\[(]))",
             any_case),
         "$1: "},
    };
    spell_as_told(line, low, spellings);
}

/// "Knit 5 rounds plain until it is long enough", "until it reaches the finger (26 rounds)",
/// "repeat those rows", "on every following alternate row 4 times total", "Rem 24 sts. Bind off".
void settle_ends_told(Line& line, const std::string& low) {
    static const std::vector<Spelling> spellings{
        {"long enough",
         std::regex(
             R"(\b((?:knit|work|purl|k) \d+ (?:more )?(?:rounds|rows|rnds)(?: plain| even)?),? until [^.\d]{3,60}long enough(?=\.|$))",
             any_case),
         "$1"},
        {" (",
         std::regex(
             R"(\buntil [^.()\d]{3,80} \((?:about |approximately |approx\.? |around )?(\d+) (rounds|rows|rnds)\))",
             any_case),
         "for $1 $2"},
        {" those ", std::regex(R"(\b(rep(?:eat)?) those (?=\d|rows|rounds|two|four))", any_case),
         "$1 these "},
        {"again at", std::regex(R"((\brows? \d+(?:-\d+)?) again at the end(?=\.|$))", any_case),
         "$1 once"},
        {" alternate",
         std::regex(
             R"(\bon every (?:following |foll\.? )?(?:alternate|alt\.?|other)(?= row| rnd| round))",
             any_case),
         "every other"},
        {"times total", std::regex(R"(\btimes total\b)", any_case), "times"},
        {"rem",
         std::regex(
             R"(\. rem(?:aining)?\.? (\d+(?: ?\([^)]*\))?) (?:sts|stitches)\.?,? (?:bind|cast) off)",
             any_case),
         " - $1 sts. Bind off"},
        {"ribbing",
         std::regex(
             R"(\bchange to ribbing [^.]{0,14} and (?:still )?continue (?:to decr?(?:ease)?\.?|decreasing) )",
             any_case),
         "Continue decreasing "},
        {"as before",
         std::regex(R"(\b(continue (?:de|in)creasing) for (?:the )?[a-z]+(?: [a-z]+)? as before)",
                    any_case),
         "$1 as before"},
        {"unless",
         std::regex(
             R"(\((and all (?:ws|rs) rows) unless (?:specified|stated|noted|indicated) otherwise\))",
             any_case),
         "($1)"},
        {"after",
         std::regex(
             R"(^(?:after|following) (?:the )?(?:final|last) (?:inc|dec)(?:rease|reasing)? (?:round|row|rnd), (?=(?:knit|work|purl|k|p) (?:\d|one|two|three|four)))",
             any_case),
         ""},
        {"push",
         std::regex(
             R"(,? (?:and )?push (?:the )?(?:work|sts|stitches) to (?:the )?(?:other )?end of (?:the )?needle)",
             any_case),
         ""},
        {"(",
         std::regex(
             R"( ?\((?:arm|leg|ear|foot|head|sleeve|thumb|wing|tail|paw)s? ?\d?\)(?= ?[.,;]|$))",
             any_case),
         ""},
        {"creased to",
         std::regex(R"( ?\([a-z ]{3,40} (?:in|de)creased to \d+ (?:sts?|stitch|stitches)\))",
                    any_case),
         ""},
        {"set of",
         std::regex(R"( (?:on|over) (?:the )?(?:first|this|these) set of (?:sts|stitches))",
                    any_case),
         ""},
        {"kfb",
         std::regex(
             R"(\bkfb (?:in |into )?(?:(?:the )?(?:first|next) (?:stitch|st)(?: after (?:the )?marker)?|that (?:stitch|st))\b)",
             any_case),
         "kfb"},
        {" before the",
         std::regex(
             R"(\b(k|knit|p|purl) to (?:the )?last (?:st|stitch) before (?:the )?(next )?marker\b)",
             any_case),
         "$1 to 1 st before $2marker"},
        {"these",
         std::regex(
             R"((^|[.] )these (\d+) (rows|rounds) (?:set|form|make|are|establish) (?:up )?(?:the )?[a-z ]{0,20}patt(?:ern)?\. rep(?:eat)? (?:the |this )?patt(?:ern)? (twice|\d+ times|(?:two|three|four|five|six) times)(?: more)?(?: \([^)]*\))?)",
             any_case),
         "$1Repeat last $2 $3 $4"},
        {"last",
         std::regex(
             R"(\b(rep(?:eat)? (?:the |these )?last \d+ rows) (?:\([kp] ?\d[^)]*\) ribbing|(?:[A-Z][a-z]+ ){1,3}(?:st|stitch|pattern)(?: and [a-z]+ pattern)?) (?=until|for|to)\b)",
             any_case),
         "$1 "},
        {"with row 1",
         std::regex(
             R"((^|[.] )(?:beginning|starting|beg) with (?:row|rnd|round) 1,? (?:rep|repeat|work) (?=(?:rows|rnds|rounds) 1 ?-))",
             any_case),
         "$1Work "},
        {"st",
         std::regex(
             R"(\b(times|rows?|rounds?|rnds?|end|across|around|once|twice|more|k2tog|ssk|[kp] ?\d+)[;:] (\d+(?: ?\([^)]*\))?) (?:sts|stitches)(?: remain| rem| left)?(?=\.|$))",
             any_case),
         "$1 - $2 sts"},
        {"are left",
         std::regex(R"(\b(until (?:there are )?\d+(?: ?\([^)]*\))? (?:sts|stitches)) are left\b)",
                    any_case),
         "$1 remain"},
        {"next and ",
         std::regex(
             R"(\bdec(?:rease)?\.? (?:1 (?:st|stitch) )?at (each|both) ends? of (?:the )?next and (?:every |foll(?:owing)?\.? )?(?:alt(?:ernate)?\.?|other) rows?)",
             any_case),
         "Dec 1 st at $1 end of every other row"},
        {"warmer", std::regex(R"(\b(leg|arm|wrist) (warmers?)\b)", any_case), "$1$2"},
    };
    spell_as_told(line, low, spellings);
}

/// "Next round: remove 15 thumb sts and put them on a holder. Cast on 2 sts over the gap.",
/// "Right side facing, rejoin yarn for second leg.": what waits, and what is taken up again.
void settle_waiting(Line& line, const std::string& low) {
    static const std::vector<Spelling> spellings{
        {"put the",
         std::regex(
             R"(\b(?:remove|take) (?:the )?(\d+) (?:thumb |gusset )?(?:sts|stitches) and put the[mn] (?:on|onto) (?:a |the )?(?:stitch )?holder)",
             any_case),
         "place $1 sts on a holder"},
        {"cast on",
         std::regex(
             R"(\b((?:place|put|slip) (?:the )?(?:next )?\d+ (?:thumb |gusset )?(?:sts|stitches) (?:on|onto|to) (?:a |the )?(?:st(?:itch)?[- ]|waste |scrap |spare )?(?:holder|yarn|thread|pin))[.;,] (?:then )?cast on (\d+) (?:sts|stitches) (?:over (?:the )?(?:gap|opening)|in (?:their|its) place|in place of (?:the )?(?:held|thumb) (?:sts|stitches))(?=\.|$))",
             any_case),
         "$1, cast on $2 sts, k to end"},
        {"join",
         std::regex(
             R"((^|[.] )(?:with )?(?:(?:right|wrong) side (?:of work )?facing,? )?(?:re-?join|attach) (?:the )?(?:yarn|wool) (?:for|to) (?:the )?(?:second|other|remaining|2nd|next|held) (?:leg|side|half|shoulder|sleeve|foot|ear|strap|flap|arm|sts|stitches|set of (?:sts|stitches))(?: on (?:the )?(?:stitch )?holder)?(?: and (?=knit|work|purl)|[.,;] ?|$)(?![^.]*(?:match|correspond|same|as for|reversing|like)))",
             any_case),
         "$1Place held sts on needles. "},
        {"s. ",
         std::regex(
             R"(\b(k|knit|p|purl|work) (\d+) (?:sts|stitches)\. (?:slip|place|put|leave) (?:the )?(?:remaining|rem|other) (?:\d+ )?(?:sts|stitches) (?:on|onto|to) (?:a |the )?(?:stitch |spare )?(?:holder|needle|yarn))",
             any_case),
         "$1 $2 sts, place remaining sts on a holder"},
    };
    spell_as_told(line, low, spellings);
}

/// "in ribbing for 8 rows, increasing evenly across the last row to 24 sts": a row of its own.
void part_last_row(Line& line, const std::string& low) {
    static const std::regex form(
        R"(\bfor (\d{1,3}) (rows|rounds|rnds),? (inc|dec)reasing (?:sts |stitches )?evenly (?:across|on|in|over) (?:the )?last (?:row|round|rnd) to (?=\d))",
        any_case);
    std::smatch found;
    const std::string text = line.text;
    if (low.find(" last ") == std::string::npos || !std::regex_search(text, found, form)) return;
    const auto rows = base::leading_number<std::int64_t>(found[1].str());
    if (rows < 2) return;
    put_words(line, static_cast<std::size_t>(found.position(0)),
              static_cast<std::size_t>(found.length(0)),
              "for " + std::to_string(rows - 1) + ' ' + found[2].str() + ". " +
                  (base::lower(found[3].str()) == "inc" ? "Increase" : "Decrease") + " evenly to ");
}

/// "Pick up the 14 thumb sts and cast on 2": so many are on the needles.
void add_picked_up(Line& line, const std::string& low) {
    static const std::regex form(
        R"(\bpick up (?:the )?(\d{1,3}) (?:thumb |held )?st(?:s|itch|itches)?(?: (?:from|off|on) (?:the )?(?:stitch )?holder)?,? (?:plus|and) cast on (\d{1,3})(?: more)?(?: sts| stitches)?(?=\.|$))",
        any_case);
    std::smatch found;
    const std::string text = line.text;
    if (low.find("cast on") == std::string::npos || !std::regex_search(text, found, form)) return;
    const auto sum = base::leading_number<std::int64_t>(found[1].str()) +
                     base::leading_number<std::int64_t>(found[2].str());
    put_words(line, static_cast<std::size_t>(found.position(0)),
              static_cast<std::size_t>(found.length(0)), "Pick up " + std::to_string(sum) + " sts");
}

/// Whether a line casts on at its beginning.
bool casts_on(const Line& line) {
    static const std::regex form(R"(^(?:(?:with|using) [^.,:]{1,40},? )?(?:cast on|CO) \d)",
                                 any_case);
    return line.text.size() < 4000 && std::regex_search(line.text, form);
}

/// The name in "WTS: bring yarn to front, slip next st, yarn to back, slip st back, turn work."
std::string wrap_named(const std::string& text) {
    static const std::regex form(
        R"(^([a-z&]{1,8}) ?(?::|=|-) (?=[^:=]*\b(?:bring|wrap|yarn)\b)(?=[^:=]*\bsl(?:ip|ipped)?\b)[^:=]*\bturn(?: (?:the )?work)?\.?$)",
        any_case);
    std::smatch found;
    if (text.size() > 400 || !std::regex_search(text, found, form)) return {};
    std::string name = base::lower(found[1].str());
    return one_of(name, {"w&t", "wt", "note", "step"}) ? std::string() : name;
}

}  // namespace

void settle_sentences_told(Line& line) {
    const std::size_t longest = 4000;  // no sentence is so long
    if (line.text.size() < 4 || line.text.size() > longest) return;
    settle_written_forms(line);
    part_run_together(line, base::lower(line.text));
    settle_cast_on(line, base::lower(line.text));
    settle_fabrics_told(line, base::lower(line.text));
    settle_ends_told(line, base::lower(line.text));
    settle_waiting(line, base::lower(line.text));
    part_last_row(line, base::lower(line.text));
    add_picked_up(line, base::lower(line.text));
}

void name_told_lines(std::vector<Line>& lines) {
    static const std::regex twice(
        R"(^([A-Z][a-z]+(?: [a-z]+)?)\. (?:knit|make|work) (two|three|four|[2-9])(?: alike| the same)?\.?$)",
        any_case);
    static const std::regex named(R"(^[A-Z][a-z]+(?: [a-z]+)?\.$)", std::regex::optimize);
    std::vector<std::string> wraps;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        Line& line = lines[i];
        if (const std::string name = wrap_named(line.text); !name.empty()) {
            wraps.push_back(name);
            continue;
        }
        for (const std::string& name : wraps)
            put_everywhere(line, std::regex("\\b" + name + "\\b", any_case), "w&t");
        if (i + 1 >= lines.size() || line.text.size() > 60 || !casts_on(lines[i + 1])) continue;
        std::smatch found;
        const std::string text = line.text;
        if (std::regex_search(text, found, twice))
            put_words(line, 0, text.size(), found[1].str() + " (make " + found[2].str() + ")");
        else if (std::regex_search(text, named))
            put_words(line, text.size() - 1, 1, "");
    }
}

}  // namespace skeinfall::notation
