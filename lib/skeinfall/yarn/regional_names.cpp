#include "skeinfall/yarn/regional_names.hpp"

#include <algorithm>
#include <cstdint>
#include <map>
#include <set>

#include <fmt/format.h>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/data/regional_names.hpp"
#include "skeinfall/data/yarn_weight_classes.hpp"
#include "skeinfall/yarn/detail/cells.hpp"

namespace skeinfall::yarn {
namespace {

/// Lower case, single blanks, "4-ply" and "4ply" as "4 ply", without a closing "weight".
std::string plain_name(std::string_view text) {
    std::string out;
    for (const char c : base::lower(base::trimmed(text))) {
        const char next = c == '-' || c == '\t' ? ' ' : c;
        if (next == ' ' && (out.empty() || out.back() == ' ')) continue;
        out += next;
    }
    if (const std::size_t ply = out.rfind("ply");
        ply != std::string::npos && ply > 0 && out[ply - 1] >= '0' && out[ply - 1] <= '9')
        out.insert(ply, 1, ' ');
    for (const std::string_view tail : {" weight", "weight"})
        if (out.size() > tail.size() && out.ends_with(tail)) out.resize(out.size() - tail.size());
    return std::string(base::trimmed(out));
}

/// The names a cell stands for: "2-3 ply" is 2 ply and 3 ply, a bracket is a remark.
std::vector<std::string> names_in(std::string_view cell) {
    std::vector<std::string> out;
    for (const std::string& item : base::split(cell, ';')) {
        std::string_view name = std::string_view(item).substr(0, item.find(" ("));
        if (name.starts_with("no equivalent")) continue;
        if (name.ends_with(" and up")) name.remove_suffix(7);
        const auto from = base::number_first<int>(name);
        const auto to = from && from->rest.starts_with('-')
                            ? base::number_first<int>(from->rest.substr(1))
                            : std::nullopt;
        if (to) {
            for (int ply = from->value; ply <= to->value; ++ply)
                out.push_back(std::to_string(ply) + " ply");
        } else if (!name.empty()) {
            out.push_back(plain_name(name));
        }
    }
    return out;
}

struct Listed {
    std::string_view chart;
    WeightClass weight;
    Region region;
    std::vector<std::string> names;
};

const std::vector<Listed>& listed() {
    static const std::vector<Listed> all = [] {
        std::vector<Listed> out;
        for (const auto& row : data::yarn_weight_classes) {
            std::vector<std::string> names = names_in(row.types_of_yarn);
            names.push_back(plain_name(row.category));
            out.push_back({"S03", class_in_cell(row.symbol_number), Region::us, std::move(names)});
        }
        for (const auto& row : data::regional_names) {
            if (row.status != "seen" || row.cyc_number.empty()) continue;
            const std::string_view chart = row.source.substr(0, row.source.find(' '));
            const WeightClass weight = class_in_cell(row.cyc_number);
            out.push_back({chart, weight, Region::us, names_in(row.us_name)});
            out.push_back({chart, weight, Region::uk, names_in(row.uk_name)});
            out.push_back({chart, weight, Region::au_nz, names_in(row.au_nz_name)});
            out.push_back({chart, weight, Region::jp, names_in(row.jp_name)});
        }
        return out;
    }();
    return all;
}

}  // namespace

std::string_view name_of(Region region) {
    switch (region) {
        case Region::us:
            return "US";
        case Region::uk:
            return "UK";
        case Region::au_nz:
            return "AU/NZ";
        case Region::jp:
            return "Japan";
        case Region::any:
            break;
    }
    return "any region";
}

RegionalName parse_regional_name(std::string_view text) {
    const std::string_view all = base::trimmed(text);
    const std::size_t blank = all.find(' ');
    if (blank != std::string_view::npos) {
        const std::string_view first = all.substr(0, blank);
        const std::string rest = plain_name(all.substr(blank));
        if (base::same_word(first, "US")) return {Region::us, rest};
        if (base::same_word(first, "UK")) return {Region::uk, rest};
        for (const std::string_view word : {"JP", "Japan", "Japanese"})
            if (base::same_word(first, word)) return {Region::jp, rest};
        for (const std::string_view word : {"AU", "NZ", "AU/NZ"})
            if (base::same_word(first, word)) return {Region::au_nz, rest};
    }
    return {Region::any, plain_name(all)};
}

std::vector<NameVote> votes_for(const RegionalName& name) {
    std::vector<NameVote> votes;
    for (const Listed& entry : listed()) {
        if (name.region != Region::any && name.region != entry.region) continue;
        const NameVote vote{entry.chart, entry.weight};
        if (std::find(entry.names.begin(), entry.names.end(), name.name) != entry.names.end() &&
            std::find(votes.begin(), votes.end(), vote) == votes.end())
            votes.push_back(vote);
    }
    return votes;
}

std::vector<std::string> known_names(Region region) {
    std::set<std::string> names;
    for (const Listed& entry : listed())
        if (region == Region::any || region == entry.region)
            names.insert(entry.names.begin(), entry.names.end());
    return {names.begin(), names.end()};
}

base::Result<WeightClass> class_called(std::string_view called) {
    if (const auto known = parse_weight_class(called)) return *known;
    std::map<int, std::int64_t> votes;
    const RegionalName named = parse_regional_name(called);
    for (const NameVote& vote : votes_for(named)) ++votes[vote.weight.number];
    // A name that four charts in five put in one class is that class: "fingering" is class 1.
    std::int64_t all = 0;
    for (const auto& [number, count] : votes) all += count;
    for (const auto& [number, count] : votes)
        if (5 * count >= 4 * all) return WeightClass{number};
    if (votes.empty()) {
        const auto near = base::nearest_name(base::lower(called), known_names(Region::any));
        return base::Problem{base::quoted(called) + " is not a weight class",
                             {},
                             "0 to 7 or a Council name such as Medium",
                             base::did_you_mean(near)};
    }
    std::vector<std::string> said;
    for (const auto& [number, count] : votes)
        said.push_back(fmt::format("class {} ({} of them)", text(WeightClass{number}), count));
    return base::Problem{
        base::quoted(called) + " means different classes in different charts",
        {},
        "a number from 0 to 7",
        "They say " + base::join(said, ", ") +
            (named.region == Region::any ? ". A region before the name may settle it, as in "
                                           "\"UK double knitting\"."
                                         : ". The length and weight on its label settle it.")};
}

}  // namespace skeinfall::yarn
