#pragma once
/// \file
/// One role against a stash, by itself or as one of several. Inner header of cover.

#include <deque>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "skeinfall/chain/plan.hpp"
#include "skeinfall/cover/allocate.hpp"
#include "skeinfall/cover/cover.hpp"
#include "skeinfall/cover/memory.hpp"

namespace skeinfall::cover {

/// The plan for allocate() that follows the rules.
[[nodiscard]] Plan plan_of(const Rules& rules);

/// Works out one role; its steps share what they find. The stash must outlive it.
class Covering {
  public:
    using Picks = std::vector<const Candidate*>;

    /// Without a course the yarn is taken to be joined anywhere.
    Covering(const project::Role& role, const need::RoleNeed& need, const Shelf& shelf,
             const Rules& rules, std::shared_ptr<const Course> course = nullptr,
             std::shared_ptr<RoleMemory> memory = std::make_shared<RoleMemory>());
    Covering(const Covering&) = delete;  // picks point into it
    Covering(Covering&&) = delete;
    Covering& operator=(const Covering&) = delete;
    Covering& operator=(Covering&&) = delete;
    ~Covering() = default;

    /// How sure it has to be from now on.
    void be_sure_by(measure::Chance confidence) { rules_.confidence = confidence; }
    [[nodiscard]] measure::Chance confidence() const { return rules_.confidence; }

    /// Takes from the skeins of this lot alone (stash::lot_key()); of any when it is empty.
    void keep_to_lot(std::string lot) { lot_ = std::move(lot); }
    [[nodiscard]] const project::Role& role() const { return out_.role; }
    [[nodiscard]] const std::vector<Candidate>& candidates() const { return out_.candidates; }

    /// Chooses from all that fits but for the skeins taken.
    void choose_from_all_but(const std::set<const stash::Skein*>& taken);

    [[nodiscard]] bool covers() const { return covered_; }
    [[nodiscard]] const Picks& chosen() const { return chosen_; }
    [[nodiscard]] Total cost() const { return cost_of(chosen_); }

    /// For a division among several roles: what this one would take from, how much it wants when
    /// the supply is as spread as `spread`.
    [[nodiscard]] const Picks& basis() const { return basis_; }
    [[nodiscard]] Quanta wanted(units::Length spread) const;
    /// What wanted() leaves out for the first skein, and usable() keeps back in every one.
    [[nodiscard]] Quanta rest_of_row() const;
    [[nodiscard]] Quanta usable(const Candidate& candidate) const;
    [[nodiscard]] Lots lots() const { return out_.role.one_lot ? Lots::one : Lots::fewest; }

    /// How sure the choice is when it is joined as the course permits, the margin counted in.
    [[nodiscard]] measure::Chance chance_of_plan() const { return planned(needed()).chance; }
    /// Whether that is as sure as it has to be, no row counted on that the slip forbids.
    [[nodiscard]] bool is_sure(measure::Chance confidence) const {
        const Planned plan = planned(needed());
        return !plan.against_slip && plan.chance >= confidence;
    }

    /// The skein that the role is being worked from, where it may serve; nobody else's then.
    [[nodiscard]] const std::string& in_hand() const { return out_.in_hand; }
    void leave_to_its_gauge(const project::ImpliedGrist& usual);
    void leave_to(const std::string& id, const std::string& who);

    /// Reckons from now on with more that is cut off at every join; false when it already reckons
    /// with more than a row.
    bool expect_more_cut_off();

    /// By sums, what is cut off at joins taken as a mean.
    struct Judged {
        measure::Chance chance;
        measure::Estimate<units::Length> supply;
    };
    [[nodiscard]] Judged judge(const Picks& picks) const;

    /// Takes a choice made outside, without what can be spared.
    void settle(Picks picks);

    /// So much of a candidate, tails included: a pick like any other.
    [[nodiscard]] const Candidate* share_of(const Candidate& candidate, Quanta length);
    void not_proven() { proven_ = false; }

    /// The answer; after it the covering is used up.
    [[nodiscard]] RoleCover answer();

  private:
    class Tally;
    [[nodiscard]] Planned planned(units::Length needed) const;
    [[nodiscard]] Planned worked_out(units::Length needed) const;
    [[nodiscard]] std::string key_of(const Picks& picks, units::Length needed) const;
    void choose_among(Picks fitting);
    [[nodiscard]] RoleChoice choice_among(const Picks& fitting) const;
    void take_over(const RoleChoice& choice, const Picks& fitting);
    [[nodiscard]] units::Length needed() const { return out_.needed; }
    /// To reach the confidence.
    [[nodiscard]] units::Length missing(const Picks& picks) const;
    [[nodiscard]] units::Length held_back(std::size_t skeins, units::Length of) const;
    /// Of so many skeins that hold so much together.
    [[nodiscard]] units::Length cut_off(std::size_t skeins, units::Length of) const;
    [[nodiscard]] units::Length knots_of(const Picks& picks) const;
    [[nodiscard]] std::vector<chain::Ball> balls_of(const Picks& picks) const;
    [[nodiscard]] units::Length wound_off(std::size_t skeins) const;
    [[nodiscard]] Quanta quanta_for(units::Length enough) const;
    [[nodiscard]] std::string side_by_side(const stash::Skein& skein) const;
    [[nodiscard]] std::vector<Picks> permitted_sets(const Picks& fitting) const;
    [[nodiscard]] bool label_cancels(const Picks& picks) const;
    [[nodiscard]] measure::Estimate<units::Length> need_against(bool cancels) const;
    [[nodiscard]] units::Ratio times_the_need(units::Length needed) const;
    [[nodiscard]] measure::Chance by_sums(const Picks& picks, units::Length needed) const;
    [[nodiscard]] Picks without_doubtful(Picks picks) const;
    void try_set(Picks picks);
    [[nodiscard]] Picks cheapest(const Picks& picks, bool& proven) const;
    [[nodiscard]] Picks with_hand(Picks picks) const;
    [[nodiscard]] Picks without_idle(Picks picks) const;
    [[nodiscard]] Total cost_of(const Picks& picks) const;
    void put_in_order();
    void leave_open_what_is_not_known();

    Rules rules_;
    std::shared_ptr<const Course> course_;
    chain::Rules joins_;  ///< the course's
    std::shared_ptr<RoleMemory> memory_;
    units::Length row_{};  ///< between two places where yarn may be joined, on average; 0: anywhere
    double cut_off_ = 0.5;  ///< rows that a join is reckoned to lose
    double kept_ = 0.0;     ///< rows that the slip keeps in hand at a join
    int expected_more_ = 0;
    RoleCover out_;
    Picks chosen_;
    /// The latest answer of planned(), which is asked for several times.
    struct Remembered {
        Picks picks;
        units::Length needed{};
        Planned plan;
    };
    mutable std::vector<Remembered> remembered_;
    Picks basis_;
    const Candidate* hand_ = nullptr;  ///< the skein in hand, where it may be chosen
    std::string lot_;
    std::string lot_of_work_;    // of a skein that is used up
    units::Ratio damp_{};        ///< relative, of the yarn the need was weighed in
    std::deque<Candidate> cut_;  ///< shares handed out; some may be chosen
    bool judged_any_ = false;
    measure::Chance chance_;
    bool covered_ = false;
    bool proven_ = true;
    Total cost_;
};

/// Adds the notes, what would settle it and what to buy.
void advise(RoleCover& cover, const Rules& rules);

/// What sums of lengths may be off by, as a share of a skein; a count of skeins is not to turn on
/// it.
inline constexpr double count_noise = 1e-9;

}  // namespace skeinfall::cover
