#include "skeinfall/report/hand_text.hpp"

#include <cmath>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/detail/json_words.hpp"
#include "skeinfall/report/words.hpp"

namespace skeinfall::report {
namespace {

using base::shown_inert;
using units::Ratio;
using units::Rounding;
using units::Step;

std::string percent(double share, Rounding rounding = Rounding::nearest) {
    return units::percent_text(Ratio(share), Step::one, rounding);
}

/// "6 % less than", "as much as".
std::string against_others(Ratio times) {
    const double more = times.value() - 1.0;
    const std::string share = percent(std::abs(more));
    if (share == "0 %") return "as much as";
    return share + (more < 0.0 ? " less than" : " more than");
}

}  // namespace

std::string hand_text(const std::vector<project::TaughtByMake>& makes) {
    if (makes.empty())
        return fmt::format(
            "Nothing is known of your tension yet; people differ by {} or so.\n"
            "Teach it with a finished make: skeinfall hand PROJECT.toml --used \"MC: 180 g\"\n",
            percent(project::unknown_hand.value()));
    const project::Hand hand = project::hand_from(makes);
    std::string out = fmt::format(
        "You use {} others, give or take {}, from {}.\n", against_others(hand.times),
        percent(hand.spread.value(), Rounding::up), counted(hand.makes, "make", "makes"));
    std::vector<std::vector<std::string>> rows{{"make", "yarn", "against others", "give or take"}};
    for (const project::TaughtByMake& make : makes)
        rows.push_back({shown_inert(make.make), shown_inert(make.role), percent(make.times.value()),
                        percent(make.noise.value(), Rounding::up)});
    out += table(rows, {false, false, true, true}, 2);
    return out +
           "It is used wherever the yarn is judged by other people's makes: need, cover and the "
           "rest.\n";
}

std::string hand_json(const std::vector<project::TaughtByMake>& makes) {
    const project::Hand hand = project::hand_from(makes);
    Json out;
    out["times"] = hand.times.value();
    out["spread"] = hand.spread.value();
    out["makes"] = hand.makes;
    out["taught"] = Json::array();
    for (const project::TaughtByMake& make : makes)
        out["taught"].push_back({{"make", make.make},
                                 {"yarn", make.role},
                                 {"times", make.times.value()},
                                 {"noise", make.noise.value()}});
    return finished(out);
}

std::string lesson_text(const need::Lesson& lesson) {
    return fmt::format("{}: you used {}; by other people's makes {}, give or take {}",
                       shown_inert(lesson.taught.role),
                       yards_and_metres(lesson.used, Rounding::nearest),
                       yards_and_metres(lesson.expected.centre, Rounding::nearest),
                       yards_and_metres(lesson.expected.spread, Rounding::up));
}

}  // namespace skeinfall::report
