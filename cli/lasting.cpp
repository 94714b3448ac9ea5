#include "lasting.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <optional>
#include <ostream>
#include <regex>
#include <string_view>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/make_words.hpp"
#include "skeinfall/joins/lasting.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/need/strand.hpp"
#include "skeinfall/project/make_questions.hpp"
#include "skeinfall/report/lasting.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/units/parse.hpp"
#include "skeinfall/yarn/yarn.hpp"

#include "exit_code.hpp"
#include "lasting_words.hpp"
#include "odd_figures.hpp"
#include "options.hpp"
#include "share_option.hpp"

namespace skeinfall::cli {
namespace {

/// Two ends of 15 cm at 1 m/g, a bulky yarn: what it weighs is not known here (a judgement).
constexpr units::Mass ends_of_a_ball = 0.3 * units::gram;

units::Mass mass_in(const std::string& option, const std::string& text) {
    return read_option(option, text, units::parse_mass);
}

units::Mass step_of(const Values& values, const std::string& option, const std::string& text) {
    if (const auto step = values.one("scale")) return mass_in("scale", *step);
    return mass_in(option, exchange::step_of_reading(text));
}

/// What a bind-off takes of a row's yarn, by its name: "a bind-off", "a stretchy bind-off".
std::optional<units::Ratio> rows_of_edge(const std::string& part) {
    static const std::regex article(R"(^(?:an?|the)\s+)", std::regex::icase);
    const std::string name = std::regex_replace(std::string(base::trimmed(part)), article, "");
    const auto row = need::strand_per_width("stockinette", project::Terms::us);
    const auto edge = need::strand_per_width(name, project::Terms::us);
    const bool ends = base::lower(name).find("off") != std::string::npos;
    if (!ends || !row || !edge) return std::nullopt;
    return units::Ratio(edge->centre / row->centre);
}

/// What a bind-off takes. It is off in the same way as the rows it is reckoned by.
template <class Q>
void add_edge(const joins::WorkLeft& work, double rows, joins::YarnLeft<Q>& yarn) {
    constexpr double of_edges = 0.1;  // hands differ in it by that much: a judgement
    const double drift = need::usual::swatch_to_piece.value();
    const Q row = yarn.used.centre / work.done.value();
    const double rate =
        std::hypot(std::hypot(yarn.used.relative().value(), drift), yarn.per_unit_spread.value());
    const double both = 2.0 * work.to_come.value() * rows + rows * rows;
    const Q spread = std::hypot(rate * std::sqrt(both), of_edges * rows) * row;
    yarn.finish.centre += rows * row;
    yarn.finish.spread = measure::in_quadrature(yarn.finish.spread, spread);
}

/// What --to-come says: rows, and yarn of the finish.
template <class Q>
void read_to_come(const Values& values, const World& world, joins::WorkLeft& work,
                  joins::YarnLeft<Q>& yarn, std::string& word, bool& finish,
                  base::Result<Q> (*parse)(std::string_view)) {
    const std::string forms = "\"13 rows\", \"13 rows and 6 g\" or \"135 %\"";
    bool counted = false;
    double edge_rows = 0.0;
    for (const std::string& given : values.all("to-come")) {
        static const std::regex between(R"(\s*(?:,|\+|&|\band\b|\bplus\b)\s*)");
        const std::string text = exchange::plain_signs(given);
        for (std::sregex_token_iterator at(text.begin(), text.end(), between, -1), end; at != end;
             ++at) {
            const std::string part = without_name_of_finish(at->str());
            if (const auto amount = parse(part)) {
                // A figure for the finish is as good as a stated rate.
                yarn.finish.centre += *amount;
                yarn.finish.spread += 0.08 * *amount;
                finish = true;
                continue;
            }
            const std::string raw(base::trimmed(at->str()));
            // Nobody weighs a bind-off beforehand: it goes by the row it ends.
            if (const auto rows = rows_of_edge(part);
                rows && (word.empty() || word == "row" || word == "round")) {
                edge_rows += rows->value();
                finish = true;
                *world.err << "note: " << base::shown_inert(part) << " is taken as "
                           << fmt::format("{:.3g}", rows->value()) << " "
                           << (word.empty() ? "row" : word) << "s of yarn, the usual in knitting\n";
                continue;
            }
            // Where yarn is weighed, a length is that of the work.
            const auto height = is_height(word) ? height_of(part, word)
                                : is_area(word) ? area_to_come(raw, word, work.done)
                                                : std::nullopt;
            const auto count = height ? height : count_of(part);
            if (!count && part.find_first_of("0123456789") == std::string::npos)
                refuse_option(
                    "to-come", "it does not say how much yarn " + base::quoted(part) + " takes",
                    "its yarn in figures, \"13 rows and 6 g\"", "Or as the rows that it is worth.");
            if (!count)
                refuse_option("to-come", base::quoted(part) + " is not understood", forms, "");
            if (counted) refuse_option("to-come", "rows are given twice", forms, "");
            counted = true;
            if (count->word == "%") {
                work.to_come = units::Ratio(count->count.value() * work.done.value());
                continue;
            }
            if (!word.empty() && count->word != word)
                refuse_option(
                    "to-come",
                    base::quoted(part) + " is not counted in the same way as what was used",
                    plural(word), "");
            word = count->word;
            work.to_come = count->count;
        }
    }
    if (!counted && finish) work.to_come = units::Ratio(0.0);
    if (edge_rows > 0.0) add_edge(work, edge_rows, yarn);
    if (!counted && !finish)
        refuse_option("to-come", "what is still to be worked is missing", forms, "");
}

/// As many units as the yarn could ever hold.
template <class Q>
units::Ratio more_than_fit(const joins::WorkLeft& work, const joins::YarnLeft<Q>& yarn) {
    Q all = yarn.have.centre;
    for (const auto& ball : yarn.more) all += ball.centre;
    const double units = work.done.value() * units::Ratio(all / yarn.used.centre).value();
    return units::Ratio(std::min(std::ceil(1.5 * units) + 2.0, static_cast<double>(most_units)));
}

template <class Q>
int answer(const Values& values, const World& world, joins::WorkLeft work,
           const joins::YarnLeft<Q>& yarn, report::LastingOf<Q> of) {
    const std::string format = format_of(values, {"text", "json"});
    of.confidence = confidence_of(values);
    if (of.how_many) work.to_come = more_than_fit(work, yarn);
    of.work = work;
    of.used = yarn.used.centre;
    of.balls = static_cast<std::int64_t>(yarn.more.size());
    const joins::Lasting<Q> got = joins::lasting(work, yarn, of.confidence);
    *world.out << (format == "json" ? report::lasting_json(of, got)
                                    : report::lasting_text(of, got));
    return of.how_many || of.have_unknown || got.lasts >= of.confidence ? done : not_so;
}

int by_strand(const Values& values, const World& world) {
    const auto needs = [&](const char* option, const std::string& example) {
        const auto text = values.one(option);
        if (!text) refuse_option(option, "it is missing beside --strand", example, "");
        return *text;
    };
    const units::Length strand =
        read_option("strand", exchange::plain_signs(*values.one("strand")), units::parse_length);
    const units::Length width = read_option(
        "row-width", exchange::plain_signs(needs("row-width", "a width such as \"50 cm\"")),
        units::parse_length);
    const std::string stitch = needs("stitch", "a stitch such as sc, hdc, dc or stockinette");
    const auto terms = values.settings().project.terms.value_or(project::Terms::us);
    const auto per_width = need::strand_per_width(stitch, terms);
    if (!per_width)
        refuse_option("stitch", base::quoted(stitch) + " is not known here",
                      "a stitch such as sc, hdc, dc or stockinette", "");
    joins::WorkLeft work;
    work.done = units::Ratio(1.0);
    work.to_come = units::Ratio(1.0);
    joins::YarnLeft<units::Length> yarn;
    yarn.used.centre = per_width->centre.value() * width;
    yarn.per_unit_spread = per_width->relative();
    yarn.have = {strand, 0.01 * strand};
    yarn.tail = values.settings().project.tail.value_or(project::usual_tail);
    report::LastingOf<units::Length> of{"row", "rows", work, false, false, {}};
    if (values.given("to-come"))
        read_to_come(values, world, work, yarn, of.one, of.finish, units::parse_length);
    of.many = plural(of.one);
    *world.err << "note: a row of " << base::shown_inert(stitch) << " takes about "
               << fmt::format("{:.3g}", per_width->centre.value())
               << " times its width, by other people's makes; to be surer, rip back a row and "
                  "measure it\n";
    return answer(values, world, work, yarn, of);
}

/// "12 g over 24 rows": what was taken, and by what.
struct Taken {
    std::string amount;
    std::optional<Count> work;
};

Taken taken_in(const std::string& given) {
    // "33 g before, 20 g after over 24 rows" as "33 g to 20 g over 24 rows"
    static const std::regex before_after(
        R"(^(\d[^,;]*?)\s+before\s*(?:,|;|and|to)*\s*(\d.*?)\s+after(?:wards)?\b,?)",
        std::regex::icase);
    static const std::regex over(
        R"(^(.+?)\s+(?:over|in(?!\s+(?:over|for)\b)|for|by|with)\s+(.+)$)");
    // "24 rows took 12 g"
    static const std::regex took(
        R"(^(\d+\s*[A-Za-z]+)\s*(?:\btook\b|\btakes?\b|\bused\b|\bneed(?:ed)?\b|=|:)\s*(\d.*)$)",
        std::regex::icase);
    const std::string taken =
        std::regex_replace(exchange::plain_signs(given), before_after, "$1 to $2");
    Taken out{taken, std::nullopt};
    std::smatch found;
    const bool rows_first = std::regex_match(taken, found, took);
    if (!rows_first && !std::regex_match(taken, found, over)) return out;
    out.amount = found[rows_first ? 2 : 1];
    const std::string work_text = found[rows_first ? 1 : 2];
    out.work = work_of(work_text);
    if (!out.work || out.work->word == "%")
        refuse_option("taken", base::quoted(work_text) + " counts no work", "\"12 g over 24 rows\"",
                      "");
    return out;
}

/// "22 wraps of 13 in", "7.94 yd".
std::optional<units::Length> length_in(const std::string& text) {
    static const std::regex wraps(
        R"(^(\d{1,5})\s*(?:wraps?|strands?|lengths?|turns?|x)\s*(?:of)?\s*(\d.*)$)",
        std::regex::icase);
    std::smatch found;
    if (text.size() > 60 || units::parse_mass(text)) return std::nullopt;
    if (std::regex_match(text, found, wraps)) {
        const auto count = units::parse_whole(found[1].str());
        const auto each = units::parse_length(found[2].str());
        if (count && each) return static_cast<double>(*count) * *each;
    }
    const auto length = units::parse_length(text);
    return length ? std::optional(*length) : std::nullopt;
}

/// What is done and still to come, where --taken says both or --done does.
template <class Q>
void read_work(const Values& values, const World& world, const Taken& taken, joins::WorkLeft& work,
               joins::YarnLeft<Q>& yarn, report::LastingOf<Q>& of,
               base::Result<Q> (*parse)(std::string_view)) {
    if (const auto share = values.one("done")) {
        if (values.given("to-come") || taken.work)
            refuse_option("done", "the work is given twice", "--done or rows, not both", "");
        const units::Ratio part = share_done(*share);
        if (part.value() <= 0.0 || part.value() >= 1.0)
            refuse_option("done", base::quoted(*share) + " cannot be the part that is done",
                          "more than 0 % and less than 100 %", "");
        // Read to whole per cents by eye: half a step of 5 either way.
        constexpr double off = 0.0144;
        work.done = part;
        work.to_come = units::Ratio(1.0 - part.value());
        work.spread = units::Ratio(off / (part.value() * part.value()));
        work.rows = work.whole = false;
        return;
    }
    // "135 %" is of what was taken, whatever that was.
    static const std::regex shares(R"(^\s*\d[\d.,]*\s*%\s*$)");
    const auto to_come = values.all("to-come");
    const bool by_share = to_come.size() == 1 && std::regex_match(to_come.front(), shares);
    if (!taken.work && !by_share)
        refuse_option("taken",
                      base::quoted(*values.one("taken")) + " does not say for how much work",
                      "\"12 g over 24 rows\"", "Or say how much is done: --done \"77 %\".");
    if (!taken.work) {
        work.done = units::Ratio(1.0);
        work.rows = work.whole = false;
        of.part = true;
        read_to_come(values, world, work, yarn, of.one, of.finish, parse);
        return;
    }
    work.done = taken.work->count;
    of.one = taken.work->word;
    of.how_many = to_come.empty() && !of.have_unknown;
    if (!of.how_many) read_to_come(values, world, work, yarn, of.one, of.finish, parse);
    of.many = plural(of.one);
    work.rows = true;
    work.whole = !is_height(of.one) && !is_area(of.one);
}

int by_length(const Values& values, const World& world, const Taken& taken, units::Length length) {
    if (!(length > units::Length{}))
        refuse_option("taken", "nothing was taken", "a length such as \"286 in\"", "");
    for (const char* option : {"mass", "more", "tare"})
        if (values.given(option))
            refuse_option(option, "what was taken is a length", "the strand that is left",
                          "Weigh before and after some rows: \"62 g to 50 g over 24 rows\".");
    joins::YarnLeft<units::Length> yarn;
    // A tape along soft yarn: about one in a hundred.
    constexpr double tape = 0.01;
    yarn.used = {length, tape * length};
    report::LastingOf<units::Length> of;
    of.have_unknown = !values.given("strand");
    if (const auto strand = values.one("strand")) {
        const units::Length left =
            read_option("strand", exchange::plain_signs(*strand), units::parse_length);
        yarn.have = {left, tape * left};
        yarn.tail = values.settings().project.tail.value_or(project::usual_tail);
    }
    joins::WorkLeft work;
    read_work(values, world, taken, work, yarn, of, units::parse_length);
    return answer(values, world, work, yarn, of);
}

/// The balls still to come.
void read_more(const Values& values, joins::YarnLeft<units::Mass>& yarn) {
    for (const std::string& text : values.all("more")) {
        const CountedOption more = read_counted("more", text);
        if (more.each.empty() || !units::parse_mass(more.each))
            refuse_option("more", base::quoted(text) + " does not say what each of them holds",
                          "\"2 balls of 50 g\"", "");
        const units::Mass one = mass_in("more", more.each);
        for (std::int64_t i = 0; i < more.count; ++i)
            yarn.more.push_back({one, yarn::label_mass_spread(one)});
    }
}

/// What the scale shows now.
void read_have(const Values& values, const World& world, const std::string& now,
               joins::YarnLeft<units::Mass>& yarn) {
    const units::Mass now_step = step_of(values, "mass", now);
    note_coarse_step(now, now_step, *world.err);
    yarn.have.centre = mass_in("mass", now);
    if (const auto tare = values.one("tare")) yarn.have.centre -= mass_in("tare", *tare);
    if (!(yarn.have.centre > units::Mass{}))
        refuse_option("tare", "the scale shows no more than the tare", "less than --mass",
                      "Say in --mass what the scale shows with the tare on it.");
    yarn.have.spread = now_step / 3.4641016151377544;
    yarn.have_off = 0.5 * now_step;
    yarn.ends = ends_of_a_ball;
}

int by_mass(const Values& values, const World& world, const Taken& taken) {
    joins::YarnLeft<units::Mass> yarn;
    // What was taken is a difference of two readings, unless two masses say so themselves.
    static const std::regex two(R"(^(.+?)\s*(?:\bto\b|->)\s*(.+)$)");
    std::string shown = taken.amount;
    std::smatch found;
    if (std::regex_match(taken.amount, found, two)) {
        const std::string before = found[1];
        shown = found[2];
        yarn.used.centre = mass_in("taken", before) - mass_in("taken", shown);
    } else {
        yarn.used.centre = mass_in("taken", taken.amount);
    }
    const units::Mass step = step_of(values, "taken", shown);
    yarn.used.spread = step / 2.449489742783178;
    yarn.used_off = step;
    if (!(yarn.used.centre > units::Mass{}))
        refuse_option("taken", "nothing was taken", "more before than after", "");
    report::LastingOf<units::Mass> of;
    const auto now = values.one("mass");
    of.have_unknown = !now;
    if (!now && (values.given("more") || values.given("tare") ||
                 (!values.given("to-come") && !values.given("done"))))
        refuse_option("mass", "what is left is missing", "what the scale shows, such as \"20 g\"",
                      "");
    if (now) read_have(values, world, *now, yarn);
    read_more(values, yarn);
    of.ounces =
        units::parse_mass("1" + shown.substr(shown.find_last_of("0123456789") + 1)).value() >
        20.0 * units::gram;
    joins::WorkLeft work;
    read_work(values, world, taken, work, yarn, of, units::parse_mass);
    return answer(values, world, work, yarn, of);
}

}  // namespace

void take_lasting(Command& command) {
    command.options.insert(
        command.options.end(),
        {{"taken", "TEXT", "without a project: what went into the work, \"12 g over 24 rows\"",
          false},
         {"to-come", "TEXT",
          "without a project: what is still to be worked, \"13 rows\", \"13 rows and a bind-off\"",
          true},
         {"done", "PERCENT", "without a project: how much is done, beside --taken \"2.3 oz\"",
          false},
         {"strand", "LENGTH", "without a scale: the strand that is left", false},
         {"row-width", "LENGTH", "with --strand: how wide a row is", false}});
}

bool asks_lasting(const Values& values) {
    const bool asks = values.given("taken") || values.given("strand");
    if (!asks && (values.given("done") || values.given("row-width")))
        refuse_option(values.given("done") ? "done" : "row-width", "what was used is missing",
                      values.given("done") ? "--taken \"2.3 oz\"" : "--strand \"70 in\"", "");
    if (!asks && values.given("to-come"))
        refuse_option("to-come", "what was used is missing", "--taken \"12 g over 24 rows\"",
                      "A project says itself what is still to be worked.");
    if (asks && (values.given(positional) || is_asked(values)))
        refuse_option(values.given("taken") ? "taken" : "strand", "a project is given too",
                      "one of them", "With a project say --row and --mass.");
    return asks;
}

namespace {

/// What changes nothing is not passed over: she may have meant it to.
void refuse_without_use(const Values& values) {
    const bool by_strand = values.given("strand") && !values.given("taken");
    std::vector<std::string> idle{"row", "piece", "reading", "skein", "yarn", "size"};
    for (const project::MakeQuestion& question : project::make_questions())
        if (!by_strand || question.id != "stitch") idle.emplace_back(question.id);
    idle.emplace_back(by_strand ? "done" : "row-width");
    if (by_strand) idle.insert(idle.end(), {"mass", "more", "scale", "tare"});
    for (const std::string& option : idle)
        if (values.given(option))
            refuse_option(option, "it would change nothing in this answer",
                          "none of it beside --" + std::string(by_strand ? "strand" : "taken"),
                          "For a project, use --row and --mass.");
}

}  // namespace

int run_lasting(const Values& values, const World& world) {
    refuse_without_use(values);
    if (!values.given("taken")) return by_strand(values, world);
    const Taken taken = taken_in(*values.one("taken"));
    if (const auto length = length_in(taken.amount))
        return by_length(values, world, taken, *length);
    if (values.given("strand"))
        refuse_option("strand", "what was taken is weighed", "what is left by the scale: --mass",
                      "");
    return by_mass(values, world, taken);
}

}  // namespace skeinfall::cli
