#include "skeinfall/exchange/rates_toml.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/gauge_fields.hpp"
#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/exchange/rows_toml.hpp"
#include "skeinfall/project/maker_gauge.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/yarn/label_check.hpp"
#include "skeinfall/yarn/tools.hpp"

namespace skeinfall::exchange {
namespace {

constexpr std::int64_t most_stitches = 1'000'000'000;

void needs_grist(TomlTable& in, std::string_view key, const OfYarn& yarn) {
    if (yarn.known == nullptr || yarn.with_grist) return;
    in.fail(key, "the yarn " + yarn.role + " has no length per mass", "a grist for that yarn",
            "Add a line like grist = \"200 yd / 100 g\" to [yarn." + yarn.role + "].");
}

void needs_scale(TomlTable& in, std::string_view key) {
    if (!in.has("scale"))
        in.fail(key, "the step of the scale is missing",
                "the smallest step the scale shows, in the key \"scale\"",
                "Add a line like scale = \"1 g\".");
}

std::optional<measure::Weighing> weighing(TomlTable& in) {
    const auto shown = in.printed("mass", units::parse_mass);
    const auto scale = in.printed("scale", units::parse_mass);
    const auto tare = in.printed("tare", units::parse_mass);
    if (!in.has("mass")) return std::nullopt;
    needs_scale(in, "mass");
    if (shown && tare && shown->value <= tare->value)
        in.fail("mass", "the reading is not above the tare", "more than " + tare->text);
    if (!shown || !scale) return std::nullopt;
    return measure::Weighing{*shown, *scale, tare};
}

/// A scale or a tare that belongs to nothing.
void refuse_lone_scale(TomlTable& in, bool weighed) {
    for (const std::string_view key : {"scale", "tare"})
        if (in.has(key) && !weighed)
            in.fail(key, "there is no mass it belongs to", "\"mass\" as well",
                    "Add a line like mass = \"14 g\", or leave this one out.");
}

/// Keys "before" and "after": the ball on the scale, or a measured length and what is left of it.
/// True when both are masses.
bool read_difference(TomlTable& in, const OfYarn& yarn, project::Swatch& swatch) {
    if (!pair_given(in, "before", "after") || !in.has("before") || !in.has("after")) return false;
    const auto before = in.text("before");
    const auto after = in.text("after");
    if (!before || !after) return false;
    const auto none_gone = [&in](const std::string& left) {
        in.fail("after", "nothing was used: it is not below what there was before",
                "less than " + left);
    };
    swatch.by_rest = true;
    const auto long_before = units::parse_length(*before);
    const auto long_after = units::parse_length(*after);
    if (long_before && long_after) {
        if (*long_after >= *long_before) none_gone(*before);
        swatch.yarn = *long_before - *long_after;
        return false;
    }
    const auto heavy_before = in.printed("before", units::parse_mass);
    const auto heavy_after = in.printed("after", units::parse_mass);
    if (!heavy_before || !heavy_after) return true;
    needs_scale(in, "before");
    needs_grist(in, "before", yarn);
    if (heavy_after->value >= heavy_before->value) none_gone(*before);
    if (in.has("tare"))
        in.fail("tare", "what else was on the scale cancels between before and after",
                "no tare here");
    if (const auto scale = in.printed("scale", units::parse_mass))
        swatch.weighing = measure::Weighing{*heavy_before, *scale, heavy_after};
    return true;
}

void read_swatch_yarn(TomlTable& in, const OfYarn& yarn, project::Swatch& swatch) {
    swatch.weighing = weighing(in);
    swatch.yarn = in.parsed("length", units::parse_length);
    if (const auto marked = in.parsed("marked", units::parse_length)) {
        swatch.yarn = marked;
        swatch.marked = true;
    }
    if (in.has("mass")) needs_grist(in, "mass", yarn);
    const bool weighed = read_difference(in, yarn, swatch) || in.has("mass");
    std::vector<std::string_view> given;
    for (const std::string_view key : {"mass", "length", "marked", "before"})
        if (in.has(key)) given.push_back(key);
    // A scale says nothing new of a weight that is missing.
    if (!given.empty() || in.has("after"))
        refuse_lone_scale(in, weighed);
    else
        in.missing("mass", "mass and scale, or length",
                   "Weigh the swatch, or unravel it and measure its yarn.");
    if (given.size() > 1)
        in.fail(given[1], "the yarn of this swatch is given more than one way",
                "one of \"mass\", \"length\", \"marked\", or \"before\" and \"after\"",
                "Leave the others out, so that they cannot disagree.");
    const auto ends = in.parsed("ends", units::parse_length);
    if (!ends) return;
    swatch.ends = *ends;
    std::optional<units::Length> all = swatch.yarn;
    if (swatch.weighing && yarn.known != nullptr && yarn.known->grist)
        all = measure::net_mass(swatch.weighing->reading()).centre * yarn.known->grist->value;
    if (all && *ends >= *all)
        in.fail("ends", "the ends are all the yarn of the swatch", "less than its yarn");
}

/// Rows in notation, or stitches by kind: as the kinds they come to.
void read_swatch_kinds(TomlTable& in, const notation::NotationOptions& given,
                       const SourceText& source, ProblemList& problems, project::Swatch& swatch) {
    notation::NotationOptions options = given;
    options.sizes = 1;
    const std::size_t before = problems.size();
    project::WorkedRows work;
    if (rows_are_written(in)) {
        if (in.has("stitches"))
            in.fail("stitches", "the rows already say this", "it in the rows only",
                    "Leave this line out.");
        const auto rows = read_rows(in, options, source, problems);
        if (!rows.stated()) return;
        work = rows.at(0);
        swatch.rows = static_cast<double>(work.rows()) * units::row;
        for (const project::Finding& finding : work.findings)
            if (finding.severity == project::Severity::stop && problems.size() == before)
                problems.add({"rows: " + finding.what, finding.place,
                              "rows of the swatch as it was worked", finding.remedy});
    } else {
        const std::vector<project::KindCount> kinds = read_kinds(in, "stitches", 1);
        if (problems.size() != before) return;
        notation::WrittenRows all;
        all.counted = notation::CountedRows{1, kinds, {}, 1};
        const TomlValue& value = *in.value("stitches");
        options.locate = [&](std::size_t, std::size_t) { return source.place(value.offset); };
        notation::NotationResult result = notation::work_rows({all}, options);
        for (base::Problem& problem : result.problems) {
            problem.what = "stitches: " + problem.what;
            problems.add(std::move(problem));
        }
        if (problems.size() != before) return;
        work = std::move(result.rows);
        for (const project::Finding& finding : work.findings)
            if (finding.severity == project::Severity::stop)
                problems.add({"stitches: " + finding.what, finding.place,
                              "stitches that the terms have", finding.remedy});
        if (const auto rows = in.whole("rows", 1, largest_count))
            swatch.rows = static_cast<double>(*rows) * units::row;
    }
    if (in.has("stitch"))
        in.fail("stitch", "its stitches are told by kind already", "one of the two",
                "Leave this line out.");
    swatch.kinds = work.totals();
    for (const project::KindCount& chain : work.foundation.kinds) {
        const auto known =
            std::find_if(swatch.kinds.begin(), swatch.kinds.end(),
                         [&](const project::KindCount& kind) { return kind.kind == chain.kind; });
        if (known == swatch.kinds.end())
            swatch.kinds.push_back(chain);
        else
            known->count += chain.count;
    }
}

project::Gauge read_gauge_figures(TomlTable& in) {
    project::Gauge out;
    if (!in.has("stitches")) in.missing("stitches", "a line like stitches = \"13 per 10 cm\"");
    if (!in.has("rows")) in.missing("rows", "a line like rows = \"8 per 10 cm\"");
    out.stitches = stitch_gauge_in(in, "stitches").value_or(out.stitches);
    out.rows = row_gauge_in(in, "rows").value_or(out.rows);
    return out;
}

/// Other counts for the maker's gauge are within bounds too.
bool countable(const project::Project& project) {
    for (const project::Piece& piece : project.pieces)
        for (std::size_t size = 0; size < project.size_count(); ++size) {
            if (piece.pattern.stated()) continue;
            const project::PieceCounts counts = project::counts(project, piece, size);
            if (counts.rows > largest_count || counts.stitches > largest_count) return false;
        }
    return true;
}

bool positive(const project::Gauge& gauge) {
    return gauge.stitches.value() > 0.0 && gauge.rows.value() > 0.0;
}

}  // namespace

bool pair_given(TomlTable& in, std::string_view a, std::string_view b) {
    const bool first = in.has(a);
    const bool second = in.has(b);
    if (first != second)
        in.fail(first ? a : b, fmt::format("it needs \"{}\" as well", first ? b : a),
                fmt::format("both \"{}\" and \"{}\", or neither", a, b));
    return first || second;
}

std::string without_second_length(const std::string& text, const std::string& key,
                                  project::Role& role) {
    const std::size_t open = text.find('(');
    const std::size_t close = text.find(')', open);
    if (open == std::string::npos || close == std::string::npos) return text;
    const std::string before(base::trimmed(text.substr(0, open)));
    const auto one = units::parse_length(before);
    const std::string inner(base::trimmed(text.substr(open + 1, close - open - 1)));
    const auto other = units::parse_length(inner);
    if (!one || !other) return text;
    role.printed_twice.push_back({key, *one, *other});
    // Beyond rounding the worse of the two counts: of a total the larger, of a skein the shorter.
    const double apart = std::log(*other / *one);
    const bool worse = key == "total" ? apart > 0.0 : apart < 0.0;
    const bool rounded = std::abs(apart) <= yarn::same_length_within.value();
    return (worse && !rounded ? inner : before) + text.substr(close + 1);
}

void read_grist(TomlTable& in, project::Role& role) {
    const auto written = in.text("grist");
    if (!written) return;
    const std::string text = without_second_length(*written, "grist", role);
    if (text == *written)
        role.grist = in.printed("grist", units::parse_grist);
    else if (const auto value = units::parse_grist(text))
        role.grist = units::Printed<units::Grist>{text, *value};
    else
        in.fail("grist", value.problem().what, value.problem().expected, value.problem().remedy);
}

project::Swatch read_swatch(TomlTable& in, const OfYarn& yarn,
                            const notation::NotationOptions& options, const SourceText& source,
                            ProblemList& problems) {
    project::Swatch swatch;
    swatch.role = yarn.role;
    swatch.width = in.parsed("width", units::parse_length);
    swatch.height = in.parsed("height", units::parse_length);
    const bool measured = pair_given(in, "width", "height");
    const TomlValue* stitches = in.value("stitches");
    const bool by_kind =
        stitches != nullptr && std::holds_alternative<TomlValue::Table>(stitches->held);
    if (by_kind || rows_are_written(in)) {
        read_swatch_kinds(in, options, source, problems, swatch);
    } else {
        if (const auto count = in.whole("stitches", 1, largest_count))
            swatch.stitches = static_cast<double>(*count) * units::stitch;
        if (const auto rows = in.whole("rows", 1, largest_count))
            swatch.rows = static_cast<double>(*rows) * units::row;
        swatch.stitch = in.text("stitch").value_or(std::string());
        // Stitches alone are all that a marked length gave.
        const bool alone = in.has("marked") && in.has("stitches") && !in.has("rows");
        if (!alone && !pair_given(in, "stitches", "rows") && !measured)
            in.missing("stitches", "stitches and rows, or width and height",
                       "Count the swatch, or measure it.");
    }
    read_swatch_yarn(in, yarn, swatch);
    constexpr std::int64_t most_strands = 9;
    swatch.strands = in.whole("strands", 1, most_strands).value_or(0);
    in.finish();
    return swatch;
}

project::EarlierMake read_earlier_make(TomlTable& in, const OfYarn& yarn) {
    project::EarlierMake make;
    make.role = yarn.role;
    make.name = in.text("name").value_or(std::string());
    const auto width = in.parsed("width", units::parse_length);
    const auto height = in.parsed("height", units::parse_length);
    const auto area = in.parsed("area", units::parse_area);
    if (const auto stitches = in.whole("stitches", 1, most_stitches))
        make.stitches = static_cast<double>(*stitches) * units::stitch;
    const bool measured = pair_given(in, "width", "height");
    if (width && height) make.area = *width * *height;
    if (area) make.area = area;
    const int ways = (measured ? 1 : 0) + (in.has("area") ? 1 : 0) + (in.has("stitches") ? 1 : 0);
    const std::string one = "one of \"stitches\", \"area\", or \"width\" and \"height\"";
    if (ways == 0) in.missing("stitches", one, "Say how large it is, so that it can be compared.");
    if (ways > 1)
        in.fail(in.has("stitches") ? "stitches" : "area", "its size is given more than one way",
                one, "Leave the others out, so that they cannot disagree.");
    make.weighing = weighing(in);
    make.yarn = in.parsed("length", units::parse_length);
    if (in.has("mass")) needs_grist(in, "mass", yarn);
    refuse_lone_scale(in, in.has("mass"));
    if (!in.has("mass") && !in.has("length"))
        in.missing("mass", "mass and scale, or length",
                   "Weigh it, or say how much yarn went into it.");
    if (in.has("mass") && in.has("length"))
        in.fail("length", "its yarn is given more than one way", "\"mass\" or \"length\"",
                "Leave the other out, so that they cannot disagree.");
    make.stitch = in.text("stitch").value_or(std::string());
    if (!make.stitch.empty() && make.stitches)
        in.fail("stitches", "stitches of another kind than the gauge's tell nothing of its size",
                "\"area\", or \"width\" and \"height\"",
                "Measure that make, or leave stitch out when it is the gauge's.");
    make.finish = in.parsed("finish", units::parse_length).value_or(units::Length{});
    make.count = in.whole("count", 1, largest_count).value_or(1);
    in.finish();
    return make;
}

std::optional<project::Gauge> read_piece_gauge(TomlTable& in, const project::Gauge& usual) {
    if (!in.has("gauge")) return std::nullopt;
    auto table = in.table("gauge");
    if (!table) return std::nullopt;
    project::Gauge gauge = read_gauge_figures(*table);
    gauge.stitch = table->text("stitch").value_or(usual.stitch);
    gauge.hook = table->parsed("hook", yarn::parse_hook);
    gauge.needle = table->parsed("needle", yarn::parse_needle);
    table->finish();
    if (!positive(gauge)) return std::nullopt;
    return gauge;
}

void read_maker_gauge(TomlTable& top, project::Project& project) {
    if (!top.has("maker_gauge")) return;
    auto in = top.table("maker_gauge");
    if (!in) return;
    using project::Keeping;
    in->note_places("maker_gauge", project.places);
    project::Gauge maker = read_gauge_figures(*in);
    maker.stitch = project.gauge.stitch;
    maker.hook = in->parsed("hook", yarn::parse_hook);
    maker.needle = in->parsed("needle", yarn::parse_needle);
    if (!in->has("keep"))
        in->missing("keep", "\"stitch counts\" or \"size\"",
                    "Add keep = \"stitch counts\" to work the counts as written, in whatever size "
                    "they come out, or keep = \"size\" to work as many as the size needs.");
    const auto keeping = in->choice<Keeping>(
        "keep", {{"stitch counts", Keeping::stitch_counts}, {"size", Keeping::size}},
        Keeping::stitch_counts);
    const auto written = std::find_if(project.pieces.begin(), project.pieces.end(),
                                      [](const auto& piece) { return piece.pattern.stated(); });
    if (keeping == Keeping::size && written != project.pieces.end())
        in->fail("keep",
                 fmt::format("the rows of {} are written out stitch by stitch, and their counts "
                             "do not change by themselves",
                             in_quotes(written->name)),
                 "\"stitch counts\"",
                 "Write the rows for the counts you will work, or keep the stitch counts.");
    const auto blocks =
        std::find_if(project.pieces.begin(), project.pieces.end(), [](const auto& piece) {
            return piece.shape != nullptr && piece.shape->law == project::RowLaw::diagonal;
        });
    if (keeping == Keeping::size && blocks != project.pieces.end())
        in->fail("keep",
                 fmt::format("{} is counted in blocks, whose size a gauge does not tell",
                             in_quotes(blocks->name)),
                 "\"stitch counts\"",
                 "Measure a block of yours and give the blocks you will work, or keep the stitch "
                 "counts.");
    if (positive(maker) && positive(project.gauge)) {
        work_at(project, maker, keeping);
        if (!countable(project))
            in->fail("keep", "at these gauges a piece gets too many rows or stitches",
                     fmt::format("at most {}", largest_count), "Check both gauges.");
    }
    in->finish();
}

namespace {

/// Of two failed readings of one text, the one that came further; both expectations on a tie.
base::Problem further(const base::Problem& a, const base::Problem& b) {
    if (a.place.column != b.place.column) return a.place.column > b.place.column ? a : b;
    base::Problem both = a;
    if (a.expected != b.expected) both.expected += " or " + b.expected;
    // Only one of the two may know a unit that is near.
    const auto suggests = [](const base::Problem& p) { return p.remedy.starts_with("Did you"); };
    if (suggests(b) && !suggests(a)) both.remedy = b.remedy;
    return both;
}

}  // namespace

void read_rate(TomlTable& in, project::Role& role) {
    const auto text = in.text("rate");
    if (!text) return;
    const auto by_stitch = units::parse_yarn_per_stitch(*text);
    const auto by_area = units::parse_yarn_per_area(*text);
    if (by_stitch)
        role.rate = *by_stitch;
    else if (by_area)
        role.area_rate = *by_area;
    else
        in.fail_in_text("rate", *in.values("rate", std::nullopt).front(),
                        further(by_stitch.problem(), by_area.problem()));
}

}  // namespace skeinfall::exchange
