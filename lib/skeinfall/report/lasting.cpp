#include "skeinfall/report/lasting.hpp"

#include <algorithm>
#include <cstdint>
#include <vector>

#include <fmt/format.h>

#include "skeinfall/report/detail/json_words.hpp"
#include "skeinfall/report/words.hpp"

namespace skeinfall::report {
namespace {

using units::Rounding;
using units::Step;

std::string amount(units::Mass mass, bool ounces, Rounding rounding) {
    if (ounces) return units::text(mass, units::shown::ounces, Step::hundredth, rounding);
    return units::text(mass, units::shown::grams, Step::tenth, rounding);
}

std::string amount(units::Length length, bool, Rounding rounding) {
    (void)rounding;
    return units::inches_and_centimetres(length);
}

/// Too little to be shown of one: a stitch of 0.005 g is shown by the hundred.
bool shown_by_the_hundred(units::Mass mass) {
    return mass < 0.2 * units::gram;
}

bool shown_by_the_hundred(units::Length) {
    return false;
}

std::string of_a_hundred(units::Mass mass, bool ounces) {
    const units::Mass hundred = 100.0 * mass;
    return ounces ? units::text(hundred, units::shown::ounces, Step::hundredth, Rounding::up)
                  : units::text(hundred, units::shown::grams, Step::hundredth, Rounding::up);
}

std::string of_a_hundred(units::Length length, bool ounces) {
    return amount(length, ounces, Rounding::up);
}

/// How it may be known better, weighed or measured.
std::string better_known(units::Mass, const std::string& some) {
    return "Weigh again after some " + some + " on a finer scale";
}

std::string better_known(units::Length, const std::string&) {
    return "Work a row and measure the strand again";
}

template <class Q>
std::string said(const LastingOf<Q>& of, const joins::Lasting<Q>& got) {
    const bool sure = got.lasts >= of.confidence;
    const measure::Chance not_sure{units::Ratio(1.0 - of.confidence.value.value())};
    const bool short_of = got.lasts <= not_sure;
    const bool joined = of.balls > 0 && of.work.whole;
    const std::string between = "joined between " + of.many;
    std::string verdict = sure       ? "it will last"
                          : short_of ? "it will not last"
                                     : "too close to call";
    if (joined && !sure && got.anywhere >= of.confidence)
        verdict = fmt::format("it will last only when joined inside a {} ({}); {}", of.one,
                              chance_text(got.anywhere), between);
    else if (sure && of.balls > 0)
        verdict += ", " + (joined ? between : "joined anywhere");
    std::string out = fmt::format("{}, chance {}\n\n", verdict, chance_text(got.lasts));
    const auto of_units = [&](double count) {
        const std::string number =
            units::plain_number(units::Ratio(count), Step::hundredth, Rounding::nearest);
        return number + " " + (number == "1" ? of.one : of.many);
    };
    std::vector<std::vector<std::string>> rows;
    const bool hundred = of.work.rows && shown_by_the_hundred(got.per_unit.centre);
    rows.push_back({hundred        ? "each 100 " + of.many
                    : of.work.rows ? "each " + of.one
                                   : std::string("in all"),
                    (hundred ? of_a_hundred(got.per_unit.centre, of.ounces)
                             : amount(got.per_unit.centre, of.ounces, Rounding::up)) +
                        ", give or take " +
                        units::percent_text(got.per_unit.relative(), Step::one, Rounding::up)});
    rows.push_back({"still to work", (of.work.rows ? of_units(of.work.to_come.value())
                                                   : units::percent_text(of.work.to_come, Step::one,
                                                                         Rounding::nearest) +
                                                         " of it") +
                                         (of.finish ? " and the finish: " : ": ") +
                                         amount(got.rest.centre, of.ounces, Rounding::up)});
    rows.push_back({"left", amount(got.have, of.ounces, Rounding::down) +
                                (of.balls > 0 ? " without the ends" : "")});
    if (joined) {
        rows.push_back({between, "lasts, chance " + chance_text(got.lasts)});
        rows.push_back({"joined anywhere", "lasts, chance " + chance_text(got.anywhere)});
    }
    if (of.work.rows) {
        rows.push_back({"next " + of.one, "chance that it fits: " + chance_text(got.next)});
        const auto stop = [&](std::int64_t count) {
            if (static_cast<double>(count) >= of.work.to_come.value())
                return std::string("the end");
            if (count == 0 && !of.finish) return "not one more " + of.one;
            return "after " + of_units(static_cast<double>(count)) + " more" +
                   (of.finish ? ", with the finish still fitting" : "");
        };
        rows.push_back({"sure to reach", stop(got.certain)});
        rows.push_back({"likely to reach", stop(got.likely)});
    }
    if (got.to_be_sure > Q{})
        rows.push_back({chance_text(of.confidence) + " sure",
                        "with " + amount(got.to_be_sure, of.ounces, Rounding::up) + " more"});
    if (got.rest_most > got.rest_least)
        rows.push_back({"by your weighings only",
                        amount(got.rest_least, of.ounces, Rounding::down) + " to " +
                            amount(got.rest_most, of.ounces, Rounding::up) + " for the rest, " +
                            amount(got.have_least, of.ounces, Rounding::down) + " to " +
                            amount(got.have_most, of.ounces, Rounding::up) + " left"});
    out += table(rows, {false, false}, 2);
    if (of.balls > 0 && !joined)
        out +=
            "\nJoined at the ends of rows, each ball leaves part of a row over: count the work in "
            "rows to see whether it lasts so.\n";
    if (!sure)
        out += short_of ? "\nJoin new yarn, or stop earlier.\n"
                        : "\n" + better_known(got.have, of.work.rows ? of.many : "more of it") +
                              ", or put in a lifeline to rip back to.\n";
    // A round of a growing piece takes more than the one before it.
    if (of.one == "round")
        out +=
            "\nEvery round is counted as long as those you weighed. If your rounds grow, count "
            "their stitches instead.\n";
    return out;
}

template <class Q>
std::string data(const LastingOf<Q>& of, const joins::Lasting<Q>& got, double one) {
    Json out;
    const auto in = [&](Q value) { return value.value() / one; };
    out["lasts"] = got.lasts >= of.confidence;
    out["chance"] = chance_figure(got.lasts).value();
    out["chance_joined_anywhere"] = chance_figure(got.anywhere).value();
    out["chance_of_next"] = chance_figure(got.next).value();
    out["per_unit"] = in(got.per_unit.centre);
    out["rest"] = in(got.rest.centre);
    out["rest_spread"] = in(got.rest.spread);
    out["have"] = in(got.have);
    out["to_be_sure"] = in(got.to_be_sure);
    out["certain"] = got.certain;
    out["likely"] = got.likely;
    out["by_scale"] = {{"rest_least", in(got.rest_least)},
                       {"rest_most", in(got.rest_most)},
                       {"have_least", in(got.have_least)},
                       {"have_most", in(got.have_most)}};
    return finished(out);
}

}  // namespace

std::string lasting_text(const LastingOf<units::Mass>& of,
                         const joins::Lasting<units::Mass>& lasting) {
    return said(of, lasting);
}

std::string lasting_text(const LastingOf<units::Length>& of,
                         const joins::Lasting<units::Length>& lasting) {
    return said(of, lasting);
}

std::string lasting_json(const LastingOf<units::Mass>& of,
                         const joins::Lasting<units::Mass>& lasting) {
    return data(of, lasting, units::Mass(units::gram).value());
}

std::string lasting_json(const LastingOf<units::Length>& of,
                         const joins::Lasting<units::Length>& lasting) {
    return data(of, lasting, units::Length(units::metre).value());
}

}  // namespace skeinfall::report
