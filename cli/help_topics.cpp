#include "help_topics.hpp"

#include <algorithm>
#include <array>
#include <string_view>

#include "skeinfall/base/text.hpp"

#include "every_key.hpp"

namespace skeinfall::cli {

const std::vector<Topic>& help_topics() {
    static const std::vector<Topic> topics{
        {"project", "the project file, by a starter to copy",
         R"(# A project file: save this as scarf.toml and change what you like.
# Text after # is a comment. "skeinfall new" writes one from questions;
# "skeinfall check scarf.toml" checks it, "skeinfall help keys" shows every key.

title = "Scarf"
craft = "crochet"              # or "knit"
made_for = "adult"             # adult, child, infant or kitchen heat: chooses the cautions
margin = "5 %"                 # extra yarn on top, if you want it

[gauge]                        # of your own fabric, or the pattern's
stitches = "14 per 10 cm"
rows = "10 per 10 cm"
stitch = "hdc"

[yarn.MC]                      # MC, CC1, CC2: one table for each yarn
name = "Gorsebrook Worsted"    # leave out if any yarn will do
class = 4
grist = "170 yd / 3.5 oz"      # as the label says
# total = "380 yd"             # where the pattern says how much: also
#                              # "728 to 1116 yd", "6 balls of 110 yd", "180 g"

[[swatch]]                     # best of all: weigh one, without needles
width = "15 cm"
height = "15 cm"
mass = "14 g"
scale = "1 g"                  # the step of your scale

[[piece]]
name = "scarf"
stitches = 33                  # or width = "24 cm"
rows = 96                      # or length = "1.5 m"

[[finish]]                     # what comes after the pieces
kind = "other"
name = "edging"
takes = "30 yd"
)"},
        {"keys", "every key that a project file may have", every_key},
        {"counts", "yarn counts: Nm, NeC, NeW, tex, denier",
         R"(A yarn count says how fine a yarn is.

  Nm      metres to the gram: 2/28 Nm is two plies of 28 m/g, 14 m/g together
  NeC     hanks of 840 yd to the pound (cotton): 20/2 is 8400 yd/lb
  NeW     hanks of 560 yd to the pound (worsted): 2/24 is 6720 yd/lb
  tex     grams to 1000 m; dtex to 10 000 m; denier to 9000 m

Of two figures the smaller is the number of plies, in whatever order. Always name the
system: the same figures mean a different yarn in each.

  skeinfall convert "2/24 NeW" --to "yd/lb,tex,m/100g"
)"},
        {"lots", "dye lots and shade groups",
         R"(Skeins of one dye lot were dyed together. Another lot of the same colour can look
different in the fabric, so one yarn is taken from one lot unless you say otherwise.

Skeins without a recorded lot never count as matching, not even with each other. Skeins you
judge alike by daylight go into a shade group, which counts before the lot:

  skeinfall stash add --yarn "Cedar Lane" --label "170 yd / 100 g" --shade-group dusk
  skeinfall cover --need "380 yd" --any-lot
)"},
        {"gauge", "gauge and swatches",
         R"(Gauge is how many of your stitches and rows there are in 10 cm or 4 in. It links
stitches to size; a weighed swatch links both to yarn.

Work a swatch of at least 15 cm. Wash it as the piece will be washed, let it dry and lay it
flat. Then measure it away from its edges, and weigh it without needles.

  skeinfall need --make "22 cm x 1.5 m" --swatch "15 x 15 cm, 14 g" --label "170 yd / 100 g"

With a measured, weighed swatch and a piece given by its size you need no gauge. A tighter maker
who keeps the stitch counts makes a smaller piece from less yarn; one who keeps the size
works more stitches and takes more.
)"},
        {"margins", "chances, bands and margins",
         R"(No figure here is exact: a scale has steps, a label is a little off, tension drifts.
So every amount says how much would be 95 % sure, and every verdict its chance.

  covered            at least 95 % sure that it is enough
  too close to call  measure what the answer names, or keep a spare skein
  short              at least 95 % sure that it is not enough

A margin is extra yarn on top: --margin "10 %", or margin = "10 %" in the file.
--confidence "90 %" changes the 95 %.
)"},
        {"joining", "where one skein ends and the next begins",
         R"(Joins go at a seamed edge; inside the row, if both edges show; anywhere, if you work in
rounds. Two ends are allowed for on every skein.

  skeinfall joins cowl.toml           after which row each skein ends
  skeinfall joins cowl.toml --slip    what the scale must still show, row by row

Half way, without a file:

  skeinfall progress --taken "12 g over 24 rows" --mass "20 g" --to-come "13 rows"
  skeinfall progress --strand "70 in" --row-width "50 cm" --stitch hdc
)"},
        {"reading", "what a pattern may say, and what to write instead of the rest",
         R"text("skeinfall read" follows rows as patterns print them. Where it cannot follow, it
marks the word and goes on from the next count. Write these instead:

  what is not followed                    what to write
  a place within a group                  what is skipped before it:
    "sc in 3rd dc of next shell"            sk next 2 dc, sc in next dc
  a place in a row further down           the stitch or space of the row below
    "2 dc over dc of 2nd row"               2 dc in next ch-5 sp
  stitches along the side of the work     their number
    "2 sc in each row end"                  96 sc evenly along the edge
  a choice of stitches                    the one that you work
    "sl st or sc in each st"                sc in each st across
  a marker within a row of crochet        how many stitches lie before it
    "sc to marker"                          sc in next 12 sts
  stitches of an earlier round            the round's own count after it
    "in front loops of round 15"            Rnd 1: sc around. (28)
  a chart alone                           its rows in words, or counts of each stitch
  parts joined on the way                 the next row with its count: (60 sc)
    "sc around both legs"
  "as back until it measures 9 in"        the rows once more
  "until there are 40 sts"                the row and how often: rep row 4 6 more times
  "inc at both ends, at the same time"    rows with both, each with its count
  a stitch that only a picture shows      [stitch.NAME] of = "3 dc, ch 1", or yarn = 2.5

Where a small change makes a refused row one that comes to its count, the answer
shows it: Leave out "...", or Write "sc" for "scc". You decide.

Always of use:

  a count in brackets at the end of a row, which decides between two readings and sets
  the work right again after a row that was not followed;
  the foundation in a line of its own: Ch 122;
  "(counts as dc)" or "(does not count)" after a chain that a row begins with

Filet is counted in meshes: 5 open meshes, 3 solid meshes; an open one is ch 2, sk 2, dc, or ch 1,
sk 1, dc where only that fits the row below. From corner to corner a row counts its blocks:
(4 blocks). Tunisian rows are counted by their forward pass: tss in each st across, return pass.
)text"},
    };
    return topics;
}

namespace {

struct Called {
    std::string_view word;
    std::string_view topic;
};
/// What one asks for by another word than the topic has.
constexpr auto other_words = std::to_array<Called>(
    {{"lot", "lots"},         {"dye lot", "lots"},       {"dye lots", "lots"},
     {"shade group", "lots"}, {"shade groups", "lots"},  {"tension", "gauge"},
     {"swatch", "gauge"},     {"swatches", "gauge"},     {"gauges", "gauge"},
     {"margin", "margins"},   {"confidence", "margins"}, {"chance", "margins"},
     {"chances", "margins"},  {"join", "joining"},       {"ends", "joining"},
     {"count", "counts"},     {"yarn count", "counts"},  {"tex", "counts"},
     {"nm", "counts"},        {"pattern", "reading"},    {"patterns", "reading"},
     {"key", "keys"},         {"toml", "project"},       {"project file", "project"}});

std::string topic_meant(const std::string& asked) {
    std::string name = asked;
    std::replace(name.begin(), name.end(), '-', ' ');
    const auto* const called =
        std::find_if(other_words.begin(), other_words.end(),
                     [&](const Called& one) { return base::same_word(one.word, name); });
    return called == other_words.end() ? asked : std::string(called->topic);
}

}  // namespace

const Topic* help_topic(const std::string& asked) {
    const std::string name = topic_meant(asked);
    const auto& all = help_topics();
    const auto found = std::find_if(all.begin(), all.end(), [&](const Topic& topic) {
        return base::same_word(topic.name, name);
    });
    return found == all.end() ? nullptr : &*found;
}

std::string topics_text() {
    std::size_t width = 0;
    for (const Topic& topic : help_topics()) width = std::max(width, topic.name.size());
    std::string out = "Topics, each by \"skeinfall help TOPIC\":\n";
    for (const Topic& topic : help_topics())
        out += "  " + topic.name + std::string(width - topic.name.size() + 2, ' ') + topic.summary +
               "\n";
    return out;
}

}  // namespace skeinfall::cli
