#include "skeinfall/exchange/make_answers.hpp"

#include <algorithm>
#include <map>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/colour_words.hpp"
#include "skeinfall/exchange/detail/answer_text.hpp"
#include "skeinfall/exchange/detail/answers_agree.hpp"
#include "skeinfall/exchange/detail/extra_answer.hpp"
#include "skeinfall/exchange/detail/made_for.hpp"
#include "skeinfall/exchange/detail/plain_piece.hpp"
#include "skeinfall/exchange/detail/ring_words.hpp"
#include "skeinfall/exchange/detail/stitch_answers.hpp"
#include "skeinfall/exchange/detail/strands.hpp"
#include "skeinfall/exchange/detail/total_answer.hpp"
#include "skeinfall/exchange/make_words.hpp"
#include "skeinfall/exchange/name_words.hpp"
#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/exchange/yarn_words.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/yarn/label_text.hpp"
#include "skeinfall/yarn/put_up.hpp"
#include "skeinfall/yarn/stated_total.hpp"

namespace skeinfall::exchange {
namespace {

using detail::in_toml;

const char* const the_yarn = "MC";

/// Rows are laid out by this where only areas tell the yarn: of the common case, no source.
struct UsualGauge {
    const char* stitches;
    const char* rows;
};
constexpr UsualGauge usual_crochet{"14 per 10 cm", "10 per 10 cm"};
constexpr UsualGauge usual_knit{"20 per 10 cm", "28 per 10 cm"};

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

class Making {
  public:
    Making(const MakeAnswers& answers, const std::vector<stash::Skein>& stash,
           const project::Defaults& defaults, bool rows_matter)
        : answers_(answers), stash_(stash), defaults_(defaults), rows_matter_(rows_matter) {}

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
            for (auto& problem : problems) problem = as_asked(std::move(problem));
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
        out.colour_said = answers_.has("colour");
        out.stripes_said = answers_.has("stripes");
        find_craft();
        out.knit = knit_;
        if (const auto name = answers_.one("yarn"))
            out.yarn_known = yarns_named(*name, stash_).size() == 1;
        return out;
    }

  private:
    void read() {
        detail::refuse_strands(answers_);
        for (const auto& text : answers_.all("make"))
            pieces_.push_back(taken(parse_piece(text), "make"));
        tell_counts();
        if (const auto text = answers_.one("gauge"))
            gauges_ = taken(exchange::parse_gauges(*text), "gauge");
        for (const std::string& text : answers_.all("swatch")) read_swatch(text);
        read_colours();
        for (const std::string& text : answers_.all("plus")) {
            detail::ExtraAnswer told = detail::extra_of(text, pieces_, roles_);
            extras_.push_back(std::move(told.extra));
            if (!told.assumed.empty()) assumed_.push_back({"plus", std::move(told.assumed)});
        }
        if (!answers_.has("stripes") && !answers_.has("changes"))
            if (auto untold = colours_not_told(pieces_)) throw base::InputError(*untold);
        // A total holds all that the pattern's yarn goes into.
        if (!answers_.has("total"))
            for (auto untold : {yarn_not_told(pieces_, extras_), shrinks_when_done(pieces_)})
                if (untold) throw base::InputError(*untold);
        read_terms();
        if (pieces_.empty() && !answers_.has("total"))
            refuse("make", "neither what you make nor how much yarn it takes is given",
                   "a piece or a total",
                   "Say \"33 hdc x 96 rows\" or \"22 cm x 1.5 m\", or how much yarn the pattern "
                   "asks for.");
    }

    /// "rust: 15 x 15 cm, 14 g" is in one of several yarns.
    void read_swatch(const std::string& text) {
        const OfColour said = of_colour(text);
        swatches_.push_back(taken(parse_swatch(said.text), "swatch"));
        if (auto other = detail::swatch_of_other_strands(answers_, swatches_.back()))
            throw base::InputError(*std::move(other));
        swatches_.back().colour = said.colour;
        if (auto told = detail::strands_of_swatch_unsaid(answers_, swatches_.back()))
            assumed_.push_back({"swatch", *std::move(told)});
        swatches_.back().strands = detail::strands_of_make(answers_);
    }

    /// A count that was not said outright changes the answer.
    void tell_counts() {
        for (const WrittenPiece& piece : pieces_)
            if (std::string told = detail::counted_text(piece); !told.empty())
                assumed_.push_back({"make", std::move(told)});
    }

    void read_colours() {
        if (const auto text = answers_.one("stripes")) {
            stripes_ = taken(parse_stripes(*text), "stripes");
            roles_ = colour_roles(stripes_);
            if (answers_.has("colour"))
                refuse("stripes", "one colour is named as well", "one of the two",
                       "The stripes name their colours.");
            if (answers_.has("total"))
                refuse("total", "it does not say how much of each colour",
                       "a swatch, or the class of the yarn, instead",
                       "What every stripe takes is worked out from its rows.");
        } else {
            roles_ = {{the_yarn, answers_.one("colour").value_or("")}};
        }
        if (const auto text = answers_.one("changes"))
            runs_ = taken(parse_colour_runs(*text), "changes");
    }

    /// "UK treble": the names of stitches say whose they are.
    void read_terms() {
        said_stitch_ = answers_.one("stitch").value_or("");
        take_terms(said_stitch_, "stitch");
        for (WrittenPiece& piece : pieces_) take_terms(piece.stitch, "make");
        for (WrittenGauge& gauge : gauges_) take_terms(gauge.stitch, "gauge");
        for (WrittenSwatch& swatch : swatches_) take_terms(swatch.stitch, "swatch");
    }

    void take_terms(std::string& stitch, const std::string& question) {
        const std::string word = base::lower(stitch);
        const bool uk = word.starts_with("uk ");
        if (!uk && !word.starts_with("us ")) return;
        const project::Terms said = uk ? project::Terms::uk : project::Terms::us;
        if (terms_ && *terms_ != said)
            refuse(question, base::quoted(stitch) + " beside names of the other country",
                   "all of one country", "Write all of them as US or all as UK names.");
        terms_ = said;
        stitch = std::string(base::trimmed(std::string_view(stitch).substr(3)));
    }

    /// The first word anywhere that names a stitch.
    [[nodiscard]] std::pair<std::string, std::string> stitch_word() const {
        if (!said_stitch_.empty()) return {said_stitch_, "stitch"};
        for (const WrittenPiece& piece : pieces_)
            if (!piece.stitch.empty()) return {piece.stitch, "make"};
        if (!gauges_.empty() && !gauges_.front().stitch.empty())
            return {gauges_.front().stitch, "gauge"};
        for (const WrittenSwatch& swatch : swatches_)
            if (!swatch.stitch.empty()) return {swatch.stitch, "swatch"};
        return {};
    }

    [[nodiscard]] project::Terms terms() const {
        return terms_ ? *terms_ : defaults_.terms.value_or(project::Terms::us);
    }

    void find_craft() {
        const std::string word = stitch_word().first;
        if (const auto craft = answers_.one("craft")) {
            if (base::same_word(*craft, "knit") || base::same_word(*craft, "knitting"))
                knit_ = true;
            else if (!base::same_word(*craft, "crochet"))
                refuse("craft", base::quoted(*craft) + " is not a craft", "crochet or knit", "");
            return;
        }
        knit_ = detail::is_knit_by(word, terms(),
                                   {answers_.has("hook"), answers_.has("needle"), yarn_told()});
    }

    /// By a weighed swatch or a total, whatever the stitch is called.
    [[nodiscard]] bool yarn_told() const { return !swatches_.empty() || answers_.has("total"); }

    void find_stitch() {
        const project::Craft craft = knit_ ? project::Craft::knit : project::Craft::crochet;
        for (const WrittenPiece& piece : pieces_) {
            const std::string& counted = piece.stitch.empty() ? said_stitch_ : piece.stitch;
            for (std::string& told : detail::taken_of_piece(piece, counted, craft))
                assumed_.push_back({"make", std::move(told)});
            if (yarn_told() || counted.empty()) continue;
            if (auto more = detail::fabric_in_name(piece.name, counted, craft))
                throw base::InputError(*std::move(more));
        }
        if (auto several = detail::stitch_of_several(pieces_, gauges_))
            throw base::InputError(*several);
        const auto [word, question] = stitch_word();
        if (auto untold = detail::gauges_of_pieces(word, said_stitch_, {craft, terms()}, gauges_,
                                                   pieces_, gauge_))
            throw base::InputError(*std::move(untold));
        if (auto other = detail::gauge_of_another_stitch(said_stitch_, pieces_, gauge_))
            throw base::InputError(*other);
        if (!word.empty()) {
            stitch_ = word;
            stitch_from_ = question;
            return;
        }
        if (pieces_.empty() && swatches_.empty()) return;
        if (!yarn_told())
            refuse(
                "stitch", "the stitch is not given",
                knit_ ? "a stitch such as stockinette or garter" : "a stitch such as sc, hdc or dc",
                "One stitch can take twice the yarn of another. A weighed swatch, or the pattern's "
                "total, will do instead.");
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
                for (const auto& one : known) names.push_back(base::shown_inert(one.yarn.name));
                refuse("yarn", base::quoted(yarn_.name) + " may be several yarns of the stash",
                       base::join(names, ", "), "Give more of the name.");
            }
            if (known.size() == 1) {
                const bool with_colour = base::same_word(
                    known.front().yarn.name + " " + known.front().colourway, yarn_.name);
                if (with_colour && roles_.size() == 1 && roles_.front().colour.empty())
                    roles_.front().colour = known.front().colourway;
                yarn_ = known.front().yarn;
                in_stash_ = true;
            }
        }
        read_labels();
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
                {"yarn", "taken as " + base::shown_inert(yarn_.name) + " from your stash"});
    }

    void read_labels() {
        for (const std::string& given : answers_.all("label")) {
            const OfColour said = of_colour(plain_signs(given));
            const std::string role =
                said.colour.empty() || stripes_.empty() ? "" : role_of(roles_, said.colour);
            if (!said.colour.empty() && role.empty() && answers_.has("stripes"))
                refuse("label", "no stripe is in " + base::quoted(said.colour),
                       "a colour of the stripes", "");
            const std::string read = label_read(said.text);
            if (role.empty())
                label_ = label_.empty() ? read : label_;
            else
                labels_.emplace(role, read);
            label_from_ = "label";
        }
        if (label_from_.empty() && yarn_.label.length && yarn_.label.mass) {
            label_ = yarn_.label.length->text + " / " + yarn_.label.mass->text;
            label_from_ = "yarn";
        }
    }

    std::string label_read(std::string text) {
        if (auto no = not_a_label(text)) refuse("label", no->what, no->expected, no->remedy);
        const auto printed = yarn::parse_put_up(text);
        if (!printed && prints_much(text))
            static_cast<void>(taken(base::Result<yarn::PrintedPutUp>(printed), "label"));
        if (printed) text = printed->label.length->text + " / " + printed->label.mass->text;
        static_cast<void>(taken(units::parse_grist(text), "label"));
        if (printed && (printed->lengths_apart || printed->masses_apart))
            assumed_.push_back({"label",
                                "the label prints two figures that differ by more than rounding; "
                                "the smaller, " +
                                    text + ", is taken"});
        return text;
    }

    void find_total() {
        const auto text = answers_.one("total");
        if (!text) return;
        const detail::TotalAnswer told =
            detail::total_of(detail::total_of_strands(*text, answers_), pieces_, extras_, label_);
        total_ = told.text;
        added_ = told.added;
        if (!told.assumed.empty()) assumed_.push_back({"total", told.assumed});
    }

    [[nodiscard]] std::string title() const {
        if (const auto named = answers_.one("title")) return *named;
        if (pieces_.empty()) return "a need of " + *answers_.one("total");
        for (const WrittenPiece& piece : pieces_)
            if (!piece.name.empty()) return piece.name;
        return *answers_.one("make");
    }

    /// A file means the same whoever reads it; names that both countries have are told.
    void write_terms() {
        if (knit_ && !terms_) return;
        out_.text("terms", terms() == project::Terms::uk ? "UK" : "US", stitch_from_);
        if (terms_ || defaults_.terms) return;
        if (auto told = detail::taken_as_us(stitch_)) assumed_.push_back({stitch_from_, *told});
    }

    void write() {
        out_.comment("Made by skeinfall from answers; change what you like. # begins a comment.");
        out_.text("title", title(), answers_.has("title") ? "title" : "make");
        out_.text("craft", knit_ ? "knit" : "crochet", "craft");
        write_terms();
        const detail::MadeFor whom = detail::made_for(answers_, pieces_);
        if (!whom.words.empty()) out_.text("made_for", whom.words, "for");
        if (!whom.assumed.empty()) assumed_.push_back({"for", whom.assumed});
        if (const auto ends = answers_.one("ends")) out_.text("tail", *ends, "ends");
        write_gauge();
        for (const ColourRole& role : roles_) write_yarn(role);
        const bool alike = std::all_of(roles_.begin(), roles_.end(), [&](const ColourRole& role) {
            return label_of(role) == label_of(roles_.front());
        });
        if (auto problem = detail::swatch_of_no_yarn(swatches_, roles_, alike))
            throw base::InputError(*std::move(problem));
        for (const ColourRole& role : roles_)
            for (const WrittenSwatch& swatch : swatches_)
                if (swatch.colour.empty() || role_of(roles_, swatch.colour) == role.id)
                    detail::write_swatch(out_, swatch, roles_.size() > 1 ? role.id : std::string(),
                                         stitch_, answers_.one("scale"));
        for (const WrittenPiece& piece : pieces_) detail::write_piece(out_, piece, of_pieces());
        if (added_) return;
        if (!answers_.has("total")) detail::write_rings(out_, pieces_, roles_, knit_);
        for (const WrittenExtra& extra : extras_) {
            if (auto problem = detail::write_extra(out_, extra, extra.role,
                                                   stitch_open_ ? "" : stitch_, label_))
                throw base::InputError(*std::move(problem));
            // It is asked for on top.
            if (answers_.has("total")) out_.bare("beyond_total", "true", "plus");
        }
    }

    void write_gauge() {
        if (pieces_.empty() && swatches_.empty()) return;
        WrittenGauge gauge = gauge_.value_or(WrittenGauge{});
        std::string from = "gauge";
        const bool rows_missing = gauge_ && gauge_->rows.empty();
        if (rows_missing) gauge = {};
        if (!gauge_ || rows_missing)
            if (detail::gauge_of_swatches(swatches_, gauge)) from = "swatch";
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
            if (by_sides && rows_matter_)
                refuse("gauge", "the rows cannot be worked out without the gauge",
                       "a gauge such as \"14 sts and 10 rows per 10 cm\"",
                       "How much yarn it takes is known; in which row it ends is not.");
            laid_out_ = true;
            if (by_sides)
                assumed_.push_back(
                    {"gauge", "rows are laid out as if there were " + gauge.stitches.substr(0, 2) +
                                  " sts and " + gauge.rows.substr(0, 2) +
                                  (swatches_.empty() ? " rows per 10 cm"
                                                     : " rows per 10 cm; the amount of yarn "
                                                       "does not depend on it")});
        }
        if (rows_missing && gauge.stitches.empty())
            refuse("gauge", "its rows are missing", "\"14 sts and 10 rows per 10 cm\"",
                   "How high the rows come out is needed too.");
        const bool like_others =
            swatches_.empty() &&
            (class_ || !label_.empty() || answers_.has("hook") || answers_.has("needle"));
        if (gauge.stitches.empty() && by_counts && like_others)
            assumed_.push_back(
                {"gauge", "no gauge is given, so a usual one for this yarn and stitch is used"});
        else if (gauge.stitches.empty() && (by_counts || !swatches_.empty()))
            refuse("gauge", "the gauge is missing",
                   "a gauge such as \"14 sts and 10 rows per 10 cm\"",
                   "Count stitches and rows on a swatch, or weigh one and say its size and "
                   "counts. The weight class, the label or the tool gives a rough guess.");
        out_.table("gauge", "gauge");
        if (!gauge_ && gauge.stitches.empty()) {
            // Left to the reader: it may do without, or says what is missing.
        } else {
            if (laid_out_) out_.comment("a usual gauge: write yours here before you plan rows");
            out_.text("stitches", gauge.stitches, from);
            out_.text("rows", gauge.rows, from);
            if (laid_out_) out_.bare("counted", "false", from);
        }
        if (stitch_open_) out_.comment("not said: the swatch or the total gives the yarn");
        out_.text("stitch", stitch_, stitch_from_);
        if (const auto hook = answers_.one("hook")) out_.text("hook", *hook, "hook");
        if (const auto needle = answers_.one("needle")) out_.text("needle", *needle, "needle");
    }

    void write_yarn(const ColourRole& role) {
        out_.table("yarn." + role.id, "yarn");
        if (!yarn_.name.empty()) out_.text("name", yarn_.name, "yarn");
        if (!role.colour.empty())
            out_.text("colour", role.colour, stripes_.empty() ? "colour" : "stripes");
        if (class_) out_.bare("class", std::to_string(class_->number), "class");
        if (const std::string label = label_of(role); !label.empty()) {
            if (label_from_ == "yarn") out_.comment("from the label in your stash");
            out_.text("grist", label, "label");
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
        if (!runs_.empty()) {
            std::vector<std::string> list;
            for (const WrittenRun& run : runs_)
                list.push_back(fmt::format("{{ colour = {}, length = {} }}", in_toml(run.colour),
                                           in_toml(run.length)));
            out_.bare("colours", "[" + base::join(list, ", ") + "]", "changes");
        }
        if (total_.empty()) return;
        if (added_)
            out_.comment(fmt::format("{} and what comes on top of it", *answers_.one("total")));
        out_.text("total", total_, "total");
    }

    /// Of this colour, where its own was said.
    [[nodiscard]] std::string label_of(const ColourRole& role) const {
        const auto own = labels_.find(role.id);
        return own == labels_.end() ? label_ : own->second;
    }

    [[nodiscard]] detail::OfPieces of_pieces() const {
        detail::OfPieces all{{}, {}, answers_.one("edge"), answers_.one("multiple")};
        if (answers_.has(one_colour_each)) {
            all.yarn = roles_.front().id;
            return all;
        }
        std::vector<std::string> list;
        for (const WrittenStripe& stripe : stripes_)
            list.push_back(fmt::format("{{ yarn = {}, rows = {} }}",
                                       in_toml(role_of(roles_, stripe.colour)), stripe.rows));
        if (!list.empty()) all.stripes = "[" + base::join(list, ", ") + "]";
        return all;
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
        if (problem.what.find("by which they can be guessed") != std::string::npos) {
            problem.place.file = "class";
            problem.what = "the gauge is not given, nor anything to estimate it from";
            problem.expected = "the weight class of the yarn, its label, or the gauge";
            problem.remedy =
                "Any of these will do: class 4, label \"170 yd / 100 g\", hook or needle \"5 mm\", "
                "gauge \"14 sts and 10 rows per 10 cm\".";
            return problem;
        }
        if (problem.expected.find("grist") != std::string::npos) {
            problem.place.file = "label";
            problem.what = "the length per weight of the yarn is not known";
            problem.expected = "what its label says, such as \"170 yd / 3.5 oz\"";
            problem.remedy = question == "total" && !class_
                                 ? "Say the label, the class of the yarn, or an amount in yd or m."
                                 : "A scale shows grams; the label turns them into yd and m.";
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
    detail::AnswerText out_;
    std::vector<Assumed> assumed_;
    std::vector<WrittenPiece> pieces_;
    std::vector<WrittenGauge> gauges_;
    std::optional<WrittenGauge> gauge_;  ///< of the stitch of the make
    std::vector<WrittenSwatch> swatches_;
    std::vector<WrittenExtra> extras_;
    std::vector<WrittenStripe> stripes_;
    std::vector<ColourRole> roles_{{the_yarn, {}}};
    std::vector<WrittenRun> runs_;
    std::map<std::string, std::string> labels_;  ///< by yarn, where a colour has its own
    std::optional<project::Terms> terms_;
    std::string said_stitch_;
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
    bool rows_matter_;
    bool laid_out_ = false;  ///< by a gauge that nobody counted
};

}  // namespace

AskedProject project_of_answers(const MakeAnswers& answers, const std::vector<stash::Skein>& stash,
                                const project::Defaults& defaults, bool rows_matter) {
    return Making(answers, stash, defaults, rows_matter).make();
}

SoFar so_far(const MakeAnswers& answers, const std::vector<stash::Skein>& stash,
             const project::Defaults& defaults) {
    try {
        return Making(answers, stash, defaults, false).so_far();
    } catch (const base::InputError&) {
        return {};
    }
}

}  // namespace skeinfall::exchange
