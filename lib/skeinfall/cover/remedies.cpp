#include "skeinfall/cover/remedies.hpp"

#include <algorithm>
#include <cstdint>
#include <map>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/name.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/cover/buy.hpp"
#include "skeinfall/cover/largest.hpp"
#include "skeinfall/need/testers.hpp"

namespace skeinfall::cover {
namespace {

using units::Length;

class Remedying {
  public:
    Remedying(const project::Project& project, const need::MakeNeed& need,
              const std::vector<stash::Skein>& stash, const Rules& rules, const MakeCover& cover)
        : project_(need::with_returns_told(project)),
          need_(need),
          stash_(stash),
          rules_(rules),
          cover_(cover) {
        std::set<std::string> taken;
        for (const RoleCover& role : cover.roles) {
            if (role.verdict != Verdict::covered) wanting_.push_back(&role);
            for (const stash::Skein& skein : role.chosen) taken.insert(skein.id);
        }
        std::vector<bool> fits(stash.size());
        for (const RoleCover& role : cover.roles) mark_fitting(role, fits);
        // Everything below looks at the stash again and again; most of a large one fits nothing.
        for (std::size_t at = 0; at < stash.size(); ++at) {
            if (fits[at])
                fitting_.push_back(stash[at]);
            else
                note_promised(stash[at]);
            if (!taken.contains(stash[at].id))
                free_[{base::name_key(stash[at].yarn.name), base::name_key(stash[at].colourway)}]
                    .push_back(&stash[at]);
        }
    }

    std::vector<Remedy> run() {
        smaller_size();
        fewer_rows();
        other_stitch();
        released();
        for (const RoleCover* role : wanting_) {
            mixed_lots(*role);
            another_yarn(*role);
            more_strands(*role);
        }
        std::stable_sort(out_.begin(), out_.end(), [](const Remedy& a, const Remedy& b) {
            if (a.verdict != b.verdict) return a.verdict < b.verdict;
            return a.saved < b.saved;
        });
        bought();
        return std::move(out_);
    }

  private:
    [[nodiscard]] Length of_wanting(const need::MakeNeed& need) const {
        Length sum{};
        for (const need::RoleNeed& role : need.roles)
            for (const RoleCover* wanting : wanting_)
                if (wanting->need.role == role.role) sum += role.length.centre;
        return sum;
    }

    void add(Change what, const project::Project& changed, std::size_t size) {
        const need::MakeNeed need = need_for(changed, size, rules_);
        const MakeCover cover = cover_make(changed, need, fitting_, rules_);
        out_.push_back({std::move(what), std::max(Length{}, of_wanting(need_) - of_wanting(need)),
                        cover.verdict, cover.chance});
    }

    /// A change of one role, kept when that role is better off and no other worse.
    void add_for(const RoleCover& role, const Change& what, const project::Project& changed,
                 const std::vector<stash::Skein>& stash) {
        const MakeCover now = cover_make(changed, need_, stash, rules_);
        const RoleCover* better = nullptr;
        for (std::size_t at = 0; at < now.roles.size(); ++at) {
            const RoleCover& before = cover_.roles[at];
            if (before.role.id == role.role.id) {
                if (now.roles[at].verdict < before.verdict) better = &now.roles[at];
            } else if (now.roles[at].verdict > before.verdict ||
                       (before.verdict != Verdict::covered &&
                        now.roles[at].chance < before.chance)) {
                return;
            }
        }
        if (better != nullptr) out_.push_back({what, Length{}, better->verdict, better->chance});
    }

    void smaller_size() {
        if (!rules_.done.empty()) return;  // one size is worked already
        for (std::size_t size = need_.size; size-- > 0;) {
            const need::MakeNeed need = need_for(project_, size, rules_);
            if (cover_make(project_, need, fitting_, rules_).verdict != Verdict::covered) continue;
            add(SmallerSize{project_.sizes[size]}, project_, size);
            return;
        }
    }

    /// Pieces that hold as much yarn as is missing of every one that is wanting, the largest few in
    /// the project's order: no other can be so much shorter, and each is a search of its own.
    [[nodiscard]] std::vector<std::size_t> worth_shortening() const {
        constexpr std::size_t pieces_at_most = 8;
        std::vector<Length> all(project_.pieces.size());
        std::vector<bool> enough(project_.pieces.size(), true);
        for (const RoleCover* role : wanting_) {
            std::vector<Length> own(project_.pieces.size());
            for (const need::Step& step : need_.steps)
                if (step.role == role->role.id && step.name.empty() && step.piece < own.size())
                    own[step.piece] += step.yarn;
            for (std::size_t at = 0; at < own.size(); ++at) {
                all[at] += own[at];
                enough[at] = enough[at] && own[at] >= -role->spare;
            }
        }
        std::vector<std::size_t> out;
        for (std::size_t at = 0; at < all.size(); ++at)
            if (enough[at]) out.push_back(at);
        std::stable_sort(out.begin(), out.end(),
                         [&](std::size_t a, std::size_t b) { return all[a] > all[b]; });
        out.resize(std::min(out.size(), pieces_at_most));
        std::sort(out.begin(), out.end());
        return out;
    }

    /// How much of its planned rows a piece must keep to be that make still: one of several that
    /// are sewn together, and the only one (judgements).
    static constexpr double least_of_a_part = 0.75;
    static constexpr double least_of_all = 0.3;

    /// Each piece by itself that works a yarn that is wanting, in whole stripe repeats.
    void fewer_rows() {
        // A total that was stated does not say what a row takes.
        for (const need::RoleNeed& need : need_.roles)
            if (need.source == need::Source::stated_total) return;
        for (const std::size_t at : worth_shortening()) {
            const project::Piece& piece = project_.pieces[at];
            const Growth growth = usual_growth(project_, need_.size, Extent::rows, at);
            bool works_it = false;
            for (const RoleCover* role : wanting_) works_it |= piece.role == role->role.id;
            for (const project::Stripe& stripe : piece.stripes)
                for (const RoleCover* role : wanting_) works_it |= stripe.role == role->role.id;
            if (!works_it) continue;
            const std::int64_t planned = project::counts(project_, piece, need_.size).rows;
            const Largest most = largest(project_, need_.size, fitting_, rules_, growth);
            if (!most.sure || most.sure->value >= planned) continue;
            // A garment whose sleeves end at the elbow is another one.
            const bool of_many = project_.pieces.size() > 1;
            if (static_cast<double>(most.sure->value) <
                (of_many ? least_of_a_part : least_of_all) * static_cast<double>(planned))
                continue;
            FewerRows fewer{most.sure->value, planned, piece.name, piece.worked, {}, {}};
            if (const project::Gauge& gauge = project::gauge_of(project_, piece);
                piece.length.stated() && (gauge.laid_out || gauge.usual)) {
                fewer.length =
                    units::Length(static_cast<double>(fewer.rows) * units::row / gauge.rows);
                fewer.planned_length =
                    units::Length(static_cast<double>(planned) * units::row / gauge.rows);
            }
            add(std::move(fewer), grown(project_, need_.size, growth, most.sure->value),
                need_.size);
        }
    }

    /// All that fits is of one lot, and of one yarn: to mix lots changes nothing.
    [[nodiscard]] bool in_one_lot(const RoleCover& role) const {
        for (const project::Role& one : project_.roles)
            if (one.held_with == role.role.id || !role.role.held_with.empty()) return false;
        const stash::Skein* first = nullptr;
        for (const Candidate& one : role.candidates) {
            const bool fits = one.supply || std::holds_alternative<ServesOthers>(one.reason);
            if (!fits) return false;
            if (first == nullptr) first = one.skein;
            if (stash::lot_key(*one.skein) != stash::lot_key(*first) ||
                base::name_key(one.skein->yarn.name) != base::name_key(first->yarn.name))
                return false;
        }
        return true;
    }

    void mixed_lots(const RoleCover& role) {
        if (!role.role.one_lot || in_one_lot(role)) return;
        project::Project changed = project_;
        for (project::Role& each : changed.roles)
            if (each.id == role.role.id) each.one_lot = false;
        add_for(role, MoreLots{named(role)}, changed, fitting_);
    }

    /// All of it in another stitch, at the same size. Its rate must be known by the maker's own
    /// measured swatches; rows that are written out are bound to their stitches.
    void other_stitch() {
        if (!rules_.done.empty()) return;  // some of it is worked already
        std::set<std::string> used;
        for (const project::Piece& piece : project_.pieces) {
            if (piece.pattern.stated() || piece.gauge) return;
            if (piece.stripes.empty()) used.insert(piece.role);
            for (const project::Stripe& stripe : piece.stripes) used.insert(stripe.role);
        }
        std::set<std::string> stitches;
        for (const project::Swatch& swatch : project_.swatches)
            if (!swatch.stitch.empty() && !base::same_word(swatch.stitch, project_.gauge.stitch))
                stitches.insert(swatch.stitch);
        for (const std::string& stitch : stitches) {
            project::Project changed = project_;
            changed.gauge.stitch = stitch;
            changed.swatches.clear();
            std::set<std::string> known;
            for (project::Swatch swatch : project_.swatches) {
                if (swatch.stitch != stitch || !swatch.width || !swatch.height) continue;
                // By its area alone: the gauge of this stitch need not be known.
                swatch.stitch.clear();
                swatch.stitches.reset();
                swatch.rows.reset();
                swatch.kinds.clear();
                known.insert(swatch.role);
                changed.swatches.push_back(std::move(swatch));
            }
            if (std::includes(known.begin(), known.end(), used.begin(), used.end()) &&
                of_wanting(need_for(changed, need_.size, rules_)) < of_wanting(need_))
                add(OtherStitch{stitch, project_.gauge.stitch}, changed, need_.size);
        }
    }

    /// Remembers a skein that would fit if it were not kept for another project.
    void note_promised(const stash::Skein& promised) {
        std::string owner;
        for (const stash::Promise& promise : promised.set_aside)
            if (!base::same_word(promise.project, rules_.project)) owner = promise.project;
        if (owner.empty()) return;
        stash::Skein skein = promised;
        skein.set_aside.clear();
        if (std::any_of(wanting_.begin(), wanting_.end(), [&](const RoleCover* role) {
                return candidate_for(role->role, 2.0 * rules_.tail, skein, rules_.project,
                                     project_.made_for)
                    .supply;
            }))
            promised_[owner].push_back(std::move(skein));
    }

    void released() {
        for (const auto& [owner, skeins] : promised_) {
            std::vector<stash::Skein> all = fitting_;
            all.insert(all.end(), skeins.begin(), skeins.end());
            for (const RoleCover* role : wanting_)
                add_for(*role, Release{owner, role->role.id}, project_, all);
        }
    }

    /// Whole skeins of every yarn that is wanting, after the other ways that cover it.
    void bought() {
        // Nobody said of what size its skeins are, or a figure has to be put right first.
        for (const RoleCover* role : wanting_)
            if (!role->need.contradictions.empty() ||
                (role->role.metre_is_a_gram &&
                 std::all_of(stash_.begin(), stash_.end(), stash::is_part)))
                return;
        // Nothing can match a skein whose lot nobody noted.
        const bool unmatched =
            std::any_of(wanting_.begin(), wanting_.end(), [](const RoleCover* role) {
                return role->role.one_lot && !role->chosen.empty() &&
                       !role->chosen.front().dye_lot && !role->chosen.front().shade_group;
            });
        BuyForIt purchases;
        measure::Chance chance = rules_.confidence;
        for (const BuyingLine& line :
             buying_list({{&project_, &need_, rules_}}, {cover_}, stash_, {})) {
            if (!line.skeins || !line.settled) return;
            chance = line.chance.value_or(chance);
            if (*line.skeins == 0) continue;
            purchases.all.push_back(
                {*line.skeins,
                 full_name(line.yarn, line.colour) + " (" + line.put_up.length->text + ")",
                 unmatched});
        }
        if (purchases.all.empty()) return;  // what is there is enough once it is put right
        const Verdict verdict = verdict_for(chance, rules_.confidence);
        if (verdict != Verdict::covered && chance <= cover_.chance) return;
        const auto after = std::partition_point(out_.begin(), out_.end(), [](const Remedy& remedy) {
            return remedy.verdict == Verdict::covered;
        });
        out_.insert(after, {std::move(purchases), Length{}, verdict, chance});
    }

    /// Skeins by yarn and colourway, both as names are compared.
    using Yarns = std::map<std::pair<std::string, std::string>, std::vector<const stash::Skein*>>;

    struct Instead {
        std::string yarn;
        Verdict verdict = Verdict::is_short;
        measure::Chance chance;
    };

    /// A yarn alone for its role, joined as the project says.
    [[nodiscard]] RoleCover judged(const project::Role& wish, const need::RoleNeed& need,
                                   const std::vector<stash::Skein>& stash,
                                   std::int64_t strands) const {
        project::Project project = project_;
        for (project::Role& one : project.roles)
            if (one.id == wish.id) one = wish;
        need::MakeNeed make;
        make.size = need_.size;
        make.roles = {need};
        make.changes = need_.changes;
        // Of the others it is only asked where a yarn goes that is held together with one of them.
        for (const need::Step& step : need_.steps) {
            if (step.role != wish.id && step.role != wish.held_with) continue;
            make.steps.push_back(step);
            if (step.role == wish.id) make.steps.back().yarn *= static_cast<double>(strands);
        }
        return cover_make(project, make, stash, rules_).roles.front();
    }

    /// The best of the other yarns in what nobody takes, each in one colour; they leave the other
    /// roles as they are. In several strands each of them goes all the way.
    [[nodiscard]] std::vector<Instead> others(const RoleCover& role, std::int64_t strands) const {
        project::Role wish = role.role;
        wish.name.clear();
        wish.colour.clear();
        need::RoleNeed need = role.need;
        if (strands > 1) {
            const auto many = static_cast<double>(strands);
            wish.weight.reset();
            wish.grist->value *= many;
            need.length.centre *= many;
            need.length.spread *= many;
        }
        std::vector<std::pair<Length, const Yarns::value_type*>> richest;
        for (const Yarns::value_type& yarn : free_) {
            const bool own_yarn = base::same_name(yarn.first.first, role.role.name) &&
                                  base::same_name(yarn.first.second, role.role.colour);
            if (own_yarn && strands == 1) continue;
            Length there{};
            bool alike = false;
            for (const stash::Skein* skein : yarn.second) {
                const Candidate one = candidate_for(wish, 2.0 * rules_.tail, *skein, rules_.project,
                                                    project_.made_for);
                if (!one.supply) continue;
                there += one.supply->length;
                alike = alike || one.substitution == 0;
            }
            if (alike) richest.emplace_back(there, &yarn);
        }
        std::stable_sort(richest.begin(), richest.end(),
                         [](const auto& a, const auto& b) { return a.first > b.first; });
        if (richest.size() > yarns_tried_at_most) richest.resize(yarns_tried_at_most);
        std::vector<Instead> out;
        for (const auto& [length, of] : richest) {
            const auto& [yarn, skeins] = *of;
            std::vector<stash::Skein> own;
            for (const stash::Skein* skein : skeins) own.push_back(*skein);
            const RoleCover now = judged(wish, need, own, strands);
            if (now.verdict < role.verdict)
                out.push_back({full_name(own.front().yarn.name, own.front().colourway), now.verdict,
                               now.chance});
        }
        std::stable_sort(out.begin(), out.end(), [](const Instead& a, const Instead& b) {
            if (a.verdict != b.verdict) return a.verdict < b.verdict;
            return a.chance > b.chance;
        });
        constexpr std::size_t enough = 3;
        if (out.size() > enough) out.resize(enough);
        return out;
    }

    /// Another yarn of the same class and length per mass, whatever its name and colour.
    void another_yarn(const RoleCover& role) {
        if (role.role.name.empty() && role.role.colour.empty()) return;
        for (const Instead& one : others(role, 1))
            out_.push_back(
                {YarnInstead{one.yarn, role.role.id, 1}, Length{}, one.verdict, one.chance});
    }

    /// Thinner yarns held together come to the length per mass that is wanted.
    void more_strands(const RoleCover& role) {
        if (!role.role.grist) return;
        for (const std::int64_t strands : {std::int64_t{2}, std::int64_t{3}})
            for (const Instead& one : others(role, strands))
                out_.push_back({YarnInstead{one.yarn, role.role.id, strands}, Length{}, one.verdict,
                                one.chance});
    }

    [[nodiscard]] static std::string named(const RoleCover& role) {
        return role.role.name.empty()
                   ? role.role.id
                   : role.role.id + " " + full_name(role.role.name, role.role.colour);
    }

    [[nodiscard]] static std::string full_name(const std::string& yarn, const std::string& colour) {
        return colour.empty() ? yarn : yarn + " " + colour;
    }

    const project::Project project_;
    const need::MakeNeed& need_;
    const std::vector<stash::Skein>& stash_;
    const Rules& rules_;
    const MakeCover& cover_;
    std::vector<stash::Skein> fitting_;
    std::map<std::string, std::vector<stash::Skein>> promised_;  ///< by the project they wait for
    Yarns free_;
    std::vector<const RoleCover*> wanting_;
    std::vector<Remedy> out_;
};

}  // namespace

std::vector<Remedy> remedies(const project::Project& project, const need::MakeNeed& need,
                             const std::vector<stash::Skein>& stash, const Rules& rules,
                             const MakeCover& cover) {
    if (cover.verdict == Verdict::covered) return {};
    return Remedying(project, need, stash, rules, cover).run();
}

}  // namespace skeinfall::cover
