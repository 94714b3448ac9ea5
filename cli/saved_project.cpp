#include "saved_project.hpp"

#include <cstddef>

#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/fit/same_make.hpp"
#include "skeinfall/units/format.hpp"

#include "options.hpp"

namespace skeinfall::cli {

std::string saved_project(const Told& told, const project::Project& made, std::size_t size,
                          const std::vector<exchange::PieceEdit>& pieces, const std::string& file) {
    const project::Project& was = told.project;
    std::vector<exchange::RoundEdit> rounds;
    for (std::size_t at = 0; at < made.finish.size(); ++at)
        if (made.finish[at].first_round.values != was.finish.at(at).first_round.values)
            rounds.push_back({at, made.finish[at].first_round});
    std::vector<exchange::ColumnsEdit> columns;
    for (std::size_t at = 0; at < made.finish.size(); ++at)
        if (made.finish[at].columns.values != was.finish.at(at).columns.values)
            columns.push_back({at, made.finish[at].columns});
    std::vector<exchange::FringeEdit> fringes;
    for (std::size_t at = 0; at < made.finish.size(); ++at) {
        const project::FinishPart& now = made.finish[at];
        const project::FinishPart& then = was.finish.at(at);
        if (now.kind != project::PartKind::fringe) continue;
        if (now.strands.values != then.strands.values)
            fringes.push_back({at, now.strands, {}, {}});
        else if (now.yarn.values != then.yarn.values || now.length.values != then.length.values)
            fringes.push_back({at, {}, now.yarn, now.length});
    }
    std::vector<exchange::TotalEdit> totals;
    for (std::size_t at = 0; at < made.roles.size(); ++at) {
        const project::Role& now = made.roles[at];
        const project::Role& then = was.roles.at(at);
        if (now.total_length.values == then.total_length.values &&
            now.total_mass.values == then.total_mass.values)
            continue;
        totals.push_back({now.id, now.total_length, now.total_mass, now.total_least});
    }
    std::string text =
        exchange::edited_project(told.text, was.file, pieces, totals, rounds, columns, fringes);
    if (!fit::same_make(made, exchange::parse_project(text, file), size))
        refuse_option(
            "save", "the file so changed would be read as another make than the one answered",
            was.pattern_gauge ? "a project without [maker_gauge]"
                              : "a project whose pieces are told by stitches and rows",
            was.pattern_gauge ? "Write the gauge you get as [gauge], then save again. Nothing was "
                                "written."
                              : "Nothing was written.");
    return text;
}

std::string with_margin(std::string toml, std::optional<units::Ratio> margin) {
    const std::size_t craft = toml.find("\ncraft = ");
    if (!margin || craft == std::string::npos) return toml;
    toml.insert(craft + 1,
                "margin = \"" +
                    units::percent_text(*margin, units::Step::hundredth, units::Rounding::nearest) +
                    "\"\n");
    return toml;
}

}  // namespace skeinfall::cli
