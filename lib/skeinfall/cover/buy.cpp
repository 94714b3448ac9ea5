#include "skeinfall/cover/buy.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include <fmt/format.h>

#include "skeinfall/base/name.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/cover/candidates.hpp"
#include "skeinfall/cover/covering.hpp"
#include "skeinfall/measure/propagate.hpp"
#include "skeinfall/yarn/put_up.hpp"

namespace skeinfall::cover {
namespace {

using units::Length;

/// What was `said` of the skeins to buy, unless the project's yarn is another; else what the
/// project says of it, else the label of a skein of that yarn in the stash.
yarn::Label put_up_for(const project::Role& role, const std::vector<stash::Skein>& stash,
                       const yarn::Label& said) {
    if (said.length && may_be_bought_as(role, said)) return said;
    // In grams alone no label is known: only counted balls tell what one holds.
    if (role.metre_is_a_gram) {
        const auto whole = std::find_if(stash.begin(), stash.end(), [](const stash::Skein& one) {
            return !stash::is_part(one) && one.yarn.label.length;
        });
        if (whole == stash.end()) return {};
        yarn::Label label = whole->yarn.label;
        if (label.mass) label.length->text = label.mass->text;
        return label;
    }
    if (role.grist)
        if (yarn::Label stated = yarn::put_up_in(role.grist->text); stated.length) return stated;
    if (!role.name.empty())
        for (const stash::Skein& skein : stash)
            if (base::same_name(skein.yarn.name, role.name) && skein.yarn.label.length)
                return skein.yarn.label;
    return {};
}

std::string any_yarn(const project::Role& role) {
    return role.weight ? "any yarn of class " + text(*role.weight) : "any yarn that fits";
}

/// Whole skeins that give a length, two tails off each.
std::optional<std::int64_t> skeins_for(Length length, const yarn::Label& put_up, Length tail) {
    if (!put_up.length) return std::nullopt;
    const Length usable = put_up.length->value - 2.0 * tail;
    if (usable <= Length{}) return std::nullopt;
    return std::max<std::int64_t>(0, std::llround(std::ceil(length / usable - count_noise)));
}

/// Length of new skeins that covers the need alone, their own spread allowed for.
Length anew(const RoleCover& role) {
    const double shared = measure::within(yarn::label_grist_half_width);
    Length enough = measure::supply_needed(role.compared, Length{}, role.confidence);
    // The spread grows with the supply it belongs to; a second round is enough.
    for (int round = 0; round < 2; ++round)
        enough = measure::supply_needed(role.compared, enough * shared, role.confidence);
    return enough;
}

/// What the project says of the fibres, else the labels of that yarn in the stash.
std::vector<yarn::FibreContent> contents_of(const project::Role& role,
                                            const std::vector<stash::Skein>& stash) {
    if (role.fibre.known()) return {role.fibre};
    std::vector<yarn::FibreContent> out;
    if (role.name.empty()) return out;
    for (const stash::Skein& skein : stash)
        if (base::same_name(skein.yarn.name, role.name) && skein.yarn.fibre.known() &&
            std::find(out.begin(), out.end(), skein.yarn.fibre) == out.end())
            out.push_back(skein.yarn.fibre);
    return out;
}

void note_fibres(BuyingLine& line, const project::Role& role, project::Recipient made_for,
                 const std::vector<stash::Skein>& stash) {
    for (const std::string& fibre : role.avoid)
        if (std::find(line.keep_out.begin(), line.keep_out.end(), fibre) == line.keep_out.end())
            line.keep_out.push_back(fibre);
    line.near_heat = line.near_heat || made_for == project::Recipient::kitchen_heat;
    if (line.keep_out.empty() && !line.near_heat) return;
    for (const yarn::FibreContent& content : contents_of(role, stash)) {
        const auto objection = yarn::objection_to(content, line.keep_out);
        if (objection && (!line.objection || objection->presence < line.objection->presence))
            line.objection = objection;
        if (line.near_heat && line.unproven.empty())
            line.unproven = yarn::unproven_in_heat(content);
    }
}

/// Sure with its margin. What contradicts itself cannot be bought for: there the worse reading has
/// to do, and who asks is told.
bool is_served(const RoleCover& role) {
    const double trust = role.need.trust().value();
    return !role.against_slip && !(role.margin_short > Length{}) &&
           role.chance.value.value() >= trust * role.confidence.value.value() &&
           (role.verdict == Verdict::covered || !role.need.contradictions.empty());
}

bool alike(const BuyingLine& line, const project::Role& role, const yarn::Label& put_up) {
    return !role.name.empty() && !role.colour.empty() && base::same_name(line.yarn, role.name) &&
           base::same_name(line.colour, role.colour) && line.put_up == put_up;
}

/// What was chosen of the very yarn and colour that is bought; another's lot is not to be matched.
const stash::Skein* of_the_line(const RoleCover& role, const BuyingLine& line) {
    for (const stash::Skein& skein : role.chosen) {
        const bool named = role.role.name.empty() || base::same_name(skein.yarn.name, line.yarn);
        if (named && (line.colour.empty() || base::same_name(skein.colourway, line.colour)))
            return &skein;
    }
    return nullptr;
}

/// A line in the making.
struct Draft {
    BuyingLine line;
    Length all_new{};
    bool one_lot = false;
    bool has_some = false;
    Length tail{};
    project::Role role;  ///< the first that wants it
    stash::Skein like;   ///< of the stash's lot where there is some of it
    project::Recipient made_for = project::Recipient::adult;
};

void estimate(Draft& draft) {
    BuyingLine& line = draft.line;
    if (line.objection || !line.unproven.empty()) return;
    line.skeins = skeins_for(line.missing, line.put_up, draft.tail);
}

bool in_work(const stash::Skein& skein) {
    return !skein.set_aside.empty();
}

std::string lot_in_work(const stash::Skein& skein) {
    return "as " + skein.id;
}

/// Skeins as they come from a shop, of the stash's lot where there is one to match.
std::vector<stash::Skein> bought(const Draft& draft) {
    stash::Skein one;
    one.yarn.name = draft.line.yarn;
    one.yarn.label = draft.line.put_up;
    one.yarn.weight = draft.role.weight;
    one.yarn.fibre = draft.role.fibre;
    one.colourway = draft.line.colour;
    one.dye_lot = "bought";
    if (draft.has_some) {
        one.yarn = draft.like.yarn;
        one.yarn.label = draft.line.put_up;
        one.colourway = draft.like.colourway;
        // Nothing can be bought to match a lot that nobody knows: the new ones are a lot of their
        // own; but what is in work must be matched by eye.
        if (draft.like.dye_lot || draft.like.shade_group) {
            one.dye_lot = draft.like.dye_lot;
            one.shade_group = draft.like.shade_group;
        } else if (in_work(draft.like)) {
            one.dye_lot = lot_in_work(draft.like);
        }
    }
    // Who buys reads the label for what must be kept out.
    if (!one.yarn.fibre.known() && !draft.role.avoid.empty() &&
        draft.made_for != project::Recipient::kitchen_heat)
        one.yarn.fibre = fibre_that_serves(draft.role, draft.made_for);
    std::vector<stash::Skein> out;
    for (std::int64_t i = 0; i < draft.line.skeins.value_or(0); ++i) {
        one.id =
            "bought " + draft.line.yarn + " " + draft.line.colour + " " + std::to_string(i + 1);
        out.push_back(one);
    }
    return out;
}

/// What the makes come to once all lines are bought: the one answer to how many suffice.
class Trying {
  public:
    Trying(const std::vector<Make>& makes, const std::vector<MakeCover>& covers,
           const std::vector<stash::Skein>& stash, std::vector<Draft>& drafts)
        : makes_(makes), drafts_(drafts) {
        // Most of a large stash fits nothing.
        std::vector<bool> fits(stash.size());
        for (const MakeCover& cover : covers)
            for (const RoleCover& role : cover.roles) mark_fitting(role, fits);
        for (std::size_t at = 0; at < stash.size(); ++at)
            if (fits[at]) fitting_.push_back(stash[at]);
        for (stash::Skein& skein : fitting_)
            for (const Draft& draft : drafts)
                if (draft.has_some && skein.id == draft.like.id && in_work(skein) &&
                    !skein.dye_lot && !skein.shade_group)
                    skein.dye_lot = lot_in_work(skein);
    }

    void run() {
        constexpr int more_at_most = 40;
        std::int64_t all = 0;
        for (const Draft& draft : drafts_) all += draft.line.skeins.value_or(0);
        if (all > most_bought) {
            for (Draft& draft : drafts_) draft.line.settled = false;
            return;
        }
        std::vector<std::optional<std::int64_t>> by_sums;
        for (const Draft& draft : drafts_) by_sums.push_back(draft.line.skeins);
        bool covered = all_covered();
        for (int round = 0, idle = 0; round < more_at_most && !covered && idle < 2; ++round) {
            for (Draft& draft : drafts_)
                if (draft.line.skeins && wanting(draft)) ++*draft.line.skeins;
            const std::vector<MakeCover> before = std::move(covers_);
            covered = all_covered();
            // Skeins that twice changed nothing are like those that would come next.
            idle = same_choices(before, covers_) ? idle + 1 : 0;
        }
        if (!covered) {
            for (std::size_t at = 0; at < drafts_.size(); ++at) {
                drafts_[at].line.settled = !wanting(drafts_[at]);
                drafts_[at].line.skeins = by_sums[at];
            }
            return;
        }
        for (Draft& draft : drafts_) draft.line.skeins = fewest(draft);
        static_cast<void>(all_covered());
    }

    /// That all of them are covered, as last tried.
    [[nodiscard]] measure::Chance chance() const {
        units::Ratio all = units::Ratio::from_value(1.0);
        for (const MakeCover& cover : covers_) all *= cover.chance.value;
        return {all};
    }

  private:
    /// Sharing among makes takes odd ways: a skein less may fail, and two less do.
    std::int64_t fewest(Draft& draft) {
        constexpr std::int64_t failures_at_most = 4;
        std::int64_t good = draft.line.skeins.value_or(0);
        for (std::int64_t count = good; count-- > 0 && good - count <= failures_at_most;) {
            draft.line.skeins = count;
            if (all_covered()) good = count;
        }
        return good;
    }

    static bool same_choices(const std::vector<MakeCover>& before,
                             const std::vector<MakeCover>& now) {
        const auto same_skein = [](const stash::Skein& a, const stash::Skein& b) {
            return a.id == b.id;
        };
        const auto same_role = [&](const RoleCover& a, const RoleCover& b) {
            return a.verdict == b.verdict && a.chance == b.chance && a.spare == b.spare &&
                   a.margin_short == b.margin_short && a.confidence == b.confidence &&
                   a.against_slip == b.against_slip && a.shares.empty() && b.shares.empty() &&
                   std::equal(a.chosen.begin(), a.chosen.end(), b.chosen.begin(), b.chosen.end(),
                              same_skein);
        };
        return std::equal(before.begin(), before.end(), now.begin(), now.end(),
                          [&](const MakeCover& a, const MakeCover& b) {
                              return std::equal(a.roles.begin(), a.roles.end(), b.roles.begin(),
                                                b.roles.end(), same_role);
                          });
    }

    bool all_covered() {
        std::vector<stash::Skein> all = fitting_;
        for (const Draft& draft : drafts_)
            for (stash::Skein& skein : bought(draft)) all.push_back(std::move(skein));
        covers_ = cover_makes(makes_, all,
                              makes_.size() == 1 ? makes_.front().rules.sharing : Sharing::joint,
                              memory_);
        for (MakeCover& cover : covers_)
            for (RoleCover& role : cover.roles) leave_stash(role);  // which is `all`
        return std::all_of(covers_.begin(), covers_.end(), [](const MakeCover& cover) {
            return std::all_of(cover.roles.begin(), cover.roles.end(), is_served);
        });
    }

    /// One of the roles that want this line is not covered yet, its margin counted in.
    [[nodiscard]] bool wanting(const Draft& draft) const {
        for (std::size_t at = 0; at < covers_.size(); ++at)
            for (const RoleCover& role : covers_[at].roles) {
                const std::string use = makes_[at].project->title + " (" + role.role.id + ")";
                const bool uses = std::find(draft.line.uses.begin(), draft.line.uses.end(), use) !=
                                  draft.line.uses.end();
                if (uses && !is_served(role)) return true;
            }
        return false;
    }

    const std::vector<Make>& makes_;
    std::vector<Draft>& drafts_;
    std::vector<stash::Skein> fitting_;
    std::vector<MakeCover> covers_;
    Memory memory_;
};

void finish(Draft& draft) {
    BuyingLine& line = draft.line;
    if (!line.skeins) return;
    const Length usable = line.put_up.length->value - 2.0 * draft.tail;
    line.over = std::max(Length{}, usable * static_cast<double>(*line.skeins) - line.missing);
    const auto by_sums = skeins_for(line.missing, line.put_up, draft.tail);
    const auto without =
        skeins_for(std::max(Length{}, line.missing - line.margin), line.put_up, draft.tail);
    line.for_margin = *by_sums - *without;
    if (!draft.one_lot || !draft.has_some) return;
    line.match_lots = true;
}

void set_price(BuyingLine& line, const Prices& prices) {
    const auto price = std::find_if(prices.begin(), prices.end(), [&](const auto& one) {
        return base::same_name(one.first, line.yarn);
    });
    if (price == prices.end()) return;
    line.price = price->second;
    if (line.skeins && line.settled)
        line.cost = Price{price->second.hundredths * *line.skeins, price->second.currency};
}

}  // namespace

bool may_be_bought_as(const project::Role& role, const yarn::Label& put_up) {
    if (!role.grist || !yarn::put_up_in(role.grist->text).length) return true;
    const auto grist = yarn::label_grist(put_up);
    constexpr double rounding = 0.05;
    return grist &&
           std::abs(units::Ratio(role.grist->value / grist->centre).value() - 1.0) <= rounding;
}

std::vector<BuyingLine> buying_list(const std::vector<Make>& makes,
                                    const std::vector<MakeCover>& covers,
                                    const std::vector<stash::Skein>& stash,
                                    const yarn::Label& put_up, const Prices& prices) {
    std::vector<Draft> drafts;
    for (std::size_t at = 0; at < makes.size(); ++at)
        for (const RoleCover& role : covers[at].roles) {
            if (is_served(role)) continue;
            const Rules& rules = makes[at].rules;
            const yarn::Label label = put_up_for(role.role, stash, put_up);
            auto found = std::find_if(drafts.begin(), drafts.end(), [&](const Draft& draft) {
                return alike(draft.line, role.role, label);
            });
            if (found == drafts.end()) {
                Draft draft;
                draft.line.yarn = role.role.name.empty() ? any_yarn(role.role) : role.role.name;
                draft.line.colour = role.role.colour;
                draft.line.put_up = label;
                draft.line.only_margin = true;
                draft.role = role.role;
                draft.made_for = makes[at].project->made_for;
                drafts.push_back(std::move(draft));
                found = drafts.end() - 1;
            }
            found->line.uses.push_back(makes[at].project->title + " (" + role.role.id + ")");
            note_fibres(found->line, role.role, makes[at].project->made_for, stash);
            const bool enough_for_itself =
                role.verdict == Verdict::covered || !role.need.contradictions.empty();
            found->line.missing +=
                enough_for_itself ? std::max(role.to_be_sure, role.margin_short) : role.to_be_sure;
            if (role.verdict != Verdict::covered) found->line.only_margin = false;
            found->line.needed += role.needed;
            found->line.margin += role.needed - role.need.length.centre;
            found->all_new += anew(role);
            found->one_lot = found->one_lot || role.role.one_lot;
            if (const stash::Skein* like = of_the_line(role, found->line);
                like != nullptr && !found->has_some) {
                found->has_some = true;
                found->like = *like;
            }
            found->tail = std::max(found->tail, rules.tail);
        }
    for (Draft& draft : drafts) estimate(draft);
    std::optional<measure::Chance> chance;
    if (!drafts.empty() && std::all_of(drafts.begin(), drafts.end(), [](const Draft& draft) {
            return draft.line.skeins.has_value();
        })) {
        Trying trying(makes, covers, stash, drafts);
        trying.run();
        chance = trying.chance();
        for (std::size_t at = 0; at < drafts.size(); ++at) {
            if (!drafts[at].one_lot || !drafts[at].has_some) continue;
            std::vector<Draft> anew_too = drafts;
            anew_too[at].has_some = false;
            anew_too[at].line.skeins =
                skeins_for(drafts[at].all_new, drafts[at].line.put_up, drafts[at].tail);
            Trying(makes, covers, stash, anew_too).run();
            if (anew_too[at].line.settled) drafts[at].line.all_anew = anew_too[at].line.skeins;
        }
    }
    std::vector<BuyingLine> out;
    for (Draft& draft : drafts) {
        finish(draft);
        draft.line.chance = chance;
        set_price(draft.line, prices);
        out.push_back(std::move(draft.line));
    }
    return out;
}

std::vector<Price> together(const std::vector<BuyingLine>& lines) {
    std::vector<Price> out;
    for (const BuyingLine& line : lines) {
        if (!line.cost) continue;
        const auto same = std::find_if(out.begin(), out.end(), [&](const Price& sum) {
            return sum.currency == line.cost->currency;
        });
        if (same == out.end())
            out.push_back(*line.cost);
        else
            same->hundredths += line.cost->hundredths;
    }
    return out;
}

}  // namespace skeinfall::cover
