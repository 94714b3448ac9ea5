#include <algorithm>
#include <cstdint>
#include <filesystem>
#include <ostream>

#include <fmt/format.h>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/make_words.hpp"
#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/exchange/text_file.hpp"
#include "skeinfall/fit/fit.hpp"
#include "skeinfall/fit/for_whom.hpp"
#include "skeinfall/fit/met_gauge.hpp"
#include "skeinfall/fit/same_make.hpp"
#include "skeinfall/materials/section.hpp"
#include "skeinfall/need/unknown_stitches.hpp"
#include "skeinfall/need/worst.hpp"
#include "skeinfall/plan/make_plan.hpp"
#include "skeinfall/report/fit.hpp"
#include "skeinfall/report/materials.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/units/parse.hpp"

#include "commands.hpp"
#include "exit_code.hpp"
#include "make_options.hpp"
#include "output_file.hpp"
#include "planning.hpp"
#include "saved_project.hpp"
#include "stash_options.hpp"

namespace skeinfall::cli {
namespace {

std::size_t piece_named(const Values& values, const project::Project& project, std::size_t size) {
    if (project.pieces.empty())
        throw base::InputError(base::Problem{"the project has no piece that could be fitted",
                                             {project.file, 0, 0},
                                             "a [[piece]] with rows and stitches",
                                             ""});
    const auto name = values.one("piece");
    if (!name) return fit::largest_piece(project, size);
    std::vector<std::string> names;
    for (std::size_t at = 0; at < project.pieces.size(); ++at) {
        if (base::same_word(project.pieces[at].name, *name)) return at;
        names.push_back(project.pieces[at].name);
    }
    const auto near = base::nearest_name(*name, names);
    refuse_option("piece", "the project has no piece " + base::quoted(*name),
                  base::join(names, ", "), base::did_you_mean(near));
}

void at_most_one(const Values& values, const std::vector<std::string>& options) {
    std::string first;
    for (const std::string& option : options) {
        if (!values.given(option)) continue;
        if (!first.empty())
            refuse_option(option, "--" + first + " is given too, and says the same thing",
                          "one of --" + base::join(options, ", --"), "");
        first = option;
    }
}

fit::Wish fit_wish_of(const Values& values) {
    at_most_one(values, {"width", "stitches", "repeats"});
    at_most_one(values, {"length", "rows"});
    fit::Wish wish;
    const auto length = [&](const char* option) -> std::optional<units::Length> {
        const auto text = values.one(option);
        if (!text) return std::nullopt;
        const auto side = units::parse_length(*text);
        if (side) return *side;
        base::Problem problem = side.problem();
        problem.place.file = std::string("--") + option;
        // What a side measures is no yardage.
        if (problem.remedy.find(" yd") != std::string::npos)
            problem.remedy = "Write it like \"7 in\" or \"18 cm\".";
        throw base::InputError(std::move(problem));
    };
    const auto whole = [&](const char* option) -> std::optional<std::int64_t> {
        const auto text = values.one(option);
        if (!text) return std::nullopt;
        return read_option(option, *text, units::parse_whole);
    };
    wish.width = length("width");
    wish.length = length("length");
    wish.stitches = whole("stitches");
    wish.repeats = whole("repeats");
    wish.rows = whole("rows");
    return wish;
}

/// The same as fit::fit_piece(); what cannot be wished for is told of the option that wishes it.
fit::Fitted fitted_as(const Values& values, const project::Project& project, std::size_t piece,
                      std::size_t size, const fit::Wish& wish, fit::Take take) {
    try {
        return fit::fit_piece(project, piece, size, wish, take);
    } catch (const fit::WishError& error) {
        base::Problem problem = error.problems().front();
        const std::vector<const char*> options =
            error.across() ? std::vector<const char*>{"width", "stitches", "repeats", "for"}
                           : std::vector<const char*>{"length", "rows", "width", "for"};
        for (const char* option : options) {
            if (!values.given(option)) continue;
            problem.what = base::quoted(*values.one(option)) + ": " + problem.what;
            problem.place.file = std::string("--") + option;
            break;
        }
        throw base::InputError(std::move(problem));
    }
}

fit::Take take_of(const Values& values) {
    const std::string word = values.one("take").value_or("nearest");
    if (word == "nearest") return fit::Take::nearest;
    if (word == "below") return fit::Take::below;
    if (word == "above") return fit::Take::above;
    refuse_option("take", base::quoted(word) + " is not one of the choices",
                  "nearest, below, above", "");
}

/// The counts on the other side of each wish.
std::vector<report::OtherFit> others_of(const project::Project& project, const fit::Wish& wish,
                                        const fit::Fitted& fitted) {
    std::vector<report::OtherFit> out;
    const auto add = [&](const fit::Along& along, bool across) {
        if (!along.wished || along.exact() || !along.below) return;
        const std::int64_t other = along.taken == along.above ? *along.below : along.above;
        fit::Wish changed = wish;
        if (across) {
            changed.width = std::nullopt;
            changed.repeats = std::nullopt;
            changed.stitches = other;
        } else {
            if (!fitted.stitches.wished) changed.width = std::nullopt;
            changed.length = std::nullopt;
            changed.rows = other;
        }
        report::OtherFit one;
        one.across = across;
        try {
            one.fitted = fit::fit_piece(project, fitted.piece, fitted.size, changed);
        } catch (const base::InputError&) {
            return;  // the other side does not work
        }
        one.need = need::need_to_plan(one.fitted.project, fitted.size);
        out.push_back(std::move(one));
    };
    add(fitted.stitches, true);
    add(fitted.rows, false);
    return out;
}

/// A piece that meets the fitted one has to become another, and is worked already.
void refuse_followed(const fit::Fitted& fitted, const need::Worked& worked) {
    for (const fit::Followed& one : fitted.followed) {
        const bool begun = worked.piece > one.piece || worked.copy > 1 ||
                           (worked.piece == one.piece && worked.row > 0);
        const bool goes_on = worked.piece == one.piece && worked.copy == 1 &&
                             one.now.stitches == one.was.stitches && one.now.rows >= worked.row;
        if (!begun || goes_on) continue;
        const project::Piece& piece = fitted.project.pieces[one.piece];
        refuse_option(
            "width",
            base::quoted(piece.name) + " would have to change with it, and is worked already",
            fmt::format("{} stitches, as it is", fitted.stitches.now),
            "Unravel and undo the readings, or keep what is done.");
    }
}

/// What is worked already cannot become wider, nor a copy that is done longer.
void refuse_worked(const Values& values, const fit::Fitted& fitted,
                   const std::vector<need::Worked>& done) {
    const bool across =
        fitted.stitches.taken != fitted.stitches.now || fitted.change.width.stated();
    const bool along = fitted.rows.taken != fitted.rows.now || fitted.change.length.stated();
    for (const need::Worked& worked : done) {
        refuse_followed(fitted, worked);
        const bool finished = worked.piece > fitted.piece || worked.copy > 1;
        const bool begun = finished || (worked.piece == fitted.piece && worked.row > 0);
        const bool too_short = worked.piece == fitted.piece && fitted.rows.taken < worked.row;
        const bool wide = across && begun;
        if (!wide && !(along && (finished || too_short))) continue;
        const auto options = wide ? std::vector<const char*>{"width", "stitches", "repeats", "for"}
                                  : std::vector<const char*>{"length", "rows", "for", "width"};
        const auto* const given =
            std::find_if(options.data(), options.data() + options.size(),
                         [&](const char* option) { return values.given(option); });
        const std::string row(project::row_word(fitted.project.pieces[worked.piece].worked));
        refuse_option(
            given == options.data() + options.size() ? "width" : *given,
            fmt::format("{} {} of {} is worked already, so {} is settled", row, worked.row,
                        base::quoted(fitted.project.pieces[worked.piece].name),
                        wide ? "its width" : "that length"),
            wide       ? fmt::format("{} stitches, as it is", fitted.stitches.now)
            : finished ? "what is not worked yet"
                       : fmt::format("a length of {} {}s or more", worked.row, row),
            "Unravel and undo the readings, or keep what is done.");
    }
}

void add_skeins(const Values& values, const World& world, report::FitAnswer& answer) {
    const project::Project& project = answer.fitted.project;
    answer.rules = rules_for(values, project, world);
    std::error_code error;
    if (!values.given("stash") && !values.given("have") &&
        !std::filesystem::exists(stash_path(values, world), error))
        return;
    Read read{project, answer.fitted.size, {}, answer.rules};
    read.need = cover::need_for(need::with_plain_stitches(project), read.size, {});
    const std::vector<stash::Skein> stash = stash_for(values, world, {&read});
    refuse_worked(values, answer.fitted, read.rules.done);
    answer.rules = read.rules;
    answer.cover = cover::cover_make(project, read.need, stash, read.rules);
    if (answer.cover->verdict != cover::Verdict::covered) return;
    joins::Request request;
    request.size = read.size;
    request.confidence = read.rules.confidence;
    const joins::BallsOfRoles balls = plan::balls_of(*answer.cover, request);
    answer.joins = joins::answer_joins(project, read.need, balls, request);
}

void save(const std::string& file, const Told& told, const fit::Fitted& fitted,
          const Values& values, const World& world) {
    if (!told.project.testers.empty())
        refuse_option(
            "save", "the testers' returns are of the piece as they worked it",
            "a project without [[tester]]",
            "Keep the returns with the project as it stands, and fit a copy without them.");
    if (told.project.grid && !fitted.same())
        refuse_option("save",
                      "the size " + told.project.sizes[fitted.size] +
                          " would no longer be what its name says",
                      "a project without \"widths\" and \"lengths\"",
                      "Add the width or the length to those of the file instead. Nothing was "
                      "written.");
    const fit::Change& change = fitted.change;
    const auto count = fitted.motifs ? fitted.project.pieces[change.piece].count
                                     : project::PerSize<std::int64_t>{};
    const auto edit = [](const fit::Change& of) {
        exchange::PieceEdit out;
        out.piece = of.piece;
        out.stitches = of.stitches;
        out.rows = of.rows;
        out.last_stitches = of.last_stitches;
        out.written = of.written;
        out.width = of.width;
        out.length = of.length;
        out.width_of_row_one = of.width_of_row_one;
        out.blocks_wide = of.blocks_wide;
        out.blocks_high = of.blocks_high;
        return out;
    };
    std::vector<exchange::PieceEdit> edits{edit(change)};
    edits.front().count = count;
    for (const fit::Followed& one : fitted.followed) edits.push_back(edit(one.change));
    std::string text = saved_project(told, fitted.project, fitted.size, edits, file);
    // Made for somebody else it is another make: what was weighed of the first is not of it.
    if (const auto whom = values.one("for"); whom && !told.project.title.empty())
        text = exchange::retitled_project(text, told.project.title + ", " + *whom);
    const project::Project read = exchange::parse_project(text, file);
    for (std::size_t other = 0; other < told.project.size_count(); ++other)
        if (other != fitted.size && !fit::same_make(told.project, read, other))
            refuse_option("save", "the size " + told.project.sizes[other] + " would change with it",
                          "a project of the one size alone, or a size told by stitches and rows",
                          "Copy the file, keep one of its sizes, and fit that. Nothing was "
                          "written.");
    write_output("save", file, text, values, world);
    if (!base::same_word(read.title, told.project.title)) return;
    const auto path = stash_path(values, world);
    std::error_code none;
    if (!std::filesystem::exists(path, none)) return;
    const auto kept = stash_to_read(values, world).readings();
    if (std::any_of(kept.begin(), kept.end(), [&](const stash::WorkReading& one) {
            return base::same_word(one.project, told.project.title);
        }))
        *world.err << "note: both files are called " << base::quoted(told.project.title)
                   << ", so the weighings kept for one count for the other: give the new one a "
                      "title of its own\n";
}

/// "hat: 46 cm x 18 cm" of --for and --as, where the tables know both ways.
std::optional<std::string> piece_meant(const Values& values) {
    if (!values.given("for") || !values.given("as")) return std::nullopt;
    const auto wanted = fit::size_for(*values.one("as"), *values.one("for"), std::nullopt);
    if (!wanted || !wanted->across || !wanted->along) return std::nullopt;
    const auto text = [](units::Length length) {
        return units::text(length, units::shown::centimetres, units::Step::tenth,
                           units::Rounding::nearest);
    };
    return "1 " + *values.one("as") + ", one layer: " + text(wanted->across->middle()) + " x " +
           text(wanted->along->middle());
}

/// A file, or what options say in place of one. Beside a file --gauge and --for are about the fit.
Told one_told_of(const Values& values, const World& world) {
    if (const auto file = values.one(positional)) {
        refuse_beside_file(values, {"gauge", "for", "save"});
        return told_by_file(*file, values);
    }
    project::MakeAnswers answers = answers_of(values);
    answers.forget("for");
    const auto width = values.one("width");
    const auto length = values.one("length");
    // Who says how large it should be says what it is.
    if (!answers.has("make") && width && length) answers.add("make", *width + " x " + *length);
    if (const auto meant = piece_meant(values); !answers.has("make") && meant)
        answers.add("make", *meant);
    if (!answers.has("make"))
        throw base::InputError(base::Problem{
            "what are you making? No project file or piece is named",
            {},
            "a TOML file, or --make",
            "Name one, such as scarf.toml, or say it: --make \"33 hdc x 96 rows\" --gauge \"14 sts "
            "and 10 rows per 10 cm\"."});
    return told_by_answers(answers, values, world);
}

/// The gauge as it was met: --met, which a file also takes as --gauge.
std::optional<std::string> met_option(const Values& values) {
    if (values.given("met")) return "met";
    if (values.given(positional) && values.given("gauge")) return "gauge";
    return std::nullopt;
}

/// "4.5 sts per in", "18 sts and 20 rows per 4 in", or the measures of rows of the piece itself.
int answer_gauge(const Values& values, const World& world, const project::Project& project,
                 const std::string& format) {
    const std::string option = met_option(values).value_or("measured");
    if (values.given("save"))
        refuse_option("save",
                      "--" + option + " only says what becomes of the make, and changes no count",
                      "--save beside --width, --length, --stitches, --repeats or --rows",
                      "Ask first, then save the stitches and rows that the answer gives; or write "
                      "your gauge into the project as [maker_gauge].");
    for (const char* other : {"width", "length", "stitches", "repeats", "rows", "for"})
        if (values.given(other))
            refuse_option(other, "it asks for another size, and the gauge is asked about",
                          "it without --" + option, "Ask one after the other.");
    if (values.given(positional))
        at_most_one(values, {"met", "gauge", "measured"});
    else
        at_most_one(values, {"met", "measured"});
    const std::size_t size = size_of(values, project);
    const std::size_t piece = piece_named(values, project, size);
    report::GaugeAnswer answer;
    project::Gauge met = project::gauge_of(project, project.pieces[piece]);
    if (const auto text = values.one("measured")) {
        const exchange::MeasuredRows rows =
            read_option("measured", *text, exchange::parse_measured_rows);
        met = fit::gauge_of_rows(project, piece, size, rows.rows, {rows.width, rows.length});
        answer.from_rows = true;
    } else {
        const std::string said = *values.one(option);
        if (const auto stitches = units::parse_stitch_gauge(said)) {
            met.stitches = *stitches;
            answer.rows_taken = true;
        } else {
            const auto parsed = exchange::parse_gauge(said);
            if (!parsed)
                refuse_option(option, base::quoted(said) + " is not understood as a gauge",
                              "\"4.5 sts per in\" or \"18 sts and 20 rows per 4 in\"",
                              parsed.problem().remedy);
            const exchange::WrittenGauge& written = *parsed;
            met.stitches = read_option(option, written.stitches, units::parse_stitch_gauge);
            answer.rows_taken = written.rows.empty();
            if (!answer.rows_taken)
                met.rows = read_option(option, written.rows, units::parse_row_gauge);
        }
    }
    answer.met = fit::meet_gauge(project, piece, size, met);
    answer.need = need::need_to_plan(answer.met.as_written, size);
    if (answer.met.instead)
        answer.instead_need = need::need_to_plan(answer.met.instead->project, size);
    *world.out << (format == "json" ? report::gauge_answer_json(answer)
                                    : report::gauge_answer_text(answer));
    return done;
}

/// The size of somebody's, from the tables: a size of the project, else a width and length.
struct Meant {
    std::string text;
    std::string cautions;
    std::optional<std::size_t> size;
    fit::Wish wish;
    bool by_length = false;   ///< a strip that goes round by its length
    bool foot_alone = false;  ///< of a sock, whose leg no table tells
    std::optional<fit::SizeFor> wanted;
};
Meant meant_for(const Values& values, const project::Project& project, std::size_t piece) {
    const std::string who = *values.one("for");
    std::optional<fit::Ease> ease;
    if (const auto text = values.one("ease")) ease = read_option("ease", *text, fit::parse_ease);
    if (fit::is_part_beside(project, piece))
        refuse_option("for",
                      "the tables measure whole makes, and " +
                          base::quoted(project.pieces[piece].name) + " is a part of one",
                      "--width and --length for such a part",
                      "Measure one that fits, or take the body with --piece.");
    const auto make = values.given("as") ? values.one("as") : fit::make_of(project);
    if (!make)
        refuse_option("for", "the project does not say what kind of thing it is",
                      "--as and one of " + base::join(fit::known_makes(), ", "),
                      "Add it, such as --as hat.");
    auto wanted = fit::size_for(*make, who, ease);
    if (!wanted) {
        base::Problem problem = wanted.problem();
        problem.place.file = problem.what.starts_with("no table says") ? "--as" : "--for";
        throw base::InputError(std::move(problem));
    }
    Meant out;
    out.text = report::size_for_text(*wanted, who);
    out.text += report::other_way_text(project, piece, *wanted,
                                       values.given("length") || values.given("rows"));
    project::Project for_them = project;
    for_them.made_for = wanted->recipient;
    if (wanted->recipient != project::Recipient::adult)
        for (const materials::CautionLine& caution : materials::cautions_for(for_them))
            out.cautions += "  " + report::caution_text(caution) + "\n";
    if (project.size_count() > 1) {
        const fit::SizeMatch match = fit::nearest_size(project, piece, *wanted);
        out.size = match.size;
        out.text += report::size_match_text(project, piece, match, *wanted);
    } else {
        out.wish = fit::wish_for(project, piece, *wanted);
        out.foot_alone = fit::has_more_than_foot(project, piece, *wanted);
        out.by_length = fit::goes_round_by_length(project, piece, 0, *wanted);
        out.wanted = *wanted;
    }
    return out;
}

int run_fit(const Values& values, const World& world) {
    const std::string format = format_of(values, {"text", "json"});
    const Told told = one_told_of(values, world);
    project::Project project = told.project;
    if (met_option(values) || values.given("measured"))
        return answer_gauge(values, world, project, format);
    for (const char* option : {"as", "ease"})
        if (values.given(option) && !values.given("for"))
            refuse_option(option, "it goes with --for", "--for as well",
                          "Such as --for \"child 6 to 8 years\".");
    std::size_t size = size_of(values, project);
    fit::Wish wish = fit_wish_of(values);
    const fit::Take take = take_of(values);
    report::FitAnswer answer;
    Meant meant;
    if (values.given("for")) {
        for (const char* option : {"width", "stitches", "repeats", "size"})
            if (values.given(option))
                refuse_option(option, "--for chooses the size", "one of the two", "");
        meant = meant_for(values, project, piece_named(values, project, size));
        for (const char* option : {"length", "rows"})
            if (values.given(option) && meant.by_length)
                refuse_option(option, "--for chooses it: the strip goes round by its length",
                              "one of the two", "");
        answer.meant_for = meant.text;
        if (meant.size) size = *meant.size;
        if (meant.foot_alone && meant.wish.length && !wish.length && !wish.rows)
            refuse_option("for",
                          "the table tells the foot of a sock alone, " +
                              units::inches_and_centimetres(*meant.wish.length) +
                              ", and its leg comes on top",
                          "--length for leg and foot together, or --rows",
                          "A piece called \"foot\" is made as long as the table says.");
        if (!wish.length && !wish.rows) wish.length = meant.wish.length;
        wish.width = meant.wish.width;
    }
    answer.fitted =
        fitted_as(values, project, piece_named(values, project, size), size, wish, take);
    // Who says how long it shall be does not ask the table.
    if (meant.wanted && (values.given("length") || values.given("rows")))
        meant.wanted->along.reset();
    if (meant.wanted) *answer.meant_for += report::outside_text(answer.fitted, *meant.wanted);
    answer.was = need::need_to_plan(project, size);
    answer.need = need::need_to_plan(answer.fitted.project, size);
    // What was found in written rows need not be found again.
    project.pieces[answer.fitted.piece].multiple =
        answer.fitted.project.pieces[answer.fitted.piece].multiple;
    answer.others = others_of(project, wish, answer.fitted);
    answer.each = fit::each_more(answer.fitted.project, answer.fitted.piece, size);
    add_skeins(values, world, answer);
    if (const auto file = values.one("save")) save(*file, told, answer.fitted, values, world);
    *world.out << (format == "json" ? report::fit_json(answer) : report::fit_text(answer));
    if (!meant.cautions.empty())
        (format == "json" ? *world.err : *world.out) << "\nCautions\n" << meant.cautions;
    return done;
}

}  // namespace

Command fit_command() {
    Command command;
    command.name = "fit";
    command.grams_serve = true;
    command.arguments = "PROJECT.toml";
    command.no.clear();
    command.summary = "a piece in another width and length, in whole repeats";
    command.purpose =
        "How do I make it wider, longer, or for somebody else? Finds the whole repeats\n"
        "of stitches and rows nearest to a width and a length, how many chains to begin\n"
        "with, and what yarn that takes. Where the stash has yarn for it, it says which\n"
        "skeins and where they are joined. Without a width or length it says what the\n"
        "piece is now, and what each repeat more takes. With --for the size comes from\n"
        "published tables. With --met it answers what becomes of the make at the gauge\n"
        "you get.";
    command.options = {
        {"width", "LENGTH",
         "how wide the piece shall be, without a border; of one worked from its centre the "
         "distance "
         "across, of joined motifs all of them",
         false},
        {"length", "LENGTH", "how long it shall be, without a border", false},
        {"stitches", "NUMBER", "this number of stitches in row 1, instead of a width", false},
        {"repeats", "NUMBER", "this number of repeats of its stitches, instead of a width", false},
        {"rows", "NUMBER", "this number of rows, instead of a length", false},
        {"for", "WHO",
         "whose size it should be, from published tables: \"child 6 to 8 years\", \"woman M\", "
         "\"toddler\", \"crib\"",
         false},
        {"as", "WHAT",
         "what it is, where title and pieces do not say it: such as hat, sweater or sock", false},
        {"ease", "HOW",
         "with --for: very close, close, standard, loose, oversized, \"2 in\" or \"-10 %\"", false},
        {"met", "TEXT",
         "you get this gauge instead: \"4.5 sts per in\", \"18 sts and 20 rows per 4 in\"", false},
        {"gauge", "TEXT",
         "without a file: the gauge it is made in, \"14 sts and 10 rows per 10 cm\"; beside one "
         "the same as --met",
         false},
        {"measured", "TEXT",
         "what the first rows of the piece itself measure: \"12 rows: 6.5 x 4.25 in\"", false},
        {"piece", "NAME", "the piece to fit; else the one with the most stitches", false},
        {"take",
         "WHICH",
         "which whole repeat to take: nearest (default), below or above",
         false,
         {"nearest", "below", "above"}},
        replace_option(),
        {"save", "FILE.toml", "save the project in this size; everything else in it stays", false},
        margin_option(),
        confidence_option(),
        size_option(),
        stash_option(),
        format_option("text (default) or json")};
    take_pieces(command);
    command.examples = {
        {"skeinfall fit sample_stash/projects/long-ferry-wrap.toml --width \"7 in\" --length \"50 "
         "in\"",
         "the wrap narrower and shorter"},
        {"skeinfall fit sample_stash/projects/lantern-cowl.toml --length \"12 in\"",
         "the cowl 12 in high"},
        {"skeinfall fit sample_stash/projects/quayside-hat.toml --for \"child 6 to 8 years\"",
         "the hat for a child"},
        {"skeinfall fit sample_stash/projects/long-ferry-wrap.toml --met \"4.5 sts per in\"",
         "when the gauge comes out tighter"},
        {"skeinfall fit --make \"33 hdc x 96 rows\" --gauge \"14 sts and 10 rows per 10 cm\" "
         "--class 4 --multiple \"3 + 1\" --width \"7 in\" --length \"50 in\"",
         "a scarf without any file, in whole repeats"}};
    command.run = run_fit;
    command.tells_rows = true;
    return command;
}

}  // namespace skeinfall::cli
