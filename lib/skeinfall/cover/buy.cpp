#include "skeinfall/cover/buy.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "skeinfall/base/name.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/measure/propagate.hpp"
#include "skeinfall/yarn/put_up.hpp"

namespace skeinfall::cover {
namespace {

using units::Length;

constexpr double noise = 1e-9;  // of a skein

/// What the project says of the yarn, else the label of a skein of that yarn in the stash.
yarn::Label put_up_for(const project::Role& role, const std::vector<stash::Skein>& stash,
                       const yarn::Label& fallback) {
    if (role.grist)
        if (yarn::Label stated = yarn::put_up_in(role.grist->text); stated.length) return stated;
    if (!role.name.empty())
        for (const stash::Skein& skein : stash)
            if (base::same_name(skein.yarn.name, role.name) && skein.yarn.label.length)
                return skein.yarn.label;
    return fallback;
}

std::string any_yarn(const project::Role& role) {
    return role.weight ? "any yarn of class " + text(*role.weight) : "any yarn that fits";
}

/// Whole skeins that give a length, two tails off each.
std::optional<long> skeins_for(Length length, const yarn::Label& put_up, Length tail) {
    if (!put_up.length) return std::nullopt;
    const Length usable = put_up.length->value - 2.0 * tail;
    if (usable <= Length{}) return std::nullopt;
    return std::max(0L, std::lround(std::ceil(length / usable - noise)));
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

bool alike(const BuyingLine& line, const project::Role& role, const yarn::Label& put_up) {
    return !role.name.empty() && !role.colour.empty() && base::same_name(line.yarn, role.name) &&
           base::same_name(line.colour, role.colour) && line.put_up == put_up;
}

void finish(BuyingLine& line, Length all_new, bool one_lot, bool has_some, Length tail) {
    if (line.objection || !line.unproven.empty()) return;
    line.skeins = skeins_for(line.missing, line.put_up, tail);
    if (!line.skeins) {
        line.notes.emplace_back(
            "no put-up is known: say what one skein holds, such as 200 yd / 100 g");
        return;
    }
    const Length usable = line.put_up.length->value - 2.0 * tail;
    line.over = usable * static_cast<double>(*line.skeins) - line.missing;
    const auto without =
        skeins_for(std::max(Length{}, line.missing - line.margin), line.put_up, tail);
    line.for_margin = *line.skeins - *without;
    if (!one_lot || !has_some) return;
    line.all_anew = skeins_for(all_new, line.put_up, tail);
    line.notes.push_back(fmt::format(
        "lots must match: buy your lot again, or {} of one new lot", *line.all_anew));
}

void set_price(BuyingLine& line, const Prices& prices) {
    const auto price = std::find_if(prices.begin(), prices.end(), [&](const auto& one) {
        return base::same_name(one.first, line.yarn);
    });
    if (price == prices.end()) return;
    line.price = price->second;
    if (line.skeins)
        line.cost = Price{price->second.hundredths * *line.skeins, price->second.currency};
}

}  // namespace

std::vector<BuyingLine> buying_list(const std::vector<Make>& makes,
                                    const std::vector<MakeCover>& covers,
                                    const std::vector<stash::Skein>& stash,
                                    const yarn::Label& put_up, const Prices& prices) {
    struct Draft {
        BuyingLine line;
        Length all_new{};
        bool one_lot = false;
        bool has_some = false;
        Length tail{};
    };
    std::vector<Draft> drafts;
    for (std::size_t at = 0; at < makes.size(); ++at)
        for (const RoleCover& role : covers[at].roles) {
            if (role.verdict == Verdict::covered) continue;
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
                drafts.push_back(std::move(draft));
                found = drafts.end() - 1;
            }
            found->line.uses.push_back(makes[at].project->title + " (" + role.role.id + ")");
            note_fibres(found->line, role.role, makes[at].project->made_for, stash);
            found->line.missing += role.to_be_sure;
            found->line.needed += role.needed;
            found->line.margin += role.needed - role.need.length.centre;
            found->all_new += anew(role);
            found->one_lot = found->one_lot || role.role.one_lot;
            found->has_some = found->has_some || !role.chosen.empty();
            found->tail = std::max(found->tail, rules.tail);
        }
    std::vector<BuyingLine> out;
    for (Draft& draft : drafts) {
        finish(draft.line, draft.all_new, draft.one_lot, draft.has_some, draft.tail);
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
