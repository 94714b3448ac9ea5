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
    // Nobody measures as much with a ruler.
    constexpr units::Length by_ruler = 10.0 * units::yard;
    if (length >= by_ruler) return units::yards_and_metres(length, rounding);
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
class Said {
  public:
    Said(const LastingOf<Q>& of, const joins::Lasting<Q>& got)
        : of_(of),
          got_(got),
          sure_(got.lasts >= of.confidence),
          short_(got.lasts <= measure::Chance{units::Ratio(1.0 - of.confidence.value.value())}),
          joined_(of.balls > 0 && of.work.whole) {}

    [[nodiscard]] std::string text() const {
        std::string out = verdict() + "\n\n" + table(rows(), {false, false}, 2);
        if (of_.balls > 0 && !joined_)
            out +=
                "\nJoined at the ends of rows, each ball leaves part of a row over: count the work "
                "in rows to see whether it lasts so.\n";
        if (!sure_ && !of_.how_many && !of_.have_unknown)
            out += short_
                       ? "\nJoin new yarn, or stop earlier.\n"
                       : "\n" + better_known(got_.have, of_.work.rows ? of_.many : "more of it") +
                             ", or put in a lifeline to rip back to.\n";
        // A round of a growing piece takes more than the one before it.
        if (of_.one == "round")
            out +=
                "\nEvery round is counted as long as those you weighed. If your rounds grow, count "
                "their stitches instead.\n";
        return out;
    }

  private:
    [[nodiscard]] std::string between() const { return "joined between " + of_.many; }
    [[nodiscard]] std::string units_of(double count) const {
        const std::string number =
            units::plain_number(units::Ratio(count), Step::hundredth, Rounding::nearest);
        return number + " " + (number == "1" ? of_.one : of_.many);
    }
    [[nodiscard]] std::string up(Q value) const { return amount(value, of_.ounces, Rounding::up); }
    [[nodiscard]] std::string down(Q value) const {
        return amount(value, of_.ounces, Rounding::down);
    }

    [[nodiscard]] std::string verdict() const {
        if (of_.have_unknown)
            return fmt::format("the rest takes about {}; to be {} sure: {}", up(got_.rest.centre),
                               chance_text(of_.confidence), up(got_.to_be_sure));
        if (of_.how_many)
            return fmt::format(
                "about {} more; {} sure: {}{}", units_of(static_cast<double>(got_.likely)),
                chance_text(of_.confidence), got_.certain, joined_ ? ", " + between() : "");
        std::string out = sure_    ? "it will last"
                          : short_ ? "it will not last"
                                   : "too close to call";
        if (joined_ && !sure_ && got_.anywhere >= of_.confidence)
            out = fmt::format("it will last only when joined inside a {} ({}); {}", of_.one,
                              chance_text(got_.anywhere), between());
        else if (sure_ && of_.balls > 0)
            out += ", " + (joined_ ? between() : "joined anywhere");
        return fmt::format("{}, chance {}", out, chance_text(got_.lasts));
    }

    [[nodiscard]] std::vector<std::string> each() const {
        const bool hundred = of_.work.rows && shown_by_the_hundred(got_.per_unit.centre);
        return {
            hundred         ? "each 100 " + of_.many
            : of_.work.rows ? "each " + of_.one
            : of_.part      ? "the part you weighed"
                            : "in all",
            (hundred ? of_a_hundred(got_.per_unit.centre, of_.ounces) : up(got_.per_unit.centre)) +
                ", give or take " +
                units::percent_text(got_.per_unit.relative(), Step::one, Rounding::up)};
    }

    [[nodiscard]] std::vector<std::string> still() const {
        if (!(of_.work.to_come > units::Ratio(0.0)))
            return {"still to work", "the finish: " + up(got_.rest.centre)};
        return {
            "still to work",
            (of_.work.rows
                 ? units_of(of_.work.to_come.value())
                 : units::percent_text(of_.work.to_come, Step::one, Rounding::nearest) + " of it") +
                (of_.finish ? " and the finish: " : ": ") + up(got_.rest.centre)};
    }

    [[nodiscard]] std::string stop(std::int64_t count) const {
        if (static_cast<double>(count) >= of_.work.to_come.value()) return "the end";
        if (count == 0) return "not one more " + of_.one + (of_.finish ? " before the finish" : "");
        return "after " + units_of(static_cast<double>(count)) + " more" +
               (of_.finish ? ", with the finish still fitting" : "");
    }

    [[nodiscard]] std::vector<std::vector<std::string>> rows() const {
        std::vector<std::vector<std::string>> out{each()};
        if (!of_.how_many) out.push_back(still());
        if (of_.have_unknown) {
            if (of_.work.rows)
                out.push_back({"in all", "about " + up(of_.used + got_.rest.centre)});
            return out;
        }
        out.push_back({"left", down(got_.have) + (of_.balls > 0 ? " without the ends" : "")});
        if (of_.how_many) return out;
        if (joined_) {
            out.push_back({between(), "lasts, chance " + chance_text(got_.lasts)});
            out.push_back({"joined anywhere", "lasts, chance " + chance_text(got_.anywhere)});
        }
        if (of_.work.rows && of_.work.to_come > units::Ratio(0.0)) {
            if (!of_.one.starts_with("sq "))
                out.push_back(
                    {"next " + of_.one, "chance that it fits: " + chance_text(got_.next)});
            out.push_back({"sure to reach", stop(got_.certain)});
            out.push_back({"likely to reach", stop(got_.likely)});
        }
        if (got_.to_be_sure > Q{})
            out.push_back(
                {chance_text(of_.confidence) + " sure", "with " + up(got_.to_be_sure) + " more"});
        if (got_.rest_most > got_.rest_least)
            out.push_back({"by your weighings only",
                           down(got_.rest_least) + " to " + up(got_.rest_most) + " for the rest, " +
                               down(got_.have_least) + " to " + up(got_.have_most) + " left"});
        return out;
    }

    const LastingOf<Q>& of_;
    const joins::Lasting<Q>& got_;
    bool sure_;
    bool short_;
    bool joined_;
};

template <class Q>
std::string data(const LastingOf<Q>& of, const joins::Lasting<Q>& got, double one) {
    Json out;
    const auto in = [&](Q value) { return value.value() / one; };
    if (of.have_unknown) {
        out["lasts"] = nullptr;
        out["per_unit"] = in(got.per_unit.centre);
        out["rest"] = in(got.rest.centre);
        out["rest_spread"] = in(got.rest.spread);
        out["to_be_sure"] = in(got.to_be_sure);
        return finished(out);
    }
    if (of.how_many) {
        out["lasts"] = nullptr;
        out["per_unit"] = in(got.per_unit.centre);
        out["have"] = in(got.have);
        out["certain"] = got.certain;
        out["likely"] = got.likely;
        return finished(out);
    }
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
    return Said(of, lasting).text();
}

std::string lasting_text(const LastingOf<units::Length>& of,
                         const joins::Lasting<units::Length>& lasting) {
    return Said(of, lasting).text();
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
