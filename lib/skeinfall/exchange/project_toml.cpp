#include "skeinfall/exchange/project_toml.hpp"

#include <algorithm>
#include <cstdint>
#include <optional>
#include <set>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "skeinfall/base/count.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/file_kind.hpp"
#include "skeinfall/exchange/finish_toml.hpp"
#include "skeinfall/exchange/gauge_fields.hpp"
#include "skeinfall/exchange/joining_toml.hpp"
#include "skeinfall/exchange/materials_toml.hpp"
#include "skeinfall/exchange/pattern_toml.hpp"
#include "skeinfall/exchange/per_size.hpp"
#include "skeinfall/exchange/rates_toml.hpp"
#include "skeinfall/exchange/rows_toml.hpp"
#include "skeinfall/exchange/shapes_toml.hpp"
#include "skeinfall/exchange/text_file.hpp"
#include "skeinfall/exchange/toml_reader.hpp"
#include "skeinfall/exchange/total_share.hpp"
#include "skeinfall/exchange/yarn_toml.hpp"
#include "skeinfall/project/edging.hpp"
#include "skeinfall/project/makes_like_it.hpp"
#include "skeinfall/yarn/tools.hpp"

namespace skeinfall::exchange {
namespace {

using project::PerSize;

constexpr std::size_t most_sizes = 100;
constexpr std::size_t most_yarns = 100;
/// The yarn of all of them is shared out together.
constexpr std::size_t most_pieces = 300;
constexpr std::size_t most_of_a_kind = 1000;
constexpr std::size_t longest_role_id = 20;

bool in_role_id(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' ||
           c == '_';
}

class ProjectReader {
  public:
    ProjectReader(std::string_view text, const std::string& file, const project::Defaults& defaults)
        : source_(text, file), usual_rates_(defaults.rates) {
        project_.file = file;
        project_.terms = defaults.terms.value_or(project_.terms);
        project_.margin = defaults.margin.value_or(project_.margin);
        project_.tail = defaults.tail.value_or(project_.tail);
        project_.hand = defaults.hand;
    }

    project::Project read() {
        const TomlValue tree = parse_toml(source_);
        TomlTable top(tree, source_, problems_);
        read_top(top);
        read_gauge(top);
        read_roles(top);
        supply_gauge(top);
        read_stitches(top);
        read_each(top, "swatch", &ProjectReader::read_swatch);
        read_each(top, "earlier_make", &ProjectReader::read_earlier_make);
        read_each(top, "piece", &ProjectReader::read_piece);
        read_whole_pattern(top);
        read_each(top, "finish", &ProjectReader::read_finish);
        read_maker_gauge(top, project_);
        read_materials(top, project_);
        if (!top.has("piece") && !top.has("pattern") && !top.has("pattern_file") && !total_given_ &&
            !project_.roles.empty())
            top.missing("piece", "at least one [[piece]], or a total for a yarn",
                        "Add a [[piece]] table, or a line like total = \"380 yd\" to a yarn.");
        top.finish();
        problems_.throw_if_any();
        project::grow_with_sizes(project_);
        if (!share_totals(project_)) {
            refuse_one_total_for_a_grid(top);
            problems_.throw_if_any();
        }
        project::add_usual_rates(project_, usual_rates_);
        return std::move(project_);
    }

  private:
    void read_top(TomlTable& top) {
        using project::Craft;
        using project::Recipient;
        using project::Terms;
        project_.title = top.required_text("title", "Name of the project");
        project_.craft = top.choice<Craft>(
            "craft", {{"crochet", Craft::crochet}, {"knit", Craft::knit}}, Craft::crochet);
        project_.terms =
            top.choice<Terms>("terms", {{"US", Terms::us}, {"UK", Terms::uk}}, project_.terms);
        project_.made_for = top.choice<Recipient>("made_for",
                                                  {{"adult", Recipient::adult},
                                                   {"child", Recipient::child},
                                                   {"infant", Recipient::infant},
                                                   {"kitchen heat", Recipient::kitchen_heat}},
                                                  Recipient::adult);
        project_.skill = top.text("skill").value_or(std::string());
        project_.margin = top.parsed("margin", units::parse_percent).value_or(project_.margin);
        if (project_.margin.value() > 1.0)
            top.fail("margin", "a margin above the need itself", "0 % to 100 %");
        project_.notions = top.texts("notions");
        project_.care = top.texts("care");
        project_.tail = top.parsed("tail", units::parse_length).value_or(project_.tail);
        project_.rows_between_joins = top.whole("rows_between_joins", 0, largest_count).value_or(0);
        read_sizes(top);
    }

    /// "widths" and "lengths": every one of them with every other, named after both.
    void read_grid(TomlTable& top) {
        project::SizeGrid grid;
        grid.widths = top.texts("widths");
        grid.lengths = top.texts("lengths");
        grid_widths_ = read_lengths(top, "widths", top.list_size("widths"));
        grid_lengths_ = read_lengths(top, "lengths", top.list_size("lengths"));
        if (top.has("sizes")) {
            top.fail("sizes", "both sizes and a grid of widths and lengths", "one of them",
                     "Leave one of them out.");
            // Nothing that differs by size can be judged.
            problems_.throw_if_any();
        }
        const std::size_t count = std::max<std::size_t>(1, grid.widths.size()) *
                                  std::max<std::size_t>(1, grid.lengths.size());
        if ((grid.widths.empty() && grid.lengths.empty()) || count > most_sizes) {
            top.fail(top.has("widths") ? "widths" : "lengths",
                     grid.widths.empty() && grid.lengths.empty()
                         ? std::string("a grid of no sizes")
                         : fmt::format("{} widths by {} lengths are {} sizes", grid.widths.size(),
                                       grid.lengths.size(), count),
                     fmt::format("1 to {} sizes in all", most_sizes));
            problems_.throw_if_any();
        }
        const auto or_none = [](const std::vector<std::string>& texts) {
            return texts.empty() ? std::vector<std::string>{""} : texts;
        };
        for (const std::string& width : or_none(grid.widths))
            for (const std::string& length : or_none(grid.lengths))
                project_.sizes.push_back(width.empty()    ? length
                                         : length.empty() ? width
                                                          : width + " x " + length);
        sizes_ = project_.sizes.size();
        std::set<std::string> seen;
        for (const std::string& size : project_.sizes)
            if (!seen.insert(size).second)
                top.fail(grid.widths.empty() ? "lengths" : "widths",
                         "the size " + in_quotes(size) + " is there twice", "each size once");
        project_.grid = std::move(grid);
        // Figures that are wrong were told; what rests on them need not be.
        problems_.throw_if_any();
    }

    /// One total would count for the smallest size and the largest alike.
    void refuse_one_total_for_a_grid(TomlTable& top) {
        if (!project_.grid || sizes_.value_or(1) < 2) return;
        for (const project::Role& role : project_.roles)
            if (role.total_length.values.size() == 1 || role.total_mass.values.size() == 1)
                top.fail(top.has("lengths") ? "lengths" : "widths",
                         fmt::format("yarn {} has one total for {} sizes", role.id, *sizes_),
                         "a total for every size of the grid, or a swatch or a rate, which tell "
                         "them all",
                         "Which size the total is for is not said: make it a list, or leave it "
                         "out and add a swatch.");
    }

    /// What the grid says of a piece that says nothing of its own.
    void take_from_grid(TomlTable& in, project::Piece& piece) {
        if (!project_.grid) return;
        const std::size_t lengths = std::max<std::size_t>(1, project_.grid->lengths.size());
        const bool width = grid_widths_.stated() && !in.has("stitches") && !in.has("width");
        const bool length = grid_lengths_.stated() && !in.has("rows") && !in.has("length");
        for (std::size_t size = 0; size < project_.sizes.size(); ++size) {
            if (width) piece.width.values.push_back(grid_widths_.values[size / lengths]);
            if (length) piece.length.values.push_back(grid_lengths_.values[size % lengths]);
        }
    }

    void read_sizes(TomlTable& top) {
        if (top.has("widths") || top.has("lengths")) return read_grid(top);
        project_.sizes = top.texts("sizes");
        const auto count = top.list_size("sizes");
        if (!count) return;
        if (*count == 0 || *count > most_sizes) {
            top.fail("sizes", fmt::format("{} sizes", *count),
                     fmt::format("a list of 1 to {} sizes", most_sizes),
                     "Leave the key out when there is one size.");
            // Nothing that differs by size can be judged.
            problems_.throw_if_any();
        }
        sizes_ = count;
        std::set<std::string> seen;
        for (const std::string& size : project_.sizes)
            if (!seen.insert(size).second)
                top.fail("sizes", "the size " + in_quotes(size) + " is there twice",
                         "each size once");
    }

    void read_gauge(TomlTable& top) {
        // A bare total is worked at no gauge.
        if (!top.has("gauge") && top.has("yarn") && !top.has("piece") && !top.has("swatch") &&
            !top.has("finish"))
            return;
        if (!top.has("gauge"))
            top.missing("gauge", "a [gauge] table",
                        "Add [gauge] with lines like stitches = \"13 per 10 cm\", rows = \"8 per "
                        "10 cm\" and stitch = \"hdc\".");
        auto in = top.table("gauge");
        if (!in) return;
        in->note_places("gauge", project_.places);
        project::Gauge& gauge = project_.gauge;
        gauge.usual = !in->has("stitches") && !in->has("rows");
        if (!in->has("stitches") && !gauge.usual)
            in->missing("stitches", "a line like stitches = \"13 per 10 cm\"");
        if (!in->has("rows") && !gauge.usual)
            in->missing("rows", "a line like rows = \"8 per 10 cm\"");
        const auto stitches = stitch_gauge_in(*in, "stitches");
        const auto rows = row_gauge_in(*in, "rows");
        gauge_known_ = stitches && rows;
        gauge.stitches = stitches.value_or(gauge.stitches);
        gauge.rows = rows.value_or(gauge.rows);
        gauge.stitch = in->required_text(
            "stitch", project_.craft == project::Craft::knit ? "stockinette" : "hdc");
        gauge.hook = in->parsed("hook", yarn::parse_hook);
        gauge.needle = in->parsed("needle", yarn::parse_needle);
        gauge.laid_out = !in->flag("counted").value_or(true);
        gauge.unwashed_stitches = stitch_gauge_in(*in, "unwashed_stitches");
        gauge.unwashed_rows = row_gauge_in(*in, "unwashed_rows");
        in->finish();
    }

    /// Where nobody counted the gauge: that of fabrics like it.
    void supply_gauge(TomlTable& top) {
        project::Gauge& gauge = project_.gauge;
        if (!gauge.usual) return;
        for (const project::Role& role : project_.roles) {
            const auto usual = project::usual_gauge(project::fabric_of(project_, role));
            if (!usual) continue;
            gauge.stitches = usual->stitches;
            gauge.rows = usual->rows;
            gauge_known_ = true;
            return;
        }
        if (project_.roles.empty()) return;
        top.fail("gauge",
                 "it has neither stitches and rows, nor a hook or needle or a yarn's class or "
                 "grist, by which they can be guessed",
                 "stitches and rows, or one of the others",
                 "Add stitches = \"13 per 10 cm\" and rows = \"8 per 10 cm\" to [gauge], or a line "
                 "like class = 4 to the yarn.");
    }

    void read_roles(TomlTable& top) {
        const std::size_t before = problems_.size();
        const auto tables = top.named_tables("yarn");
        if (tables.empty() && problems_.size() > before) return;
        if (tables.empty()) {
            const std::string expected = "at least one yarn, in a table like [yarn.MC]";
            const std::string remedy = "Add [yarn.MC] with a line like grist = \"200 yd / 100 g\".";
            if (!top.has("yarn"))
                top.missing("yarn", expected, remedy);
            else
                top.fail("yarn", "no yarn is described in it", expected, remedy);
            return;
        }
        if (tables.size() > most_yarns) {
            top.fail("yarn", fmt::format("{} yarns", tables.size()),
                     fmt::format("at most {} yarns", most_yarns));
            return;
        }
        for (auto [id, table] : tables) {
            if (id.empty() || id.size() > longest_role_id ||
                !std::all_of(id.begin(), id.end(), in_role_id))
                table.fail("", in_quotes(id) + " cannot name a yarn",
                           fmt::format("up to {} letters without accents, digits, \"-\" or \"_\"",
                                       longest_role_id),
                           "Name the yarns MC, CC1, CC2 and so on.");
            table.note_places("yarn." + id, project_.places);
            read_role(id, table);
        }
    }

    void read_role(const std::string& id, TomlTable& in) {
        using project::TotalBasis;
        project::Role role;
        role.id = id;
        role.name = in.text("name").value_or(std::string());
        role.colour = in.text("colour").value_or(std::string());
        read_class(in, role);
        read_grist(in, role);
        role.fibre = in.parsed("fibre", yarn::parse_fibre_content).value_or(yarn::FibreContent{});
        read_avoided(in, role);
        read_label_tolerance(in, role);
        role.one_lot = in.flag("one_lot").value_or(true);
        role.total_basis = in.choice<TotalBasis>(
            "counted",
            {{"measured", TotalBasis::measured}, {"whole skeins", TotalBasis::whole_skeins}},
            TotalBasis::measured);
        if (in.has("grist")) with_grist_.insert(id);
        if (in.has("total")) total_given_ = true;
        read_total(in, role, sizes_);
        read_rate(in, role);
        read_joining(in, project_, role);
        read_colours(in, role);
        if (const auto rows = in.whole("total_for_rows", 1, largest_count)) {
            role.total_for = static_cast<double>(*rows) * units::row;
            if (!in.has("total"))
                in.fail("total_for_rows", "there is no total it could belong to", "a total as well",
                        "Add a line like total = \"380 yd\", or leave this one out.");
        }
        read_total_size(in, project_.sizes, role);
        if (in.has("counted") && !in.has("total"))
            in.fail("counted", "there is no total it could belong to", "a total as well",
                    "Add a line like total = \"380 yd\", or leave this one out.");
        in.finish();
        project_.roles.push_back(std::move(role));
    }

    /// The key "yarn"; the only yarn when it is left out.
    std::string role_of(TomlTable& in) {
        const auto id = in.text("yarn");
        if (project_.roles.empty()) return {};
        std::vector<std::string> ids;
        for (const project::Role& role : project_.roles) ids.push_back(role.id);
        if (!in.has("yarn")) {
            if (ids.size() == 1) return ids.front();
            in.missing("yarn", "one of " + base::join(ids, ", "),
                       "Add a line like yarn = \"" + ids.front() + "\".");
        } else if (id && project_.role(*id) == nullptr) {
            const auto near = base::nearest_name(*id, ids);
            in.fail("yarn", "no yarn " + in_quotes(*id) + " is described",
                    "one of " + base::join(ids, ", "),
                    base::did_you_mean(near, "Describe it in a [yarn.NAME] table."));
        }
        return id.value_or(std::string());
    }

    OfYarn of_yarn(TomlTable& in) {
        const std::string id = role_of(in);
        return {id, project_.role(id), with_grist_.contains(id)};
    }

    void read_swatch(TomlTable& in) {
        project_.swatches.push_back(
            exchange::read_swatch(in, of_yarn(in), notation_options(false), source_, problems_));
    }

    void read_earlier_make(TomlTable& in) {
        project_.earlier_makes.push_back(exchange::read_earlier_make(in, of_yarn(in)));
    }

    /// The tables of an array, each with its place noted.
    void read_each(TomlTable& top, const std::string& name,
                   void (ProjectReader::*read_one)(TomlTable&)) {
        std::size_t number = 0;
        std::vector<TomlTable> tables = top.tables(name);
        const std::size_t most = name == "piece" ? most_pieces : most_of_a_kind;
        if (tables.size() > most)
            return top.fail(name, fmt::format("{} tables [[{}]]", tables.size(), name),
                            fmt::format("at most {}", most),
                            name == "piece" ? "Write alike pieces once, with count." : "");
        for (TomlTable& table : tables) {
            table.note_places(fmt::format("{}.{}", name, number++), project_.places);
            (this->*read_one)(table);
        }
    }

    void read_stripes(TomlTable& in, project::Piece& piece) {
        if (in.has("yarn"))
            in.fail("yarn", "both a yarn and stripes", "one of them",
                    "Give the yarns in the stripes only.");
        for (TomlTable& table : in.tables("stripes")) {
            project::Stripe stripe;
            stripe.role = role_of(table);
            if (!table.has("rows"))
                table.missing("rows", "a whole number",
                              "Write it like { yarn = \"MC\", rows = 4 }.");
            stripe.rows = table.whole("rows", 1, largest_count).value_or(1);
            table.finish();
            piece.stripes.push_back(std::move(stripe));
        }
        if (piece.stripes.empty())
            in.fail("stripes", "there is no stripe in it", "at least one stripe",
                    "Write it like stripes = [{ yarn = \"MC\", rows = 4 }].");
    }

    /// At least one of two keys for one thing. Where both are there the first counts, and
    /// need::check() tells whether they agree.
    static void at_least_one(TomlTable& in, std::string_view a, std::string_view b) {
        if (!in.has(a) && !in.has(b)) in.missing(a, fmt::format("\"{}\" or \"{}\"", a, b));
    }

    void read_stitches(TomlTable& top) {
        const std::size_t before = problems_.size();
        project_.stitches = read_own_stitches(top, source_);
        if (problems_.size() == before)
            for (base::Problem& problem : notation::problems_of_own(notation_options(false)))
                problems_.add(std::move(problem));
        stitches_fine_ = problems_.size() == before;
    }

    [[nodiscard]] notation::NotationOptions notation_options(bool round) const {
        notation::NotationOptions options;
        const auto held = [](const project::Role& role) {
            return !role.held_with.empty() || role.states_total();
        };
        options.strands_known =
            std::any_of(project_.roles.begin(), project_.roles.end(), held) ||
            std::any_of(project_.swatches.begin(), project_.swatches.end(),
                        [](const project::Swatch& swatch) { return swatch.strands > 1; });
        options.craft = project_.craft;
        options.terms = project_.terms;
        options.round = round;
        options.sizes = sizes_.value_or(1);
        options.own = project_.stitches;
        if (project_.gauge.rows.value() > 0.0) options.row_gauge = project_.gauge.rows;
        return options;
    }

    void read_whole_pattern(TomlTable& top) {
        refuse_what_is_not_read(top);
        if (!top.has("pattern") && !top.has("pattern_file")) return;
        if (project_.roles.empty() || !stitches_fine_) {
            static_cast<void>(top.value("pattern"));
            static_cast<void>(top.text("pattern_file"));
            return;
        }
        for (project::Piece& piece : read_pattern(top, notation_options(false),
                                                  project_.roles.front().id, source_, problems_))
            project_.pieces.push_back(std::move(piece));
    }

    /// Rows in notation instead of counts. What they say must not be said again.
    void read_written_rows(TomlTable& in, project::Piece& piece) {
        for (const std::string_view key : {"stitches", "increase", "every"})
            if (in.has(key))
                in.fail(key, "the rows already say this", "it in the rows only",
                        "Leave this line out.");
        if (stitches_fine_)
            piece.pattern =
                read_rows(in,
                          with_yarns(notation_options(piece.worked == project::Worked::round),
                                     project_.roles, piece),
                          source_, problems_);
        piece.written = written_entries(in);
        take_stripes(in, piece);
        if (!piece.count.stated() || !piece.pattern.stated()) return;
        for (std::size_t size = 0; size < sizes_.value_or(1); ++size)
            if (!add_rows(in, "rows", piece.pattern.at(size).rows(), piece.count.at(size))) return;
    }

    /// False, and a problem, with the piece that makes them too many.
    bool add_rows(TomlTable& in, std::string_view key, std::int64_t rows, std::int64_t copies) {
        using project::most_rows_in_all;
        const bool had_room = rows_in_all_ <= most_rows_in_all;
        base::add_count(rows_in_all_, base::product(rows, copies));
        if (!had_room || rows_in_all_ <= most_rows_in_all) return true;
        too_many(in, key, "rows in the project up to here, all sizes together", most_rows_in_all);
        return false;
    }

    void read_piece(TomlTable& in) {
        using project::Edge;
        using project::Worked;
        project::Piece piece;
        piece.name = in.required_text("name", "Body");
        if (in.has("stripes"))
            read_stripes(in, piece);
        else
            piece.role = role_of(in);
        piece.carry_at_most = in.parsed("carry_at_most", units::parse_length);
        if (in.has("carry_at_most") && !in.has("stripes"))
            in.fail("carry_at_most", "only between stripes a yarn rests", "it beside stripes",
                    "Leave this line out.");
        piece.worked = in.choice<Worked>(
            "worked", {{"flat", Worked::flat}, {"round", Worked::round}}, Worked::flat);
        piece.edge = in.choice<Edge>("edge",
                                     {{"visible", Edge::visible},
                                      {"seamed", Edge::seamed},
                                      {"left seamed", Edge::left_seamed},
                                      {"right seamed", Edge::right_seamed}},
                                     Edge::visible);
        read_join_places(in, piece);
        piece.gauge = read_piece_gauge(in, project_.gauge);
        piece.count = in.has("count") ? read_wholes(in, "count", sizes_) : PerSize<std::int64_t>(1);
        piece.length = read_lengths(in, "length", sizes_);
        piece.width = read_lengths(in, "width", sizes_);
        piece.multiple = in.parsed("multiple", project::parse_multiple);
        piece.row_multiple = in.parsed("row_multiple", project::parse_row_multiple);
        const bool written = rows_are_written(in);
        if (written) {
            read_written_rows(in, piece);
        } else {
            take_from_grid(in, piece);
            piece.rows = read_row_count(in, sizes_);
            piece.stitches = read_wholes(in, "stitches", sizes_);
            piece.increase = read_wholes(in, "increase", sizes_, -largest_count);
            if (auto every = read_wholes(in, "every", sizes_); every.stated())
                piece.every = std::move(every);
        }
        read_ends(in, project_, piece);
        const bool shaped = read_shape(in, project_, sizes_, piece);
        if (written && shaped)
            in.fail("shape", "the rows already say this", "one of shape and rows", "Leave it out.");
        if (!written) {
            if (!shaped) {
                if (!piece.length.stated()) at_least_one(in, "rows", "length");
                if (!piece.width.stated()) at_least_one(in, "stitches", "width");
            }
            if (!shaped || problems_.size() == 0) check_counts(in, piece);
        }
        in.finish();
        project_.pieces.push_back(std::move(piece));
    }

    /// Counts that follow from measurements and increases must make sense as well.
    void check_counts(TomlTable& in, const project::Piece& piece) {
        if (!gauge_known_ || !piece.count.stated() ||
            (piece.shape == nullptr && (!(piece.rows.stated() || piece.length.stated()) ||
                                        !(piece.stitches.stated() || piece.width.stated()))))
            return;
        for (std::size_t size = 0; size < sizes_.value_or(1); ++size) {
            constexpr auto limit = static_cast<double>(largest_count);
            const project::Gauge& gauge = gauge_of(project_, piece);
            if (piece.length.stated() && piece.length.at(size) * gauge.rows / units::row > limit)
                return too_many(in, "length", "rows");
            if (piece.width.stated() &&
                piece.width.at(size) * gauge.stitches / units::stitch > limit)
                return too_many(in, "width", "stitches");
            const project::PieceCounts counts = project::counts(project_, piece, size);
            if (counts.rows > largest_count) return too_many(in, "shape", "rows");
            const std::int64_t last =
                piece.shape == nullptr
                    ? counts.stitches + counts.increase * ((counts.rows - 1) / counts.every)
                    : project::stitches_in_row(counts, piece, counts.rows);
            if (last > largest_count) return too_many(in, "increase", "stitches in its last row");
            if (last < 1) {
                in.fail("increase", fmt::format("no stitches are left in row {}", counts.rows),
                        "at least one stitch in the last row",
                        "Take away fewer stitches, or work fewer rows.");
                return;
            }
            if (!add_rows(in, piece.length.stated() ? "length" : "rows", counts.rows,
                          piece.count.at(size)))
                return;
        }
    }

    static void too_many(TomlTable& in, std::string_view key, std::string_view what,
                         std::int64_t most = largest_count) {
        in.fail(key, fmt::format("this makes too many {}", what), fmt::format("at most {}", most),
                "Check the figure and its unit.");
    }

    void read_finish(TomlTable& in) {
        project_.finish.push_back(read_finish_part(in, project_, sizes_, role_of(in)));
    }

    SourceText source_;
    const std::vector<project::UsualRate>& usual_rates_;
    ProblemList problems_;
    project::Project project_;
    std::optional<std::size_t> sizes_;  // nothing when the project names none
    PerSize<units::Length> grid_widths_;
    PerSize<units::Length> grid_lengths_;
    bool gauge_known_ = false;
    bool stitches_fine_ = true;
    std::set<std::string> with_grist_;
    bool total_given_ = false;
    std::int64_t rows_in_all_ = 0;  // of the pieces so far, in all sizes
};

}  // namespace

project::Project parse_project(std::string_view text, const std::string& file,
                               const project::Defaults& defaults) {
    return ProjectReader(text, file, defaults).read();
}

project::Project read_project(const std::filesystem::path& path,
                              const project::Defaults& defaults) {
    const std::string text = read_text_file(path);
    try {
        return parse_project(text, path.string(), defaults);
    } catch (const base::InputError&) {
        // What is another kind of file has no single mistake.
        if (const auto other = other_kind(text, path.string(), Wanted::project))
            throw base::InputError(*other);
        throw;
    }
}

}  // namespace skeinfall::exchange
