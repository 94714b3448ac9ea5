#include "skeinfall/exchange/materials_toml.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/gauge_fields.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::exchange {
namespace {

using project::TesterReturn;
using project::TotalsFrom;

constexpr std::size_t most_returns = 1000;

std::string one_of(const std::vector<std::string>& names) {
    return "one of " + base::join(names, ", ");
}

std::string near_remedy(const std::string& name, const std::vector<std::string>& names) {
    const auto near = base::nearest_name(name, names);
    return base::did_you_mean(near);
}

void read_whose(TomlTable& in, const project::Project& project, TesterReturn& out) {
    std::vector<std::string> ids;
    for (const project::Role& role : project.roles) ids.push_back(role.id);
    if (const auto id = in.text("yarn"))
        out.role = *id;
    else if (ids.size() == 1)
        out.role = ids.front();
    else if (!ids.empty())
        in.missing("yarn", one_of(ids), "Add a line like yarn = \"" + ids.front() + "\".");
    if (in.has("yarn") && !ids.empty() && project.role(out.role) == nullptr)
        in.fail("yarn", "no yarn " + in_quotes(out.role) + " is described", one_of(ids),
                near_remedy(out.role, ids));
    const auto size = in.text("size");
    if (project.sizes.empty()) {
        if (size) in.fail("size", "the project has one size", "no size here", "");
        return;
    }
    if (!size)
        return in.missing("size", one_of(project.sizes),
                          "Add a line like size = \"" + project.sizes.front() + "\".");
    const auto found = std::find(project.sizes.begin(), project.sizes.end(), *size);
    if (found == project.sizes.end())
        in.fail("size", "there is no size " + in_quotes(*size), one_of(project.sizes),
                near_remedy(*size, project.sizes));
    else
        out.size = static_cast<std::size_t>(found - project.sizes.begin());
}

void read_return(TomlTable& in, project::Project& project) {
    TesterReturn out;
    out.tester = in.text("name").value_or(std::string());
    read_whose(in, project, out);
    const auto before = in.printed("before", units::parse_mass);
    const auto after = in.printed("after", units::parse_mass);
    const auto scale = in.printed("scale", units::parse_mass);
    if (!in.has("before"))
        in.missing("before", "what the yarn weighed before the first stitch",
                   "Add a line like before = \"412 g\".");
    if (!in.has("scale"))
        in.missing("scale", "the smallest step the scale shows",
                   "Add a line like scale = \"1 g\".");
    if (before && after && before->value <= after->value)
        in.fail("after", "no less than before", "less than " + before->text,
                "\"after\" is what was left over, \"before\" all that the tester began with.");
    out.stitches = stitch_gauge_in(in, "stitches");
    out.rows = row_gauge_in(in, "rows");
    if (in.has("stitches") != in.has("rows"))
        in.fail(in.has("rows") ? "rows" : "stitches", "half a gauge",
                "both \"stitches\" and \"rows\", or neither");
    out.grist = in.parsed("grist", units::parse_grist);
    out.confirmed = in.flag("confirmed").value_or(false);
    const project::Role* role = project.role(out.role);
    if (role != nullptr && !role->grist && !in.has("grist"))
        in.fail("before", "the yarn " + out.role + " has no length per mass",
                "a grist for that yarn, or here",
                "Add a line like grist = \"200 yd / 100 g\" to [yarn." + out.role + "].");
    in.finish();
    if (!before || !scale) return;
    out.before = {*before, *scale, std::nullopt};
    if (after) out.after = measure::Weighing{*after, *scale, std::nullopt};
    project.testers.push_back(std::move(out));
}

/// "95 %", or "middle".
void read_totals_for(TomlTable& top, project::Project& project) {
    const auto text = top.text("totals_for");
    if (!text) return;
    if (base::same_word(*text, "middle")) {
        project.totals_for.of.reset();
        return;
    }
    constexpr double least = 0.5;
    constexpr double most = 0.999;
    const auto share = units::parse_percent(*text);
    if (!share || share->value() < least || share->value() > most)
        return top.fail("totals_for", in_quotes(*text) + " is not a share of makers",
                        "a share from 50 % to 99.9 %, or \"middle\"",
                        "Write totals_for = \"90 %\" for totals that nine makers in ten come out "
                        "with.");
    project.totals_for.of = *share;
}

}  // namespace

void read_materials(TomlTable& top, project::Project& project) {
    read_totals_for(top, project);
    std::vector<TomlTable> returns = top.tables("tester");
    if (returns.size() > most_returns)
        return top.fail("tester", fmt::format("{} returns of testers", returns.size()),
                        fmt::format("at most {}", most_returns));
    for (TomlTable& table : returns) read_return(table, project);
    if (!top.has("totals_from")) return;
    project.totals_from = top.choice<TotalsFrom>("totals_from",
                                                 {{"own make", TotalsFrom::own_make},
                                                  {"testers", TotalsFrom::testers},
                                                  {"model", TotalsFrom::model}},
                                                 TotalsFrom::model);
    if (project.totals_from == TotalsFrom::testers && !top.has("tester"))
        top.fail("totals_from", "there are no testers' returns", "a [[tester]] table as well",
                 "Add [[tester]] with before, after and scale.");
    if (project.totals_from != TotalsFrom::own_make) return;
    for (const project::Role& role : project.roles)
        if (!role.states_total())
            top.fail("totals_from", "the yarn " + role.id + " has no total of an own make",
                     "a total for every yarn",
                     "Add a line like total = \"380 yd\" to [yarn." + role.id + "].");
}

}  // namespace skeinfall::exchange
