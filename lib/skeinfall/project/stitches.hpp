#pragma once
/// \file
/// The stitches of the trade by name, what each makes and takes, and how much yarn it takes
/// beside the plain stitch of its craft.
///
/// A stitch goes by its US abbreviation wherever it is data ("sc", "fpdc", "sl st", "k2tog"),
/// whatever terms a pattern is written in. Names and figures stand in lib/data/stitches.csv.

#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>
#include <utility>
#include <vector>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::project {

enum class Craft { crochet, knit };
enum class Terms { us, uk };

/// Stitches of one kind.
struct KindCount {
    std::string kind;
    units::StitchCount count{};

    bool operator==(const KindCount& other) const {
        return kind == other.kind && count.value() == other.count.value();
    }
};

/// A stitch that a project describes itself: [stitch.NAME] with either its make-up in notation
/// (`of`, worked into one place) or its yarn as a multiple of the plain stitch (`yarn`).
struct OwnStitch {
    std::string name;
    std::string of;                     ///< "2 dc, ch 1, 2 dc"
    std::optional<units::Ratio> yarn;   ///< times the yarn of one sc, or of one k
    std::optional<std::int64_t> makes;  ///< stitches it leaves; default: those of `of`, else 1
    std::int64_t takes = 1;             ///< stitches of the row below it uses up
    base::Place place;                  ///< of its table in the file
    base::Place of_place;               ///< of the first byte of `of`
};

/// Relative standard uncertainty of relative_yarn() between two kinds in the same yarn and hands
/// where no swatch tells more. The model's author gives 5 to 8 % for such a ratio and 15 % for a
/// kind from gauge alone; the wider figure is taken.
inline constexpr units::Ratio relative_yarn_spread = units::Ratio::from_value(0.15);

/// The same where less is known of a kind than of the plain ones: a cluster is made of three
/// stitches or of six.
[[nodiscard]] units::Ratio relative_yarn_spread_of(std::string_view kind);

/// Yarn of one stitch of this kind over that of the plain stitch of its craft (sc = 1, k = 1), or
/// nothing for a kind that is neither in the table nor among `own`. Crochet figures are our own
/// model, which counts the yarn path at one generic geometry (stitch width 6.6 mm, yarn 1.2 mm);
/// knit figures count loops. Several stitches worked together ("dc3tog") follow from their kind.
[[nodiscard]] std::optional<units::Ratio> relative_yarn(std::string_view kind,
                                                        const std::vector<OwnStitch>& own = {});

/// The whole name of a kind, "front post double crochet" of "fpdc"; the kind itself where the table
/// has none.
[[nodiscard]] std::string_view full_name(std::string_view kind);

/// The US abbreviation of a stitch named in either terms, "htr" in UK terms gives "hdc"; nothing
/// for a name that the terms do not have.
[[nodiscard]] std::optional<std::string> stitch_kind(std::string_view name, Craft craft,
                                                     Terms terms);

/// Whether a turning chain stands for the first stitch when the pattern does not say.
enum class TurningChainCounts { no, yes, varies };

using KindId = std::uint16_t;

/// One kind with its figures.
struct Stitch {
    std::string name;
    std::string written;     ///< its abbreviation in the book's terms
    std::int64_t makes = 1;  ///< -1 where a made stitch is taken off again (psso)
    std::int64_t takes = 1;
    std::int64_t turning_chains = 0;  ///< 0: not a stitch that rows turn with
    TurningChainCounts counts = TurningChainCounts::no;
    bool unknown = false;  ///< only a word that stands where a stitch should
    bool varies = false;   ///< every pattern has its own: add() puts another in its place
    KindId plain = 0;  ///< the kind it counts as when a pattern counts "dc": fpdc and dc2tog are
};

/// The names that one pattern may use. Inner part of the notation.
class StitchBook {
  public:
    StitchBook(Craft craft, Terms terms);

    struct Named {
        KindId kind = 0;
        bool other_terms = false;  ///< a name that only the other terms have
    };
    /// `name` in lower case.
    [[nodiscard]] std::optional<Named> find(std::string_view name);
    /// The same of the names that the table has, in lower case.
    [[nodiscard]] std::optional<Named> known(std::string_view name) const;
    /// The kind of this name (US abbreviation), own stitches included; the book has it.
    [[nodiscard]] KindId find_us(std::string_view abbreviation) const;
    /// True when a name of several words begins with this one.
    [[nodiscard]] bool begins_long_name(std::string_view word) const;
    [[nodiscard]] const Stitch& at(KindId kind) const { return stitches_[kind]; }
    /// `count` stitches of a kind worked together.
    KindId together(KindId kind, std::int64_t count);
    /// Whether a name stands for a stitch that every pattern makes in its own way: "cluster".
    [[nodiscard]] bool varies(std::string_view name) const;
    /// A kind under a new name; nothing when the name is taken or there are too many kinds. The
    /// names of one that varies() go over to the new kind.
    std::optional<KindId> add(Stitch stitch);

    /// Another name of a stitch; in lower case.
    void also_called(std::string_view name, KindId kind) { enter(name, kind, false); }
    /// A name that is not in the book, as a stitch that takes one and makes one; find() does not
    /// know it. The same name gives the same kind.
    KindId add_unknown(const std::string& name);
    /// Every name, in a fixed order.
    [[nodiscard]] std::vector<std::string> names() const;
    [[nodiscard]] Craft craft() const { return craft_; }
    [[nodiscard]] KindId chain() const { return 0; }
    [[nodiscard]] KindId slip_stitch() const { return 1; }

  private:
    void enter(std::string_view names, KindId kind, bool other_terms);

    Craft craft_;
    std::vector<Stitch> stitches_;
    std::unordered_map<std::string, Named> by_name_;
    std::unordered_set<std::string> first_words_;
    std::map<std::pair<KindId, std::int64_t>, KindId> together_;
    std::map<std::string, KindId> unknown_;
};

}  // namespace skeinfall::project
