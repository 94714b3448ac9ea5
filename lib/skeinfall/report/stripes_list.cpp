#include "skeinfall/report/detail/stripes_list.hpp"

#include <algorithm>
#include <cstdint>

namespace skeinfall::report {
namespace {

/// The skein that a role's plan works this row with.
std::string skein_at(const joins::Answer& answer, const std::string& role, std::size_t piece,
                     std::int64_t row) {
    for (const joins::RoleJoins& one : answer.roles) {
        const joins::JoinPlan& plan = one.plan;
        if (plan.role != role) continue;
        for (std::size_t at = 0; at < plan.steps.size(); ++at) {
            const need::Step& step = plan.steps[at];
            if (step.piece != piece || step.copy != 1 || step.row != row || !step.name.empty() ||
                step.purpose != need::Purpose::body)
                continue;
            for (const joins::Stretch& stretch : plan.stretches)
                if (at >= stretch.from.step && at < stretch.to.step) return stretch.ball.id;
            // Joined inside the row.
            for (const joins::Stretch& stretch : plan.stretches)
                if (at >= stretch.from.step && at <= stretch.to.step) return stretch.ball.id;
        }
    }
    return {};
}

}  // namespace

std::vector<ListedStripe> listed_stripes(const colours::StripePlan& plan,
                                         const colours::Striped& striped) {
    std::vector<ListedStripe> out;
    const std::vector<need::Change>& changes = striped.plan.need.changes;
    for (std::size_t i = 0; i < plan.wish.pieces.size(); ++i) {
        const std::size_t piece = plan.wish.pieces[i];
        const std::int64_t rows =
            project::counts(striped.project, striped.project.pieces[piece], plan.wish.size).rows;
        std::int64_t row = 1;
        for (const project::Stripe& stripe : colours::laid_out(striped.stripes[i], rows)) {
            ListedStripe one;
            one.piece = piece;
            one.role = stripe.role;
            one.first_row = row;
            one.rows = stripe.rows;
            one.skein = skein_at(striped.plan.joins, stripe.role, piece, row);
            const auto change =
                std::find_if(changes.begin(), changes.end(), [&](const need::Change& of) {
                    return of.piece == piece && of.copy == 1 && of.row == row &&
                           of.role == stripe.role;
                });
            one.goes_on = change == changes.end();
            if (!one.goes_on) {
                one.right_edge = change->right_edge;
                one.carried = change->carried;
            }
            out.push_back(std::move(one));
            row += stripe.rows;
        }
    }
    return out;
}

std::string way_word(colours::Way way) {
    switch (way) {
        case colours::Way::in_proportion:
            return "in proportion";
        case colours::Way::fade:
            return "fade";
        case colours::Way::fill:
            return "fill";
        case colours::Way::scraps:
            return "scraps";
        default:
            return "keep the repeat";
    }
}

}  // namespace skeinfall::report
