#pragma once
/// \file
/// Goes through the lines of a pasted pattern. Inner part of the notation.

#include <algorithm>
#include <array>
#include <cctype>
#include <cstdint>
#include <map>
#include <set>
#include <utility>

#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/grammar.hpp"
#include "skeinfall/notation/detail/labels.hpp"
#include "skeinfall/notation/detail/line_kinds.hpp"
#include "skeinfall/notation/detail/lines.hpp"
#include "skeinfall/notation/document.hpp"

namespace skeinfall::notation {

class DocumentReader {
  public:
    DocumentReader(std::string_view text, const DocumentOptions& options)
        : text_(text), options_(&options), lines_(lines_of(text)) {}

    Document run() {
        tell_craft();
        tell_terms();
        book_.emplace(document_.craft, document_.terms);
        join_wrapped();
        take_redefined();
        part_stripes();
        write_out_runs();
        tell_sizes();
        tell_yarns();
        tell_size_names();
        tell_numbered();
        part_definitions();
        write_out_blocks();
        for (at_ = 0; at_ < lines_.size(); ++at_) line();
        finish_part();
        take_usual_stitches();
        if (document_.craft == Craft::knit) use_stitch_patterns();
        for (Pending& pending : pending_) work(pending);
        count_pieces();
        propose_borders();
        propose_lengths();
        propose_counts();
        tell_beside_rows();
        return std::move(document_);
    }

  private:
    struct Pending {
        Section section;
        std::vector<Line> lines;
    };

    // ---- what the whole text tells

    void tell_craft();
    // document_terms.cpp
    void tell_terms();
    void take_redefined();
    void take_usual_stitches();
    [[nodiscard]] std::optional<std::pair<std::string, std::string>> redefines(
        const std::string& text, bool& fails);
    static void rename(Line& line, const std::string& name, const std::string& meant);
    void tell_beside_rows();
    /// The sizes that the most lists of numbers have, "64 (68, 72, 76)".
    void tell_sizes();
    /// "Rows 6-19 (6-25):", "Row 20 (26):": labels with the numbers of a second size.
    [[nodiscard]] bool labels_of_two_sizes() const;
    /// The numbers of the chosen size alone, in such a label and behind "rep rows".
    void choose_label(Line& line) const;
    /// MC, CC1, "color A": the yarns that it names.
    void tell_yarns();
    /// "With A, ...", "Join B with sl st": yarns by letters alone.
    void tell_lettered(std::map<std::string, std::vector<std::string>>& found) const;

    /// "To fit 2 (4, 6, 8)": what its sizes are called.
    void tell_size_names();
    /// Lines that number the steps of the work: "1. Ch 42.", "2- sc in each st".
    void tell_numbered();
    [[nodiscard]] bool works_step(const std::vector<std::string>& words);
    /// "Add eyes between rounds 6 and 7, 8 sts apart": words about a toy's face.
    [[nodiscard]] bool tells_of_face(const std::vector<std::string>& words);
    [[nodiscard]] bool works_stitches(const std::vector<std::string>& words, std::size_t from);

    /// "Size 4 only: ...", "All sizes: ...": the line without that, or nothing to do for the chosen
    /// size. False for other lines.
    bool of_some_sizes(Line& line);
    static void cut_front(Line& line, std::size_t bytes);
    void join_wrapped();
    /// Headings and rows that stand in one paragraph are made lines of their own.
    void part_paragraphs();
    [[nodiscard]] std::size_t base_behind_materials(const Line& line) const;
    [[nodiscard]] std::size_t base_behind_telling(const Line& line) const;
    [[nodiscard]] std::size_t heading_in_capitals(const Line& line) const;
    [[nodiscard]] std::vector<std::size_t> rows_in_paragraph(const Line& line) const;
    /// Whether a page broke the row before this line; `widest`: of the lines around, 0 unknown.
    [[nodiscard]] bool wraps(const Line& row, const Line& next, std::size_t widest);
    // ---- what one line is
    /// "k2tog = knit 2 together", behind the rows.
    [[nodiscard]] bool abbreviation_line(const Line& line);
    [[nodiscard]] bool seams_by_stitches(const std::vector<std::string>& words) const;
    bool counts_heading(const std::vector<std::string>& words);
    bool later_label(Line& line);
    std::size_t base_before(const std::string& low, std::size_t from);
    bool same_rows(const Line& line, const std::string& heading);
    bool same_until(const Line& line, const std::string& heading);
    bool begin_again(Pending again, const Line& told, const std::string& heading);
    [[nodiscard]] bool hooked_abbreviation(const std::string& text);
    /// "Pick up and knit 3 sts along the edge (9 sts)": more than it picks up is on the needle.
    [[nodiscard]] bool adds_to_needle(const std::vector<std::string>& words) const;
    [[nodiscard]] bool leads_to_rows(const Line& line, const std::vector<std::string>& words);
    /// "Cast on 40 sts", "With MC, ch 31": what begins a piece.
    [[nodiscard]] bool sentence_anew(const std::string& row, const std::string& next) const;
    [[nodiscard]] bool begins_base(const std::vector<std::string>& words) const;
    [[nodiscard]] bool base_within(const std::vector<std::string>& words) const;
    [[nodiscard]] bool base_word(const std::vector<std::string>& words, std::size_t i) const;
    /// A foundation of crochet says how many, or that it is a ring.
    [[nodiscard]] bool base_says(const std::vector<std::string>& words) const;
    [[nodiscard]] bool begins_work(const std::vector<std::string>& words) {
        const std::string& word = words[0];
        if (document_.craft == Craft::knit && talks_to_maker(words)) return false;
        // "Place eyes between rounds 5 and 6"
        if (word == "place" && document_.craft == Craft::crochet)
            return std::any_of(words.begin(), words.end(), [](const std::string& one) {
                return one_of(one, {"marker", "markers", "pm", "m"});
            });
        if (one_of(word, {"to", "shape"}) && words.size() > 1 &&
            (word == "shape" || words[1] == "shape"))
            return true;
        if (one_of(word, {"start", "begin", "to"}))
            for (std::size_t i = 1; i + 1 < words.size() && i < 4; ++i)
                if (one_of(words[i], {"increase", "decrease", "inc", "dec", "increases",
                                      "decreases", "increasing", "decreasing"}) &&
                    words[i + 1] == ":")
                    return true;
        if (one_of(word, {"*", "(", "["})) {
            if (words.size() > 1 && one_of(words[1], {"rep", "repeat", "skip", "sk"})) return true;
            for (std::size_t i = 1; i < words.size() && i < 4; ++i)
                if (stitch_word(words[i]) || spelled_stitch(words, i)) return true;
            return false;
        }
        if (one_of(word,
                   {"rep",         "rpt",      "repeat",   "continue", "cont",  "work",    "knit",
                    "purl",        "bind",     "bo",       "cast",     "join",  "turn",    "inc",
                    "dec",         "increase", "decrease", "pm",       "place", "change",  "switch",
                    "rib",         "skip",     "sk",       "slip",     "then",  "now",     "fasten",
                    "break",       "do",       "incr",     "decr",     "in",    "working", "garter",
                    "stockinette", "with",     "hereafter"}))
            return true;
        if (document_.craft == Craft::knit && number(word) && words.size() > 3 &&
            one_of(words[1], {"rows", "rounds", "rnds"}) && one_of(words[2], {"of", "in"}))
            return true;
        if (number(word) && words.size() > 1)
            return stitch_word(words[1]) || spelled_stitch(words, 1);
        if (document_.craft == Craft::knit &&
            one_of(word, {"dec'ing", "inc'ing", "decreasing", "increasing"}))
            return true;
        if (document_.craft == Craft::knit && word == "loosely" && words.size() > 2 &&
            one_of(words[1], {"bind", "cast", "bo", "knit"}))
            return true;
        if (document_.craft == Craft::knit && one_of(word, {"transfer", "return", "move"}) &&
            words.size() > 3 && (number(words[1]) || number(words[2])))
            return true;
        if (document_.craft == Craft::knit && word == "at" && words.size() > 4 && may_work(words))
            return true;
        if (document_.craft == Craft::knit && begins_told_work(words)) return true;
        if (document_.craft == Craft::knit && one_of(word, {"end", "finish"}) && words.size() > 3 &&
            words[1] == "with" && number(words[2]))
            return true;
        if (document_.craft == Craft::knit && needle_named(words) > 0) return true;
        if (document_.craft == Craft::knit && word == "keep" && words.size() > 2 &&
            one_of(words[1], {"knitting", "purling", "working", "going", "increasing", "decreasing",
                              "repeating"}))
            return true;
        if (document_.craft == Craft::knit && knit_sentence(words)) return true;
        return stitch_word(word);
    }

    [[nodiscard]] static bool knit_sentence(const std::vector<std::string>& words);
    /// "Hat should measure 5 in from cast on."
    [[nodiscard]] static bool only_tells(const std::vector<std::string>& words);

    [[nodiscard]] bool spelled_stitch(const std::vector<std::string>& words, std::size_t at) const;
    [[nodiscard]] bool stitch_word(const std::string& word) {
        if (word.empty() || word == "a") return false;
        std::size_t from = 0;
        while (from < word.size() && digit(word[from])) ++from;
        std::string_view name = std::string_view(word).substr(from);
        if (name.empty()) return false;
        if (book_->find(name)) return true;
        if (name.size() > 2 && name.ends_with('s') && document_.craft == Craft::crochet &&
            book_->find(name.substr(0, name.size() - 1)))
            return true;  // "dcs"
        while (!name.empty() && digit(name.back())) name.remove_suffix(1);
        return !name.empty() && book_->find(name).has_value();
    }

    /// "Attach eyes between rounds 6 and 7", "(worked in rounds)": says where or how.
    [[nodiscard]] bool only_names_rounds(const std::vector<std::string>& words, std::size_t) const;

    /// "Increace 1 stitch at each end of each row", "place next 8 sts on holder": stitches by their
    /// number, at edges or on holders.
    [[nodiscard]] static bool changes_edges(const std::vector<std::string>& words);

    [[nodiscard]] static bool begins_told_work(const std::vector<std::string>& words);
    [[nodiscard]] static bool talks_to_maker(const std::vector<std::string>& words);
    [[nodiscard]] static bool takes_up(const std::vector<std::string>& words);
    /// Words of work in a line that is not read as a row.
    [[nodiscard]] bool may_work(const std::vector<std::string>& words) {
        if (document_.craft == Craft::knit && only_tells(words)) return false;
        if (document_.craft == Craft::knit && in_rows_ && asks_for_stitches(words)) return true;
        // "For my dishcloth, I completed 25 rows."
        if (document_.craft == Craft::crochet && words.size() > 2 &&
            (one_of(words[0], {"i", "my", "mine"}) || words[1] == "my") &&
            std::find(words.begin(), words.end(), "i") != words.end())
            return false;
        if (document_.craft == Craft::crochet && only_talks(words)) return false;
        if (document_.craft == Craft::knit && in_rows_ && changes_edges(words)) return true;
        if (document_.craft == Craft::knit && in_rows_ && takes_up(words)) return true;
        // "St st until it measures 3 inches"
        if (document_.craft == Craft::knit && in_rows_ &&
            std::find(words.begin(), words.end(), "until") != words.end() && has_number(words) &&
            std::any_of(words.begin(), words.end(), [](const std::string& word) {
                return one_of(word, {"inches", "inch", "cm", "measures"});
            }))
            return true;
        for (std::size_t i = 0; i < words.size(); ++i) {
            if (only_names_rounds(words, i)) continue;
            if (one_of(words[i], {"k", "p", "inc", "dec", "increase", "decrease", "skip", "bind",
                                  "pick", "rounds", "rows", "rnds"}))
                return true;
            if (document_.craft == Craft::knit &&
                one_of(words[i],
                       {"k2tog", "p2tog", "ssk", "kfb", "yo", "m1", "psso", "skpo", "cast"}))
                return true;
            if (words[i].size() > 1 && digit(words[i].back()) && letter(words[i].front()) &&
                stitch_word(words[i]))
                return true;
            if (one_of(words[i], {"pc", "pcs"})) continue;  // "(2 pcs.)"
            // "Add a row of sc along both sides."
            if (i > 1 && words[i - 1] == "of" && one_of(words[i - 2], {"row", "round", "rnd"}) &&
                stitch_word(words[i]) && document_.craft == Craft::crochet)
                return true;
            if (i > 0 && number(words[i - 1]) && stitch_word(words[i])) return true;
            if (i + 1 < words.size() && stitch_word(words[i]) && number(words[i + 1])) return true;
        }
        return false;
    }

    /// "Divide these sts on 3 needles and work even for 2 in": stitches asked for in plain words.
    [[nodiscard]] static bool says_round(const std::string& low, Craft craft);
    [[nodiscard]] static bool asks_for_stitches(const std::vector<std::string>& words);
    /// "Can I ask what round 10 is for?", "I fixed it on the blog": readers and writers of a page.
    [[nodiscard]] static bool only_talks(const std::vector<std::string>& words);
    // document_advice.cpp
    [[nodiscard]] bool advises(std::vector<std::string> words);
    [[nodiscard]] bool only_advises(const std::string& text);
    [[nodiscard]] bool chats(const std::vector<std::string>& words);
    [[nodiscard]] bool names_material(const std::vector<std::string>& words) const;
    /// "Row 2, to the length required: ...": the row, and the rows that say it again.
    [[nodiscard]] bool row_to_length(const Line& line);
    [[nodiscard]] bool row_until_length(const Line& line);
    void take_row_to_length(Line row, const std::string& label, const Line& line);
    [[nodiscard]] What open_or_told(const Line& line, const std::vector<std::string>& words);
    // document_borders.cpp
    struct Border {
        std::string stitch;
        std::string how;
        std::int64_t ends = 0;  ///< both ends together
        std::int64_t side = 0;
        std::int64_t corner = 1;
        std::int64_t all = 0;
    };
    [[nodiscard]] bool round_joined_pieces() const;
    [[nodiscard]] bool other_piece(const Line& line) const;
    [[nodiscard]] std::string border_stitch(const std::vector<std::string>& words);
    [[nodiscard]] std::optional<Border> border_of(const Section& section,
                                                  const std::vector<std::string>& words);
    [[nodiscard]] std::string border_text(const Border& border, std::string_view label) const;
    void propose_borders();
    static void propose_round(RowReading& reading, std::int64_t count, const std::string& stitch);
    // document_lengths.cpp
    [[nodiscard]] std::optional<units::Length> usual_length() const;
    [[nodiscard]] units::Length usual_row(const Section& section) const;
    void propose_lengths();
    void propose_counts();
    void propose_length(const Section& section, RowReading& reading, std::int64_t before,
                        bool left) const;
    [[nodiscard]] static bool heading(const Line& line, const std::vector<std::string>& words);

    // ---- going through the lines

    void part(What what, const Line& line) {
        const bool work =
            what == What::may_work || (what == What::finishing && may_work(words_of(line.text)));
        document_.parts.push_back({what, line.text, line.number, work});
    }

    void line();
    void line_within_rows(Line& line, const std::vector<std::string>& words);
    void line_before_rows(const Line& line, const std::vector<std::string>& words);

    /// "SLEEVES: Cast on 38 sts.", "BACK ... With No. 1 needles, cast on 81 sts": a heading and
    /// what follows it in one line.
    bool inline_heading(Line& line);
    [[nodiscard]] bool names_edging(const std::string& name, const std::vector<std::string>& words);

    /// "Ribbing: K2, p2 for 2 in.", "Armhole shaping: Bind off 4 sts at beg of next 2 rows.":
    /// within the rows, a name and the work it stands for.
    bool named_work(Line& line, const std::vector<std::string>& words);
    bool same_then(Line& line, const std::string& heading);
    bool like_no_piece(const Line& line, const std::vector<std::string>& words);
    /// "FRONT: Work same as back.": the piece of that name once more, under this one's.
    bool same_piece(const Line& line, const std::vector<std::string>& words,
                    const std::string& heading);

    [[nodiscard]] bool numbered_steps(const std::vector<std::string>& words);

    void open_zone(What zone, const Line& line, std::size_t colon) {
        if (zone == What::heading) {
            zone_.reset();
            heading_.clear();
            return part(What::heading, line);
        }
        if (zone == What::finishing)
            in_rows_ = in_rows_ && colon != std::string::npos && colon + 1 < line.text.size();
        if (zone != What::notes || !in_rows_) {
            zone_ = zone;
            if (zone != What::notes) in_rows_ = false;
        }
        gauge_of(line);
        tools_of(line);
        if (counts_note(line.text)) add_note(line);
        if (zone == What::abbreviations || zone == What::stitches) {
            Line rest = line;
            if (colon != std::string::npos && colon + 2 < line.text.size()) {
                rest.text = line.text.substr(colon + 1);
                rest.from.erase(rest.from.begin(),
                                rest.from.begin() + static_cast<std::ptrdiff_t>(colon) + 1);
                if ((definition_line(rest.text) || bracket_definition(rest.text) > 0) &&
                    define(rest))
                    return;
            }
        }
        part(zone, line);
    }

    void new_heading(const Line& line);
    [[nodiscard]] bool names_yarn_alone(std::vector<std::string> words) const;

    void cut_copies(Line& line);
    void close_count(Line& line);
    void cut_seams(Line& line);
    /// "3 ch-2 sps)": the rest of a bracket that the line above opened.
    [[nodiscard]] static bool continues_count(const std::string& next) {
        const auto close = next.find(')');
        return close != std::string::npos && next.find('(') > close;
    }
    [[nodiscard]] std::optional<Line> then_rows(Line& line) const;
    /// A line of rows, sentence by sentence where each is work of its own.
    void take_row(Line line, bool base);

    /// "You should have 9 sts. Work on these for 4 in": the work behind a sentence that tells.
    bool take_work_in(const Line& line);

    [[nodiscard]] std::vector<Line> sentences(Line line, bool labelled);
    /// Where a sentence ends before work of its own; 0: nowhere.
    [[nodiscard]] std::size_t sentence_end(const Line& line, bool labelled);
    /// "Left mitten: k to last 4 sts, ..." and "Right mitten: ..." behind a label: the first of the
    /// two is taken, the other is listed.
    bool one_hand(Line& line, const std::vector<std::string>& words);

    /// "Decrease rounds - first section": a short line without work before rows with labels.
    [[nodiscard]] bool announces(const Line& line, const std::vector<std::string>& words);
    bool repeats_following(const Line& line, const std::vector<std::string>& words);

    [[nodiscard]] bool of_its_own(const std::vector<std::string>& sentence);

    void take_sentence(const Line& line, bool base, bool last);
    [[nodiscard]] bool pattern_below(const Line& line) const;
    /// "Round 1." alone: what it works stands in the lines below.
    void take_lines_of_label();

    [[nodiscard]] const Line& row_so_far() const { return pending_.back().lines.back(); }
    /// "Ears (make 2)", "Arms x2": how often; 0 where it is not said.
    [[nodiscard]] static std::int64_t times_said(const std::string& name);
    /// A larger number in brackets behind a name, "Sleeve (36)": told with its first row.
    void ask_how_often(Section& section) const;
    /// A short line above a row 1 that makes its own base: the name of a piece.
    [[nodiscard]] bool names_piece(const Line& line, const std::vector<std::string>& words);

    /// Whether a row 1 without a heading begins a piece: it makes a ring, or chains of its own.
    [[nodiscard]] bool begins_anew(const Line& line) const;
    /// Whether the next line is a row 1.
    [[nodiscard]] bool row_one_next() const;
    /// "Row 4: This row is worked in front loops only.": its stitches stand in the next line.
    [[nodiscard]] bool label_with_remark(const Line& line);
    /// "Increase by 6 sc in every round as follows:" above rows with labels.
    [[nodiscard]] bool leads_to_rows(const Line& line) const;
    /// "Repeat for second bootie.": all pieces so far are made twice. False for others.
    bool again_for_other(const Line& line, const std::vector<std::string>& words);
    /// "Make second mitten to match.", "Work left front to correspond, reversing shaping.": the
    /// pieces so far, or the one of that name, twice. False, and nothing done, for others.
    bool again_knit(const Line& line, const std::vector<std::string>& words);
    /// "... and a G hook. Ch 66, adding multiples of 11.": the base behind what tells. Takes it.
    bool base_sentence(Line& line);
    bool ring_sentence(Line& line, const std::string& low);
    /// "Now going down the side": neither stitches nor numbers.
    [[nodiscard]] bool idle(const std::vector<std::string>& words);
    /// Whether row 1 behind a heading makes its own base: "Rnd 1: 6 sc in magic ring".
    [[nodiscard]] bool begins_piece(const Line& line) const;

    [[nodiscard]] bool fresh_base(const Line& line) const {
        const auto words = words_of(line.text);
        return document_.craft == Craft::knit || one_of(words[0], {"magic", "mr", "make"});
    }

    void name_section(Section& section) const;

    /// Whether the star says how often: "(sc, inc) * 6".
    [[nodiscard]] static bool times_star(const std::string& text, std::size_t at);

    /// "Join with a sl st to first hdc. (78 hdc)": the end of the round above.
    [[nodiscard]] bool only_joins(const std::vector<std::string>& words);
    /// "Method Row 1. Make 35 ch", "BODY Rnd 1: 6 sc in ring": where the label begins.
    [[nodiscard]] std::size_t heading_before_row(const Line& line) const;
    /// Whether words go all around a piece of rows, whose last row is only one of its edges, or
    /// name several rounds.
    [[nodiscard]] bool round_flat_piece(const std::vector<std::string>& words) const;
    /// Where a label of a first row stands within a line; npos where none does.
    [[nodiscard]] static std::size_t label_within(const std::string& low);
    /// Rows within a line of prose: "Mark each round. Ch 2. Rnd 1: ...". Takes them.
    bool rows_within(Line& line);

    /// Whether a line stands between rounds 3 and 4 and so belongs to round 3.
    [[nodiscard]] bool between_numbers(const Line& row, const Line& next,
                                       const std::vector<std::string>& words);

    /// Whether a line right below a round whose label stands alone is one of its sentences.
    [[nodiscard]] bool sentence_of_round(const Line& next,
                                         const std::vector<std::string>& words) const;

    /// Whether a row breaks off in the midst of a sentence: "... in next".
    [[nodiscard]] static bool in_midst(const std::string& text);

    /// "... V-st (see Special" and, behind a page's end, "Stitch) in next dc".
    [[nodiscard]] bool closes_bracket(const std::string& row, const std::string& next) const;

    /// "*Make sure that it is not twisted", or any line behind "(2 sc, dec) * 6 (24);".
    [[nodiscard]] bool stands_apart(const std::string& row, const std::string& next,
                                    const std::vector<std::string>& words);

    /// Whether a row ends within a bracket or a list, so that a blank line does not end it.
    [[nodiscard]] bool breaks_off(const std::string& row, const Line& next,
                                  const std::vector<std::string>& words);

    /// Whether a line goes on with a remark right above it.
    [[nodiscard]] bool goes_on_telling(const Line& line, const std::vector<std::string>& words);

    [[nodiscard]] bool announces_rows(const Line& line, const std::vector<std::string>& words);
    void dashes_to_commas(Line& line) const;
    void space_definition(Line& line) const;
    [[nodiscard]] static bool cut_sizes(const std::string& row,
                                        const std::vector<std::string>& next);
    /// Whether a line goes on with the row before it: a page broke it.
    [[nodiscard]] bool continues(const Line& next);

    // document_assembly.cpp
    /// "Sl st the short ends together", "Join yarn at the thumb opening.", "Shape armholes": words
    /// that put pieces together, lead to rows or take up the yarn, without a stitch of a row.
    [[nodiscard]] bool puts_together(const std::string& text);
    [[nodiscard]] bool assembles(const std::vector<std::string>& words);
    [[nodiscard]] bool goes_on_with_chain(const std::vector<std::string>& words) const;
    bool heading_with_yarn(const Line& line, const std::vector<std::string>& words);
    [[nodiscard]] bool tells_how_many(const std::vector<std::string>& words) const;
    [[nodiscard]] bool named_sizes(const std::vector<std::string>& words) const;
    /// "Medium and Large sizes only:" above its rows: whether the lines below are of other sizes.
    bool for_other_sizes(const Line& line, const std::vector<std::string>& words);
    /// "Open mesh (om): ch 2, sk 2, dc in next st. Solid mesh (sm): ...": cut into lines.
    void part_definitions();
    // document_stripes.cpp, document_blocks.cpp
    void part_stripes();
    void write_out_runs();
    void write_out_blocks();

    // ---- notes, definitions, gauge, tools

    void add_note(const Line& line) {
        part(What::notes, line);
        Line note = line;
        note.text = "note: " + note.text;
        note.from.insert(note.from.begin(), 6, note.from.empty() ? 0 : note.from.front());
        notes_.push_back(std::move(note));
    }

    bool define(const Line& line);
    /// A line that tells how a stitch is made, loop by loop; the name may stand before it.
    bool how_to(const Line& line);
    [[nodiscard]] bool works_and_pulls(const std::string& low);
    bool rows_from_on(const Line& line);
    bool stitch_told_for(const std::string& low, const Line& line);
    [[nodiscard]] bool counts_alone(const std::string& row, const std::vector<std::string>& words);
    [[nodiscard]] bool turned_rows(const std::vector<Line>& lines) const;
    void define_as(const std::string& name, const std::string& meaning, const Line& line,
                   bool& any);

    [[nodiscard]] bool known(const std::string& name) {
        static constexpr auto plain =
            std::to_array<std::string_view>({"st",         "sts",
                                             "stitch",     "rep",
                                             "beg",        "sp",
                                             "sps",        "rnd",
                                             "rnds",       "row",
                                             "rs",         "ws",
                                             "mc",         "cc",
                                             "inc",        "dec",
                                             "sk",         "lp",
                                             "lps",        "blo",
                                             "flo",        "tog",
                                             "pm",         "sm",
                                             "rem",        "cont",
                                             "foll",       "approx",
                                             "mr",         "tch",
                                             "yoh",        "alt",
                                             "bet",        "patt",
                                             "bl",         "fl",
                                             "prev",       "turning chain",
                                             "skip",       "repeat",
                                             "round",      "beginning",
                                             "right side", "wrong side"});
        return std::find(plain.begin(), plain.end(), name) != plain.end() ||
               book_->find(name).has_value();
    }

    std::string how_name_;  ///< of the stitch that the lines to come may tell how to make
    std::string how_text_;
    /// What a definition says as notation; false when it says nothing of a stitch.
    bool make_up(std::string meaning, Definition& definition);
    bool knit_make_up(const std::string& meaning, Definition& definition);

    static void name_own_length(const std::string& name, std::vector<Line>& lines);
    [[nodiscard]] bool gives_gauge(const std::string& low) const;
    void gauge_of(const Line& line);
    void tools_of(const Line& line);

    // ---- rows of a stitch pattern, told before the piece that uses it

    void use_stitch_patterns();
    [[nodiscard]] bool tells_pattern(const Pending& pending) const;
    void set_unused_aside(const std::vector<std::size_t>& told);
    [[nodiscard]] bool has_base(const Pending& pending) const;
    [[nodiscard]] bool ends_bound_off() const;

    void work(Pending& pending);

    void count_pieces();
    void count_with_thumbs();
    /// A line that says how often a piece is made, and has been taken so.
    void part_counted(const Line& line) {
        counted_parts_.insert(document_.parts.size());
        part(What::remark, line);
    }
    [[nodiscard]] Section* section_of(std::size_t line);
    void begin_part();
    void finish_part();
    bool copy_part(const Line& told);

    std::string_view text_;
    const DocumentOptions* options_;
    std::vector<Line> lines_;
    std::size_t at_ = 0;
    Document document_;
    std::optional<StitchBook> book_;
    std::optional<What> zone_;
    std::vector<std::string> size_names_;  ///< as many as there are sizes, or none
    bool in_rows_ = false;
    bool has_rows_ = false;
    std::string heading_;
    std::size_t heading_line_ = 0;
    std::string hand_;            ///< "left" or "right", of the one that was taken
    std::optional<Line> repeat_;  ///< "Repeat the following 8 rows until ...", till they are there
    std::int64_t repeat_rows_ = 0;
    std::vector<Pending> pending_;
    Line part_;  ///< the heading of a part that goes on in its piece, and where its rows begin
    std::size_t part_from_ = 0;
    std::vector<Line> notes_;
    project::Findings told_;  ///< of the whole text: terms, names that mean others
    std::set<std::size_t> counted_parts_;
    std::vector<std::int64_t> held_;  ///< stitches that pieces before left on holders
    bool other_sizes_ = false;        ///< the lines here are of sizes that are not chosen
};

}  // namespace skeinfall::notation
