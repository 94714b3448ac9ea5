#include "skeinfall/notation/notation.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <tuple>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/pattern.hpp"
#include "skeinfall/notation/detail/readings.hpp"

namespace skeinfall::notation {
namespace {

constexpr std::size_t most_findings = 1000;
constexpr std::size_t most_findings_of_a_row = 5;

/// Whether the work is turned before (or, `behind`, after) its first stitch.
bool turned(const Body& body, bool behind) {
    bool begun = false;
    for (const Item& item : body.items) {
        if (item.what == Item::Do::turn && begun == behind) return true;
        const bool prepares = item.what == Item::Do::turn || item.what == Item::Do::chain ||
                              item.what == Item::Do::join || item.what == Item::Do::ring;
        begun = begun || !prepares;
    }
    return false;
}

/// Whether the first stitch that says where it goes goes into a stitch or chain, and not a ring.
bool goes_into_chains(const std::vector<Item>& items) {
    for (const Item& item : items) {
        if (item.spot.which == Spot::Which::ring) return false;
        if (item.what == Item::Do::repeat) return goes_into_chains(item.items);
        if (item.spot.which != Spot::Which::implied) return true;
    }
    return false;
}

class PatternWorker {
  public:
    PatternWorker(const Pattern& pattern, const NotationOptions& options, StitchBook& book)
        : pattern_(&pattern),
          options_(&options),
          book_(&book),
          memory_(pattern.written.size()),
          settled_(pattern.written.size()) {
        context_ = {book_, &pattern.make_ups, &pattern.notes, &steps_};
        context_.turnings = &turnings_;
    }

    NotationResult run() {
        readings_.resize(pattern_->written.size());
        for (const Written& written : pattern_->written) names_of(written);
        foundation();
        result_.rows.order.reserve(pattern_->slots.size());
        for (std::size_t row = 0; row < pattern_->slots.size(); ++row) {
            const Slot& slot = pattern_->slots[row];
            if (slot.written < 0) continue;
            row_number_ = static_cast<long>(row);
            const bool worked = options_->lenient ? work_leniently(slot) : work(slot);
            if (!worked) break;
            count_behind();
            if (pattern_->yarns_said)
                add_yarn(options_->yarns[slot.yarn.value_or(options_->yarn)].id);
            result_.rows.text_of.push_back(static_cast<std::uint32_t>(slot.written));
        }
        for (const Written& written : pattern_->written) result_.rows.texts.push_back(written.text);
        if (!pattern_->slots.empty() && pattern_->slots.front().written >= 0) number_by_pattern();
        tell_terms();
        if (options_->lenient) give_readings();
        for (const Written& written : pattern_->written)
            for (const RowFinding& told : written.told)
                report(written, told.severity, told.at, told.what, told.remedy);
        for (const Other& other : pattern_->others)
            for (const RowFinding& told : other.told)
                result_.rows.findings.push_back(
                    {told.severity, options_->locate(other.entry, other.base + told.at), told.what,
                     told.remedy});
        Findings& findings = result_.rows.findings;
        std::stable_sort(findings.begin(), findings.end(), [](const Finding& a, const Finding& b) {
            return std::tie(a.place.line, a.place.column) < std::tie(b.place.line, b.place.column);
        });
        return std::move(result_);
    }

  private:
    /// A row that cannot be followed is told; the next count sets the work right again.
    bool work_leniently(const Slot& slot) {
        const auto index = static_cast<std::size_t>(slot.written);
        const Written& written = pattern_->written[index];
        Told& told = readings_[index];
        if (told.rows++ == 0) told.first_row = row_number_;
        const auto lost = [&](State state, base::Problem problem) {
            told.state = state;
            told.problem = std::move(problem);
            const auto count = slot.counted || written.uses <= 1 ? declared_of(written.body)
                                                                 : std::optional<long>();
            RowWork work;
            if (count) work.made = static_cast<double>(*count) * units::stitch;
            result_.rows.order.push_back(static_cast<std::uint32_t>(result_.rows.distinct.size()));
            result_.rows.distinct.push_back(work);
            adrift_ = !count;
            if (count) last_known_ = count;
            if (count) below_ = counted_edge(*count);
            wanted_.reset();
        };
        if (written.fault) {
            lost(State::unread, {written.fault->what,
                                 options_->locate(written.entry, written.base + written.fault->at),
                                 written.fault->expected, written.fault->remedy});
            return true;
        }
        const std::size_t findings = result_.rows.findings.size();
        const Edge before = below_;
        const auto again = [&](const Edge& edge) {
            below_ = edge;
            result_.rows.findings.resize(findings);
            reported_.erase(&written);
            memory_[index].clear();
            return work(slot);
        };
        const auto stops = [&] {
            return std::any_of(
                result_.rows.findings.begin() + static_cast<std::ptrdiff_t>(findings),
                result_.rows.findings.end(),
                [](const Finding& finding) { return finding.severity == Severity::stop; });
        };
        if (adrift_) {
            const auto base = fitting_base(written.body, context_, true);
            if ((!base || declared_of(written.body) == std::nullopt) && last_known_) {
                // Most rows keep their stitches: taken until a count says otherwise, and told.
                below_ = counted_edge(*last_known_);
                assumed_ = true;
                before_assumed_ = *last_known_;
            } else if (!base || declared_of(written.body) == std::nullopt) {
                lost(State::adrift,
                     {"how many stitches it goes into is not known, as a row before it could not "
                      "be followed",
                      options_->locate(written.entry, written.base), "a count at its end",
                      "Write the count of the row below in brackets at its end, like: (24 sts)."});
                return true;
            }
            if (!assumed_) below_ = counted_edge(*base);
            adrift_ = false;
        }
        const std::size_t orders = result_.rows.order.size();
        const std::size_t problems = result_.problems.size();
        bool fine = work(slot);
        if (fine && stops() && wanted_ && !before.stretches.empty()) {
            // The row below declares another count than it makes: this one may go with that.
            const Edge worked = below_;
            const auto kept = std::vector<Finding>(
                result_.rows.findings.begin() + static_cast<std::ptrdiff_t>(findings),
                result_.rows.findings.end());
            result_.rows.order.resize(orders);
            fine = again(counted_edge(*wanted_));
            bool better = fine;
            for (std::size_t i = findings; i < result_.rows.findings.size(); ++i)
                better = better && result_.rows.findings[i].severity == Severity::ok;
            if (!better) {
                result_.rows.order.resize(orders);
                fine = again(before);
            }
        }
        if (!fine) {
            base::Problem problem = result_.problems.back();
            result_.problems.resize(problems);
            result_.rows.order.resize(orders);
            lost(State::adrift, std::move(problem));
            return true;
        }
        const RowWork& work = result_.rows.distinct[result_.rows.order.back()];
        told.made = std::lround(work.made.value());
        last_known_ = told.made;
        made_of_row_[row_number_] = *told.made;
        if (std::exchange(assumed_, false) && told.state == State::read) {
            told.state = State::two_ways;
            told.findings.push_back(
                {Severity::caution, options_->locate(written.entry, written.base),
                 fmt::format("row {}: taken to go on from {} stitches, as a row before it could "
                             "not be followed",
                             row_number_, before_assumed_),
                 "Write that row's count in brackets at its end."});
        }
        if (told.rows == 1) told.kinds = work.kinds;
        const auto count =
            slot.counted || written.uses <= 1 ? declared_of(written.body) : std::optional<long>();
        wanted_.reset();
        if (count && *count != *told.made && stops()) wanted_ = count;
        for (std::size_t i = findings; i < result_.rows.findings.size(); ++i) {
            const Finding& finding = result_.rows.findings[i];
            told.findings.push_back(finding);
            if (finding.severity == Severity::stop)
                told.state = State::disagrees;
            else if (finding.severity == Severity::caution && told.state == State::read)
                told.state = State::two_ways;
        }
        return true;
    }

    [[nodiscard]] Edge counted_edge(long count) const {
        Edge edge;
        const KindId kind = book_->find_us(book_->craft() == Craft::crochet ? "sc" : "k");
        edge.stretches = {{1, {{{kind, 0}, count}}}};
        edge.settle();
        edge.counted_only = true;
        return edge;
    }

    void give_readings() {
        result_.readings = readings_of(*pattern_, *options_, *book_, result_.rows.foundation.made,
                                       std::move(readings_), made_of_row_);
    }

    void add_yarn(const std::string& id) {
        std::vector<Stripe>& stripes = result_.rows.stripes;
        if (stripes.empty() || stripes.back().role != id) stripes.push_back({id, 0});
        ++stripes.back().rows;
    }

    /// Rows are counted as they are worked, a set-up row too; the pattern counts from behind it.
    void number_by_pattern() {
        std::vector<std::string> texts;
        for (std::uint32_t& text : result_.rows.text_of) {
            const std::size_t row = texts.size();
            texts.push_back((row == 0 ? "set-up row: " : fmt::format("pattern row {}: ", row)) +
                            result_.rows.texts[text]);
            text = static_cast<std::uint32_t>(row);
        }
        result_.rows.texts = std::move(texts);
    }

    struct Known {
        Edge below;
        Edge edge;
        std::uint32_t work = 0;
        bool counted = false;  ///< it came to what it declares
    };

    void report(const Written& written, Severity severity, std::size_t at, std::string what,
                std::string remedy) {
        if (result_.rows.findings.size() >= most_findings) return;
        result_.rows.findings.push_back({severity,
                                         options_->locate(written.entry, written.base + at),
                                         std::move(what), std::move(remedy)});
    }

    void report(const Written& written, const Outcome& outcome, bool counted_below) {
        std::set<std::string>& reported = reported_[&written];
        for (const RowFinding& finding : outcome.findings) {
            // A row that is repeated says the same thing once.
            if (reported.size() >= most_findings_of_a_row) return;
            if (!reported.insert(fmt::format("{} {}", finding.at, finding.what)).second) continue;
            std::string what = row_number_ == 0 ? "" : fmt::format("row {}: ", row_number_);
            what += finding.what;
            Severity severity = finding.severity;
            if (counted_below && severity == Severity::stop) {
                severity = Severity::caution;
                what += " (of the row below only counts are known)";
            }
            report(written, severity, finding.at, std::move(what), finding.remedy);
        }
    }

    /// Unknown names and names of the other terms, each once.
    void names_of(const Written& written) {
        const std::string_view ours = options_->terms == Terms::us ? "US" : "UK";
        const std::string_view theirs = options_->terms == Terms::us ? "UK" : "US";
        for (const UnknownName& unknown : written.body.unknown) {
            if (!told_.insert(unknown.name).second) continue;
            const auto near = base::nearest_name(unknown.name, book_->names());
            report(written, Severity::stop, unknown.at,
                   fmt::format("\"{}\" is no known abbreviation; it is read as one stitch into one",
                               base::shown_inert(unknown.name)),
                   near ? fmt::format("Did you mean \"{}\"? Otherwise describe it in a "
                                      "[stitch.NAME] table.",
                                      *near)
                        : fmt::format("Correct it, or describe it, like: [stitch.{}] of = \"5 dc\"",
                                      base::shown_inert(unknown.name)));
        }
        for (const ForeignName& foreign : written.body.foreign) {
            if (!told_.insert(foreign.name).second) continue;
            report(
                written, Severity::stop, foreign.at,
                fmt::format("the terms look mixed: \"{}\" is a {} name in a pattern in {} "
                            "terms; it is read as US {}",
                            foreign.name, theirs, ours, foreign.meaning),
                fmt::format("Write all of it in {} terms, or set terms = \"{}\".", ours, theirs));
        }
    }

    void add_to(RowWork& sum, const RowWork& work) {
        for (const KindCount& kind : work.kinds) {
            const auto known =
                std::find_if(sum.kinds.begin(), sum.kinds.end(),
                             [&](const KindCount& other) { return other.kind == kind.kind; });
            if (known == sum.kinds.end())
                sum.kinds.push_back(kind);
            else
                known->count += kind.count;
        }
    }

    /// The lines before row 1: chains are worked into, a ring is not.
    void foundation() {
        const bool knit = book_->craft() == Craft::knit;
        bool ring = false;
        long base = 0;
        for (const long index : pattern_->foundation) {
            const Written& written = pattern_->written[static_cast<std::size_t>(index)];
            std::string& text = result_.rows.foundation_text;
            text += (text.empty() ? "" : " ") + written.text;
            for (const Item& item : written.body.items) {
                RowWork work;
                const auto count = static_cast<double>(item.count) * units::stitch;
                if (item.what == Item::Do::ring) ring = true;
                if (item.what == Item::Do::chain) work.kinds = {{"ch", count}};
                if (item.what == Item::Do::work) work.kinds = {{"CO", count}};
                if (item.what == Item::Do::chain || item.what == Item::Do::work)
                    base += item.count;
                else if (!knit && item.what == Item::Do::join)
                    ring = true;
                add_to(result_.rows.foundation, work);
            }
        }
        ring_ = ring;
        // A ring is worked into, chains that are only joined are gone round.
        if (base > 0 && !(ring && into_ring())) below_ = base_of(base);
        result_.rows.foundation.made = static_cast<double>(below_.stitches) * units::stitch;
        result_.rows.foundation.across = result_.rows.foundation.made;
    }

    /// Whether the first row goes into the ring itself, or does not say.
    [[nodiscard]] bool into_ring() const {
        const auto first = std::find_if(pattern_->slots.begin(), pattern_->slots.end(),
                                        [](const Slot& slot) { return slot.written >= 0; });
        if (first == pattern_->slots.end()) return true;
        const Written& written = pattern_->written[static_cast<std::size_t>(first->written)];
        return written.counted || !goes_into_chains(written.body.items);
    }

    [[nodiscard]] Edge base_of(long count) const {
        Edge edge;
        edge.foundation = book_->craft() == Craft::crochet;
        const KindId kind = edge.foundation ? book_->chain() : book_->find_us("CO");
        edge.stretches = {{1, {{{kind, 0}, count}}}};
        edge.settle();
        return edge;
    }

    bool work(const Slot& slot) {
        const auto index = static_cast<std::size_t>(slot.written);
        const Written& written = pattern_->written[index];
        if (written.counted) {
            Outcome outcome = counted_row(*written.counted, slot.within);
            if (outcome.given_up) return give_up(written, outcome);
            take(written, std::move(outcome));
            return true;
        }
        context_.round = written.round;
        if (written.round && turned(written.body, false)) below_ = below_.reversed();
        if (written.uses > 1)
            for (const Known& known : memory_[index])
                if (known.below == below_ && (known.counted || !slot.counted)) {
                    result_.rows.order.push_back(known.work);
                    below_ = known.edge;
                    return true;
                }
        ++steps_;
        context_.check_count = slot.counted || !settled_[index];
        Outcome outcome =
            work_row(written.body, below_, context_, slot.counted ? std::nullopt : settled_[index]);
        if (context_.check_count && fits(outcome)) settled_[index] = outcome.taken;
        if (!slot.counted && context_.check_count && !fits(outcome)) {
            // The count may be that of another row it is worked in.
            context_.check_count = false;
            Outcome other = work_row(written.body, below_, context_);
            if (fits(other)) outcome = std::move(other);
        }
        const bool counted = context_.check_count;
        context_.check_count = true;
        if (outcome.given_up) return give_up(written, outcome);
        const bool first = result_.rows.order.empty();
        if (first && below_.stretches.empty() && !ring_ && !outcome.own_base &&
            (!fits(outcome) || outcome.work.made.value() == 0.0)) {
            const auto base = fitting_base(written.body, context_);
            if (!base && !written.body.declared.empty()) {
                problem(written,
                        "no number of stitches below it makes this row come to what it declares",
                        "a count that its repeats can reach",
                        "Correct the count, or write the foundation in a line before it.");
                return false;
            }
            if (!base) {
                problem(written, "nothing says how many stitches the first row goes into",
                        "the foundation in a line before it",
                        book_->craft() == Craft::crochet
                            ? "Write it first, like: Ch 122. Or declare the row's count: (25 sts)."
                            : "Write it first, like: Cast on 40 sts.");
                return false;
            }
            below_ = base_of(*base);
            outcome = work_row(written.body, below_, context_);
            outcome.findings.push_back(
                {Severity::ok, 0,
                 fmt::format("no foundation is written; one of {} fits this row", *base), ""});
        }
        if (counted && !written.body.declared.empty() && fits(outcome) && outcome.turning_in_doubt)
            turnings_.emplace(*outcome.turning_in_doubt, outcome.work.turning_chain_counts);
        report(written, outcome, below_.counted_only);
        if (outcome.turned_with > 0) turned_with_.insert({outcome.turned_to, outcome.turned_with});
        const Edge before = below_;
        take(written, std::move(outcome));
        if (written.uses > 1) {
            constexpr std::size_t most_known = 4;
            std::vector<Known>& known = memory_[index];
            if (known.size() == most_known) known.erase(known.begin());
            known.push_back({before, below_, result_.rows.order.back(), counted});
        }
        return true;
    }

    /// The count behind "rep row 5", once the last of its rows is worked.
    void count_behind() {
        while (behind_ < pattern_->behind.size() && pattern_->behind[behind_].row <= row_number_) {
            const Behind& behind = pattern_->behind[behind_++];
            if (behind.row != row_number_) continue;
            const RowWork& work = result_.rows.distinct[result_.rows.order.back()];
            for (const RowFinding& finding : check_declared(behind.declared, below_, work, *book_))
                result_.rows.findings.push_back(
                    {finding.severity, options_->locate(behind.entry, behind.base + finding.at),
                     fmt::format("row {}: {}", row_number_, finding.what), finding.remedy});
        }
    }

    bool give_up(const Written& written, const Outcome& outcome) {
        problem(written, fmt::format("row {}: {}", row_number_, outcome.why.second),
                "at most 1000000 stitches in a row", "Check the numbers of the row.",
                outcome.why.first);
        return false;
    }

    void problem(const Written& written, std::string what, std::string expected, std::string remedy,
                 std::size_t at = 0) {
        result_.problems.push_back({std::move(what),
                                    options_->locate(written.entry, written.base + at),
                                    std::move(expected), std::move(remedy)});
    }

    /// Adds the row; its edge as the next row finds it becomes the edge below.
    void take(const Written& written, Outcome outcome) {
        result_.rows.order.push_back(static_cast<std::uint32_t>(result_.rows.distinct.size()));
        result_.rows.distinct.push_back(std::move(outcome.work));
        const bool reverse = !written.round || turned(written.body, true);
        below_ = reverse ? outcome.edge.reversed() : std::move(outcome.edge);
    }

    /// A row of a table, `within` rows (from 0) behind its first.
    Outcome counted_row(const CountedRows& counted, long within) {
        Body body;
        double takes = 0.0;
        const long steps = within / std::max(1L, counted.every);
        for (const KindCount& kind : counted.kinds) {
            double count = kind.count.value();
            for (const KindCount& more : counted.increase)
                if (more.kind == kind.kind)
                    count += static_cast<double>(steps) * more.count.value();
            Item item;
            item.kind = book_->find_us(kind.kind);
            item.count = std::max(0L, std::lround(count));
            item.spot.which = Spot::Which::ring;
            takes += static_cast<double>(book_->at(item.kind).takes * item.count);
            if (item.kind == book_->chain()) {
                Item chain;
                chain.what = Item::Do::chain;
                Item repeat;
                repeat.what = Item::Do::repeat;
                repeat.extent.count = item.count;
                repeat.items = {chain};
                item = std::move(repeat);
            }
            body.items.push_back(std::move(item));
        }
        Outcome outcome = work_row(body, Edge{}, context_);
        outcome.work.consumed = takes * units::stitch;
        outcome.edge.counted_only = true;
        return outcome;
    }

    /// Turning chains that fit the other terms and never these.
    void tell_terms() {
        if (book_->craft() != Craft::crochet || turned_with_.empty()) return;
        StitchBook other(Craft::crochet, options_->terms == Terms::us ? Terms::uk : Terms::us);
        long seen = 0;
        std::string sample;
        for (const auto& [kind, chains] : turned_with_) {
            const Stitch& stitch = book_->at(kind);
            const auto named = other.find(stitch.written);
            if (stitch.turning_chains == 0 || !named) continue;
            const long theirs = other.at(named->kind).turning_chains;
            if (stitch.turning_chains == chains || theirs != chains) return;
            if (seen++ == 0) sample = fmt::format("ch {} for {}", chains, stitch.written);
        }
        if (seen == 0 || pattern_->written.empty()) return;
        report(pattern_->written.front(), Severity::caution, 0,
               fmt::format("the turning chains fit {} terms, not {} ({})",
                           options_->terms == Terms::us ? "UK" : "US",
                           options_->terms == Terms::us ? "US" : "UK", sample),
               "Check which terms the pattern is written in.");
    }

    const Pattern* pattern_;
    const NotationOptions* options_;
    StitchBook* book_;
    Context context_;
    long steps_ = 0;
    NotationResult result_;
    Edge below_;
    bool ring_ = false;
    long row_number_ = 0;
    std::vector<std::vector<Known>> memory_;
    std::vector<std::optional<unsigned>> settled_;
    std::size_t behind_ = 0;
    std::map<const Written*, std::set<std::string>> reported_;
    std::set<std::string> told_;
    std::vector<Told> readings_;
    std::map<long, long> made_of_row_;
    std::map<TurningKey, bool> turnings_;
    std::optional<long> last_known_;  ///< stitches of the last row that was followed
    bool assumed_ = false;            ///< the row below is taken to have as many
    long before_assumed_ = 0;
    bool adrift_ = false;         ///< what the next row goes into is not known
    std::optional<long> wanted_;  ///< what the row below declares and does not make
    std::set<std::pair<KindId, long>> turned_with_;
};

}  // namespace

namespace {

/// `shared`: whether rows that were worked stand at the place of an earlier one.
NotationResult work_once(const std::vector<WrittenRows>& entries, const NotationOptions& options,
                         bool share, bool& shared) {
    StitchBook book(options.craft, options.terms);
    base::Problems problems;
    const Pattern pattern = read_pattern(entries, options, book, problems, share);
    if (problems.empty() && std::none_of(pattern.slots.begin(), pattern.slots.end(),
                                         [](const auto& slot) { return slot.written >= 0; }))
        problems.push_back({"there is no row in it", options.locate(0, 0), "at least one row",
                            "Write it like: Row 1: sc in each st across. (25 sts)"});
    shared = pattern.shared && problems.empty();
    if (!problems.empty()) return {{}, std::move(problems), {}};
    return PatternWorker(pattern, options, book).run();
}

}  // namespace

NotationResult work_rows(const std::vector<WrittenRows>& entries, const NotationOptions& given) {
    NotationOptions options = given;
    if (!options.locate)
        options.locate = [&entries](std::size_t entry, std::size_t offset) {
            const std::string_view before =
                entry < entries.size() ? std::string_view(entries[entry].text).substr(0, offset)
                                       : std::string_view();
            const auto line_start = before.rfind('\n');
            base::Place place;
            place.line = entry + 1 +
                         static_cast<std::size_t>(std::count(before.begin(), before.end(), '\n'));
            place.column = offset + 1 - (line_start == std::string_view::npos ? 0 : line_start + 1);
            return place;
        };
    bool shared = false;
    NotationResult result = work_once(entries, options, !options.lenient, shared);
    // Only when something is to be said does it matter which of two rows in the same words it is.
    if (shared && !(result.problems.empty() && result.rows.findings.empty()))
        result = work_once(entries, options, false, shared);
    return result;
}

base::Problems problems_of_own(const NotationOptions& options) {
    StitchBook book(options.craft, options.terms);
    base::Problems problems;
    static_cast<void>(read_pattern({}, options, book, problems, false));
    return problems;
}

NotationResult work_rows(const std::string& text, const NotationOptions& options) {
    return work_rows(std::vector<WrittenRows>{{text, std::nullopt}}, options);
}

}  // namespace skeinfall::notation
