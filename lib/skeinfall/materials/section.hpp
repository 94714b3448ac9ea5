#pragma once
/// \file
/// A designer's materials section as data: what a maker must have, for every size. Renderers in
/// report turn it into words.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "skeinfall/fit/fit.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/need/testers.hpp"
#include "skeinfall/project/project.hpp"
#include "skeinfall/units/quantity.hpp"
#include "skeinfall/yarn/yarn.hpp"

namespace skeinfall::materials {

/// What a total rests on, before its margin.
/// `estimate`: figures of others or a model, nothing of this yarn was weighed.
enum class Basis { swatch, stated_rate, stated_total, own_make, whole_skeins, testers, estimate };

/// The yarn of one role. Lists have one entry a size.
struct YarnLine {
    std::string role;
    std::string name;
    std::string colour;
    std::optional<yarn::WeightClass> weight;
    yarn::FibreContent fibre;
    std::optional<units::Grist> grist;
    yarn::Label put_up;                ///< of one skein, when the project states it
    std::vector<units::Length> model;  ///< by rows and stitches, or as stated; no margin
    /// How far makers may lie from the model's figure, relative: their hands, and what it rests on.
    std::vector<units::Ratio> spread;
    std::vector<units::Length> total;  ///< what is printed, not rounded
    std::vector<std::int64_t> skeins;  ///< whole skeins; empty without a put-up
    /// What those skeins hold by their labels: no total is printed above it. Empty without them.
    std::vector<units::Length> skeins_hold;
    bool for_most = false;  ///< the total is what Section::within of makers stay within
    Basis basis = Basis::swatch;
    std::string how;              ///< how the model's figure was found, for other programs
    need::TesterSummary testers;  ///< empty without returns
    bool one_lot = true;
    std::string held_with;     ///< the role it is worked together with
    std::int64_t strands = 1;  ///< of it that are held together; the total is of all of them
    std::vector<project::ColourRun> runs;  ///< of a colour-changing yarn, one repeat
    std::string begins_with;         ///< the colour of it with which every piece begins; else empty
    std::vector<std::string> avoid;  ///< fibres that it must not hold
};

struct FinishedLine {
    std::string piece;
    std::vector<std::int64_t> count;
    std::vector<project::FinishedSize> size;
    bool round = false;   ///< width is a circumference
    bool centre = false;  ///< worked from its centre: width is a diameter
    bool joined = false;  ///< all its copies as they are joined
};

/// What the recipient must be warned of; the words are a table of the renderers.
enum class Caution {
    melts,          ///< fibres of the yarns soften near kitchen heat
    known_content,  ///< near heat
    heat_passes,
    infant_cords,
    infant_sleep,
    infant_skin,
    child_cords,
    avoided,  ///< fibres that a yarn is not to hold
    allergy
};
struct CautionLine {
    Caution caution{};
    std::vector<std::string> fibres;  ///< those that melt, or that are avoided
};

/// What the largest piece takes more when it is worked wider or longer. Counts are exact.
struct Adjustment {
    /// Of motifs `stitches` are those of a column and `rows` those of a row.
    fit::EachMore::Of of = fit::EachMore::Of::stitches;
    std::string piece;
    std::vector<std::string> alike;  ///< as wide as it, made wider and longer with it: the front
    bool round = false;              ///< rows are rounds
    std::int64_t copies = 1;         ///< of it; the yarn is that of all of them
    std::int64_t stitches = 0;       ///< one repeat, or what makes an inch where none is known
    bool repeat_known = false;
    bool on_live_stitches = false;  ///< begun without a foundation: no chains, no cast-on
    /// Rows more of pieces that it meets, so that they end with as many stitches more.
    struct Following {
        std::string piece;
        std::int64_t rows = 0;
        bool round = false;
    };
    std::vector<Following> followed;
    units::Length wider{};  ///< that much
    std::int64_t rows = 0;  ///< whole repeats that make an inch or more
    units::Length longer{};
    struct OfYarn {
        std::string role;
        std::vector<units::Length> for_width;  ///< one a size
        std::vector<units::Length> for_length;
    };
    std::vector<OfYarn> yarns;
    std::vector<std::string> without;  ///< finishing parts that the figures do not hold
};

struct Section {
    std::string title;
    project::Craft craft = project::Craft::crochet;
    project::Terms terms = project::Terms::us;
    std::string skill;
    std::vector<std::string> sizes;
    std::optional<project::SizeGrid> grid;  ///< what the sizes are made of
    std::vector<FinishedLine> finished;
    std::vector<YarnLine> yarns;
    std::optional<Adjustment> adjust;
    units::Ratio margin{};  ///< on totals that are not `for_most`
    /// The share of makers that come out with a printed total; nothing: the middle is printed.
    std::optional<units::Ratio> within;
    project::Gauge gauge;                     ///< the pattern's
    bool in_rounds = false;                   ///< all is worked in rounds, or the gauge says so
    std::optional<project::Gauge> own_gauge;  ///< the maker's, where all figures are for it
    std::vector<std::string> notions;
    std::vector<std::string> care;
    std::vector<CautionLine> cautions;
};

/// The section of a project, every size worked out. A total is, a yarn and a size at a time: what
/// the project says it comes from (else testers' returns where there are some), taken to what most
/// makers stay within, then whole skeins by skeins_for(). Where the project prints the middle, and
/// for totals that were counted in whole skeins, the margin in percent goes on top instead. Throws
/// what need::need_of() throws.
[[nodiscard]] Section section_of(const project::Project& project);

/// The rows that a printed total goes into.
struct Rows {
    const project::Project& project;
    const need::MakeNeed& make;
    const need::RoleNeed& need;
};

/// What a printed total of a role is made from: its need. Of a total counted in whole skeins it is
/// the upper end, which is what was bought, as it was stated, whatever fabrics take.
[[nodiscard]] units::Length model_of(const project::Project& project, const need::MakeNeed& make,
                                     const need::RoleNeed& worst);

/// Whole skeins that a total takes: of equal skeins, each of which gives up two ends, as many as a
/// plan of their joins needs where the project permits them, its rows taking so much that they come
/// to the total. Without rows they are joined anywhere. Skeins that were `counted` gave up what
/// they lose already. Nothing when no skein is left of its ends, when none holds a row, or of more
/// than can be planned. The one place where a printed count comes from.
[[nodiscard]] std::optional<std::int64_t> skeins_for(units::Length total, const yarn::Label& put_up,
                                                     units::Length tail, bool counted,
                                                     const Rows* rows = nullptr);

/// The usual cautions for a recipient and the fibres used; each defers to local rules.
[[nodiscard]] std::vector<CautionLine> cautions_for(const project::Project& project);

}  // namespace skeinfall::materials
