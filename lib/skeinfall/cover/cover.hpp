#pragma once
/// \file
/// Does the stash cover a need: verdict, chosen skeins, what would settle a close call.

#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/chain/plan.hpp"
#include "skeinfall/cover/allocate.hpp"
#include "skeinfall/cover/candidates.hpp"
#include "skeinfall/cover/shelf.hpp"
#include "skeinfall/measure/chance.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/need/rest.hpp"
#include "skeinfall/project/project.hpp"
#include "skeinfall/stash/skein.hpp"

namespace skeinfall::cover {

enum class Verdict { covered, too_close_to_call, is_short };
[[nodiscard]] std::string_view name_of(Verdict verdict);

/// At or above the confidence: covered; at or below its complement: short.
[[nodiscard]] Verdict verdict_for(measure::Chance chance, measure::Chance confidence);

/// Who is served together. Jointly fewer are left without their yarn; in turn each takes its best
/// from what the earlier ones left.
enum class Sharing { joint, make_by_make, role_by_role };

struct Rules {
    std::string project;  ///< its title: what is set aside for it is there for it alone
    /// Taken from the project where there is one. Near heat only content that is known not to melt
    /// is let in.
    project::Recipient made_for = project::Recipient::adult;
    measure::Chance confidence = measure::usual_confidence;
    units::Ratio margin{};  ///< asked for on top of the need
    units::Length tail = project::usual_tail;
    Goals goals = usual_goals;
    Sharing sharing = Sharing::joint;
    Division division = Division::whole;  ///< split: a skein may be cut for several roles
    /// Work in progress: what is done of the roles, so that the rest alone is asked for.
    std::vector<need::Worked> done;
    /// Asked now and then while a division is sought; false ends the search unproven.
    std::function<bool(const Progress&)> go_on;
};

/// The need of a project in one size without what `rules.done` says is worked. Throws as
/// need::need_of() does.
[[nodiscard]] need::MakeNeed need_for(const project::Project& project, std::size_t size,
                                      const Rules& rules);

/// Something that would settle a close call or put it right.
struct Settling {
    Step what;
    /// Of a measurement: how likely it is that the verdict is clear after it.
    std::optional<measure::Chance> chance = std::nullopt;
};

/// A skein as the chain sees it. `damp` is the relative spread from the air of a skein that was
/// never weighed, for a label that cancels; else 0.
[[nodiscard]] chain::Ball ball_of(const stash::Skein& skein, const stash::Supply& supply,
                                  bool label_cancels, units::Ratio damp);

/// What a role gets of a skein that was cut, its two tails included.
struct Share {
    std::string id;
    units::Length length{};
};

/// The rows that a role's yarn goes into and the places where it may be joined.
struct Course {
    std::vector<need::Step> steps;  ///< of the make, or those of the role it is held together with
    chain::Rules rules;
    const project::Project* project = nullptr;  ///< must outlive what asks it
};

/// The answer for one role. The chosen skeins are the cheapest that cover at the confidence; when
/// none do, the permitted set with the best chance.
struct RoleCover {
    project::Role role;
    need::RoleNeed need;
    Verdict verdict = Verdict::is_short;
    /// That the chosen skeins reach the end, joined where the project permits; see `anywhere`.
    measure::Chance chance;
    /// The same were yarn joined inside rows as well. Where no rows are known it is all that can be
    /// told, and `chance` is the same.
    measure::Chance anywhere;
    measure::Chance with_margin;  ///< as `chance`, for the need with its margin
    /// More usable yarn with which the need with its margin would be as sure; 0 where it is.
    units::Length margin_short;
    bool rows_known = false;
    measure::Chance confidence;  ///< it is judged by
    /// Where only rows that the slip forbids would reach the end: not covered, whatever `chance`.
    bool against_slip = false;
    /// Joined where the project wants no join, or closer than it wants, it would be as sure as is
    /// asked: not covered.
    bool against_rules = false;
    std::string in_hand;  ///< the skein that the role is being worked from: used before the others
    std::vector<chain::Ball> balls;           ///< the chosen, as plans of their joins see them
    std::vector<stash::Skein> chosen;         ///< parts first, then whole, each in stash order
    measure::Estimate<units::Length> supply;  ///< of the chosen, before tails
    std::vector<Share> shares;                ///< of those that are cut, by id
    units::Length tails;                      ///< two ends a chosen skein
    units::Length wound_off;  ///< of a colour-changing yarn: half a repeat each time one is joined
    units::Length cut_off;    ///< at joins and knots, on average; 0 where yarn is joined anywhere
    units::Length needed;     ///< need with margin, without the tails
    measure::Estimate<units::Length> compared;  ///< need as it entered the chance
    /// Supply less tails, what is wound off, and `needed`; negative when that is not reached.
    units::Length spare;
    units::Length to_be_sure;    ///< more usable yarn that would reach the confidence; 0 if covered
    bool label_cancels = false;  ///< need and supply weighed in the same yarn
    /// Then: the part of the supply's spread that comes from the air, of skeins never weighed.
    units::Length damp;
    bool proven = true;
    /// Parts that nobody weighed and that may hold what is missing: until they are, "short" is not
    /// known. `chance` is without them.
    std::vector<std::string> weigh_first;
    /// The same of skeins whose length nobody knows.
    std::vector<std::string> measure_first;
    /// The skeins of the stash that may serve, that serve others, or that only nobody weighed, in
    /// its order; every_candidate() has the others too. They point into the stash, which must
    /// outlive this.
    std::vector<Candidate> candidates;
    std::span<const stash::Skein> stash;
    std::string project;  ///< what they were judged by, see candidate_for()
    project::Recipient made_for = project::Recipient::adult;
    units::Length tails_of_a_skein{};
    std::vector<Settling> settles;  ///< what would settle it or put it right, best first
    std::vector<Note> notes;        ///< on the skeins chosen
};

[[nodiscard]] RoleCover cover_role(const project::Role& role, const need::RoleNeed& need,
                                   const Shelf& shelf, const Rules& rules);

/// Every skein of the stash with its verdict, in the stash's order. Why those that may not serve
/// may not is found out here.
[[nodiscard]] std::vector<Candidate> every_candidate(const RoleCover& role);

/// Marks the places in its stash of the skeins that may serve the role.
void mark_fitting(const RoleCover& role, std::vector<bool>& fits);

/// Forgets the stash, where it goes before the answer does.
void leave_stash(RoleCover& role);

struct MakeCover {
    /// The worst of the roles'. Covered only when `chance` is at the confidence too: where each
    /// role alone is and all of them are not, every role is held to the k-th root of it.
    Verdict verdict = Verdict::is_short;
    /// That all k roles are enough at once, their errors taken as independent: errors in common can
    /// only make it likelier.
    measure::Chance chance{units::Ratio::from_value(1.0)};
    measure::Chance with_margin{units::Ratio::from_value(1.0)};  ///< the same with the margin
    std::vector<RoleCover> roles;
};

/// All roles of a make, by `rules.sharing`; no skein serves two. A role that cannot be covered
/// gets the best of what the covered ones leave.
[[nodiscard]] MakeCover cover_make(const project::Project& project, const need::MakeNeed& need,
                                   const Shelf& shelf, const Rules& rules);

/// A make among several; the pointers must outlive the call.
struct Make {
    const project::Project* project = nullptr;
    const need::MakeNeed* need = nullptr;
    Rules rules;
};

/// Several makes from one stash, answered in their order. Served together they go by the goals of
/// the first.
[[nodiscard]] std::vector<MakeCover> cover_makes(const std::vector<Make>& makes, const Shelf& shelf,
                                                 Sharing sharing);

}  // namespace skeinfall::cover
