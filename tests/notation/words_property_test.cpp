// No word of a row is passed over in silence: without it the reading is another one, or it is a
// word that carries no work, or it was told as set aside.

#include <map>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "skeinfall/notation/detail/words.hpp"

#include "helpers.hpp"

namespace skeinfall::notation {
namespace {

struct Sample {
    bool knit = false;
    std::string before;  ///< rows that come first
    std::string row;
};

const std::vector<Sample>& samples() {
    static const std::vector<Sample> all{
        {false, "Ch 21.\nRow 1: sc in 2nd ch from hook and in each ch across. (20 sc)\n",
         "Row 2: ch 1, turn, dc in next 4 sts, skip next 2 sts, (2 dc, ch 1, 2 dc) "
         "in next st, dc2tog twice, sc in each st to last 2 sts, 2 dc in last 2 sts."},
        {false, "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n",
         "Rnd 3: *sc in next 2 sts, 2 sc in next st; rep from * 3 more times, join with sl st to "
         "first sc, being careful not to pull it tight. (16)"},
        {false, "Ch 12.\nRow 1: sc in 2nd ch from hook and in each ch across. (11)\n",
         "Row 2: ch 1, turn, [sc in next st, ch 2, skip 1 st] 5 times, sc in last st, fasten off "
         "and weave in ends."},
        {true, "CO 40 sts.\n",
         "Row 1: sl 1 purlwise, k3, *yo, k2tog, k2; rep from * to last 4 sts, p2, m1, k2. (41)"},
        {true, "CO 42 sts.\n", "Row 1: P2, ssk, knit to last 5 sts, k2tog, k3. 40 sts remain."},
        {true, "CO 40 sts.\n", "Knit 6 rows, ending with a WS row."},
        {true, "CO 40 sts.\n", "Work in k2, p2 rib for 8 rows."},
        {true, "CO 40 sts.\n",
         "Dec 1 st at each end of every other row 3 times, then every 4th row twice."},
        {true, "CO 40 sts.\n", "Row 1: K to last 4 sts, wrap and turn."},
        {true, "CO 64 sts.\n",
         "Row 1: Place next 10 sts on waste yarn, cast on 4 sts, k the next 5 sts through the back "
         "loop, k to end. (58)"},
    };
    return all;
}

/// All that is told of the rows.
std::string told(const Sample& sample, const std::string& row) {
    NotationOptions options = sample.knit ? knitting() : crochet();
    options.round = row.find("Rnd") != std::string::npos;
    options.lenient = true;
    const NotationResult result = work_rows(sample.before + row, options);
    std::string out;
    for (const RowReading& reading : result.readings) {
        out += "[" + std::to_string(static_cast<int>(reading.state)) + " " +
               std::to_string(reading.first_row) + "+" + std::to_string(reading.rows);
        if (reading.stitches) out += " " + std::to_string(whole(*reading.stitches));
        if (reading.declared) out += "=" + std::to_string(whole(*reading.declared));
        for (const KindCount& kind : reading.kinds)
            out += " " + kind.kind + std::to_string(whole(kind.count));
        for (const Finding& finding : reading.findings) out += " !" + finding.what;
        for (const WordsAside& aside : reading.aside) out += " -" + aside.words;
        if (reading.problem) out += " ?" + reading.problem->what;
        out += "]";
    }
    for (const base::Problem& problem : result.problems) out += problem.what;
    return out;
}

std::vector<std::string> split(const std::string& row) {
    std::istringstream in(row);
    std::vector<std::string> out;
    for (std::string word; in >> word;) out.push_back(word);
    return out;
}

std::string joined(const std::vector<std::string>& words) {
    std::string out;
    for (const std::string& word : words) out += (out.empty() ? "" : " ") + word;
    return out;
}

/// Small letters and digits only.
std::string bare(const std::string& word) {
    std::string out;
    for (const char c : word)
        if (c >= 'A' && c <= 'Z')
            out += static_cast<char>(c + ('a' - 'A'));
        else if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'))
            out += c;
    return out;
}

/// Words that say where a stitch goes when nothing else could be meant, that name what is counted,
/// or that only turn the page: a row without them means the same.
bool carries_no_work(const std::string& word) {
    // "3 more times" and "3 more" are the same count.
    static const std::set<std::string> places{
        "times", "remain", "last", "st", "sts", "stitch", "stitches", "next", "in", "into", "each",
        "of", "turn", "a", "row", "rnd", "1", "from",
        // "dec 1 st each end" is the same; a wrap takes no stitch of its own
        "at", "wrap"};
    const std::string plain = bare(word);
    return plain.empty() || places.contains(plain) || has_role(plain, Role::filler) ||
           has_role(plain, Role::manner);
}

/// Within "join with sl st to first sc": all of it says that the round is closed.
bool joins(const std::vector<std::string>& words, std::size_t at) {
    for (std::size_t i = at + 1; i-- > 0;) {
        if (i < at && words[i].ends_with(",")) return false;
        if (bare(words[i]) == "join") return true;
    }
    return false;
}

RC_GTEST_PROP(Words, NoneIsPassedOverInSilence, ()) {
    const Sample& sample = samples()[*rc::gen::inRange<std::size_t>(0, samples().size())];
    std::vector<std::string> words = split(sample.row);
    const std::size_t at = *rc::gen::inRange<std::size_t>(0, words.size());
    const std::string gone = words[at];
    const bool within = joins(words, at);
    const bool twice = *rc::gen::arbitrary<bool>();
    if (twice)
        words.insert(words.begin() + static_cast<std::ptrdiff_t>(at), gone);
    else
        words.erase(words.begin() + static_cast<std::ptrdiff_t>(at));
    if (told(sample, joined(words)) != told(sample, sample.row)) return;
    RC_LOG() << (twice ? "twice: " : "without: ") << gone << " in " << sample.row;
    // "to to last 2 sts" and "for for 8 rows" mean one thing only; "knit knit to last 5 sts" and,
    // by usual practice, "rep from * 3 times" for "3 more times" are the same work.
    static const std::set<std::string> same_twice{"to", "for", "knit", "k"};
    // One more sc before "sc in each st to last 2 sts" is one of them.
    const bool of_each = twice && at + 3 < words.size() && bare(words[at + 2]) == "in" &&
                         bare(words[at + 3]) == "each";
    // A count told twice is the same count.
    const bool count_again = twice && gone.front() == '(' && gone.back() == ')';
    const bool same =
        of_each || count_again || (twice ? same_twice.contains(bare(gone)) : bare(gone) == "more");
    RC_ASSERT(carries_no_work(gone) || within || same);
}

}  // namespace
}  // namespace skeinfall::notation
