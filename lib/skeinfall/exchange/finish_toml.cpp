#include "skeinfall/exchange/finish_toml.hpp"

#include <algorithm>
#include <array>
#include <utility>
#include <vector>

#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/per_size.hpp"
#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/project/finishing.hpp"

namespace skeinfall::exchange {
namespace {

using project::FinishPart;
using project::PartKind;
using project::PerSize;

const project::FinishWay* way_of(TomlTable& in, std::string_view key, std::string_view part,
                                 project::Craft craft) {
    const auto name = in.text(key);
    if (!name) return nullptr;
    const project::FinishWay* way = project::find_finish_way(part, *name, craft);
    if (way != nullptr) return way;
    const std::vector<std::string> names = project::finish_way_names(part, craft);
    const auto near = base::nearest_name(*name, names);
    in.fail(key, "there is no " + std::string(part) + " called " + in_quotes(*name),
            base::join(names, ", "), base::did_you_mean(near));
    return nullptr;
}

class FinishReader {
  public:
    FinishReader(TomlTable& in, const project::Project& project, std::optional<std::size_t> sizes)
        : in_(in), project_(project), sizes_(sizes) {}

    FinishPart read(std::string role) {
        static const std::vector<std::pair<std::string, PartKind>> kinds{
            {"border", PartKind::border}, {"neckband", PartKind::neckband},
            {"seam", PartKind::seam},     {"joining", PartKind::joining},
            {"fringe", PartKind::fringe}, {"tassel", PartKind::tassel},
            {"pompom", PartKind::pompom}, {"swatch", PartKind::swatch},
            {"other", PartKind::other}};
        if (!in_.has("kind"))
            in_.missing("kind",
                        "\"border\", \"neckband\", \"seam\", \"joining\", \"fringe\", \"tassel\", "
                        "\"pompom\", \"swatch\" or \"other\"",
                        "Add a line like kind = \"border\".");
        part_.kind = in_.choice("kind", kinds, PartKind::other);
        for (const auto& [word, kind] : kinds)
            if (kind == part_.kind) part_.name = word;
        if (const TomlValue* given = in_.value("kind")) {
            const auto* text = std::get_if<std::string>(&given->held);
            kind_known_ =
                text != nullptr && std::any_of(kinds.begin(), kinds.end(), [&](const auto& one) {
                    return base::same_word(*text, one.first);
                });
        }
        part_.name = in_.text("name").value_or(part_.name);
        part_.role = std::move(role);
        part_.beyond_total = in_.flag("beyond_total").value_or(false);
        part_.yarn = read_lengths(in_, "takes", sizes_);
        part_.stitches = read_wholes(in_, "stitches", sizes_);
        read_along();
        read_rounds();
        read_of();
        read_copies();
        read_cut();
        check_ways();
        in_.finish();
        return std::move(part_);
    }

  private:
    [[nodiscard]] bool edging() const {
        return part_.kind == PartKind::border || part_.kind == PartKind::neckband;
    }

    void only_for(std::string_view key, bool fits, const char* what, std::string expected) {
        if (in_.has(key) && !fits && kind_known_) in_.fail(key, what, std::move(expected));
    }

    void read_along() {
        part_.length = read_lengths(in_, "along", sizes_);
        part_.factor = in_.number("factor", 0.001, 1000.0);
        const project::FinishWay* way = way_of(in_, "way", "seam", project_.craft);
        if (in_.has("way") && in_.has("factor"))
            in_.fail("way", "both a way to sew and its factor", "one of \"way\" and \"factor\"",
                     "Leave one out, so that they cannot disagree.");
        if (way != nullptr) part_.factor = way->times_length;
        const bool has_factor = in_.has("factor") || in_.has("way");
        if (in_.has("along") && !has_factor)
            in_.missing("way", "how it is sewn, as in way = \"mattress\", or factor = 3");
        if (has_factor && !in_.has("along") && part_.kind != PartKind::joining)
            in_.missing("along", "\"along\" as well");
    }

    void read_rounds() {
        if (auto rounds = read_wholes(in_, "rounds", sizes_); rounds.stated())
            part_.rounds = std::move(rounds);
        part_.first_round = read_wholes(in_, "first_round", sizes_);
        part_.increase = read_wholes(in_, "increase", sizes_, -largest_count);
        const project::FinishWay* way = way_of(in_, "bind_off", "bind-off", project_.craft);
        if (way != nullptr) part_.bind_off_rows = way->rows;
        for (const char* key : {"rounds", "first_round", "increase", "bind_off"})
            only_for(key, edging(), "only a border is worked in rounds",
                     "kind = \"border\" or \"neckband\"");
        const bool outright = in_.has("takes") || in_.has("along");
        if (in_.has("along") && in_.has("rounds"))
            in_.fail("rounds",
                     "\"along\" and \"factor\" hold all rounds, so this would count for "
                     "nothing",
                     "\"first_round\" in place of \"along\"",
                     "Leave rounds out, and let the factor be of all rounds together.");
        for (const char* key : {"increase", "bind_off"})
            if (in_.has(key) && outright)
                in_.fail(key,
                         "the yarn of this part is given outright, so this would count for "
                         "nothing",
                         "it beside \"first_round\", \"stitches\" or \"of\"",
                         "Leave this line out: what is given holds all of it.");
        if (edging() && part_.stitches.stated() && !in_.has("first_round")) {
            // So many in each round.
            part_.first_round = std::exchange(part_.stitches, {});
        } else if (in_.has("increase") && !outright && !in_.has("first_round") && !in_.has("of")) {
            in_.missing("first_round", "\"first_round\" or \"of\" as well");
        }
        if (!edging() || !part_.increase.stated() || !part_.first_round.stated()) return;
        for (std::size_t size = 0; size < sizes_.value_or(1); ++size)
            if (part_.first_round.at(size) + part_.increase.at(size) * (part_.rounds.at(size) - 1) <
                1)
                return in_.fail("increase", "no stitches are left in the last round",
                                "at least one stitch in each round",
                                "Take away fewer stitches, or work fewer rounds.");
    }

    void read_of() {
        part_.columns = read_wholes(in_, "columns", sizes_);
        part_.of = in_.text("of").value_or("");
        only_for("of", edging() || part_.kind == PartKind::joining,
                 "only motifs are joined or edged as a whole",
                 "kind = \"joining\", \"border\" or \"neckband\"");
        if (in_.has("columns") && !in_.has("of")) in_.missing("of", "\"of\" as well");
        if (part_.of.empty()) return;
        std::vector<std::string> names;
        for (const project::Piece& piece : project_.pieces) names.push_back(piece.name);
        if (std::find(names.begin(), names.end(), part_.of) != names.end()) return;
        const auto near = base::nearest_name(part_.of, names);
        in_.fail("of", "there is no piece called " + in_quotes(part_.of), base::join(names, ", "),
                 base::did_you_mean(near));
    }

    void read_copies() {
        if (part_.kind == PartKind::tassel || part_.kind == PartKind::pompom) return;
        part_.copies = read_wholes(in_, "count", sizes_);
        only_for("count", part_.kind != PartKind::joining && part_.of.empty(),
                 "motifs that are joined are joined or edged as a whole", "no \"count\" here");
    }

    /// Strands cut to a length, or wraps round a card.
    void read_cut() {
        const bool wound = part_.kind == PartKind::tassel || part_.kind == PartKind::pompom;
        PerSize<std::int64_t> count;
        if (wound) count = read_wholes(in_, "count", sizes_);
        const auto strands = read_wholes(in_, "strands", sizes_);
        part_.strands = strands;
        const auto wraps = read_wholes(in_, "wraps", sizes_);
        const auto cut = read_lengths(in_, "cut", sizes_);
        const auto across = read_lengths(in_, "across", sizes_);
        told_by_strands_ = wound && (in_.has("strands") || in_.has("cut"));
        if (told_by_strands_)
            return in_.fail(
                in_.has("cut") ? "cut" : "strands", "a tassel or a pompom is wound and then cut",
                "\"wraps\" with \"across\"",
                "Its strands are folded in half: give half of their length as across, and "
                "as many wraps as one has strands.");
        for (const char* key : {"strands", "cut"})
            only_for(key, part_.kind == PartKind::fringe, "only a fringe is cut so",
                     "kind = \"fringe\"");
        for (const char* key : {"wraps", "across"})
            only_for(key, wound, "only tassels and pompoms are wrapped",
                     "kind = \"tassel\" or \"pompom\"");
        if (in_.has("strands") != in_.has("cut"))
            in_.missing(in_.has("cut") ? "strands" : "cut", "\"strands\" and \"cut\" together");
        if (in_.has("wraps") != in_.has("across") ||
            (wound && in_.has("count") && !in_.has("wraps")))
            in_.missing(in_.has("wraps") ? "across" : "wraps", "\"wraps\" and \"across\" together");
        if (strands.stated() && cut.stated())
            each_size(strands.values.size() == 1 && cut.values.size() == 1, [&](std::size_t size) {
                return project::fringe_yarn(strands.at(size), cut.at(size));
            });
        if (!wraps.stated() || !across.stated() || !wound) return;
        const auto yarn =
            part_.kind == PartKind::tassel ? project::tassel_yarn : project::pompom_yarn;
        if (!count.stated()) count = 1;
        each_size(count.values.size() == 1 && wraps.values.size() == 1 && across.values.size() == 1,
                  [&](std::size_t size) {
                      return yarn(count.at(size), wraps.at(size), across.at(size));
                  });
    }

    /// The yarn of the part, once where none of its figures is a list.
    template <class YarnOf>
    void each_size(bool once, YarnOf yarn_of) {
        const std::size_t sizes = once ? 1 : sizes_.value_or(1);
        part_.yarn.values.clear();
        for (std::size_t size = 0; size < sizes; ++size) part_.yarn.values.push_back(yarn_of(size));
    }

    void check_ways() {
        static constexpr std::array ways{"takes", "stitches", "along", "first_round",
                                         "of",    "strands",  "wraps"};
        std::string_view last;
        int given = 0;
        for (const char* way : ways)
            if (in_.has(way)) {
                last = way;
                ++given;
            }
        std::string one =
            "one of takes = \"30 yd\", stitches = 120, or along = \"1.2 m\" with way = "
            "\"mattress\"";
        if (edging()) one += ", or \"first_round\", or \"of\" a piece";
        if (part_.kind == PartKind::joining) one += ", or \"of\" a piece";
        if (part_.kind == PartKind::fringe) one += ", or \"strands\" with \"cut\"";
        if (part_.kind == PartKind::tassel || part_.kind == PartKind::pompom)
            one += ", or \"wraps\" with \"across\"";
        if (given == 0 && !told_by_strands_ && kind_known_) in_.missing("takes", one);
        if (given > 1)
            in_.fail(last, "the yarn of this part is given more than one way", one,
                     "Leave the others out, so that they cannot disagree.");
    }

    TomlTable& in_;
    const project::Project& project_;
    std::optional<std::size_t> sizes_;
    FinishPart part_;
    bool kind_known_ = true;        // what it takes does not follow from a word that is misspelt
    bool told_by_strands_ = false;  ///< as it cannot be; said already
};

}  // namespace

FinishPart read_finish_part(TomlTable& in, const project::Project& project,
                            std::optional<std::size_t> sizes, std::string role) {
    return FinishReader(in, project, sizes).read(std::move(role));
}

void read_ends(TomlTable& in, const project::Project& project, project::Piece& piece) {
    piece.foundation_rows = in.number("foundation_rows", 0.0, 1000.0);
    piece.bind_off_rows = in.number("bind_off_rows", 0.0, 1000.0);
    const project::FinishWay* foundation = way_of(in, "foundation", "foundation", project.craft);
    const project::FinishWay* bind_off = way_of(in, "bind_off", "bind-off", project.craft);
    for (const auto& [name, figure] :
         {std::pair{"foundation", "foundation_rows"}, std::pair{"bind_off", "bind_off_rows"}})
        if (in.has(name) && in.has(figure))
            in.fail(figure, "both a name and a figure",
                    std::string("one of \"") + name + "\" and \"" + figure + "\"",
                    "Leave one out, so that they cannot disagree.");
    if (foundation != nullptr) piece.foundation_rows = foundation->rows;
    if (bind_off != nullptr) piece.bind_off_rows = bind_off->rows;
}

}  // namespace skeinfall::exchange
