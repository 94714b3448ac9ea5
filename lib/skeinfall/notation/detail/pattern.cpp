#include "skeinfall/notation/detail/pattern.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <functional>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/grammar.hpp"
#include "skeinfall/notation/detail/labels.hpp"

namespace skeinfall::notation {
namespace {

constexpr std::size_t most_problems = 1000;

/// Whether there is a stitch or a chain in it.
bool makes(const Item& item) {
    return works(item) || item.what == Item::Do::chain || item.what == Item::Do::ring;
}

/// Whether a line only makes the base that row 1 goes into.
bool makes_base(const Body& body, const StitchBook& book) {
    const bool knit = book.craft() == Craft::knit;
    bool base = false;
    for (const Item& item : body.items) {
        const bool cast_on = knit && item.what == Item::Do::work && book.at(item.kind).name == "CO";
        if (item.what == Item::Do::chain || item.what == Item::Do::ring || cast_on)
            base = true;
        else if (item.what != Item::Do::join && item.what != Item::Do::turn &&
                 item.what != Item::Do::marker && item.what != Item::Do::at_marker)
            return false;
    }
    return base;
}

class PatternReader {
  public:
    PatternReader(const NotationOptions& options, StitchBook& book, base::Problems& problems,
                  bool share)
        : options_(&options),
          book_(&book),
          problems_(&problems),
          share_(share),
          yarn_(options.yarn) {}

    Pattern run(const std::vector<WrittenRows>& entries) {
        for (const OwnStitch& stitch : options_->own) define(stitch);
        for (entry_ = 0; entry_ < entries.size(); ++entry_) {
            if (entries[entry_].counted) {
                table(*entries[entry_].counted);
                continue;
            }
            original_ = entries[entry_].text;
            const std::string text = base::lower(original_);
            for (base_ = 0; base_ <= text.size();) {
                const std::size_t end = std::min(text.find('\n', base_), text.size());
                line(std::string_view(text).substr(base_, end - base_));
                base_ = end + 1;
            }
        }
        fill_others();
        return std::move(pattern_);
    }

  private:
    /// A byte of an entry. It becomes a line and a column only when something is wrong there:
    /// finding them for every row would take time with the square of the rows.
    struct Where {
        std::size_t entry = 0;
        std::size_t at = 0;
    };
    [[nodiscard]] Where place(std::size_t at) const { return {entry_, base_ + at}; }

    void fail(Where where, std::string what, std::string expected, std::string remedy) {
        fail(options_->locate(where.entry, where.at), std::move(what), std::move(expected),
             std::move(remedy));
    }
    void fail(base::Place where, std::string what, std::string expected, std::string remedy) {
        if (problems_->size() < most_problems)
            problems_->push_back(
                {std::move(what), std::move(where), std::move(expected), std::move(remedy)});
    }
    void fail(const Fault& fault) {
        fail(place(fault.at), fault.what, fault.expected, fault.remedy);
    }

    void define(const OwnStitch& own) {
        Stitch stitch;
        stitch.name = own.name;
        stitch.takes = own.takes;
        stitch.makes = own.makes.value_or(1);
        MakeUp make_up;
        make_up.own_top = own.makes.has_value();
        if (!own.of.empty()) {
            const std::string text = base::lower(own.of);
            const Tokens tokens = tokens_of(text, options_->size, options_->sizes);
            std::optional<Fault> fault = tokens.fault;
            Body body;
            if (!fault) {
                Grammar grammar(*book_, tokens.tokens, 0);
                body = grammar.row();
                fault = grammar.fault();
            }
            if (!fault && !body.unknown.empty())
                fault = Fault{body.unknown.front().at,
                              "\"" + body.unknown.front().name + "\" is no known stitch",
                              "stitches of the trade, or ones described before this one", ""};
            if (!fault && body.items.empty())
                fault = Fault{0, "there is no stitch in it", "its stitches, like 2 dc, ch 1", ""};
            if (fault) {
                base::Place where = own.of_place;
                where.column += fault->at;
                fail(where, fault->what, fault->expected, fault->remedy);
                return;
            }
            make_up.items = std::move(body.items);
        }
        const auto kind = book_->add(stitch);
        if (!kind) {
            fail(own.place, "the stitch \"" + own.name + "\" is known already", "a name of its own",
                 "Give it another name.");
            return;
        }
        if (!make_up.items.empty()) pattern_.make_ups.emplace(*kind, std::move(make_up));
    }

    /// The rows of a label as rows of the piece. Numbers that begin anew, or go on behind rows
    /// without a number, follow the rows before them.
    [[nodiscard]] std::vector<Span> placed(const Label& label) {
        std::vector<Span> out = label.rows;
        if (out.empty() || label.what != Label::What::numbered) return out;
        const long first = out.front().first;
        const auto taken = [&](long row) {
            return row > 0 && row < static_cast<long>(pattern_.slots.size()) &&
                   pattern_.slots[static_cast<std::size_t>(row)].written >= 0;
        };
        if (first > 0 && taken(first + offset_)) {
            if (first == own_last_ + 1)
                offset_ = next_row_ - first;
            else if (first == 1 && (own_last_ != 1 || plain_since_))
                offset_ = next_row_ - 1;
        }
        // Plain rows stand before a number that only counts the numbered ones.
        if (label.bare && bare_base_ && first == own_last_ + 1) offset_ = next_row_ - first;
        own_last_ = out.back().last;
        plain_since_ = false;
        for (Span& span : out) {
            if (span.first == 0) continue;
            span.first += offset_;
            span.last += offset_;
        }
        return out;
    }

    /// The rows that an open end comes to, of blocks of `block`; nothing where it cannot be told.
    [[nodiscard]] std::optional<long> rows_of(const OpenEnd& open, long block, Where where,
                                              std::vector<RowFinding>& told) {
        if (open.rows > 0) return open.rows;
        units::Length length = open.length;
        if (open.desired) {
            if (!options_->desired) {
                fail_row(
                    Fault{open.at, "the pattern leaves this length to you",
                          "a length, or a number of rows",
                          "Say how long it is to be, or write how many rows, like: for 40 rows."},
                    where);
                return std::nullopt;
            }
            length = *options_->desired;
        }
        if (!options_->row_gauge) {
            fail_row(Fault{open.at, "how many rows this length takes is not known",
                           "a row gauge, or a number of rows",
                           "Give the gauge with its rows, or write how many rows."},
                     where);
            return std::nullopt;
        }
        const double all = length * *options_->row_gauge / units::row;
        const double rest = all - (open.whole ? static_cast<double>(next_row_ - 1) : 0.0);
        const long rows = std::max(0L, std::lround(rest / static_cast<double>(block))) * block;
        told.push_back({Severity::ok, static_cast<std::uint32_t>(open.at),
                        fmt::format("{} rows by the row gauge{}", rows,
                                    open.whole && next_row_ > 1
                                        ? fmt::format(", behind the {} before", next_row_ - 1)
                                        : std::string()),
                        ""});
        if (rows > most_rows) return most_rows + 1;
        return rows;
    }

    void fail_row(Fault fault, Where where) {
        if (options_->lenient)
            row_fault_ = std::move(fault);
        else
            fail(Where{where.entry, where.at + fault.at}, fault.what, fault.expected, fault.remedy);
    }

    /// Puts a written row (or several of a table) into the rows first..last.
    void assign(const Span& span, const Slot& slot, Where where) {
        if (span.last > most_rows) {
            fail(where, "there are too many rows", "at most 1000000 rows", "");
            return;
        }
        if (static_cast<long>(pattern_.slots.size()) <= span.last)
            pattern_.slots.resize(static_cast<std::size_t>(span.last) + 1);
        const Written& written = pattern_.written[static_cast<std::size_t>(slot.written)];
        yarn_ = written.yarns.starts.value_or(yarn_);
        changed_ = false;
        for (long row = span.first; row <= span.last; ++row) {
            Slot& old = pattern_.slots[static_cast<std::size_t>(row)];
            if (old.written >= 0 && options_->lenient) {
                pattern_.written[static_cast<std::size_t>(slot.written)].told.push_back(
                    {Severity::stop, 0,
                     fmt::format("row {} is written twice; this one is taken as the next row",
                                 row - offset_),
                     "Correct the row numbers."});
                const long moved = next_row_ - span.first;
                offset_ += moved;
                return assign({next_row_, span.last + moved}, slot, where);
            }
            if (old.written >= 0) {
                fail(where, fmt::format("row {} is written twice", row), "every row once",
                     "Correct the row numbers.");
                return;
            }
            old = slot;
            old.yarn = yarn_;
            if (written.counted) old.within = row - span.first;
        }
        next_row_ = std::max(next_row_, span.last + 1);
    }

    void table(const CountedRows& counted) {
        base_ = 0;
        Written written;
        written.entry = entry_;
        written.counted = counted;
        written.round = options_->round;
        written.first_row = next_row_;
        for (auto* kinds : {&written.counted->kinds, &written.counted->increase})
            for (KindCount& kind : *kinds) name_kind(kind);
        pattern_.written.push_back(std::move(written));
        assign({next_row_, next_row_ + counted.rows - 1}, {last_written(), 0, false, {}}, place(0));
    }

    void name_kind(KindCount& kind) {
        const auto named = book_->find(base::lower(kind.kind));
        if (named && !named->other_terms) {
            kind.kind = book_->at(named->kind).name;
            return;
        }
        const auto near = base::nearest_name(kind.kind, book_->names());
        fail(place(0), "\"" + base::shown_inert(kind.kind) + "\" is no known stitch",
             "the abbreviation of a stitch",
             near ? "Did you mean \"" + *near + "\"?" : "Describe it in a [stitch.NAME] table.");
    }

    [[nodiscard]] const std::vector<Item>& items_of_last() const {
        return pattern_.written.back().body.items;
    }

    [[nodiscard]] long last_written() const {
        return static_cast<long>(pattern_.written.size()) - 1;
    }

    /// Where another row begins in the same line: "... across. Row 2: ch 1"; 0 when none does.
    static std::size_t next_row_at(const std::vector<Token>& tokens) {
        const auto row = [&](std::size_t i) {
            return i < tokens.size() && tokens[i].kind == TokenKind::word &&
                   (tokens[i].text == "row" || tokens[i].text == "rows" ||
                    tokens[i].text == "rnd" || tokens[i].text == "rnds" ||
                    tokens[i].text == "round" || tokens[i].text == "rounds");
        };
        for (std::size_t i = 1; i + 2 < tokens.size(); ++i) {
            // "Cast on 22 sts and knit 2 rows", "Join; purl 1 round"
            const bool rows =
                (tokens[i].text == "knit" || tokens[i].text == "purl" || tokens[i].text == "work" ||
                 tokens[i].text == "k" || tokens[i].text == "p") &&
                tokens[i].kind == TokenKind::word && tokens[i + 1].kind == TokenKind::number &&
                row(i + 2);
            if (rows && (tokens[i - 1].kind == TokenKind::full_stop ||
                         tokens[i - 1].kind == TokenKind::comma ||
                         tokens[i - 1].kind == TokenKind::semicolon ||
                         tokens[i - 1].kind == TokenKind::close || tokens[i - 1].text == "and" ||
                         tokens[i - 1].text == "then"))
                return tokens[i].at;
            if (tokens[i - 1].kind != TokenKind::full_stop &&
                tokens[i - 1].kind != TokenKind::close)
                continue;
            const bool rep = tokens[i].text == "rep" || tokens[i].text == "repeat";
            if (rep && tokens[i - 1].kind == TokenKind::full_stop &&
                (row(i + 1) || (tokens[i + 1].kind == TokenKind::word &&
                                (tokens[i + 1].text == "last" || tokens[i + 1].text == "the" ||
                                 tokens[i + 1].text == "these" || tokens[i + 1].text == "this") &&
                                (row(i + 2) || (i + 3 < tokens.size() && row(i + 3)) ||
                                 (i + 4 < tokens.size() && row(i + 4))))))
                return tokens[i].at;
            // "Dec Row 1:"
            const bool named = tokens[i].kind == TokenKind::word && row(i + 1) && !row(i) &&
                               (tokens[i].text.starts_with("inc") ||
                                tokens[i].text.starts_with("dec") || tokens[i].text == "next");
            if (named && tokens[i - 1].kind == TokenKind::full_stop) {
                std::size_t to = i + 2;
                if (tokens[to].kind == TokenKind::number) ++to;
                if (tokens[to].kind == TokenKind::colon) return tokens[i].at;
            }
            if (!row(i) || tokens[i + 1].kind != TokenKind::number) continue;
            std::size_t to = i + 2;  // "Rows 3-9 (RS):"
            while (tokens[to].kind != TokenKind::colon && tokens[to].kind != TokenKind::full_stop &&
                   tokens[to].kind != TokenKind::end && to < i + 10)
                ++to;
            if (tokens[to].kind == TokenKind::colon) return tokens[i].at;
        }
        return 0;
    }

    /// "Row 12: ..." or "Rnd 12: ..." and nothing more before the colon.
    struct PlainRow {
        long number = 0;
        bool round = false;
        std::string_view body;
    };
    static std::optional<PlainRow> plain_row(std::string_view text) {
        PlainRow out;
        out.round = text.starts_with("rnd ");
        if (!out.round && !text.starts_with("row ")) return std::nullopt;
        const char* const begin = text.data() + 4;
        const char* const end = text.data() + text.size();
        const auto [after, error] = std::from_chars(begin, end, out.number);
        if (error != std::errc() || after == end || *after != ':' || out.number < 1)
            return std::nullopt;
        out.body = std::string_view(after, static_cast<std::size_t>(end - after));
        return out;
    }

    void line(std::string_view text) {
        const auto plain = share_ ? plain_row(text) : std::nullopt;
        if (!plain) return full_line(text);
        std::map<std::string, long, std::less<>>& known = known_[plain->round ? 1 : 0];
        if (const auto same = known.find(plain->body); same != known.end()) {
            assign({plain->number, plain->number}, {same->second, 0, true, {}}, place(0));
            change_to(pattern_.written[static_cast<std::size_t>(same->second)].yarns.ends);
            pattern_.shared = true;
            return;
        }
        const std::size_t before = pattern_.written.size();
        full_line(text);
        const bool one_row =
            pattern_.written.size() == before + 1 && others_.empty() &&
            plain->number < static_cast<long>(pattern_.slots.size()) &&
            pattern_.slots[static_cast<std::size_t>(plain->number)].written == last_written();
        if (one_row) known.emplace(plain->body, last_written());
    }

    void change_to(std::optional<std::size_t> yarn) {
        if (!yarn) return;
        yarn_ = *yarn;
        changed_ = true;
    }

    void full_line(std::string_view text) {
        if (base::trimmed(text).empty()) return;
        Tokens lexed = tokens_of(text, options_->size, options_->sizes);
        if (lexed.fault) return fail(*lexed.fault);
        if (const std::size_t at = next_row_at(lexed.tokens); at > 0) {
            full_line(text.substr(0, at));
            base_ += at;
            full_line(text.substr(at));
            base_ -= at;
            return;
        }
        std::optional<Fault> fault;
        const std::vector<YarnPhrase> phrases = take_yarns(
            lexed.tokens, original_.substr(base_, text.size()), options_->yarns, *book_, fault);
        if (fault) return fail(*fault);
        pattern_.yarns_said = pattern_.yarns_said || !phrases.empty();
        Label label = label_of(lexed.tokens, fault);
        if (fault) return fail_line(text, *fault);
        if (label.side != 0 && label.what == Label::What::numbered && !label.rows.empty())
            right_parity_ = (label.rows.front().first + (label.side == 'r' ? 0 : 1)) % 2;
        if (label.what == Label::What::unlabelled && edge_rows(lexed.tokens, text)) return;
        std::optional<OpenEnd> open_end;
        if (!label.again && (label.what == Label::What::unlabelled ||
                             (label.what == Label::What::next && label.count == 1)))
            open_end = take_open_end(lexed.tokens, label.body);
        Grammar grammar(*book_, lexed.tokens, label.body);
        if (label.what == Label::What::note) {
            if (const auto note = grammar.note()) pattern_.notes.insert(*note);
            return;
        }
        const Where where = place(0);
        row_fault_.reset();
        std::vector<Span> spans = placed(label);
        if (label.again) {
            label.rows = spans;
            for (const YarnPhrase& phrase : phrases)
                if (phrase.at <= label.again->at) change_to(phrase.yarn);
            const long before = next_row_;
            Other other;
            other.entry = entry_;
            other.base = base_;
            other.text = base::trimmed(original_.substr(base_, text.size()));
            repeat_rows(label, where, other.told);
            other.fault = row_fault_;
            other.first_row = before;
            other.rows = next_row_ - before;
            pattern_.others.push_back(std::move(other));
            for (const YarnPhrase& phrase : phrases)
                if (phrase.at > label.again->at) yarn_behind(phrase, where);
            if (label.has_tail) behind(grammar);
            return;
        }
        Written written;
        written.entry = entry_;
        written.base = base_;
        written.round = label.names_kind ? label.round : options_->round;
        written.body = grammar.row();
        if (grammar.fault()) {
            if (!options_->lenient) return fail(*grammar.fault());
            written.fault = grammar.fault();
            written.body = Body{};
            written.body.declared = Grammar(*book_, lexed.tokens, label.body).declared_only();
        }
        const std::size_t begin = lexed.tokens[label.body].at;
        written.text = base::trimmed(original_.substr(base_ + begin, text.size() - begin));
        keep_notes(written.body);
        const bool numbered =
            label.what == Label::What::numbered || label.what == Label::What::others;
        const std::vector<Item>& items = written.body.items;
        written.yarns = yarns_of_row(phrases, items, yarn_, fault);
        if (fault && !options_->lenient) return fail(*fault);
        if (fault && !written.fault) written.fault = fault;
        // "Change to CC1.", "Join CC1 with sl st in any st."
        const bool only_yarn = !phrases.empty() && std::none_of(items.begin(), items.end(), makes);
        if ((!numbered || label.bare) && !written.fault && !open_end &&
            (items.empty() || only_yarn || only_prepares(items))) {  // "Fasten off."
            change_to(written.yarns.starts);
            set_aside(text);
            return;
        }
        const bool base = (!numbered || label.bare) && !written.fault && pattern_.slots.empty() &&
                          makes_base(written.body, *book_);
        // "Fdc 25." is a row that needs nothing below it.
        const bool needs_none = std::all_of(
            written.body.items.begin(), written.body.items.end(), [&](const Item& item) {
                return item.what == Item::Do::work && book_->at(item.kind).takes == 0;
            });
        if (needs_none && pattern_.slots.empty() && label.what == Label::What::unlabelled)
            label.what = Label::What::foundation;
        pattern_.written.push_back(std::move(written));
        if (base) {
            pattern_.foundation.push_back(last_written());
            bare_base_ = bare_base_ || label.bare;
            change_to(pattern_.written.back().yarns.starts);
            return;
        }
        if (label.what == Label::What::foundation) spans = {{0, 0}};
        if (label.what == Label::What::unlabelled) spans = {{next_row_, next_row_}};
        if (label.what == Label::What::next)
            spans = {{next_row_, next_row_ + std::max(1L, label.count) - 1}};
        if (label.what != Label::What::numbered) plain_since_ = true;
        if (open_end && !pattern_.written.back().fault &&
            std::none_of(items_of_last().begin(), items_of_last().end(), works)) {
            Fault nothing{open_end->at, "what is worked up to here is not said",
                          "the stitches of these rows", "Write it like: knit for 4 in."};
            if (!options_->lenient) return fail(nothing);
            pattern_.written.back().fault = std::move(nothing);
        }
        if (open_end) {
            const auto rows = rows_of(*open_end, 1, where, pattern_.written.back().told);
            if (!rows && !options_->lenient) return;
            if (!rows) pattern_.written.back().fault = row_fault_;
            if (rows == 0) {
                pattern_.written.pop_back();
                return;
            }
            spans = {{next_row_, next_row_ + rows.value_or(1) - 1}};
        }
        pattern_.written.back().first_row = spans.empty() ? next_row_ : spans.front().first;
        for (const Span& span : spans) {
            if (span.first == 0 && label.what == Label::What::numbered) {
                fail(where, "there is no row 0", "rows from 1 on", "");
                return;
            }
            assign(span, {last_written(), 0, false, {}}, where);
        }
        if (!spans.empty() && spans.back().last < static_cast<long>(pattern_.slots.size()))
            pattern_.slots[static_cast<std::size_t>(spans.back().last)].counted = true;
        change_to(pattern_.written.back().yarns.ends);
        if (label.also != Parity::none) {
            const long parity = label.also == Parity::even    ? offset_ % 2
                                : label.also == Parity::odd   ? (1 + offset_) % 2
                                : label.also == Parity::right ? (right_parity_ + offset_) % 2
                                : label.also == Parity::wrong
                                    ? (1 + right_parity_ + offset_) % 2
                                    : pattern_.written.back().first_row % 2;
            others_.push_back({pattern_.written.back().first_row, parity, last_written()});
        }
    }

    /// "Bind off 6 sts at beg of next 2 rows", "dec 1 st at each end of every other row 4 times":
    /// rows told by what happens at their edges.
    bool edge_rows(const std::vector<Token>& tokens, std::string_view text) {
        std::size_t i = 0;
        const auto any = [&](std::initializer_list<std::string_view> words) {
            return tokens[i].kind == TokenKind::word &&
                   std::find(words.begin(), words.end(), tokens[i].text) != words.end();
        };
        const auto take = [&](std::initializer_list<std::string_view> words) {
            if (!any(words)) return false;
            ++i;
            return true;
        };
        const auto number = [&](long& value) {
            if (tokens[i].kind != TokenKind::number) return false;
            value = tokens[i++].value;
            return true;
        };
        if (book_->craft() != Craft::knit) return false;
        while (take({"then", "and", "now"}) || tokens[i].kind == TokenKind::comma) {
            if (tokens[i].kind == TokenKind::comma) ++i;
        }
        bool bind = false;
        bool more = false;
        if (take({"bo", "bind-off"}))
            bind = true;
        else if (any({"bind", "cast"}) && i + 1 < tokens.size() && tokens[i + 1].text == "off") {
            bind = true;
            i += 2;
        } else if (take({"inc", "increase", "increasing"}))
            more = true;
        else if (!take({"dec", "decrease", "decreasing"}))
            return false;
        long count = 0;
        if (!number(count) || count < 1) return false;
        take({"st", "sts", "stitch", "stitches"});
        if (!take({"at", "on"}) && !any({"each"})) return false;
        take({"the"});
        long ends = 1;
        if (take({"each", "both"}))
            ends = 2;
        else if (!bind)
            return false;
        if (!take({"beg", "beginning", "start", "end", "ends", "side", "sides", "edge"}))
            return false;
        if (take({"of"}) || take({"on"})) take({"the"});
        long rows = 1;    // bound off in so many
        long period = 1;  // a change every so many rows
        long times = 1;
        if (take({"next", "following"})) {
            if (number(rows) && !bind) {
                times = rows;
                rows = 1;
            }
            if (!take({"row", "rows", "rnd", "rnds", "round", "rounds"})) return false;
        } else if (!bind && take({"every"})) {
            if (take({"other", "alt", "alternate", "2nd", "second"}))
                period = 2;
            else if (tokens[i].kind == TokenKind::ordinal)
                period = tokens[i++].value;
            take({"following", "foll"});
            if (!take({"row", "rows", "rnd", "rnds", "round", "rounds"})) return false;
            if (any({"twice"})) {
                times = 2;
                ++i;
            } else if (!number(times) || !take({"times"})) {
                return false;
            }
        } else {
            return false;
        }
        std::vector<Declared> declared;
        while (tokens[i].kind == TokenKind::full_stop || tokens[i].kind == TokenKind::dash ||
               tokens[i].kind == TokenKind::open || tokens[i].kind == TokenKind::equals)
            ++i;
        if (tokens[i].kind == TokenKind::number) {
            Declared one;
            one.at = tokens[i].at;
            one.count = tokens[i].value;
            declared.push_back(one);
            ++i;
            while (take({"sts", "st", "stitches", "remain", "rem", "left", "remaining"}) ||
                   tokens[i].kind == TokenKind::close || tokens[i].kind == TokenKind::full_stop) {
                if (tokens[i].kind == TokenKind::close || tokens[i].kind == TokenKind::full_stop)
                    ++i;
            }
        }
        if (tokens[i].kind != TokenKind::end || period < 1 || times < 1 ||
            times * period > most_rows)
            return false;
        const auto item = [&](std::string_view kind, long of) {
            Item one;
            one.kind = book_->find_us(kind);
            one.count = of;
            return one;
        };
        const auto rest = [&](long keep) {
            Item one = item("k", 1);
            one.spot.which = Spot::Which::each;
            one.spot.keep = keep;
            return one;
        };
        Written change;
        change.entry = entry_;
        change.base = base_;
        change.round = options_->round;
        change.text = base::trimmed(original_.substr(base_, text.size()));
        change.first_row = next_row_;
        if (bind)
            change.body.items = {item("BO", count), rest(0)};
        else if (more)
            change.body.items = {item("kfb", count), rest(count), item("kfb", count)};
        else
            change.body.items = {item("ssk", count), rest(2 * count), item("k2tog", count)};
        if (bind && ends == 2) return false;
        change.body.declared = declared;
        Written plain = change;
        plain.body = Body{};
        plain.body.items = {rest(0)};
        pattern_.written.push_back(change);
        const long changes = last_written();
        plain_since_ = true;
        if (bind) {
            assign({next_row_, next_row_ + rows - 1}, {changes, 0, false, {}}, place(0));
        } else {
            long between = -1;
            if (period > 1) {
                pattern_.written.push_back(plain);
                between = last_written();
            }
            for (long turn = 0; turn < times; ++turn) {
                if (period > 1)
                    assign({next_row_, next_row_ + period - 2}, {between, 0, false, {}}, place(0));
                assign({next_row_, next_row_}, {changes, 0, false, {}}, place(0));
            }
        }
        pattern_.slots[static_cast<std::size_t>(next_row_ - 1)].counted = !declared.empty();
        return true;
    }

    /// "Rows 5-8: rep rows 1-4, change to CC1": for what follows.
    void yarn_behind(const YarnPhrase& phrase, Where where) {
        if (phrase.change) return change_to(phrase.yarn);
        fail({entry_, where.at + phrase.at}, "a yarn behind the rows that it is for",
             "the yarn in front of them", "Write it like: Rows 5-8: With CC1, rep rows 1-4.");
    }

    /// What stands behind "rep row 5": a count, or remarks like "Fasten off."
    void behind(Grammar& grammar) {
        const Body body = grammar.row();
        if (grammar.fault()) return fail(*grammar.fault());
        for (const Item& item : body.items)
            if (item.what != Item::Do::turn && item.what != Item::Do::join)
                return fail(Fault{item.at, "stitches behind a repeat of rows",
                                  "the repeat alone, or a count behind it",
                                  "Write them as a row of their own."});
        if (!body.declared.empty())
            pattern_.behind.push_back({next_row_ - 1, entry_, base_, body.declared});
    }

    /// A line that cannot even be placed among the rows.
    void fail_line(std::string_view text, const Fault& fault) {
        if (!options_->lenient) return fail(fault);
        Other other;
        other.entry = entry_;
        other.base = base_;
        other.text = base::trimmed(original_.substr(base_, text.size()));
        other.first_row = next_row_;
        other.fault = fault;
        pattern_.others.push_back(std::move(other));
    }

    void set_aside(std::string_view text) {
        Other other;
        other.entry = entry_;
        other.base = base_;
        other.text = base::trimmed(original_.substr(base_, text.size()));
        other.first_row = next_row_;
        if (options_->lenient) pattern_.others.push_back(std::move(other));
    }

    /// "Join in the round.", "pm": nothing is worked.
    static bool only_prepares(const std::vector<Item>& items) {
        return std::all_of(items.begin(), items.end(), [](const Item& item) {
            return item.what == Item::Do::join || item.what == Item::Do::turn ||
                   item.what == Item::Do::marker || item.what == Item::Do::at_marker ||
                   item.what == Item::Do::drop_marker;
        });
    }

    void keep_notes(const Body& body) {
        for (const Item& item : body.items)
            if (item.what == Item::Do::chain && item.note && item.note->throughout)
                pattern_.notes.emplace(item.count, *item.note);
    }

    /// What is worked in a row that was written before, or by "and all even rows".
    [[nodiscard]] Slot slot_of(long row) const {
        if (row >= 0 && row < static_cast<long>(pattern_.slots.size())) {
            const Slot& slot = pattern_.slots[static_cast<std::size_t>(row)];
            if (slot.written >= 0) return slot;
        }
        for (const Others& others : others_)
            if (row >= others.from && row % 2 == others.parity) {
                const auto& yarns =
                    pattern_.written[static_cast<std::size_t>(others.written)].yarns;
                return {others.written, 0, false, yarns.starts};
            }
        return {};
    }

    void repeat_rows(const Label& label, Where where, std::vector<RowFinding>& told) {
        const RowsAgain& again = *label.again;
        const auto bad = [&](std::string what, std::string expected, std::string remedy) {
            fail_row(Fault{again.at, std::move(what), std::move(expected), std::move(remedy)},
                     where);
        };
        long first = next_row_;
        // A row by "all even rows" may stand before the next one that is written.
        if (label.rows.empty())
            while (slot_of(first).written >= 0) ++first;
        std::vector<long> again_rows;
        for (const Span& span : again.rows) {
            if (span.last - span.first > most_rows) break;
            for (long row = span.first; row <= span.last; ++row)
                again_rows.push_back(slot_of(row + offset_).written >= 0 ? row + offset_ : row);
        }
        for (long back = again.last_rows; back > 0 && back <= first; --back)
            again_rows.push_back((label.rows.empty() ? first : label.rows.front().first) - back);
        std::vector<Slot> slots;
        for (const long row : again_rows) {
            slots.push_back(slot_of(row));
            if (slots.back().written < 0) {
                bad(fmt::format("row {} is repeated before it is written", row),
                    "rows that stand above", "Correct the row numbers.");
                return;
            }
        }
        if (slots.empty()) {
            bad("there is no row to repeat", "rows that stand above", "");
            return;
        }
        std::vector<Span> spans = label.rows;
        const long block = static_cast<long>(slots.size());
        if (spans.empty()) {
            long last = -1;
            if (again.until_row > 0) last = again.until_row + offset_;
            if (again.for_rows > 0) last = first + again.for_rows - 1;
            if (again.times > 0) last = first + again.times * block - 1;
            if (label.what == Label::What::next && last < 0) last = first + label.count - 1;
            if (again.open_end) {
                const auto rows = rows_of(*again.open_end, block, where, told);
                if (!rows || *rows == 0) return;
                last = first + *rows - 1;
            }
            if (last < first) {
                bad("the repeat does not say how many rows are worked",
                    "row numbers in front, or \"n times\" behind",
                    "Write it like: Rows 3-96: rep rows 1 and 2.");
                return;
            }
            spans = {{first, last}};
        }
        // Rows of several yarns bring them along, unless one was just taken up for all of them.
        const bool one_yarn =
            changed_ || std::none_of(slots.begin(), slots.end(), [&](const Slot& slot) {
                const Written& written = pattern_.written[static_cast<std::size_t>(slot.written)];
                return written.yarns.starts || slot.yarn != slots.front().yarn;
            });
        changed_ = false;
        long turn = 0;
        for (const Span& span : spans) {
            if (span.last > most_rows) {
                fail(where, "there are too many rows", "at most 1000000 rows", "");
                return;
            }
            for (long row = span.first; row <= span.last; ++row, ++turn) {
                Slot slot = slots[static_cast<std::size_t>(turn % block)];
                if (one_yarn) slot.yarn = yarn_;
                if (!put(row, slot, where)) return;
                yarn_ = slot.yarn.value_or(yarn_);
            }
        }
        if (again.times > 0 && again.times * block != turn)
            bad(fmt::format("{} rows are labelled, {} times {} rows are {}", turn, again.times,
                            block, again.times * block),
                "the same number", "Correct one of them.");
    }

    bool put(long row, const Slot& slot, Where where) {
        if (static_cast<long>(pattern_.slots.size()) <= row)
            pattern_.slots.resize(static_cast<std::size_t>(row) + 1);
        Slot& old = pattern_.slots[static_cast<std::size_t>(row)];
        if (old.written >= 0) {
            fail_row(Fault{where.at - base_, fmt::format("row {} is written twice", row),
                           "every row once", "Correct the row numbers."},
                     where);
            return false;
        }
        old = slot;
        old.counted = false;
        next_row_ = std::max(next_row_, row + 1);
        return true;
    }

    /// Gives the rows of "all even rows" their instructions; what is left then is missing.
    void fill_others() {
        for (long row = 1; row < static_cast<long>(pattern_.slots.size()); ++row) {
            Slot& slot = pattern_.slots[static_cast<std::size_t>(row)];
            if (slot.written < 0) {
                slot = slot_of(row);
                slot.counted = false;
            }
            if (slot.written < 0 && options_->lenient) {
                tell_gap(row);
                continue;
            }
            if (slot.written < 0 && problems_->empty())
                fail(Where{}, fmt::format("row {} is not written", row),
                     "every row from 1 to the last",
                     "Write it, or correct the numbers of the rows around it.");
            if (row > 1 && !slot.yarn)
                slot.yarn = pattern_.slots[static_cast<std::size_t>(row) - 1].yarn;
            if (slot.written >= 0) ++pattern_.written[static_cast<std::size_t>(slot.written)].uses;
        }
    }

    /// In a pattern that is read as far as it goes, the next row tells what is missing.
    void tell_gap(long row) {
        for (long next = row + 1; next < static_cast<long>(pattern_.slots.size()); ++next) {
            const Slot& slot = pattern_.slots[static_cast<std::size_t>(next)];
            if (slot.written < 0) continue;
            std::vector<RowFinding>& told =
                pattern_.written[static_cast<std::size_t>(slot.written)].told;
            if (told.size() < 5)
                told.push_back({Severity::stop, 0,
                                fmt::format("row {} before it is not written", row - offset_),
                                "Write it, or correct the numbers of the rows around it."});
            return;
        }
    }

    struct Others {
        long from = 0;
        long parity = 0;
        long written = 0;
    };

    const NotationOptions* options_;
    StitchBook* book_;
    base::Problems* problems_;
    bool share_;
    std::size_t yarn_;     ///< of the rows to come
    bool changed_ = true;  ///< since the last row, to yarn_
    /// The words behind "Row n:" and behind "Rnd n:", and what was written with them.
    std::array<std::map<std::string, long, std::less<>>, 2> known_;
    Pattern pattern_;
    std::size_t entry_ = 0;
    std::size_t base_ = 0;
    std::string_view original_;  ///< the entry before its letters were made small
    long next_row_ = 1;
    long offset_ = 0;           ///< of the numbers of labels to the rows of the piece
    long own_last_ = 0;         ///< the last number of a label
    bool plain_since_ = false;  ///< rows without a number have come since
    bool bare_base_ = false;    ///< "1. Cast on ..." took a number
    long right_parity_ = 1;     ///< of the rows on the right side
    std::optional<Fault> row_fault_;
    std::vector<Others> others_;
};

}  // namespace

Pattern read_pattern(const std::vector<WrittenRows>& entries, const NotationOptions& options,
                     StitchBook& book, base::Problems& problems, bool share) {
    return PatternReader(options, book, problems, share).run(entries);
}

}  // namespace skeinfall::notation
