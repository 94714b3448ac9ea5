#include "skeinfall/exchange/make_answers.hpp"

#include <algorithm>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/make_words.hpp"
#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/exchange/yarn_words.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/yarn/label_text.hpp"
#include "skeinfall/yarn/put_up.hpp"
#include "skeinfall/yarn/stated_total.hpp"

namespace skeinfall::exchange {
namespace {

const char* const the_yarn = "MC";

/// Rows are laid out by this where only areas tell the yarn: of the common case, no source.
struct UsualGauge {
    const char* stitches;
    const char* rows;
};
constexpr UsualGauge usual_crochet{"14 per 10 cm", "10 per 10 cm"};
constexpr UsualGauge usual_knit{"20 per 10 cm", "28 per 10 cm"};

/// A basic string of TOML.
std::string in_toml(std::string_view text) {
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\')
            out += std::string("\\") + c;
        else if (static_cast<unsigned char>(c) < 0x20U || c == 0x7f)
            out += fmt::format("\\u{:04X}", static_cast<unsigned>(static_cast<unsigned char>(c)));
        else
            out += c;
    }
    return out + "\"";
}

template <class T>
T taken(base::Result<T> result, const std::string& question) {
    if (result) return *result;
    base::Problem problem = result.problem();
    problem.place = {.file = question, .line = 0, .column = problem.place.column};
    throw base::InputError(std::move(problem));
}

[[noreturn]] void refuse(const std::string& question, std::string what, std::string expected,
                         std::string remedy) {
    throw base::InputError(base::Problem{std::move(what),
                                         {.file = question, .line = 0, .column = 0},
                                         std::move(expected),
                                         std::move(remedy)});
}

/// Writes the text of a project file and remembers which answer each line comes from.
class Writer {
  public:
    void comment(const std::string& text) { line("# " + text, {}); }
    void blank() { line("", {}); }
    void table(const std::string& name, const std::string& question) {
        if (!text_.empty()) blank();
        line("[" + name + "]", question);
    }
    void text(const std::string& key, const std::string& value, const std::string& question) {
        line(key + " = " + in_toml(value), question);
    }
    void bare(const std::string& key, const std::string& value, const std::string& question) {
        line(key + " = " + value, question);
    }
    [[nodiscard]] const std::string& written() const { return text_; }
    [[nodiscard]] std::string question_at(std::size_t line) const {
        return line == 0 || line > questions_.size() ? std::string() : questions_[line - 1];
    }

  private:
    void line(const std::string& text, const std::string& question) {
        text_ += text + "\n";
        questions_.push_back(question);
    }

    std::string text_;
    std::vector<std::string> questions_;
};

class Making {
  public:
    Making(const MakeAnswers& answers, const std::vector<stash::Skein>& stash,
           const project::Defaults& defaults)
        : answers_(answers), stash_(stash), defaults_(defaults) {}

    AskedProject make() {
        read();
        find_craft();
        find_yarn();
        find_stitch();
        find_total();
        write();
        AskedProject asked;
        asked.toml = out_.written();
        asked.assumed = std::move(assumed_);
        try {
            asked.project = parse_project(asked.toml, "", defaults_);
        } catch (const base::InputError& error) {
            base::Problems problems = error.problems();
            for (base::Problem& problem : problems) problem = as_asked(std::move(problem));
            // One answer is missing once, however many keys it would fill.
            const auto alike = [](const base::Problem& a, const base::Problem& b) {
                return a.place == b.place && a.remedy == b.remedy;
            };
            problems.erase(std::unique(problems.begin(), problems.end(), alike), problems.end());
            throw base::InputError(std::move(problems));
        }
        return asked;
    }

    SoFar so_far() {
        SoFar out;
        try {
            read();
        } catch (const base::InputError&) {
            // What was read up to the mistake counts.
        }
        out.stitch_said = !stitch_word().first.empty();
        find_craft();
        out.knit = knit_;
        if (const auto name = answers_.one("yarn"))
            out.yarn_known = yarns_named(*name, stash_).size() == 1;
        return out;
    }

  private:
    void read() {
        for (const std::string& text : answers_.all("make"))
            pieces_.push_back(taken(parse_piece(text), "make"));
        if (const auto text = answers_.one("gauge"))
            gauge_ = taken(exchange::parse_gauge(*text), "gauge");
        for (const std::string& text : answers_.all("swatch"))
            swatches_.push_back(taken(parse_swatch(text), "swatch"));
        for (const std::string& text : answers_.all("plus"))
            extras_.push_back(taken(parse_extra(text), "plus"));
        if (pieces_.empty() && !answers_.has("total"))
            refuse("make", "neither what is made nor a total is said", "a piece or a total",
                   "Say \"33 hdc x 96 rows\" or \"22 cm x 1.5 m\", or how much yarn the pattern "
                   "asks for.");
    }

    /// The first word anywhere that names a stitch.
    [[nodiscard]] std::pair<std::string, std::string> stitch_word() const {
        if (const auto word = answers_.one("stitch")) return {*word, "stitch"};
        for (const WrittenPiece& piece : pieces_)
            if (!piece.stitch.empty()) return {piece.stitch, "make"};
        if (gauge_ && !gauge_->stitch.empty()) return {gauge_->stitch, "gauge"};
        for (const WrittenSwatch& swatch : swatches_)
            if (!swatch.stitch.empty()) return {swatch.stitch, "swatch"};
        return {};
    }

    [[nodiscard]] bool knows(const std::string& word, project::Craft craft) const {
        return project::stitch_kind(base::lower(word), craft,
                                    defaults_.terms.value_or(project::Terms::us))
            .has_value();
    }

    void find_craft() {
        const std::string word = stitch_word().first;
        if (const auto craft = answers_.one("craft")) {
            if (base::same_word(*craft, "knit") || base::same_word(*craft, "knitting"))
                knit_ = true;
            else if (!base::same_word(*craft, "crochet"))
                refuse("craft", base::quoted(*craft) + " is no craft here", "crochet or knit", "");
            return;
        }
        static const std::set<std::string> fabrics{
            "stockinette", "stocking stitch", "garter", "rib", "ribbing", "seed", "stocking"};
        if (!word.empty())
            knit_ = !knows(word, project::Craft::crochet) &&
                    (knows(word, project::Craft::knit) || fabrics.contains(base::lower(word)));
        else
            knit_ = answers_.has("needle") && !answers_.has("hook");
    }

    void find_stitch() {
        const auto [word, question] = stitch_word();
        if (!word.empty()) {
            stitch_ = word;
            stitch_from_ = question;
            return;
        }
        if (pieces_.empty() && swatches_.empty()) return;
        if (swatches_.empty() && !answers_.has("total"))
            refuse("stitch", "which stitch it is is not said",
                   knit_ ? "such as stockinette or garter" : "such as sc, hdc or dc",
                   "A stitch of another kind can take twice the yarn. A weighed swatch, or the "
                   "pattern's total, would do instead.");
        // The swatch or the total tells the yarn, whatever the stitch is called.
        stitch_ = knit_ ? "stockinette" : "hdc";
        stitch_from_ = "stitch";
        stitch_open_ = true;
    }

    void find_yarn() {
        yarn_.name = answers_.one("yarn").value_or("");
        if (!yarn_.name.empty() && !stash_.empty()) {
            const std::vector<stash::Skein> known = yarns_named(yarn_.name, stash_);
            if (known.size() > 1) {
                std::vector<std::string> names;
                for (const stash::Skein& one : known)
                    names.push_back(base::shown_inert(one.yarn.name));
                refuse("yarn", base::quoted(yarn_.name) + " may be several yarns of the stash",
                       base::join(names, ", "), "Give more of the name.");
            }
            if (known.size() == 1) {
                yarn_ = known.front().yarn;
                in_stash_ = true;
            }
        }
        if (const auto text = answers_.one("label")) {
            label_ = plain_signs(*text);
            const auto printed = yarn::parse_put_up(label_);
            if (!printed && prints_much(label_))
                static_cast<void>(taken(base::Result<yarn::PrintedPutUp>(printed), "label"));
            if (printed) label_ = printed->label.length->text + " / " + printed->label.mass->text;
            static_cast<void>(taken(units::parse_grist(label_), "label"));
            if (printed && (printed->lengths_apart || printed->masses_apart))
                assumed_.push_back({"label",
                                    "the label prints two figures that differ by more than "
                                    "rounding; the smaller, " +
                                        label_ + ", is taken"});
            label_from_ = "label";
        } else if (yarn_.label.length && yarn_.label.mass) {
            label_ = yarn_.label.length->text + " / " + yarn_.label.mass->text;
            label_from_ = "yarn";
        }
        if (const auto text = answers_.one("class")) {
            class_ = taken(parse_class(*text), "class");
            if (!yarn::parse_weight_class(*text))
                assumed_.push_back({"class", base::quoted(*text) + " is class " +
                                                 yarn::text(*class_) +
                                                 ", as the charts that know "
                                                 "the name agree"});
        } else {
            class_ = yarn_.weight;
        }
        if (in_stash_ && (!base::same_word(yarn_.name, *answers_.one("yarn"))))
            assumed_.push_back(
                {"yarn", "the yarn is " + base::shown_inert(yarn_.name) + " of the stash"});
    }

    /// What is told on top of a total goes into it, for in a file a total holds the whole make.
    void find_total() {
        const auto text = answers_.one("total");
        if (!text) return;
        total_ = plain_signs(*text);
        yarn::StatedTotal stated = taken(yarn::parse_stated_total(total_), "total");
        stated = yarn::with_put_up(stated, yarn::put_up_in(label_));
        if (!pieces_.empty() || extras_.empty()) return;
        yarn::Between<units::Length> more{};
        yarn::Between<units::Mass> heavier{};
        for (const WrittenExtra& extra : extras_) {
            if (extra.yarn.empty())
                refuse("plus", "rounds beside a bare total", "the yarn it takes, \"edging 30 yd\"",
                       "Only a make whose stitch is known tells what a round takes.");
            const auto length = units::parse_length(extra.yarn);
            const auto mass = units::parse_mass(extra.yarn);
            if (length) more = {more.least + *length, more.most + *length};
            if (mass) heavier = {heavier.least + *mass, heavier.most + *mass};
        }
        const auto grist =
            label_.empty() ? std::nullopt : std::optional(*units::parse_grist(label_));
        const bool lengths = more.most > units::Length{};
        const bool masses = heavier.most > units::Mass{};
        const auto range = [](double least, double most, const char* unit) {
            return least == most ? fmt::format("{:.6g} {}", most, unit)
                                 : fmt::format("{:.6g} to {:.6g} {}", least, most, unit);
        };
        if (stated.length && (!masses || grist)) {
            if (masses)
                more = {more.least + units::Length(heavier.least * *grist),
                        more.most + units::Length(heavier.most * *grist)};
            total_ = range((stated.length->least + more.least).value(),
                           (stated.length->most + more.most).value(), "m");
        } else if (stated.mass && (!lengths || grist)) {
            if (lengths)
                heavier = {heavier.least + units::Mass(more.least / *grist),
                           heavier.most + units::Mass(more.most / *grist)};
            total_ = range((stated.mass->least + heavier.least) / units::gram,
                           (stated.mass->most + heavier.most) / units::gram, "g");
        } else {
            refuse("plus", "a length and a mass cannot be added", "both in one unit",
                   "The label of the yarn would tell: \"170 yd / 100 g\".");
        }
        added_ = true;
    }

    [[nodiscard]] std::string title() const {
        if (const auto named = answers_.one("title")) return *named;
        if (pieces_.empty()) return "a need of " + *answers_.one("total");
        for (const WrittenPiece& piece : pieces_)
            if (!piece.name.empty()) return piece.name;
        return *answers_.one("make");
    }

    void write() {
        out_.comment("Made by skeinfall from answers; change what you like. # begins a remark.");
        out_.text("title", title(), answers_.has("title") ? "title" : "make");
        out_.text("craft", knit_ ? "knit" : "crochet", "craft");
        if (const auto whom = answers_.one("for")) out_.text("made_for", *whom, "for");
        write_gauge();
        write_yarn();
        write_swatches();
        for (const WrittenPiece& piece : pieces_) write_piece(piece);
        if (!added_)
            for (const WrittenExtra& extra : extras_) write_extra(extra);
    }

    void write_gauge() {
        if (pieces_.empty() && swatches_.empty()) return;
        WrittenGauge gauge = gauge_.value_or(WrittenGauge{});
        std::string from = "gauge";
        if (!gauge_) gauge_of_swatch(gauge, from);
        const bool by_counts =
            std::any_of(pieces_.begin(), pieces_.end(),
                        [](const WrittenPiece& piece) { return piece.stitches || piece.rows; });
        const bool by_sides =
            std::any_of(pieces_.begin(), pieces_.end(), [](const WrittenPiece& piece) {
                return !piece.width.empty() || !piece.length.empty();
            });
        const bool swatch_by_size =
            std::any_of(swatches_.begin(), swatches_.end(),
                        [](const WrittenSwatch& swatch) { return !swatch.stitches; });
        // The gauge cancels where yarn goes by area on both sides, by stitches on both sides, or
        // where a total tells it all.
        const bool cancels =
            (!swatches_.empty() && (by_counts != by_sides) && swatch_by_size == by_sides) ||
            (swatches_.empty() && answers_.has("total"));
        if (gauge.stitches.empty() && cancels) {
            gauge.stitches = knit_ ? usual_knit.stitches : usual_crochet.stitches;
            gauge.rows = knit_ ? usual_knit.rows : usual_crochet.rows;
            if (by_sides)
                assumed_.push_back(
                    {"gauge", "rows are laid out as if there were " + gauge.stitches.substr(0, 2) +
                                  " sts and " + gauge.rows.substr(0, 2) +
                                  " rows per 10 cm; how much yarn it takes does not hang on it"});
        }
        if (gauge.stitches.empty() && (by_counts || !swatches_.empty()))
            refuse("gauge", "the gauge is not said", "such as \"14 sts and 10 rows per 10 cm\"",
                   "Count them over a swatch; or measure as well as count the swatch you weigh.");
        out_.table("gauge", "gauge");
        if (!gauge_ && gauge.stitches.empty()) {
            // Left to the reader: it may do without, or says what is missing.
        } else {
            out_.text("stitches", gauge.stitches, from);
            out_.text("rows", gauge.rows, from);
        }
        if (stitch_open_) out_.comment("not said: the swatch or the total tells the yarn");
        out_.text("stitch", stitch_, stitch_from_);
        if (const auto hook = answers_.one("hook")) out_.text("hook", *hook, "hook");
        if (const auto needle = answers_.one("needle")) out_.text("needle", *needle, "needle");
    }

    /// A swatch that was counted and measured.
    void gauge_of_swatch(WrittenGauge& gauge, std::string& from) const {
        for (const WrittenSwatch& swatch : swatches_) {
            if (!swatch.stitches || swatch.width.empty()) continue;
            gauge.stitches = fmt::format("{} per {}", *swatch.stitches, swatch.width);
            gauge.rows = fmt::format("{} per {}", *swatch.rows, swatch.height);
            from = "swatch";
            return;
        }
    }

    void write_yarn() {
        out_.table(std::string("yarn.") + the_yarn, "yarn");
        if (!yarn_.name.empty()) out_.text("name", yarn_.name, "yarn");
        if (const auto colour = answers_.one("colour")) out_.text("colour", *colour, "colour");
        if (class_) out_.bare("class", std::to_string(class_->number), "class");
        if (!label_.empty()) {
            if (label_from_ == "yarn") out_.comment("as its label in the stash says");
            out_.text("grist", label_, "label");
        }
        if (const auto fibre = answers_.one("fibre"))
            out_.text("fibre", fibre_as_said(*fibre), "fibre");
        else if (yarn_.fibre.known())
            out_.text("fibre", yarn::text(yarn_.fibre), "yarn");
        if (answers_.has("avoid")) {
            std::vector<std::string> list;
            for (const std::string& fibre : answers_.all("avoid")) list.push_back(in_toml(fibre));
            out_.bare("avoid", "[" + base::join(list, ", ") + "]", "avoid");
        }
        if (answers_.has("any-lot")) out_.bare("one_lot", "false", "any-lot");
        if (total_.empty()) return;
        if (added_)
            out_.comment(fmt::format("{} and what comes on top of it", *answers_.one("total")));
        out_.text("total", total_, "total");
    }

    void write_swatches() {
        for (const WrittenSwatch& swatch : swatches_) {
            out_.table("[swatch]", "swatch");
            if (swatch.stitches) {
                out_.bare("stitches", std::to_string(*swatch.stitches), "swatch");
                out_.bare("rows", std::to_string(*swatch.rows), "swatch");
                if (!swatch.stitch.empty() && !base::same_word(swatch.stitch, stitch_))
                    out_.text("stitch", swatch.stitch, "swatch");
            }
            if (!swatch.width.empty()) {
                out_.text("width", swatch.width, "swatch");
                out_.text("height", swatch.height, "swatch");
            }
            if (!swatch.mass.empty()) {
                out_.text("mass", swatch.mass, "swatch");
                out_.text("scale", answers_.one("scale").value_or(swatch.scale), "swatch");
            } else {
                out_.text("length", swatch.length, "swatch");
            }
        }
    }

    void write_piece(const WrittenPiece& piece) {
        out_.table("[piece]", "make");
        out_.text("name", piece.name.empty() ? "piece" : piece.name, "make");
        if (piece.round) out_.text("worked", "round", "make");
        if (piece.count != 1) out_.bare("count", std::to_string(piece.count), "make");
        if (piece.stitches)
            out_.bare("stitches", std::to_string(*piece.stitches), "make");
        else
            out_.text("width", piece.width, "make");
        if (piece.rows)
            out_.bare("rows", std::to_string(*piece.rows), "make");
        else
            out_.text("length", piece.length, "make");
        if (piece.increase != 0) {
            out_.bare("increase", std::to_string(piece.increase), "make");
            out_.bare("every", std::to_string(piece.every), "make");
        }
    }

    void write_extra(const WrittenExtra& extra) {
        out_.table("[finish]", "plus");
        out_.text("name", extra.name, "plus");
        if (extra.rounds > 0) {
            out_.text("kind", "border", "plus");
            out_.bare("rounds", std::to_string(extra.rounds), "plus");
            out_.bare("first_round", std::to_string(extra.stitches), "plus");
            return;
        }
        out_.text("kind", "other", "plus");
        std::string takes = extra.yarn;
        if (const auto mass = units::parse_mass(takes); mass && !units::parse_length(takes)) {
            if (label_.empty())
                refuse("plus", "a mass without the yarn's length per mass", "a length",
                       "The label of the yarn would tell: \"170 yd / 100 g\".");
            takes =
                fmt::format("{:.6g} m", units::Length(*mass * *units::parse_grist(label_)).value());
        }
        out_.text("takes", takes, "plus");
    }

    /// A problem of the text as one of the answer its line comes from.
    [[nodiscard]] base::Problem as_asked(base::Problem problem) const {
        const std::string question = out_.question_at(problem.place.line);
        problem.place = {.file = question.empty() ? "make" : question, .line = 0, .column = 0};
        // The key of the text, "total: ", is not what was asked for.
        if (const std::size_t colon = problem.what.find(": ");
            colon != std::string::npos &&
            problem.what.find_first_not_of("abcdefghijklmnopqrstuvwxyz_") == colon)
            problem.what.erase(0, colon + 2);
        if (problem.expected.find("grist") != std::string::npos) {
            problem.place.file = "label";
            problem.what = "the length per mass of the yarn is not known";
            problem.expected = "what its label says, such as \"170 yd / 3.5 oz\"";
            problem.remedy = question == "total" && !class_
                                 ? "Say the label, the class of the yarn, or an amount in yd or m."
                                 : "A scale tells grams; the label turns them into yd and m.";
            return problem;
        }
        // Keys of a file mean nothing to whoever gave answers.
        if (problem.remedy.find(" = ") != std::string::npos ||
            problem.remedy.find('[') != std::string::npos) {
            const project::MakeQuestion* const known = project::make_question(problem.place.file);
            problem.remedy = known == nullptr || known->example.empty()
                                 ? std::string()
                                 : fmt::format("Write it like \"{}\".", known->example);
        }
        return problem;
    }

    const MakeAnswers& answers_;
    const std::vector<stash::Skein>& stash_;
    const project::Defaults& defaults_;
    Writer out_;
    std::vector<Assumed> assumed_;
    std::vector<WrittenPiece> pieces_;
    std::optional<WrittenGauge> gauge_;
    std::vector<WrittenSwatch> swatches_;
    std::vector<WrittenExtra> extras_;
    bool knit_ = false;
    std::string stitch_;
    std::string stitch_from_ = "stitch";
    bool stitch_open_ = false;
    yarn::Yarn yarn_;
    bool in_stash_ = false;
    std::string label_;
    std::string label_from_;
    std::optional<yarn::WeightClass> class_;
    std::string total_;
    bool added_ = false;
};

}  // namespace

AskedProject project_of_answers(const MakeAnswers& answers, const std::vector<stash::Skein>& stash,
                                const project::Defaults& defaults) {
    return Making(answers, stash, defaults).make();
}

SoFar so_far(const MakeAnswers& answers, const std::vector<stash::Skein>& stash,
             const project::Defaults& defaults) {
    try {
        return Making(answers, stash, defaults).so_far();
    } catch (const base::InputError&) {
        return {};
    }
}

}  // namespace skeinfall::exchange
