#include "skeinfall/cover/remedies.hpp"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/cover/largest.hpp"

namespace skeinfall::cover {
namespace {

using units::Length;

class Remedying {
  public:
    Remedying(const project::Project& project, const need::MakeNeed& need,
              const std::vector<stash::Skein>& stash, const Rules& rules, const MakeCover& cover)
        : project_(project), need_(need), stash_(stash), rules_(rules), cover_(cover) {
        for (const RoleCover& role : cover.roles)
            if (role.verdict != Verdict::covered) wanting_.push_back(&role);
    }

    std::vector<Remedy> run() {
        smaller_size();
        fewer_rows();
        for (const RoleCover* role : wanting_) {
            mixed_lots(*role);
            another_yarn(*role);
        }
        std::stable_sort(out_.begin(), out_.end(), [](const Remedy& a, const Remedy& b) {
            if (a.verdict != b.verdict) return a.verdict < b.verdict;
            return a.saved < b.saved;
        });
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

    void add(const std::string& what, const project::Project& changed, std::size_t size) {
        const need::MakeNeed need = need::need_of(changed, size);
        const MakeCover cover = cover_make(changed, need, stash_, rules_);
        out_.push_back({what, std::max(Length{}, of_wanting(need_) - of_wanting(need)),
                        cover.verdict, cover.chance});
    }

    /// A change of one role, kept when that role is better off and no other worse.
    void add_for(const RoleCover& role, const std::string& what, const project::Project& changed) {
        const MakeCover now = cover_make(changed, need_, stash_, rules_);
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
        for (std::size_t size = need_.size; size-- > 0;) {
            const need::MakeNeed need = need::need_of(project_, size);
            if (cover_make(project_, need, stash_, rules_).verdict != Verdict::covered) continue;
            add("size " + project_.sizes[size], project_, size);
            return;
        }
    }

    /// Each piece by itself that works a yarn that is wanting, in whole stripe repeats.
    void fewer_rows() {
        for (std::size_t at = 0; at < project_.pieces.size(); ++at) {
            const project::Piece& piece = project_.pieces[at];
            Growth growth{Extent::rows, at, 1, 0};
            long repeat = 0;
            bool works_it = false;
            for (const RoleCover* role : wanting_) works_it |= piece.role == role->role.id;
            for (const project::Stripe& stripe : piece.stripes) {
                repeat += stripe.rows;
                for (const RoleCover* role : wanting_) works_it |= stripe.role == role->role.id;
            }
            if (!works_it) continue;
            growth.step = std::max(1L, repeat);
            const long planned = project::counts(project_, piece, need_.size).rows;
            const Largest most = largest(project_, need_.size, stash_, rules_, growth);
            if (!most.sure || most.sure->value >= planned) continue;
            add(fmt::format("{} rows of {} instead of {}", most.sure->value, piece.name, planned),
                grown(project_, need_.size, growth, most.sure->value), need_.size);
        }
    }

    void mixed_lots(const RoleCover& role) {
        if (!role.role.one_lot) return;
        project::Project changed = project_;
        for (project::Role& each : changed.roles)
            if (each.id == role.role.id) each.one_lot = false;
        add_for(role, "more than one lot of " + named(role), changed);
    }

    /// Another yarn of the same class and length per mass, whatever its name and colour.
    void another_yarn(const RoleCover& role) {
        if (role.role.name.empty() && role.role.colour.empty()) return;
        project::Role wish = role.role;
        wish.name.clear();
        wish.colour.clear();
        std::set<std::string> names;
        for (const Candidate& candidate :
             candidates_for(wish, 2.0 * rules_.tail, stash_, rules_.project))
            if (candidate.supply && candidate.substitution == 0)
                names.insert(candidate.skein->yarn.name + "\x1f" + candidate.skein->colourway);
        for (const std::string& name : names) {
            const std::size_t cut = name.find('\x1f');
            project::Project changed = project_;
            for (project::Role& each : changed.roles)
                if (each.id == role.role.id) {
                    each.name = name.substr(0, cut);
                    each.colour = name.substr(cut + 1);
                }
            if (base::same_word(name.substr(0, cut), role.role.name) &&
                base::same_word(name.substr(cut + 1), role.role.colour))
                continue;
            add_for(role,
                    name.substr(0, cut) + " " + name.substr(cut + 1) + " for " + role.role.id +
                        ", after a swatch in it",
                    changed);
        }
    }

    [[nodiscard]] static std::string named(const RoleCover& role) {
        return role.role.name.empty()
                   ? role.role.id
                   : role.role.id + " " + role.role.name + " " + role.role.colour;
    }

    const project::Project& project_;
    const need::MakeNeed& need_;
    const std::vector<stash::Skein>& stash_;
    const Rules& rules_;
    const MakeCover& cover_;
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
