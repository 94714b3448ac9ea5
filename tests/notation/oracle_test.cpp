// Repeats are worked by jumping ahead. Here a plain interpreter works every stitch singly; both
// must come to the same for random rows on random rows.

#include <algorithm>
#include <cstdint>
#include <optional>
#include <utility>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "helpers.hpp"

namespace skeinfall::notation {
namespace {

/// One instruction: what it says, and what it does stitch by stitch.
struct Step {
    int kind = 0;
    std::int64_t count = 1;

    [[nodiscard]] std::string text() const {
        const std::string n = std::to_string(count);
        switch (kind) {
            case 0:
                return "sc in each of next " + n + " sts";
            case 1:
                return n + " dc in next st";
            case 2:
                return "ch " + n + ", sk next st";
            case 3:
                return "sk next " + n + " sts";
            case 4:
                return "hdc2tog";
            case 5:
                return "(hdc, ch " + n + ", hdc) in next st";
            default:
                return "[sc in next st, 2 hdc in next st] " + n + " times";
        }
    }
};

/// The state of the plain interpreter: the row below is only a number of stitches, each chain of
/// a space being one.
struct Plain {
    std::int64_t below = 0;
    Kinds kinds;
    std::vector<char> top;  // 's' a stitch, 'c' a chain

    bool take(std::int64_t count) {
        if (below < count) return false;
        below -= count;
        return true;
    }
    void make(const std::string& kind, std::int64_t count) {
        kinds[kind] += count;
        top.insert(top.end(), static_cast<std::size_t>(count), 's');
    }
    void chain(std::int64_t count) {
        kinds["ch"] += count;
        top.insert(top.end(), static_cast<std::size_t>(count), 'c');
    }
    bool one(const Step& step) {
        switch (step.kind) {
            case 0:
                if (!take(step.count)) return false;
                make("sc", step.count);
                return true;
            case 1:
                if (!take(1)) return false;
                make("dc", step.count);
                return true;
            case 2:
                chain(step.count);
                return take(1);
            case 3:
                return take(step.count);
            case 4:
                if (!take(2)) return false;
                make("hdc2tog", 1);
                return true;
            case 5:
                if (!take(1)) return false;
                make("hdc", 1);
                chain(step.count);
                make("hdc", 1);
                return true;
            default:
                for (std::int64_t i = 0; i < step.count; ++i) {
                    if (!take(2)) return false;
                    make("sc", 1);
                    make("hdc", 2);
                }
                return true;
        }
    }
};

struct RandomRow {
    std::vector<Step> before;
    std::vector<Step> body;
    std::int64_t keep = 0;
    std::int64_t times = 0;  // 0: across
};

rc::Gen<Step> any_step() {
    return rc::gen::build<Step>(
        rc::gen::set(&Step::kind, rc::gen::inRange(0, 7)),
        rc::gen::set(&Step::count, rc::gen::inRange(std::int64_t{1}, std::int64_t{4})));
}

rc::Gen<RandomRow> any_row() {
    return rc::gen::build<RandomRow>(
        rc::gen::set(&RandomRow::before,
                     rc::gen::resize(3, rc::gen::container<std::vector<Step>>(any_step()))),
        rc::gen::set(&RandomRow::body, rc::gen::nonEmpty(rc::gen::resize(
                                           4, rc::gen::container<std::vector<Step>>(any_step())))),
        rc::gen::set(&RandomRow::keep, rc::gen::inRange(std::int64_t{0}, std::int64_t{5})),
        rc::gen::set(&RandomRow::times, rc::gen::inRange(std::int64_t{0}, std::int64_t{9})));
}

std::string text_of(const RandomRow& row) {
    std::string out = "ch 1, turn, ";
    for (const Step& step : row.before) out += step.text() + ", ";
    out += "*";
    for (const Step& step : row.body) out += step.text() + ", ";
    out += "; rep from * ";
    if (row.times > 0)
        out += std::to_string(row.times) + " more times";
    else if (row.keep > 0)
        out += "to last " + std::to_string(row.keep) + " sts";
    else
        out += "across";
    return out + ", leave remaining sts unworked.";
}

/// Nothing when the row does not fit.
std::optional<Plain> work_plainly(const RandomRow& row, std::int64_t below) {
    Plain plain;
    plain.below = below;
    plain.kinds["ch"] = 1;
    const auto all = [&](const std::vector<Step>& steps) {
        return std::all_of(steps.begin(), steps.end(),
                           [&](const Step& step) { return plain.one(step); });
    };
    if (!all(row.before)) return std::nullopt;
    if (row.times > 0) {
        for (std::int64_t i = 0; i <= row.times; ++i)
            if (!all(row.body)) return std::nullopt;
        return plain;
    }
    while (plain.below > row.keep)
        if (!all(row.body) || plain.below < row.keep) return std::nullopt;
    return plain;
}

RC_GTEST_PROP(Oracle, TwoRandomRows, ()) {
    const std::int64_t width = *rc::gen::inRange(std::int64_t{1}, std::int64_t{200});
    const RandomRow second = *any_row();
    const RandomRow third = *any_row();
    const NotationResult result = work_rows(
        "Ch " + std::to_string(width + 1) +
            ".\nRow 1: sc in 2nd ch from hook and in each ch across.\nRow 2: " + text_of(second) +
            "\nRow 3: " + text_of(third),
        crochet());
    RC_ASSERT(result.problems.empty());

    const auto plain = work_plainly(second, width);
    const auto stops = [&](const std::string& row) {
        return std::any_of(
            result.rows.findings.begin(), result.rows.findings.end(), [&](const Finding& finding) {
                return finding.severity == Severity::stop && finding.what.starts_with(row);
            });
    };
    RC_ASSERT(stops("row 2") == !plain.has_value());
    if (!plain) return;
    const RowWork& row = result.rows.row(2);
    RC_ASSERT(kinds_of(row.kinds) == plain->kinds);
    RC_ASSERT(whole(row.made) == std::count(plain->top.begin(), plain->top.end(), 's'));
    RC_ASSERT(whole(row.across) == static_cast<std::int64_t>(plain->top.size()));
    RC_ASSERT(whole(row.consumed) == width - plain->below);

    // The next row in the usual reading, where chains are stitches. A cautious reader may have
    // taken another one when that did not fit.
    const auto above = work_plainly(third, static_cast<std::int64_t>(plain->top.size()));
    if (!above) return;
    RC_ASSERT(!stops("row 3"));
    RC_ASSERT(kinds_of(result.rows.row(3).kinds) == above->kinds);
    RC_ASSERT(whole(result.rows.row(3).across) == static_cast<std::int64_t>(above->top.size()));
}

}  // namespace
}  // namespace skeinfall::notation
