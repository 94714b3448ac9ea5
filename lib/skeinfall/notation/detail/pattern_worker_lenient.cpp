// A pattern read as far as it goes, and rows that go on till a count.

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/pattern_worker.hpp"

namespace skeinfall::notation {

bool PatternWorker::stops_since(std::size_t findings) const {
    return std::any_of(result_.rows.findings.begin() + static_cast<std::ptrdiff_t>(findings),
                       result_.rows.findings.end(),
                       [](const Finding& finding) { return finding.severity == Severity::stop; });
}

bool PatternWorker::work_on_either(const Slot& slot) {
    const auto index = static_cast<std::size_t>(slot.written);
    const Written& written = pattern_->written[index];
    const std::size_t findings = result_.rows.findings.size();
    const std::size_t orders = result_.rows.order.size();
    const std::size_t problems = result_.problems.size();
    const Edge before = below_;
    const auto on = [&](Edge edge) {
        result_.rows.findings.resize(findings);
        result_.rows.order.resize(orders);
        result_.problems.resize(problems);
        reported_.erase(&written);
        memory_[index].clear();
        below_ = std::move(edge);
        return work(slot);
    };
    bool fine = work(slot);
    if (wanted_ && held_.empty() && (!fine || stops_since(findings))) {
        fine = on(counted_edge(*wanted_));
        if (!fine || stops_since(findings)) fine = on(before);
    }
    wanted_.reset();
    if (!fine || !stops_since(findings)) return fine;
    const RowWork& work = result_.rows.distinct[result_.rows.order.back()];
    const auto count = slot.counted || written.uses <= 1 ? declared_of(written.body)
                                                         : std::optional<std::int64_t>();
    if (count && *count != std::llround(work.made.value())) wanted_ = count;
    return fine;
}

bool PatternWorker::work_leniently(const Slot& slot) {
    const auto index = static_cast<std::size_t>(slot.written);
    const Written& written = pattern_->written[index];
    Told& told = readings_[index];
    // Rows that repeat it later are told by the line that says so.
    const bool own = !told.closed && !again_;
    if (own && told.rows++ == 0) told.first_row = row_number_;
    if (own && (told.apart.empty() || told.apart.back() != row_number_))
        told.apart.push_back(row_number_);
    told.closed = told.closed || slot.counted;
    if (own && !told.proposal && !adrift_ && (written.fault || !written.body.unknown.empty()))
        told.proposal =
            propose(written, written.fault ? written.fault->at : written.body.unknown.front().at);
    const auto lost = [&](State state, base::Problem problem) {
        told.state = state;
        told.problem = std::move(problem);
        const auto count = slot.counted || written.uses <= 1 ? declared_of(written.body)
                                                             : std::optional<std::int64_t>();
        RowWork work;
        if (count) work.made = static_cast<double>(*count) * units::stitch;
        result_.rows.order.push_back(static_cast<std::uint32_t>(result_.rows.distinct.size()));
        result_.rows.distinct.push_back(work);
        adrift_ = !count;
        if (count) last_known_ = count;
        if (count) below_ = counted_edge(*count);
        wanted_.reset();
    };
    // In crochet a word that is not known may be a stitch of the pattern's own, where a count bears
    // it out.
    if (!written.fault && !written.body.unknown.empty() &&
        (book_->craft() == Craft::knit || !declared_of(written.body) || adrift_ ||
         below_.stretches.empty() || !fits(work_row(written.body, below_, context_)))) {
        // A word that may be anything says nothing of the stitches.
        const UnknownName& unknown = written.body.unknown.front();
        const auto near = base::nearest_name(unknown.name, book_->names());
        lost(State::unread,
             {fmt::format("\"{}\" is no known abbreviation", base::shown_inert(unknown.name)),
              options_->locate(written.entry, written.base + unknown.at),
              "stitches of the trade or of the pattern's own list",
              near ? fmt::format("Did you mean \"{}\"?", *near) : ""});
        return true;
    }
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
    const auto stops = [&] { return stops_since(findings); };
    if (adrift_) {
        // A count behind several rows is that of the last one.
        const bool later = book_->craft() == Craft::knit && written.uses > 1 && !slot.counted;
        const auto base = later ? std::nullopt : fitting_base(written.body, context_, true);
        if ((!base || declared_of(written.body) == std::nullopt) && last_known_) {
            // Most rows keep their stitches: taken until a count says otherwise, and told.
            // Where it is the edge that was left, its markers stand too.
            if (book_->craft() == Craft::knit && below_.stitches == *last_known_)
                below_.counted_only = true;
            else
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
    // The places that a round names show how often the one before was repeated.
    const bool shows = last_before_ && (last_before_->times ||
                                        (slot.counted && declared_of(written.body).has_value()));
    if (fine && (stops() || loose_) && shows) {
        const std::vector<Finding> kept(
            result_.rows.findings.begin() + static_cast<std::ptrdiff_t>(findings),
            result_.rows.findings.end());
        const Edge worked = below_;
        const auto order = result_.rows.order;
        const auto last = before_;
        if (!chain_counts_as_shown(slot, findings)) {
            result_.rows.findings.resize(findings);
            result_.rows.findings.insert(result_.rows.findings.end(), kept.begin(), kept.end());
            result_.rows.order = order;
            below_ = worked;
            before_ = last;
        }
    }
    if (fine && stops() && book_->craft() == Craft::knit && (written.round || context_.circular))
        beyond_round(slot, before, findings, orders);
    if (fine && stops() && book_->craft() == Craft::knit)
        picked_beside(slot, entered_ ? *entered_ : before, findings, orders);
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
    if (fine && stops() && written.restarts && slot.counted && declared_of(written.body)) {
        // A part that begins on stitches told elsewhere: its own words and count agree.
        if (const auto base = fitting_base(written.body, context_, true)) {
            result_.rows.order.resize(orders);
            fine = again(counted_edge(*base));
            if (fine && !stops()) {
                told.state = State::two_ways;
                told.findings.push_back(
                    {Severity::caution, options_->locate(written.entry, written.base),
                     fmt::format(
                         "row {}: taken to begin on {} stitches, as its count says; the row "
                         "before leaves {}",
                         shown_row(), *base, before.stitches),
                     "Check how this part begins."});
            }
        }
    }
    if (fine && misfit_ && book_->craft() == Craft::crochet && assumed_ && !stops() &&
        !declared_of(written.body)) {
        // What it leaves is not known either.
        result_.rows.order.resize(orders);
        assumed_ = false;
        below_ = before;
        lost(State::adrift,
             {"how many stitches it goes into is not known, as a row before it could not be "
              "followed",
              options_->locate(written.entry, written.base), "a count at its end",
              "Write the count of the row below in brackets at its end, like: (24 sts)."});
        return true;
    }
    if (fine && !stops() && book_->craft() == Craft::crochet && slot.counted)
        settle_before(written);
    if (!fine) {
        base::Problem problem = result_.problems.back();
        result_.problems.resize(problems);
        result_.rows.order.resize(orders);
        lost(State::adrift, std::move(problem));
        return true;
    }
    const RowWork& work = result_.rows.distinct[result_.rows.order.back()];
    const std::int64_t made = std::llround(work.made.value());
    if (own && told.rows == 1 && book_->craft() == Craft::knit && before.stitches == 0 &&
        made == 0 && !stops() && result_.rows.order.size() > 1)
        report(written, Severity::stop, 0, "no stitches are left to work, all are bound off",
               "Write the cast-on, or how many stitches are taken up, before it.");
    if (own || (again_ && !told.closed)) told.made = made;
    last_known_ = made;
    made_of_row_[row_number_] = made;
    if (below_.waiting_stitches > 0) short_row_ = row_number_;
    if (assumed_) supposed_ = true;
    if (std::exchange(assumed_, false) && told.state == State::read) {
        told.state = State::two_ways;
        told.findings.push_back(
            {Severity::caution, options_->locate(written.entry, written.base),
             fmt::format("row {}: taken to go on from {} stitches, as a row before it could "
                         "not be followed",
                         shown_row(), before_assumed_),
             "Write that row's count in brackets at its end."});
    }
    if (told.rows == 1 && (slot.counted || told.kinds.empty())) {  // not of rows that repeat it
        told.kinds = work.kinds;
        told.colours = work.colours;
    }
    const auto count = slot.counted || written.uses <= 1 ? declared_of(written.body)
                                                         : std::optional<std::int64_t>();
    wanted_.reset();
    if (count) supposed_ = false;
    if (count && *count != made && stops()) wanted_ = count;
    const auto faults =
        std::count_if(result_.rows.findings.begin() + static_cast<std::ptrdiff_t>(findings),
                      result_.rows.findings.end(),
                      [](const Finding& finding) { return finding.severity == Severity::stop; });
    if (wanted_ && (faults > 1 || before.counted_only) && book_->craft() == Craft::knit) {
        // Its words do not fit the row below either: its count sets the work right again.
        below_ = counted_edge(*wanted_);
        below_.counted_only = false;
        last_known_ = wanted_;
    }
    for (std::size_t i = findings; i < result_.rows.findings.size(); ++i) {
        const Finding& finding = result_.rows.findings[i];
        told.findings.push_back(finding);
        if (finding.severity == Severity::stop)
            told.state = State::disagrees;
        else if (finding.severity == Severity::caution && told.state == State::read)
            told.state = State::two_ways;
    }
    // What was supposed of the row below may be what is wrong.
    if (own && told.state == State::disagrees && !told.proposal &&
        (!supposed_ || book_->craft() == Craft::crochet))
        told.proposal = repair(written, before);
    return true;
}

/// The count of this row shows that the chain at the beginning of the one before counts the other
/// way. False, and all but the row before undone, when it does not.
bool PatternWorker::chain_counts_as_shown(const Slot& slot, std::size_t findings) {
    const Before was = *last_before_;
    const auto index = static_cast<std::size_t>(slot.written);
    const Written& written = pattern_->written[index];
    if (result_.rows.order.size() < 2) return false;
    const bool round = std::exchange(context_.round, was.written->round);
    const bool ring = std::exchange(context_.ring, was.ring);
    Outcome other = work_row(was.written->body, was.below, context_, was.taken);
    context_.round = round;
    context_.ring = ring;
    if (other.given_up || !fits(other) || other.taken != was.taken) return false;
    result_.rows.order.pop_back();
    const std::uint32_t place = result_.rows.order.back();
    const std::int64_t made = std::llround(other.work.made.value());
    const std::optional<TurningKey> key = other.turning_in_doubt;
    const bool counts = other.work.turning_chain_counts;
    result_.rows.order.pop_back();
    take(*was.written, std::move(other));
    const RowWork shown = result_.rows.distinct[result_.rows.order.back()];
    result_.rows.order.back() = place;
    result_.rows.findings.resize(findings);
    reported_.erase(&written);
    memory_[index].clear();
    const bool fine =
        work(slot) && !loose_ &&
        std::none_of(result_.rows.findings.begin() + static_cast<std::ptrdiff_t>(findings),
                     result_.rows.findings.end(),
                     [](const Finding& finding) { return finding.severity == Severity::stop; });
    if (!fine) return false;
    result_.rows.distinct[place] = shown;
    if (key && !was.times) turnings_.insert_or_assign(*key, counts);
    const auto told_at = static_cast<std::size_t>(was.written - pattern_->written.data());
    Told& told = readings_[told_at];
    told.made = made;
    made_of_row_[row_number_ - 1] = made;
    if (told.rows == 1) told.kinds = shown.kinds;
    told.findings.clear();
    if (told.state == State::two_ways) told.state = State::read;
    told.findings.push_back(
        {Severity::ok, options_->locate(was.written->entry, was.written->base),
         was.times ? fmt::format("row {} shows how often this is repeated", shown_row())
                   : fmt::format("the count of row {} shows that the chain at the beginning {}",
                                 shown_row(), counts ? "counts as a stitch" : "does not count"),
         ""});
    return true;
}

/// "..., pick up 16 sts along the flap, k9", "k to last 6 sts, BO 12 sts": the row's last stitches
/// are the first ones of the round, which begins behind them from then on. False, and nothing
/// changed, where the row does not fit so either.
bool PatternWorker::beyond_round(const Slot& slot, const Edge& before, std::size_t findings,
                                 std::size_t orders) {
    const Written& written = pattern_->written[static_cast<std::size_t>(slot.written)];
    Body body = written.body;
    while (!body.items.empty() &&
           (body.items.back().what == Item::Do::marker || body.items.back().what == Item::Do::join))
        body.items.pop_back();
    if (body.items.size() < 2 || body.items.back().what != Item::Do::work ||
        body.items.back().spot.which != Spot::Which::implied)
        return false;
    Item& last = body.items.back();
    const std::string name = book_->at(last.kind).name;
    if (name != "k" && name != "p" && name != "BO") return false;
    const std::optional<std::int64_t> count = declared_of(body);
    body.declared.clear();
    std::int64_t over = last.count;
    if (name == "BO") {
        Body without = body;
        without.items.pop_back();
        const Outcome rest = work_row(without, before, context_);
        const std::int64_t left = before.stitches - std::llround(rest.work.consumed.value());
        over = last.count - left;
        if (left < 0 || over < 1 || left == 0) return false;
        last.count = left;
    } else {
        body.items.pop_back();
    }
    Outcome other = work_row(body, before, context_);
    if (other.given_up || !fits(other)) return false;
    const std::int64_t made = std::llround(other.work.made.value()) - (name == "BO" ? over : 0);
    if (over >= made || (count && *count != made)) return false;
    if (!count && name != "BO") return false;  // a count alone shows it
    result_.rows.order.resize(orders);
    result_.rows.findings.resize(findings);
    take(written, std::move(other));
    Cursor cursor(below_, *book_, true);
    cursor.advance(Unit{}, over);
    const Edge first = below_;
    std::vector<std::int64_t> markers;
    for (const std::int64_t marker : first.markers)
        if (marker > over) markers.push_back(marker - over);
    below_ = cursor.rest();
    if (name != "BO") {
        for (const std::int64_t marker : first.markers)
            if (marker < over) markers.push_back(marker - over + first.stitches);
        Edge front;
        front.stretches = {{1, {{{last.kind, 0}, over}}}};
        front.settle();
        below_ = joined_edges(std::move(below_), front);
    } else {
        RowWork& work = result_.rows.distinct[result_.rows.order.back()];
        work.made = static_cast<double>(made) * units::stitch;
    }
    below_.markers = std::move(markers);
    readings_[static_cast<std::size_t>(slot.written)].findings.push_back(
        {Severity::ok, options_->locate(written.entry, written.base),
         fmt::format("row {}: its last {} stitches are the first ones of the round", shown_row(),
                     over),
         ""});
    return true;
}

/// "Pick up and knit 2 sts at the gap." where others wait on the needles: they come beside them.
/// False, and nothing changed, for other rows, or where the count says otherwise.
bool PatternWorker::picked_beside(const Slot& slot, const Edge& before, std::size_t findings,
                                  std::size_t orders) {
    const Written& written = pattern_->written[static_cast<std::size_t>(slot.written)];
    Body body = written.body;
    body.declared.clear();
    std::erase_if(body.items, [](const Item& item) {
        return item.what == Item::Do::marker || item.what == Item::Do::join;
    });
    if (body.items.size() != 1 || body.items.front().what != Item::Do::work ||
        book_->at(body.items.front().kind).name != "CO" || before.stitches < 1 ||
        base::lower(written.text).find("pick") == std::string::npos)
        return false;
    const std::int64_t picked = body.items.front().count;
    const auto count = declared_of(written.body);
    if (count && *count != before.stitches + picked) return false;
    Outcome other = work_row(body, before, context_);
    if (other.given_up) return false;
    result_.rows.order.resize(orders);
    result_.rows.findings.resize(findings);
    take(written, std::move(other));
    Edge more;
    more.stretches = {{1, {{{book_->find_us("k"), 0}, picked}}}};
    more.settle();
    below_ = joined_edges(before, more);
    if (!written.round) below_ = below_.reversed();
    result_.rows.distinct[result_.rows.order.back()].made =
        static_cast<double>(before.stitches + picked) * units::stitch;
    readings_[static_cast<std::size_t>(slot.written)].findings.push_back(
        {Severity::ok, options_->locate(written.entry, written.base),
         fmt::format("row {}: its stitches come beside the {} on the needles", shown_row(),
                     before.stitches),
         ""});
    return true;
}

void PatternWorker::check_base(std::int64_t base) {
    for (const std::int64_t index : pattern_->foundation) {
        const Written& written = pattern_->written[static_cast<std::size_t>(index)];
        const auto count = declared_of(written.body);
        if (!count || *count == base || index != pattern_->foundation.back()) continue;
        Finding finding{
            Severity::stop,
            options_->locate(written.entry, written.base + written.body.declared.front().at),
            fmt::format("the pattern says {} stitches; {} are cast on", *count, base),
            "Correct the count or the cast-on."};
        result_.rows.findings.push_back(finding);
        readings_[static_cast<std::size_t>(index)].findings.push_back(std::move(finding));
        readings_[static_cast<std::size_t>(index)].state = State::disagrees;
    }
}

Edge PatternWorker::counted_edge(std::int64_t count) const {
    Edge edge;
    const KindId kind = book_->find_us(book_->craft() == Craft::crochet ? "sc" : "k");
    edge.stretches = {{1, {{{kind, 0}, count}}}};
    edge.settle();
    edge.counted_only = true;
    return edge;
}

void PatternWorker::give_readings() {
    result_.readings =
        readings_of(*pattern_, *options_, *book_, result_.rows.foundation.made,
                    std::move(readings_), made_of_row_, told_behind_, stuck_, more_rows_);
}

/// Stitches between two markers: of several stretches the one that comes to `wanted`, else the one
/// between the first two. -1 where no marker is known.
std::int64_t PatternWorker::between_markers(std::int64_t wanted) const {
    const std::vector<std::int64_t>& markers = below_.markers;
    if (markers.empty()) return -1;
    if (markers.size() == 1) return below_.stitches - markers[0] == wanted ? wanted : markers[0];
    for (std::size_t i = 1; i < markers.size(); ++i)
        if (markers[i] - markers[i - 1] == wanted) return wanted;
    return markers[1] - markers[0];
}

bool PatternWorker::go_on(std::size_t row) {
    const Slot& last = pattern_->slots[row];
    constexpr std::int64_t most_turns = 2000;
    const auto made = [&]() -> std::int64_t {
        if (last.between_markers) return between_markers(last.until);
        return std::llround(result_.rows.distinct[result_.rows.order.back()].made.value());
    };
    // "K8, turn" and so on: of which stitches so many are to remain is not said.
    if (options_->lenient && book_->craft() == Craft::knit && !last.between_markers &&
        short_row_ > static_cast<std::int64_t>(row) - last.block && made() != last.until) {
        report(pattern_->written[static_cast<std::size_t>(last.written)], Severity::stop, 0,
               fmt::format("these rows turn before the end, and which {} stitches are meant is not "
                           "clear",
                           last.until),
               "Write how often they are repeated.");
        stuck_.emplace(static_cast<std::int64_t>(row), result_.rows.findings.back());
        return true;
    }
    std::int64_t before = -1;
    for (std::int64_t turn = 0; made() != last.until; ++turn) {
        const std::int64_t now = made();
        const bool passed =
            before >= 0 && (now == before || (now < last.until) != (before < last.until) ||
                            std::abs(now - last.until) > std::abs(before - last.until));
        if (adrift_ || passed || now < 0 || turn == most_turns) {
            report(pattern_->written[static_cast<std::size_t>(last.written)], Severity::stop, 0,
                   fmt::format("repeated, these rows never leave {} stitches", last.until),
                   "Check the number, or write how often they are repeated.");
            stuck_.emplace(static_cast<std::int64_t>(row), result_.rows.findings.back());
            // "Continue in this manner until ...": the line's own rows, and no others repeated
            Told& told = readings_[static_cast<std::size_t>(last.written)];
            if (told.first_row > static_cast<std::int64_t>(row) - last.block) {
                told.state = State::disagrees;
                told.findings.push_back(result_.rows.findings.back());
            }
            return true;
        }
        before = now;
        for (std::size_t i = row + 1 - static_cast<std::size_t>(last.block); i <= row; ++i) {
            const Slot& slot = pattern_->slots[i];
            ++more_;
            ++more_rows_[static_cast<std::int64_t>(row)];
            again_ = true;
            const bool worked = options_->lenient ? work_leniently(slot) : work(slot);
            again_ = false;
            if (!worked) return false;
            if (pattern_->yarns_said)
                add_yarn(options_->yarns[slot.yarn.value_or(options_->yarn)].id);
            result_.rows.text_of.push_back(static_cast<std::uint32_t>(slot.written));
        }
    }
    return true;
}

}  // namespace skeinfall::notation
