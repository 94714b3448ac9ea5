#include "skeinfall/notation/detail/pattern_worker.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <functional>
#include <tuple>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/worker.hpp"

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
                              item.what == Item::Do::join || item.what == Item::Do::ring ||
                              item.what == Item::Do::yarn;
        begun = begun || !prepares;
    }
    return false;
}

bool uses_holders(const std::vector<Item>& items) {
    return std::any_of(items.begin(), items.end(), [](const Item& item) {
        return item.what == Item::Do::hold || item.what == Item::Do::unhold ||
               uses_holders(item.items);
    });
}

bool makes_ring(const std::vector<Item>& items) {
    return std::any_of(items.begin(), items.end(), [](const Item& item) {
        return item.what == Item::Do::ring || item.spot.which == Spot::Which::ring ||
               makes_ring(item.items);
    });
}

/// Whether the words go on to the end of the row, however many stitches that is.
bool goes_on_to_end(const std::vector<Item>& items) {
    return std::any_of(items.begin(), items.end(), [](const Item& item) {
        return item.spot.which == Spot::Which::each ||
               (item.what == Item::Do::repeat && item.extent.until == Extent::Until::to_end) ||
               goes_on_to_end(item.items);
    });
}

/// Whether the first stitch that says where it goes goes into a stitch or chain, and not a ring.
bool goes_into_chains(const std::vector<Item>& items) {
    for (const Item& item : items) {
        // "12 sc in loop": the ring under another name
        if (item.spot.which == Spot::Which::ring || item.spot.unit.of == Unit::Of::space)
            return false;
        if (item.what == Item::Do::repeat) return goes_into_chains(item.items);
        if (item.spot.which != Spot::Which::implied) return true;
    }
    return false;
}

}  // namespace

NotationResult PatternWorker::run() {
    readings_.resize(pattern_->written.size());
    held_ = options_->held;
    context_.held = &held_;
    for (const Written& written : pattern_->written) names_of(written);
    foundation();
    result_.rows.order.reserve(pattern_->slots.size());
    for (std::size_t row = 0; row < pattern_->slots.size(); ++row) {
        const Slot& slot = pattern_->slots[row];
        if (slot.written < 0) continue;
        row_number_ = static_cast<std::int64_t>(row);
        const bool worked = options_->lenient          ? work_leniently(slot)
                            : options_->by_words_alone ? work(slot)
                                                       : work_on_either(slot);
        if (!worked) break;
        if (slot.until > 0 && !go_on(row)) break;
        count_behind();
        if (pattern_->yarns_said) add_yarn(options_->yarns[slot.yarn.value_or(options_->yarn)].id);
        result_.rows.text_of.push_back(static_cast<std::uint32_t>(slot.written));
    }
    for (const Written& written : pattern_->written) result_.rows.texts.push_back(written.text);
    if (is_chain_alone(*pattern_, book_->craft())) {
        // The chain is all its yarn goes into: it is the one row, too.
        result_.rows.order.push_back(0);
        result_.rows.distinct.push_back(result_.rows.foundation);
        result_.rows.text_of.push_back(static_cast<std::uint32_t>(pattern_->foundation.front()));
    }
    if (!pattern_->slots.empty() && pattern_->slots.front().written >= 0) number_by_pattern();
    tell_terms();
    if (options_->lenient) give_readings();
    for (const Written& written : pattern_->written)
        for (const RowFinding& told : written.told)
            report(written, told.severity, told.at, told.what, told.remedy);
    for (const Other& other : pattern_->others)
        for (const RowFinding& told : other.told)
            result_.rows.findings.push_back({told.severity,
                                             options_->locate(other.entry, other.base + told.at),
                                             told.what, told.remedy});
    Findings& findings = result_.rows.findings;
    std::stable_sort(findings.begin(), findings.end(), [](const Finding& a, const Finding& b) {
        return std::tie(a.place.line, a.place.column) < std::tie(b.place.line, b.place.column);
    });
    result_.held = std::move(held_);
    return std::move(result_);
}

void PatternWorker::number_by_pattern() {
    std::vector<std::string> texts;
    for (std::uint32_t& text : result_.rows.text_of) {
        const std::size_t row = texts.size();
        texts.push_back((row == 0 ? "set-up row: " : fmt::format("pattern row {}: ", row)) +
                        result_.rows.texts[text]);
        text = static_cast<std::uint32_t>(row);
    }
    result_.rows.texts = std::move(texts);
}

void PatternWorker::report(const Written& written, Severity severity, std::size_t at,
                           std::string what, std::string remedy) {
    if (result_.rows.findings.size() >= most_findings) return;
    result_.rows.findings.push_back({severity, options_->locate(written.entry, written.base + at),
                                     std::move(what), std::move(remedy)});
}

void PatternWorker::report(const Written& written, const Outcome& outcome, bool counted_below) {
    std::set<std::string>& reported = reported_[&written];
    for (const RowFinding& finding : outcome.findings) {
        // A row that is repeated says the same thing once.
        if (reported.size() >= most_findings_of_a_row) return;
        if (!reported.insert(fmt::format("{} {}", finding.at, finding.what)).second) continue;
        std::string what = row_number_ == 0 ? "" : fmt::format("row {}: ", shown_row());
        what += finding.what;
        Severity severity = finding.severity;
        // A count that a knitted row does not come to stands against it either way.
        const bool own_count =
            book_->craft() == Craft::knit && finding.what.starts_with("the pattern says");
        if (counted_below && severity == Severity::stop && !own_count) {
            severity = Severity::caution;
            what += " (of the row below only counts are known)";
        }
        report(written, severity, finding.at, std::move(what), finding.remedy);
    }
}

void PatternWorker::names_of(const Written& written) {
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
        report(written, Severity::stop, foreign.at,
               fmt::format("the terms look mixed: \"{}\" is a {} name in a pattern in {} "
                           "terms; it is read as US {}",
                           foreign.name, theirs, ours, foreign.meaning),
               fmt::format("Write all of it in {} terms, or set terms = \"{}\".", ours, theirs));
    }
}

void PatternWorker::foundation() {
    const bool knit = book_->craft() == Craft::knit;
    bool ring = false;
    std::int64_t base = 0;
    for (const std::int64_t index : pattern_->foundation) {
        const Written& written = pattern_->written[static_cast<std::size_t>(index)];
        std::string& text = result_.rows.foundation_text;
        text += (text.empty() ? "" : " ") + written.text;
        for (const Item& item : written.body.items) {
            RowWork work;
            const auto count = static_cast<double>(item.count) * units::stitch;
            if (item.what == Item::Do::ring) ring = true;
            if (item.what == Item::Do::chain) work.kinds = {{"ch", count}};
            if (item.what == Item::Do::work) work.kinds = {{"CO", count}};
            if (item.what == Item::Do::join && knit) context_.circular = true;
            if (item.what == Item::Do::unhold) base += taken_up(item);
            // "Ch 90. Join. Ch 1.": the last one only turns.
            const bool turns = ring && item.what == Item::Do::chain && base > 0;
            if ((item.what == Item::Do::chain || item.what == Item::Do::work) && !turns)
                base += item.count;
            else if (!knit && item.what == Item::Do::join)
                ring = true;
            add_to(result_.rows.foundation, work);
        }
    }
    if (knit && base > 0) check_base(base);
    ring_ = ring;
    // A ring is worked into, chains that are only joined are gone round.
    if (base > 0 && !(ring && into_ring())) below_ = base_of(base);
    if (knit && below_.stitches > 0) last_known_ = below_.stitches;
    result_.rows.foundation.made = static_cast<double>(below_.stitches) * units::stitch;
    result_.rows.foundation.across = result_.rows.foundation.made;
}

bool PatternWorker::work(const Slot& slot) {
    const auto index = static_cast<std::size_t>(slot.written);
    const Written& written = pattern_->written[index];
    if (written.counted) {
        Outcome outcome = counted_row(*written.counted, slot.within);
        if (outcome.given_up) return give_up(written, outcome);
        take(written, std::move(outcome));
        return true;
    }
    constexpr std::size_t few_rows = 3;
    const bool round_flat = book_->craft() == Craft::crochet && written.round && !any_round_ &&
                            written.body.declared.empty() &&
                            result_.rows.order.size() >= few_rows &&
                            goes_on_to_end(written.body.items);
    context_.partial = !written.round && worked_round_ && book_->craft() == Craft::crochet;
    worked_round_ = written.round;
    any_round_ = any_round_ || written.round;
    context_.round = written.round;
    context_.ring = ring_ && result_.rows.order.empty();
    context_.circular = context_.circular || written.round;
    if (!options_->yarns.empty())
        context_.own_yarn = static_cast<std::uint16_t>(1 + slot.yarn.value_or(options_->yarn));
    if (slot.before >= 0)
        between_rows(pattern_->between[static_cast<std::size_t>(slot.before)], written);
    if (written.round && book_->craft() == Craft::knit) {
        below_.gap_ends = false;
        if (below_.waiting_stitches > 0) {
            Edge waiting;
            waiting.stretches = std::move(below_.waiting);
            waiting.settle();
            below_.waiting.clear();
            below_.waiting_stitches = 0;
            below_ = joined_edges(std::move(below_), waiting);
        }
    }
    if (written.round && turned(written.body, false)) below_ = below_.reversed();
    const bool holds = pattern_->intarsia || !held_.empty() || slot.before >= 0 ||
                       uses_holders(written.body.items);
    if (written.uses > 1 && !holds)
        for (const Known& known : memory_[index])
            if (known.below == below_ && (known.counted || !slot.counted) &&
                (known.own_yarn == context_.own_yarn ||
                 result_.rows.distinct[known.work].colours.empty())) {
                result_.rows.order.push_back(known.work);
                below_ = known.edge;
                return true;
            }
    ++steps_;
    context_.check_count = slot.counted || !settled_[index];
    RowFinding corners;
    const std::optional<Body> cornered = with_corners(written, corners);
    const Body& body = cornered ? *cornered : written.body;
    Outcome outcome =
        work_row(body, below_, context_, slot.counted ? std::nullopt : settled_[index]);
    if (context_.check_count && fits(outcome)) settled_[index] = outcome.taken;
    if (!slot.counted && context_.check_count && !fits(outcome)) {
        // The count may be that of another row it is worked in.
        context_.check_count = false;
        Outcome other = work_row(body, below_, context_);
        if (fits(other)) outcome = std::move(other);
    }
    if (cornered) outcome.findings.push_back(corners);
    const bool counted = context_.check_count;
    context_.check_count = true;
    if (outcome.given_up) return give_up(written, outcome);
    if (round_flat)
        outcome.findings.push_back(
            {Severity::stop, 0,
             "it goes round a piece of rows, and how many stitches its sides have is not told",
             "Write it like: 40 sc evenly around the edge."});
    const bool first = result_.rows.order.empty();
    if (first && begins_unsaid(written, outcome)) {
        context_.ring = ring_ = true;
        outcome = work_row(written.body, below_, context_);
        outcome.findings.push_back(
            {Severity::ok, 0, "no foundation is written; the round is taken to begin in a ring",
             ""});
    }
    if (first && below_.stretches.empty() && !ring_ && !outcome.own_base &&
        (!fits(outcome) || outcome.work.made.value() == 0.0)) {
        const auto base = fitting_base(written.body, context_);
        const bool own_ring = !base && makes_ring(written.body.items);
        if (!base && !written.body.declared.empty() && !own_ring) {
            problem(written,
                    "no number of stitches below it makes this row come to what it declares",
                    "a count that its repeats can reach",
                    "Correct the count, or write the foundation in a line before it.");
            return false;
        }
        if (!base && !own_ring) {
            problem(written, "nothing says how many stitches the first row goes into",
                    "the foundation in a line before it",
                    book_->craft() == Craft::crochet
                        ? "Write it first, like: Ch 122. Or declare the row's count: (25 sts)."
                        : "Write it first, like: Cast on 40 sts.");
            return false;
        }
        if (base) {
            below_ = base_of(*base);
            outcome = work_row(written.body, below_, context_);
            outcome.findings.push_back(
                {Severity::ok, 0,
                 fmt::format("no foundation is written; one of {} fits this row", *base), ""});
        }
    }
    if (book_->craft() == Craft::crochet && fits(outcome) &&
        (outcome.asked & reading::spaces_passed) != 0)
        context_.passes_spaces = (outcome.taken & reading::spaces_passed) != 0;
    if (fits(outcome) && outcome.turning_in_doubt)
        know_turning(*outcome.turning_in_doubt, outcome, counted && !written.body.declared.empty());
    if (!options_->lenient && !first && works_on_nothing(outcome))
        outcome.findings.push_back(
            {Severity::stop, 0, "no stitches are left to work below this row",
             "Write what is cast on or taken up before it, or correct the row that left none."});
    report(written, outcome, below_.counted_only);
    misfit_ = below_.counted_only && !fits(outcome);
    loose_ = outcome.loose_count && counted;
    last_before_ = std::exchange(before_, std::nullopt);
    if (options_->lenient && book_->craft() == Craft::crochet && written.uses <= 1 &&
        written.body.declared.empty() &&
        (outcome.asked & (reading::turning | reading::times_in_all)) != 0) {
        const bool times = (outcome.asked & reading::times_in_all) != 0;
        before_ = Before{&written, below_,
                         outcome.taken ^ (times ? reading::times_in_all : reading::turning),
                         context_.ring, times};
    }
    if (outcome.turned_with > 0) turned_with_.insert({outcome.turned_to, outcome.turned_with});
    const Edge before = below_;
    entered_.reset();
    if (slot.before >= 0 && book_->craft() == Craft::knit) entered_ = before;
    take(written, std::move(outcome));
    if (written.uses > 1 && !holds) {
        constexpr std::size_t most_known = 4;
        std::vector<Known>& known = memory_[index];
        if (known.size() == most_known) known.erase(known.begin());
        known.push_back({before, below_, result_.rows.order.back(), counted, context_.own_yarn});
    }
    return true;
}

/// Keeps how a chain at the beginning of a row is meant, as a count shows or as the row says.
void PatternWorker::know_turning(const TurningKey& key, const Outcome& outcome, bool counted) {
    if (counted || outcome.turning_said) turnings_.emplace(key, outcome.work.turning_chain_counts);
    if (!outcome.turning_said) return;
    TurningKey other = key;
    std::get<bool>(other) = !std::get<bool>(key);
    turnings_.emplace(other, outcome.work.turning_chain_counts);
}

/// Whether this row's count shows how the chain at the beginning of the one before is meant, which
/// was told with two counts: the other way this row would not come to it.
void PatternWorker::settle_before(const Written& written) {
    if (!last_before_ || last_before_->times || !declared_of(written.body)) return;
    const Before was = *last_before_;
    Told& told = readings_[static_cast<std::size_t>(was.written - pattern_->written.data())];
    if (told.state != State::two_ways || told.findings.size() != 1) return;
    const bool round = std::exchange(context_.round, was.written->round);
    const bool ring = std::exchange(context_.ring, was.ring);
    const Outcome other = work_row(was.written->body, was.below, context_, was.taken);
    context_.round = round;
    context_.ring = ring;
    if (other.given_up || !fits(other) || other.taken != was.taken) return;
    const bool reverse = !was.written->round || turned(was.written->body, true);
    const Outcome again =
        work_row(written.body, reverse ? other.edge.reversed() : other.edge, context_);
    if (fits(again) && !again.loose_count) return;
    Finding& told_first = told.findings.front();
    const std::string doubt = told_first.what;
    const auto settle = [&](Finding& one) {
        if (one.what != doubt || one.severity != Severity::caution) return;
        one.severity = Severity::ok;
        one.remedy.clear();
        one.what = fmt::format("the count of row {} shows how the chain at the beginning is meant",
                               row_number_);
    };
    for (Finding& one : result_.rows.findings) settle(one);
    settle(told_first);
    told.state = State::read;
}

/// Whether a first round says nothing of what it goes into: "Rnd 1: ch 3, 2 dc, *ch 2, 3 dc ...".
bool PatternWorker::begins_unsaid(const Written& written, const Outcome& outcome) const {
    if (book_->craft() != Craft::crochet || !written.round || !options_->lenient || ring_ ||
        !below_.stretches.empty() || outcome.own_base || !pattern_->foundation.empty() ||
        written.body.declared.empty())
        return false;
    const std::function<bool(const std::vector<Item>&)> unplaced =
        [&](const std::vector<Item>& items) {
            return std::all_of(items.begin(), items.end(), [&](const Item& item) {
                return item.what == Item::Do::join || item.what == Item::Do::chain ||
                       (item.what != Item::Do::increase && item.what != Item::Do::decrease &&
                        item.what != Item::Do::skip && item.what != Item::Do::evenly &&
                        item.extent.until != Extent::Until::to_end &&
                        item.spot.which == Spot::Which::implied && unplaced(item.items)) ||
                       (item.what == Item::Do::work && item.kind == book_->slip_stitch());
            });
        };
    return unplaced(written.body.items);
}

void PatternWorker::count_behind() {
    while (behind_ < pattern_->behind.size() && pattern_->behind[behind_].row <= row_number_) {
        const Behind& behind = pattern_->behind[behind_++];
        if (behind.row != row_number_) continue;
        if (behind.turns > 0) below_.turning = {behind.turns, 0, behind.note};
        const RowWork& work = result_.rows.distinct[result_.rows.order.back()];
        for (const RowFinding& finding : check_declared(behind.declared, below_, work, *book_)) {
            result_.rows.findings.push_back(
                {finding.severity, options_->locate(behind.entry, behind.base + finding.at),
                 fmt::format("row {}: {}", shown_row(), finding.what), finding.remedy});
            told_behind_[{behind.entry, behind.base}].push_back(result_.rows.findings.back());
        }
    }
}

bool PatternWorker::give_up(const Written& written, const Outcome& outcome) {
    problem(written, fmt::format("row {}: {}", shown_row(), outcome.why.second),
            "at most 1000000 stitches in a row", "Check the numbers of the row.",
            outcome.why.first);
    return false;
}

Outcome PatternWorker::counted_row(const CountedRows& counted, std::int64_t within) {
    Body body;
    double takes = 0.0;
    const std::int64_t steps = within / std::max<std::int64_t>(1, counted.every);
    for (const KindCount& kind : counted.kinds) {
        double count = kind.count.value();
        for (const KindCount& more : counted.increase)
            if (more.kind == kind.kind) count += static_cast<double>(steps) * more.count.value();
        Item item;
        item.kind = book_->find_us(kind.kind);
        item.count = std::max<std::int64_t>(0, std::llround(count));
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

void PatternWorker::tell_terms() {
    if (book_->craft() != Craft::crochet || turned_with_.empty()) return;
    StitchBook other(Craft::crochet, options_->terms == Terms::us ? Terms::uk : Terms::us);
    std::int64_t seen = 0;
    std::string sample;
    for (const auto& [kind, chains] : turned_with_) {
        const Stitch& stitch = book_->at(kind);
        const auto named = other.find(stitch.written);
        if (stitch.turning_chains == 0 || !named) continue;
        const std::int64_t theirs = other.at(named->kind).turning_chains;
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

bool PatternWorker::into_ring() const {
    const auto first = std::find_if(pattern_->slots.begin(), pattern_->slots.end(),
                                    [](const Slot& slot) { return slot.written >= 0; });
    if (first == pattern_->slots.end()) return true;
    const Written& written = pattern_->written[static_cast<std::size_t>(first->written)];
    return written.counted || !goes_into_chains(written.body.items);
}

void PatternWorker::name_colours(Outcome& outcome) {
    for (std::size_t i = 0; i < outcome.colours.size(); ++i) {
        project::ColourWork& one = outcome.colours[i];
        if (outcome.yarns[i] > 0 && outcome.yarns[i] <= options_->yarns.size())
            one.role = options_->yarns[outcome.yarns[i] - 1U].id;
        // In intarsia every block has its own end, and goes on from the one below it.
        const std::int64_t blocks = std::exchange(one.begun, 0);
        blocks_[one.role] = blocks;
        if (!pattern_->intarsia) continue;
        one.carried = {};
        const auto below = blocks_below_.find(one.role);
        one.begun = std::max<std::int64_t>(
            0, blocks - (below == blocks_below_.end() ? std::int64_t{1} : below->second));
    }
    if (!outcome.colours.empty()) blocks_below_ = std::exchange(blocks_, {});
    outcome.work.colours = std::move(outcome.colours);
}

void PatternWorker::note_change(const Outcome& outcome) {
    const RowWork& below = result_.rows.order.empty()
                               ? result_.rows.foundation
                               : result_.rows.distinct[result_.rows.order.back()];
    const std::int64_t change = std::llround((outcome.work.made - below.made).value());
    const bool plain =
        outcome.held.empty() && outcome.taken_up.empty() &&
        std::none_of(outcome.work.kinds.begin(), outcome.work.kinds.end(),
                     [](const KindCount& kind) { return kind.kind == "CO" || kind.kind == "BO"; });
    if (change != 0 && plain && below.made.value() > 0.0) context_.last_change = change;
}

/// All is bound off below, and the row makes none of its own.
bool PatternWorker::works_on_nothing(const Outcome& outcome) const {
    if (below_.stitches > 0 || below_.waiting_stitches > 0 || below_.counted_only ||
        !below_.stretches.empty() || !held_.empty() || outcome.work.made.value() > 0.0)
        return false;
    // A chain begins something of its own; a turning chain does not.
    constexpr double turning = 4.0;
    double worked = 0.0;
    for (const KindCount& part : outcome.work.kinds) worked += part.count.value();
    return worked <= turning;
}

void PatternWorker::take(const Written& written, Outcome outcome) {
    name_colours(outcome);
    note_change(outcome);
    result_.rows.order.push_back(static_cast<std::uint32_t>(result_.rows.distinct.size()));
    result_.rows.distinct.push_back(std::move(outcome.work));
    for (auto taken = outcome.taken_up.rbegin(); taken != outcome.taken_up.rend(); ++taken)
        held_.erase(held_.begin() + *taken);
    held_.insert(held_.end(), outcome.held.begin(), outcome.held.end());
    const bool reverse = !written.round || turned(written.body, true);
    if (book_->craft() == Craft::knit && reverse) {
        Edge below;
        below.waiting = outcome.edge.waiting;
        below.waiting_stitches = outcome.edge.waiting_stitches;
        below_ = turned_edge(outcome.edge, outcome.rest, below, context_.circular);
        return;
    }
    below_ = reverse ? outcome.edge.reversed() : std::move(outcome.edge);
}

}  // namespace skeinfall::notation
