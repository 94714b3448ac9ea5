#include "lasting.hpp"

#include <array>
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
#include "skeinfall/need/strand.hpp"
#include "skeinfall/project/make_questions.hpp"
#include "skeinfall/report/lasting.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/units/parse.hpp"
#include "skeinfall/yarn/yarn.hpp"

#include "exit_code.hpp"
#include "odd_figures.hpp"
#include "options.hpp"
#include "share_option.hpp"

namespace skeinfall::cli {
namespace {

constexpr std::int64_t most_units = 1'000'000;

/// Two ends of 15 cm at 1 m/g, a bulky yarn: what it weighs is not known here (a judgement).
constexpr units::Mass ends_of_a_ball = 0.3 * units::gram;

/// "24 rows", "1.35 repeats", "135 %".
struct Count {
    units::Ratio count{};
    std::string word;  ///< "row"; "%" for a share of what was taken
};

std::string singular(std::string word) {
    word = base::lower(word);
    if (word == "rnds" || word == "rnd" || word == "rounds") return "round";
    if (word == "sts" || word == "st" || word == "stitches") return "stitch";
    if (word.size() > 2 && word.ends_with("s")) word.pop_back();
    return word;
}

/// Work that goes by its height.
bool is_height(const std::string& word) {
    return word == "cm" || word == "in";
}

std::string plural(const std::string& word) {
    if (is_height(word)) return word;
    return word + (word.ends_with("ch") ? "es" : "s");
}

std::optional<Count> count_of(const std::string& text) {
    static const std::regex form(R"(^(\d+(?:[.,]\d+)?)\s*([A-Za-z]+|%)$)");
    // "another 24 rows", "24 more rows", "24 rows to go"
    static const std::regex still(
        R"(^(?:another|some|still|the last|the other)\s+(?=\d)|\b(?:more|further|other)\s+(?=[A-Za-z]+$)|\s+(?:more|left|to go|to come|still to work|remaining)$)",
        std::regex::icase);
    std::smatch found;
    if (text.size() > 60) return std::nullopt;
    const std::string plain = std::regex_replace(std::string(base::trimmed(text)), still, "");
    if (!std::regex_match(plain, found, form)) return std::nullopt;
    if (units::parse_mass(plain) || units::parse_length(plain)) return std::nullopt;
    const std::string number = found[1];
    const auto share = units::parse_percent(number + " %");
    if (!share) return std::nullopt;
    const double value = share->value() * 100.0;
    if (value > static_cast<double>(most_units)) return std::nullopt;
    const std::string word = found[2];
    if (word == "%") return Count{units::Ratio(value / 100.0), "%"};
    return Count{units::Ratio(value), singular(word)};
}

units::Mass mass_in(const std::string& option, const std::string& text) {
    return read_option(option, text, units::parse_mass);
}

units::Mass step_of(const Values& values, const std::string& option, const std::string& text) {
    if (const auto step = values.one("scale")) return mass_in("scale", *step);
    return mass_in(option, exchange::step_of_reading(text));
}

/// "24 cm" of work, where lengths are no yarn: in inches where it is said in inches or feet, and in
/// the unit of what is worked where that is known.
std::optional<Count> height_of(const std::string& text, const std::string& word = {}) {
    const auto length = units::parse_length(std::string(base::trimmed(text)));
    if (!length) return std::nullopt;
    static const std::regex imperial(R"(\d\s*(?:"|in\b|inch|ft\b|feet\b|foot\b|yds?\b|yard))",
                                     std::regex::icase);
    const bool inches = word.empty() ? std::regex_search(text, imperial) : word == "in";
    return Count{units::Ratio(*length / (inches ? units::inch : units::centimetre)),
                 inches ? "in" : "cm"};
}

/// "half", "3/5", "two thirds".
std::optional<units::Ratio> fraction_done(const std::string& text) {
    static const std::regex form(R"(^(\d{1,4})\s*/\s*(\d{1,4})$)");
    static constexpr std::array<std::pair<std::string_view, double>, 9> words{
        {{"half", 1.0 / 2},
         {"a half", 1.0 / 2},
         {"a third", 1.0 / 3},
         {"one third", 1.0 / 3},
         {"two thirds", 2.0 / 3},
         {"a quarter", 1.0 / 4},
         {"one quarter", 1.0 / 4},
         {"three quarters", 3.0 / 4},
         {"half way", 1.0 / 2}}};
    std::string low = base::lower(text);
    if (low.ends_with(" of it")) low.resize(low.size() - 6);
    std::smatch found;
    if (std::regex_match(low, found, form)) {
        const auto above = units::parse_whole(found[1].str());
        const auto below = units::parse_whole(found[2].str());
        if (above && below && *below > 0)
            return units::Ratio(static_cast<double>(*above) / static_cast<double>(*below));
    }
    for (const auto& [word, share] : words)
        if (low == word) return units::Ratio(share);
    return std::nullopt;
}

/// "5 g" of "a border of 5 g" and "5 g for the border".
std::string without_name_of_finish(const std::string& part) {
    static const std::regex before(
        R"(^(?:(?:an?|the)\s+)?(?!(?:twice|double|triple|thrice|both|two|three|four)\b)[A-Za-z][A-Za-z -]*?(?:\s+of|:)?\s+(\d.*)$)",
        std::regex::icase);
    static const std::regex behind(R"(^(\d.*?)\s+for\s+(?:(?:an?|the)\s+)?[A-Za-z][A-Za-z -]*$)",
                                   std::regex::icase);
    constexpr std::size_t longest = 60;
    if (part.size() > longest) return part;
    return std::regex_replace(std::regex_replace(part, before, "$1"), behind, "$1");
}

/// "77 %", or "30 of 50 rows".
units::Ratio share_done(const std::string& text) {
    static const std::regex counted(R"(^(\d+)\s*[A-Za-z]*\s+(?:of|out of|/)\s+(\d+)\s*[A-Za-z]*$)");
    std::smatch found;
    const std::string plain(base::trimmed(text));
    if (plain.size() <= 60 && std::regex_match(plain, found, counted)) {
        const auto worked = units::parse_whole(found[1].str());
        const auto all = units::parse_whole(found[2].str());
        if (worked && all)
            return units::Ratio(static_cast<double>(*worked) / static_cast<double>(*all));
    }
    if (const auto part = fraction_done(plain)) return *part;
    // "0.75" is three quarters or less than one in a hundred.
    if (const auto part = units::parse_percent(plain + " %"); part && *part < units::Ratio(0.01))
        refuse_option(
            "done", base::quoted(plain) + " may be a share or a percentage",
            "a share or a count, such as \"77 %\" or \"30 of 50 rows\"",
            "Write --done \"" +
                units::percent_text(100.0 * *part, units::Step::tenth, units::Rounding::nearest) +
                "\".");
    return share_option("done", text, "a share or a count, such as \"77 %\" or \"30 of 50 rows\"",
                        "77 %");
}

/// What --to-come says: rows, and yarn of the finish.
template <class Q>
void read_to_come(const Values& values, joins::WorkLeft& work, joins::YarnLeft<Q>& yarn,
                  std::string& word, bool& finish, base::Result<Q> (*parse)(std::string_view)) {
    const std::string forms = "\"13 rows\", \"13 rows and 6 g\" or \"135 %\"";
    bool counted = false;
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
            // Where yarn is weighed, a length is that of the work.
            const auto height = is_height(word) ? height_of(part, word) : std::nullopt;
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
    if (!counted && !finish)
        refuse_option("to-come", "what is still to be worked is missing", forms, "");
}

template <class Q>
int answer(const Values& values, const World& world, const joins::WorkLeft& work,
           const joins::YarnLeft<Q>& yarn, report::LastingOf<Q> of) {
    const std::string format = format_of(values, {"text", "json"});
    of.confidence = confidence_of(values);
    of.work = work;
    of.balls = static_cast<std::int64_t>(yarn.more.size());
    const joins::Lasting<Q> got = joins::lasting(work, yarn, of.confidence);
    *world.out << (format == "json" ? report::lasting_json(of, got)
                                    : report::lasting_text(of, got));
    return got.lasts >= of.confidence ? done : not_so;
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
        read_to_come(values, work, yarn, of.one, of.finish, units::parse_length);
    of.many = plural(of.one);
    *world.err << "note: a row of " << base::shown_inert(stitch) << " takes about "
               << fmt::format("{:.3g}", per_width->centre.value())
               << " times its width, by other people's makes; to be surer, rip back a row and "
                  "measure it\n";
    return answer(values, world, work, yarn, of);
}

int by_mass(const Values& values, const World& world) {
    const std::string forms = "\"12 g over 24 rows\"";
    // "33 g before, 20 g after over 24 rows" as "33 g to 20 g over 24 rows"
    static const std::regex before_after(
        R"(^(\d[^,;]*?)\s+before\s*(?:,|;|and|to)*\s*(\d.*?)\s+after(?:wards)?\b,?)",
        std::regex::icase);
    const std::string taken =
        std::regex_replace(exchange::plain_signs(*values.one("taken")), before_after, "$1 to $2");
    std::string mass_text = taken;
    std::string word;
    joins::WorkLeft work;
    static const std::regex over(R"(^(.+?)\s+(?:over|in|for|by|with)\s+(.+)$)");
    // "24 rows took 12 g"
    static const std::regex took(
        R"(^(\d+\s*[A-Za-z]+)\s*(?:\btook\b|\btakes?\b|\bused\b|\bneed(?:ed)?\b|=|:)\s*(\d.*)$)",
        std::regex::icase);
    std::smatch found;
    const bool rows_first = std::regex_match(taken, found, took);
    if (rows_first || std::regex_match(taken, found, over)) {
        mass_text = found[rows_first ? 2 : 1];
        const std::string work_text = found[rows_first ? 1 : 2];
        const auto height = height_of(work_text);
        const auto count = height ? height : count_of(work_text);
        if (units::parse_length(mass_text) && !units::parse_mass(mass_text))
            refuse_option("taken",
                          base::quoted(mass_text) +
                              " is a length, and what is left is "
                              "weighed",
                          forms,
                          "Weigh before and after some rows: \"62 g to 50 g over 24 rows\".");
        if (!count || count->word == "%")
            refuse_option("taken", base::quoted(work_text) + " counts no work", forms, "");
        work.done = count->count;
        word = count->word;
    }
    joins::YarnLeft<units::Mass> yarn;
    // What was taken is a difference of two readings, unless two masses say so themselves.
    static const std::regex two(R"(^(.+?)\s*(?:\bto\b|->)\s*(.+)$)");
    std::string shown = mass_text;
    if (std::regex_match(mass_text, found, two)) {
        const std::string before = found[1];
        shown = found[2];
        yarn.used.centre = mass_in("taken", before) - mass_in("taken", shown);
    } else {
        yarn.used.centre = mass_in("taken", mass_text);
    }
    const units::Mass step = step_of(values, "taken", shown);
    yarn.used.spread = step / 2.449489742783178;
    yarn.used_off = step;
    if (!(yarn.used.centre > units::Mass{}))
        refuse_option("taken", "nothing was taken", "more before than after", "");
    const auto now = values.one("mass");
    if (!now)
        refuse_option("mass", "what is left is missing", "what the scale shows, such as \"20 g\"",
                      "");
    const units::Mass now_step = step_of(values, "mass", *now);
    note_coarse_step(*now, now_step, *world.err);
    yarn.have.centre = mass_in("mass", *now);
    if (const auto tare = values.one("tare")) yarn.have.centre -= mass_in("tare", *tare);
    if (!(yarn.have.centre > units::Mass{}))
        refuse_option("tare", "the scale shows no more than the tare", "less than --mass",
                      "Say in --mass what the scale shows with the tare on it.");
    yarn.have.spread = now_step / 3.4641016151377544;
    for (const std::string& text : values.all("more")) {
        const CountedOption more = read_counted("more", text);
        if (more.each.empty() || !units::parse_mass(more.each))
            refuse_option("more", base::quoted(text) + " does not say what each of them holds",
                          "\"2 balls of 50 g\"", "");
        const units::Mass one = mass_in("more", more.each);
        for (std::int64_t i = 0; i < more.count; ++i)
            yarn.more.push_back({one, yarn::label_mass_spread(one)});
    }
    yarn.have_off = 0.5 * now_step;
    yarn.ends = ends_of_a_ball;
    report::LastingOf<units::Mass> of;
    of.ounces =
        units::parse_mass("1" + shown.substr(shown.find_last_of("0123456789") + 1)).value() >
        20.0 * units::gram;
    if (const auto share = values.one("done")) {
        if (values.given("to-come") || word.size() > 0)
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
        return answer(values, world, work, yarn, of);
    }
    if (word.empty())
        refuse_option("taken", base::quoted(taken) + " does not say for how much work", forms,
                      "Or say how much is done: --done \"77 %\".");
    read_to_come(values, work, yarn, word, of.finish, units::parse_mass);
    of.one = word;
    of.many = plural(word);
    work.rows = true;
    work.whole = !is_height(word);
    return answer(values, world, work, yarn, of);
}

}  // namespace

void take_lasting(Command& command) {
    command.options.insert(
        command.options.end(),
        {{"taken", "TEXT", "without a project: what went into the work, \"12 g over 24 rows\"",
          false},
         {"to-come", "TEXT",
          "without a project: what is still to be worked, \"13 rows\" or \"13 rows and 6 g\"",
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
    const bool by_strand = values.given("strand");
    std::vector<std::string> idle{"row", "piece", "reading", "skein", "yarn", "size"};
    for (const project::MakeQuestion& question : project::make_questions())
        if (!by_strand || question.id != "stitch") idle.emplace_back(question.id);
    if (by_strand) idle.insert(idle.end(), {"mass", "more", "scale", "tare", "done"});
    for (const std::string& option : idle)
        if (values.given(option))
            refuse_option(option, "it would change nothing in this answer",
                          "none of it beside --" + std::string(by_strand ? "strand" : "taken"),
                          "For a project, use --row and --mass.");
}

}  // namespace

int run_lasting(const Values& values, const World& world) {
    if (values.given("taken") && values.given("strand"))
        refuse_option("strand", "--taken is given too", "one of them", "");
    refuse_without_use(values);
    return values.given("strand") ? by_strand(values, world) : by_mass(values, world);
}

}  // namespace skeinfall::cli
