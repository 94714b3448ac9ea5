// "Continue decreasing in this manner until 20 sts remain": the change of the rows before goes on.

#include <algorithm>
#include <cstdint>
#include <utility>

#include "skeinfall/notation/detail/pattern_reader.hpp"
#include "skeinfall/notation/detail/tokens.hpp"
#include "skeinfall/notation/detail/work_words.hpp"

namespace skeinfall::notation {
namespace {

using Words = std::initializer_list<std::string_view>;

const Words more_words{"inc", "increase", "increasing", "increases"};
const Words less_words{"dec", "decrease", "decreasing", "decreases"};
/// Words that say nothing of stitches beside those that are looked at.
const Words free_words{
    "then",      "and",         "now",         "to",      "on",        "in",      "this",
    "the",       "same",        "manner",      "way",     "fashion",   "method",  "as",
    "before",    "set",         "established", "est",     "above",     "of",      "row",
    "rows",      "rnd",         "rnds",        "round",   "rounds",    "you",     "have",
    "there",     "are",         "only",        "a",       "total",     "st",      "sts",
    "stitch",    "stitches",    "remain",      "remains", "remaining", "rem",     "left",
    "needle",    "needles",     "your",        "shape",   "crown",     "top",     "toe",
    "gusset",    "more",        "time",        "times",   "pattern",   "patt",    "continue",
    "cont",      "keep",        "continuing",  "work",    "rs",        "is",      "side",
    "working",   "right",       "get",         "each",    "every",     "other",   "second",
    "alternate", "alt",         "until",       "till",    "for",       "inc",     "dec",
    "foll",      "following",   "so",          "third",   "fourth",    "outside", "inside",
    "with",      "alternating", "plain",       "even",    "between",   "evenly",  "spaced"};

/// Stitches that the items leave more than they take, repeats once.
std::int64_t tendency(const std::vector<Item>& items, const StitchBook& book) {
    std::int64_t sum = 0;
    for (const Item& item : items) {
        if (item.what == Item::Do::work) {
            const Stitch& stitch = book.at(item.kind);
            if (stitch.name == "CO" || stitch.name == "BO") return 0;
            sum += item.count * (stitch.makes - stitch.takes);
        }
        const std::int64_t by = item.count < 0 ? 1 : item.count;  // as the last one
        if (item.what == Item::Do::increase) sum += by;
        if (item.what == Item::Do::decrease) sum -= by;
        if (item.what == Item::Do::repeat || item.what == Item::Do::group ||
            item.what == Item::Do::evenly)
            sum += tendency(item.items, book);
    }
    return sum;
}

struct GoesOn {
    int more = 0;             ///< 1 increases, -1 decreases, 0 not said
    std::int64_t period = 0;  ///< 0: not said
    std::int64_t by = -1;     ///< stitches a time; -1: as before
    std::int64_t until = 0;
    std::int64_t times = 0;
    bool as_before = false;  ///< "in this manner", "as before"
};

std::optional<GoesOn> goes_on_of(const std::vector<Token>& tokens) {
    GoesOn out;
    std::size_t i = 0;
    while (among(tokens[i], {"then", "and", "now"}) || tokens[i].kind == TokenKind::comma) ++i;
    if (!among(tokens[i], {"continue", "cont", "keep", "continuing", "work"}) &&
        !among(tokens[i], more_words) && !among(tokens[i], less_words))
        return std::nullopt;
    const bool led = among(tokens[i], {"continue", "cont", "keep", "continuing"});
    bool until = false;
    for (; i + 1 < tokens.size() && tokens[i].kind != TokenKind::end; ++i) {
        const Token& token = tokens[i];
        const Token& next = tokens[i + 1];
        if (token.kind == TokenKind::comma) continue;
        if (token.kind == TokenKind::open) {
            // "(57 sts total)" is the count of the row; other brackets hold no number.
            std::size_t to = i + 1;
            bool digits = false;
            while (tokens[to].kind != TokenKind::close && tokens[to].kind != TokenKind::end)
                digits = tokens[to++].kind == TokenKind::number || digits;
            // "(k4, k2tog; k3, k2tog, etc.)" shows what "as established" means.
            for (std::size_t at = i; at < to; ++at) digits = digits && tokens[at].text != "etc";
            if (digits && next.kind == TokenKind::number &&
                among(tokens[i + 2], {"st", "sts", "stitches"}) && out.until > 0)
                out.until = next.value;
            else if (digits)
                return std::nullopt;
            if (tokens[to].kind == TokenKind::end) return std::nullopt;
            i = to;
            continue;
        }
        if (out.until > 0 && among(token, {"each"}) && among(next, {"needle", "needles"}))
            return std::nullopt;  // how many needles is not known
        if (out.until > 0 && token.kind == TokenKind::word) continue;  // "... on each side"
        if (token.kind == TokenKind::full_stop && next.kind == TokenKind::end) break;
        if (token.kind == TokenKind::full_stop && next.kind == TokenKind::open) continue;
        // "with 2 more sts between the increases": where, not how many times
        if (token.kind == TokenKind::number && among(next, {"more"}) && i + 2 < tokens.size() &&
            among(tokens[i + 2], {"st", "sts", "stitch", "stitches"}))
            continue;
        if (token.kind == TokenKind::number) {
            const bool stitches = among(next, {"st", "sts", "stitches"});
            if (stitches && until && out.until == 0)
                out.until = token.value;
            else if (stitches && !until && out.by < 0)
                out.by = token.value;
            else if (among(next, {"more", "times"}) && !until)
                out.times = token.value;
            else
                return std::nullopt;
            continue;
        }
        if (token.kind == TokenKind::ordinal && out.period == 0 &&
            among(next, {"row", "rnd", "round"})) {
            out.period = token.value;
            continue;
        }
        if (among(token, more_words)) {
            out.more = 1;
        } else if (among(token, less_words)) {
            out.more = -1;
        } else if (among(token, {"every", "each"})) {
            if (among(next, {"row", "rnd", "round"})) out.period = 1;
            // "every knit row": flat, every other one
            if (among(next, {"knit", "k", "purl", "p"}) && i + 2 < tokens.size() &&
                among(tokens[i + 2], {"row"})) {
                out.period = 2;
                ++i;
            }
            if (among(next, {"other", "second", "alternate", "alt", "third", "fourth", "outside",
                             "inside", "rs", "right"}))
                out.period = 2;
            if (among(next, {"third"})) out.period = 3;
            if (among(next, {"fourth"})) out.period = 4;
        } else if (among(token, {"until", "till"})) {
            until = true;
        } else if (among(token,
                         {"manner", "way", "fashion", "method", "before", "established", "set"})) {
            out.as_before = true;
        } else if (!among(token, free_words)) {
            return std::nullopt;
        }
    }
    const bool change = out.more != 0;
    // "Decrease until 5 sts remain": nothing else is said.
    if (change && !led && out.until > 0 && out.by < 0) out.as_before = true;
    if (out.until == 0 && out.times == 0) return std::nullopt;
    if (!out.as_before && !(change && (led || out.period > 0))) return std::nullopt;
    if (!out.as_before && !change) return std::nullopt;
    return out;
}

}  // namespace

/// "Starting at the lower edge with one strand, cast on 68 sts": what leads to the cast-on holds no
/// work and is set aside.
void PatternReader::pass_lead(std::vector<Token>& tokens, std::vector<SetAside>& aside) const {
    if (book_->craft() != Craft::knit || !pattern_.slots.empty() || !pattern_.foundation.empty())
        return;
    std::size_t found = 0;
    bool any = false;
    for (std::size_t i = 0; i + 2 < tokens.size(); ++i) {
        const bool cast = tokens[i].text == "cast" && tokens[i + 1].text == "on";
        const bool number = tokens[i + (cast ? 2 : 1)].kind == TokenKind::number;
        if ((!cast && tokens[i].text != "co" && tokens[i].text != "cast-on") || !number) continue;
        if (any) return;  // none of several is passed over
        any = true;
        found = i;
    }
    if (found == 0 || found > 40) return;
    // A single star is a mark for a note below.
    const auto stars = std::count_if(tokens.begin(), tokens.end(), [](const Token& token) {
        return token.kind == TokenKind::star;
    });
    SetAside told{SetAside::Why::remark, tokens.front().at, {}};
    for (std::size_t i = 0; i < found; ++i) {
        const Token& token = tokens[i];
        const bool work =
            token.kind == TokenKind::word &&
            (book_->find(token.text) || token.text.starts_with("row") ||
             (token.text.size() > 1 && (token.text.front() == 'k' || token.text.front() == 'p') &&
              token.text[1] >= '0' && token.text[1] <= '9') ||
             among(token, {"pick", "holder", "holders", "held", "waste", "scrap"}) ||
             token.text == "rnd" || token.text == "rep" || token.text == "repeat");
        if (work || (token.kind == TokenKind::star && stars > 1) ||
            token.kind == TokenKind::double_star)
            return;
        told.words += (i == 0 ? "" : " ") + std::string(token.text);
    }
    tokens.erase(tokens.begin(), tokens.begin() + static_cast<std::ptrdiff_t>(found));
    aside.push_back(std::move(told));
}

namespace {

/// Markers that a row leaves: those within it, and whether one stands at its end.
struct Markers {
    std::int64_t inner = 0;
    bool at_end = false;
};

void count_markers(const std::vector<Item>& items, std::int64_t times, std::int64_t& sum) {
    for (const Item& item : items) {
        if (item.what == Item::Do::marker) sum += times;
        if (item.what == Item::Do::drop_marker) sum -= times;
        if (item.what == Item::Do::repeat && item.extent.until != Extent::Until::to_end)
            count_markers(item.items, times * item.extent.count, sum);
    }
}

Markers markers_of(const Pattern& pattern) {
    Markers out;
    for (const Written& written : pattern.written) {
        const std::vector<Item>& items = written.body.items;
        if (items.empty()) continue;
        std::int64_t sum = 0;
        count_markers(items, 1, sum);
        if (sum > 0 && items.front().what == Item::Do::marker) --sum;
        if (sum > 1 && items.back().what == Item::Do::marker) {
            out.at_end = true;
            --sum;
        }
        // A cast-on's only marker is where the round begins.
        if (sum == 1 && items.back().what == Item::Do::marker) sum = 0;
        if (std::none_of(items.begin(), items.end(), works)) continue;
        out.inner = std::max<std::int64_t>(0, out.inner + sum);
    }
    return out;
}

}  // namespace

/// "Knit, increasing before and after each marker": written out for the markers there are.
void PatternReader::expand_markers(std::vector<Token>& tokens) const {
    const auto found = std::find_if(tokens.begin(), tokens.end(), [](const Token& token) {
        return among(token, {"incatmarkers", "decatmarkers"});
    });
    if (found == tokens.end()) return;
    const Markers markers = markers_of(pattern_);
    if (markers.inner == 0) return;
    const bool more = found->text == "incatmarkers";
    const std::uint32_t at = found->at;
    std::vector<Token> made;
    const auto put = [&](TokenKind kind, std::string_view text, std::int64_t value, char c) {
        Token token;
        token.kind = kind;
        token.at = at;
        token.text = text;
        token.value = value;
        token.sign = c;
        made.push_back(token);
    };
    const auto word = [&](std::string_view text) { put(TokenKind::word, text, 0, 0); };
    const auto number = [&](std::int64_t value) { put(TokenKind::number, "1", value, 0); };
    const auto sign = [&](TokenKind kind, char c) {
        put(kind, c == '(' ? "(" : c == ')' ? ")" : ",", 0, c);
    };
    if (markers.at_end) {
        word(more ? "m1" : "ssk");
        sign(TokenKind::comma, ',');
    }
    sign(TokenKind::open, '(');
    word("k");
    word("to");
    if (!more) {
        number(2);
        word("sts");
        word("before");
    }
    word("marker");
    sign(TokenKind::comma, ',');
    word(more ? "m1" : "k2tog");
    sign(TokenKind::comma, ',');
    word("sm");
    sign(TokenKind::comma, ',');
    word(more ? "m1" : "ssk");
    sign(TokenKind::close, ')');
    number(markers.inner);
    word("times");
    sign(TokenKind::comma, ',');
    word("k");
    word("to");
    if (markers.at_end && !more) {
        word("last");
        number(2);
        word("sts");
    } else {
        word("end");
    }
    if (markers.at_end) {
        sign(TokenKind::comma, ',');
        word(more ? "m1" : "k2tog");
    }
    const auto place = tokens.erase(found);
    tokens.insert(place, made.begin(), made.end());
}

/// "Pick up and knit 3 sts along the edge (9 sts)": what is on the needle stays, where the count
/// says so.
void PatternReader::keep_below(Written& written) const {
    if (book_->craft() != Craft::knit || pattern_.slots.empty()) return;
    std::vector<Item>& items = written.body.items;
    if (items.empty() || written.body.declared.size() != 1) return;
    std::int64_t sum = 0;
    for (const Item& item : items) {
        if (item.what == Item::Do::turn) continue;
        if (item.what != Item::Do::work || book_->at(item.kind).name != "CO") return;
        sum += item.count;
    }
    if (sum == 0 || written.body.declared.front().count <= sum) return;
    Item stays;
    stays.at = items.front().at;
    stays.kind = book_->find_us("k");
    stays.spot.which = Spot::Which::each;
    items.insert(items.begin(), std::move(stays));
}

std::int64_t PatternReader::tendency_of(const Body& body) const {
    return tendency(body.items, *book_);
}

bool PatternReader::goes_on_changing(const std::vector<Token>& tokens, std::string_view text) {
    if (book_->craft() != Craft::knit || pattern_.slots.empty()) return false;
    auto told = goes_on_of(tokens);
    if (!told) return false;
    const auto change_of = [&](std::int64_t row) -> std::int64_t {
        const Slot slot = slot_of(row);
        if (slot.written < 0) return 0;
        return tendency(pattern_.written[static_cast<std::size_t>(slot.written)].body.items,
                        *book_);
    };
    const auto last_change = [&](std::int64_t from) {
        for (std::int64_t row = from; row > 0 && row > from - 12; --row)
            if (change_of(row) != 0) return row;
        return std::int64_t{0};
    };
    const std::int64_t last = last_change(next_row_ - 1);
    const auto unclear = [&](std::string what) {
        fail_line(text, Fault{tokens.front().at, std::move(what),
                              "a row before it that shows the change, and how often it comes",
                              "Write the next rows out, with their counts."});
        return true;
    };
    const bool all_told = told->by > 0 && told->period > 0 && told->more != 0;
    if (last == 0 && !all_told)
        return unclear(
            "what this goes on with is not clear: no row before it changes "
            "its stitches");
    const std::int64_t way = last == 0 ? told->more : change_of(last) > 0 ? 1 : -1;
    if (told->more == 0) told->more = static_cast<int>(way);
    if (told->by < 0 && told->more != way)
        return unclear("the rows before it change their stitches the other way");
    const std::int64_t before = last_change(last - 1);
    const std::int64_t trailing = last == 0 ? 0 : next_row_ - 1 - last;
    if (told->period == 0 && before > 0 && (change_of(before) > 0) == (way > 0))
        told->period = last - before;
    if (told->period == 0 && trailing > 0) told->period = trailing + 1;
    if (told->period == 0 && before == last - 1) told->period = 1;  // every row changes
    if (told->period == 0) return unclear("how many rows lie between two changes is not said");
    Written change;
    change.entry = entry_;
    change.base = base_;
    change.round = options_->round;
    change.text = base::trimmed(original_.substr(base_, text.size()));
    change.first_row = next_row_;
    Item one;
    one.what = told->more > 0 ? Item::Do::increase : Item::Do::decrease;
    one.count = told->by;
    Item even;
    even.what = Item::Do::evenly;
    even.kind = book_->find_us("k");
    even.items.push_back(std::move(one));
    change.body.items.push_back(std::move(even));
    pattern_.written.push_back(std::move(change));
    plain_since_ = true;
    const std::int64_t changes = last_written();
    // A row that casts on or binds off is none of those between two changes.
    bool edge = false;
    for (std::int64_t row = last + 1; row < next_row_ && last > 0; ++row) {
        const Slot slot = slot_of(row);
        if (slot.written < 0) continue;
        for (const Item& item : pattern_.written[static_cast<std::size_t>(slot.written)].body.items)
            edge = edge || (item.what == Item::Do::work && (book_->at(item.kind).name == "CO" ||
                                                            book_->at(item.kind).name == "BO"));
    }
    const std::int64_t first =
        edge ? told->period : std::max<std::int64_t>(1, told->period - trailing);
    Turns turns{first, 1, told->until};
    assign_turns({turns}, changes);
    if (told->until > 0)
        pattern_.slots[static_cast<std::size_t>(next_row_ - 1)].block = told->period;
    if (told->times > 1) assign_turns({{told->period, told->times - 1, 0}}, changes, true);
    return true;
}

/// What would be set aside of a row, and says that more is worked.
std::optional<Fault> PatternReader::passed_over(std::string_view text, const Label& label) const {
    if (label.what == Label::What::numbered && !label.again) {
        std::int64_t rows = 0;
        for (const Span& span : label.rows) rows += span.last - span.first + 1;
        if (const auto more = work_beside_row(text, rows))
            return Fault{0, base::quoted(*more) + " beside the row is not read",
                         "the numbers of all its rows, or a row that repeats it",
                         "Write it like: Rows 5-14: ..., or: Rep row 5 nine more times."};
    }
    if (options_->lenient) return std::nullopt;
    if (!options_->strands_known && speaks_of_strands(text))
        return Fault{0, "rows worked with several strands take as many yarns",
                     "what is held together",
                     "Say which yarn is held with which, or weigh a swatch of so many strands."};
    if (label.what == Label::What::unlabelled && says_more_is_worked(text))
        return Fault{0, base::quoted(base::trimmed(text)) + " is not read, and may be work",
                     "its rows, or how often the piece is made", "If it is a remark, take it out."};
    return std::nullopt;
}

void PatternReader::set_aside(std::string_view text) {
    Other other;
    other.entry = entry_;
    other.base = base_;
    other.text = base::trimmed(original_.substr(base_, text.size()));
    other.first_row = next_row_;
    const std::string low = base::lower(other.text);
    // "Thread the end through the sts and take them off.": what is held comes next.
    if (book_->craft() == Craft::knit &&
        (low.find(" through ") != std::string::npos ||
         low.find("fasten off") != std::string::npos || low.find("tie off") != std::string::npos)) {
        Item gone;
        gone.what = Item::Do::let_go;
        between_.push_back(std::move(gone));
    }
    if (options_->lenient) pattern_.others.push_back(std::move(other));
}

/// "Continue with these right and wrong side rows.", "Work as back." of a piece that is not known:
/// nothing that can be worked.
std::optional<Fault> PatternReader::goes_on_unsaid(const std::vector<Token>& tokens,
                                                   const Label& label, const Written& written,
                                                   bool yarns) const {
    if (book_->craft() != Craft::knit || label.what != Label::What::unlabelled || written.fault ||
        yarns || !written.body.items.empty() || label.body + 2 >= tokens.size())
        return std::nullopt;
    const Token& first = tokens[label.body];
    const bool alike =
        among(tokens[label.body + 1], {"as", "like"}) ||
        (among(tokens[label.body + 1], {"same"}) && among(tokens[label.body + 2], {"as"}));
    if (alike && among(first, {"work", "knit", "make"}) &&
        std::any_of(tokens.begin(), tokens.end(), [](const Token& token) {
            return among(token, {"back", "front", "sleeve", "side", "half", "leg", "arm", "piece",
                                 "first", "left", "right", "other"});
        }))
        return Fault{label.body, "what this is worked like is not known",
                     "the name of a piece that stands before it",
                     "Write its rows out, or name that piece."};
    if (!among(first, {"continue", "cont"}) ||
        std::any_of(tokens.begin(), tokens.end(), [](const Token& token) {
            return among(token,
                         {"follows", "following", "foll", "needles", "yarn", "color", "colour"});
        }))
        return std::nullopt;
    return Fault{label.body, "how long this goes on is not said", "the number of rows, or a length",
                 "Write it like: knit 30 rows."};
}

}  // namespace skeinfall::notation
