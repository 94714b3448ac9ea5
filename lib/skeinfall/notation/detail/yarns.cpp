#include "skeinfall/notation/detail/yarns.hpp"

#include <algorithm>
#include <cstdint>
#include <initializer_list>
#include <string>
#include <utility>

#include "skeinfall/base/text.hpp"

namespace skeinfall::notation {
namespace {

using Words = std::initializer_list<std::string_view>;

/// "mc", "cc", "cc1": the trade's letters for the main and the contrast colours.
bool is_trade_letters(std::string_view word) {
    return word == "mc" || (word.starts_with("cc") &&
                            word.find_first_not_of("0123456789", 2) == std::string_view::npos);
}

class YarnReader {
  public:
    YarnReader(std::vector<Token>& tokens, std::string_view written,
               const std::vector<YarnNames>& yarns, StitchBook& book, std::optional<Fault>& fault,
               bool within, bool sure)
        : tokens_(&tokens),
          written_(written),
          yarns_(&yarns),
          book_(&book),
          fault_(&fault),
          within_(within),
          sure_(sure) {}

    std::vector<YarnPhrase> run() {
        for (std::size_t i = 0; i < tokens_->size() && !*fault_;) i = phrase(i);
        return std::move(found_);
    }

  private:
    struct Name {
        std::size_t yarn = 0;
        std::size_t words = 0;
    };

    [[nodiscard]] const Token& token(std::size_t i) const {
        return (*tokens_)[std::min(i, tokens_->size() - 1)];
    }
    [[nodiscard]] bool any_of(std::size_t i, Words words) const {
        return token(i).kind == TokenKind::word &&
               std::find(words.begin(), words.end(), token(i).text) != words.end();
    }
    [[nodiscard]] bool is_words(std::size_t i) const {
        const TokenKind kind = token(i).kind;
        return kind == TokenKind::word || kind == TokenKind::number || kind == TokenKind::ordinal ||
               kind == TokenKind::length;
    }

    /// The longest name of a yarn from token `i` on. "a" is an article unless it was a capital.
    [[nodiscard]] std::optional<Name> name(std::size_t i) const {
        std::optional<Name> best;
        if (token(i).kind != TokenKind::word) return best;
        if (token(i).text == "a" && written_[token(i).at] != 'A') return best;
        for (std::size_t yarn = 0; yarn < yarns_->size(); ++yarn)
            for (const std::string& one : (*yarns_)[yarn].names) {
                std::string read;
                std::size_t words = 0;
                while (read.size() < one.size() && is_words(i + words)) {
                    if (words > 0) read += ' ';
                    read += token(i + words++).text;
                }
                if (!one.empty() && read == one && (!best || words > best->words))
                    best = Name{yarn, words};
            }
        return best;
    }

    /// The word behind "with", "to" ... must be a yarn and is none.
    [[nodiscard]] bool missing(std::size_t lead, std::size_t i, bool colour) const {
        if (token(i).kind != TokenKind::word) return false;
        if (is_trade_letters(token(i).text)) return true;
        if (!sure_) return false;
        const bool changed =
            any_of(lead, {"to"}) && lead > 0 &&
            any_of(lead - 1, {"change", "changing", "switch", "switching"}) &&
            !any_of(i, {"dpn", "dpns", "hooks", "circular", "circulars", "rounds", "rows"});
        if (colour || changed || (any_of(lead, {"with", "using"}) && first(lead)))
            return !is_words(i + 1) && !book_->find(token(i).text) &&
                   !any_of(i, {"hook", "needle", "needles", "rs", "ws", "yarn", "care"});
        return false;
    }

    /// Whether a clause is the first of its line or behind its label.
    [[nodiscard]] bool first(std::size_t i) const {
        return i == 0 || token(i - 1).kind == TokenKind::colon;
    }

    /// "fasten off MC", "carry MC up the side": nothing is worked with it.
    [[nodiscard]] bool at_rest(std::size_t i) const {
        for (; i > 0 && is_words(i - 1); --i)
            if (any_of(i - 1, {"fasten", "finish", "cut", "break", "drop", "carry", "carrying",
                               "leave", "leaving", "weave", "cutting", "dropping"}))
                return true;
        return false;
    }

    /// Reads at token `i`; the token to go on with.
    std::size_t phrase(std::size_t i) {
        if (token(i).kind == TokenKind::open) ++depth_;
        if (token(i).kind == TokenKind::close) --depth_;
        if (token(i).kind != TokenKind::word) return i + 1;
        std::size_t begin = i;
        const bool to = any_of(i, {"to"}) && i > 0 &&
                        any_of(i - 1, {"change", "changing", "switch", "switching", "back"});
        const bool up = any_of(i, {"up"}) && i > 0 && any_of(i - 1, {"pick", "picking"});
        const bool join = any_of(i, {"join", "joining", "attach", "add"});
        const bool with = any_of(i, {"with", "using", "in"});
        if (sure_ && any_of(i, {"change", "changing", "switch", "switching"}) && of_no_name(i + 1))
            return not_named(i);
        if (to || up) --begin;
        if (to && begin > 0 && any_of(begin, {"back"}) &&
            any_of(begin - 1, {"change", "changing", "switch", "switching"}))
            --begin;
        if (!(to || up || join || with)) {
            // "3A, 2B": so many stitches of a yarn that a letter names
            const bool letter = i > 0 && token(i - 1).kind == TokenKind::number &&
                                token(i).text.size() == 1 && !is_words(i + 1) &&
                                !book_->find(token(i).text) && name(i);
            if ((!is_trade_letters(token(i).text) && !letter) || at_rest(i)) return i + 1;
            return use(i, i, i, false, false);
        }
        std::size_t at = i + 1;
        bool colour = false;
        while (any_of(at, {"the", "color", "colour", "yarn", "new", "strand", "of"})) {
            colour = colour || any_of(at, {"color", "colour"});
            ++at;
        }
        // "Join new colour."
        if (sure_ && colour && join && !is_words(at)) return not_named(i);
        return use(begin, i, at, colour, !with);
    }

    std::size_t use(std::size_t begin, std::size_t lead, std::size_t at, bool colour, bool change) {
        const auto named = name(at);
        if (!named) {
            if (missing(lead, at, colour)) not_there(at);
            return lead + 1;
        }
        // "in shell" is a place when a stitch has that name.
        if (any_of(lead, {"in"}) && !colour && book_->find(token(at).text)) return lead + 1;
        std::size_t end = at + named->words;
        found_.push_back({token(at).at, named->yarn, change, depth_ > 0});
        const bool join = any_of(lead, {"join", "joining"});
        if (join && is_words(end)) begin = lead + 1;  // "join CC1 with sc in first st"
        if (change && !join)
            while (is_words(end) && !book_->find(token(end).text) &&
                   !any_of(end, {"rep", "repeat", "work", "row", "rows", "rnd", "rnds", "with"}))
                ++end;
        if (begin > 0 && token(begin - 1).kind == TokenKind::open &&
            token(end).kind == TokenKind::close) {
            --begin;
            ++end;
            --depth_;
            found_.back().enclosed = depth_ > 0;
        }
        const TokenKind behind = token(end).kind;
        if (within_) {
            Token yarn = token(at);
            yarn.kind = TokenKind::yarn;
            yarn.value = static_cast<std::int64_t>(named->yarn);
            // Words beside a stitch, without a comma between, are about that stitch.
            const bool bare = lead == at;
            const bool beside =
                begin > 0 && (is_words(begin - 1) || token(begin - 1).kind == TokenKind::close);
            const bool ended =
                !is_words(end) || any_of(end, {"to", "across", "around", "times", "and", "then"});
            yarn.sign = !change && beside && (!bare || ended) ? 's' : 'p';
            if (yarn.sign == 'p' && (behind == TokenKind::comma || behind == TokenKind::colon))
                ++end;
            const auto start = tokens_->begin();
            tokens_->erase(start + static_cast<std::ptrdiff_t>(begin),
                           start + static_cast<std::ptrdiff_t>(end) - 1);
            (*tokens_)[begin] = yarn;
            return begin + 1;
        }
        if (first(begin) && (behind == TokenKind::comma || behind == TokenKind::full_stop ||
                             behind == TokenKind::semicolon || behind == TokenKind::colon ||
                             behind == TokenKind::dash))
            ++end;
        const auto from = tokens_->begin();
        tokens_->erase(from + static_cast<std::ptrdiff_t>(begin),
                       from + static_cast<std::ptrdiff_t>(end));
        return begin;
    }

    /// "colour", "to the next colour": whose is not said.
    [[nodiscard]] bool of_no_name(std::size_t i) const {
        while (any_of(i, {"to", "the", "a", "new", "next", "second", "other", "another", "contrast",
                          "contrasting", "your"}))
            ++i;
        return any_of(i, {"color", "colour", "colors", "colours"}) && !is_words(i + 1);
    }

    std::size_t not_named(std::size_t i) {
        std::vector<std::string> ids;
        for (const YarnNames& yarn : *yarns_) ids.push_back(yarn.id);
        *fault_ =
            Fault{token(i).at, "it does not say which yarn comes next",
                  "one of " + base::join(ids, ", "), "Write it like \"With " + ids.back() + ":\"."};
        return i + 1;
    }

    void not_there(std::size_t i) {
        const std::string word(written_.substr(token(i).at, token(i).text.size()));
        std::vector<std::string> ids;
        for (const YarnNames& yarn : *yarns_) ids.push_back(yarn.id);
        const auto near = base::nearest_name(word, ids);
        *fault_ = Fault{token(i).at, "no yarn \"" + base::shown_inert(word) + "\" is described",
                        "one of " + base::join(ids, ", "),
                        near ? "Did you mean \"" + *near +
                                   "\"? Otherwise describe it in a "
                                   "[yarn.NAME] table."
                             : "Describe it in a [yarn.NAME] table."};
    }

    std::vector<Token>* tokens_;
    std::string_view written_;
    const std::vector<YarnNames>* yarns_;
    StitchBook* book_;
    std::optional<Fault>* fault_;
    bool within_;
    bool sure_;
    int depth_ = 0;
    std::vector<YarnPhrase> found_;
};

/// Whether some stitch stands before byte `at` (or, `behind`, after it).
bool worked(const std::vector<Item>& items, std::size_t at, bool behind) {
    return std::any_of(items.begin(), items.end(), [&](const Item& item) {
        if (!item.items.empty()) return worked(item.items, at, behind);
        return works(item) && (item.at < at) != behind;
    });
}

}  // namespace

bool works(const Item& item) {
    switch (item.what) {
        case Item::Do::chain:
        case Item::Do::join:
        case Item::Do::turn:
        case Item::Do::ring:
        case Item::Do::unworked:
        case Item::Do::work_only:
        case Item::Do::let_go:
        case Item::Do::needle:
        case Item::Do::yarn:
            return false;
        default:
            return true;
    }
}

std::vector<YarnPhrase> take_yarns(std::vector<Token>& tokens, std::string_view written,
                                   const std::vector<YarnNames>& yarns, StitchBook& book,
                                   std::optional<Fault>& fault, bool within, bool sure) {
    if (yarns.empty()) return {};
    return YarnReader(tokens, written, yarns, book, fault, within, sure).run();
}

/// Whether two yarns are named with no stitch between them.
bool together(const std::vector<Item>& items) {
    bool yarn = false;
    for (const Item& item : items) {
        if (yarn && item.what == Item::Do::yarn) return true;
        yarn = item.what == Item::Do::yarn;
        if (together(item.items)) return true;
    }
    return false;
}

YarnsOfRow yarns_within(const std::vector<Item>& items) {
    YarnsOfRow out;
    out.within = !together(items);
    bool begun = false;
    for (const Item& item : items) {
        if (item.what == Item::Do::yarn) {
            if (!begun) out.starts = item.kind;
            out.ends = item.kind;
        } else if (works(item) || item.what == Item::Do::chain) {
            begun = true;
        }
    }
    return out;
}

YarnsOfRow yarns_of_row(const std::vector<YarnPhrase>& phrases, const std::vector<Item>& items,
                        std::size_t current, std::optional<Fault>& fault) {
    YarnsOfRow out;
    // One thing all along the row, not a list that is worked over and over.
    const bool one = std::count_if(items.begin(), items.end(), works) == 1 &&
                     std::all_of(items.begin(), items.end(),
                                 [](const Item& item) { return item.items.size() < 2; });
    for (const YarnPhrase& phrase : phrases) {
        const bool before = worked(items, phrase.at, false);
        const bool behind = worked(items, phrase.at, true);
        if (!behind && before && phrase.change && !phrase.enclosed) out.ends = phrase.yarn;
        // Also "sc in each st across with CC1".
        else if (!phrase.enclosed && (!before || (!behind && one))) {
            if (out.starts && *out.starts != phrase.yarn && !fault)
                fault = Fault{phrase.at, "the row names two yarns", "one yarn for a whole row",
                              "Of yarns held together name one in the rows, and write held_with in "
                              "the other's [yarn.NAME] table."};
            out.starts = phrase.yarn;
        } else if (phrase.yarn != out.starts.value_or(current) && !fault) {
            out.within = true;
            fault = Fault{phrase.at,
                          "the yarn changes inside a row, and how much of the row it "
                          "takes is not followed",
                          "one yarn for a whole row, named at its beginning",
                          "Write whole rows, like: With CC1, sc in each st across; or give the "
                          "piece stripes = [{ yarn = \"MC\", rows = 2 }]. For colours within a row "
                          "state each yarn's total instead."};
        }
    }
    return out;
}

}  // namespace skeinfall::notation
