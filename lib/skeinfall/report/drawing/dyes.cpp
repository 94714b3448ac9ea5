#include "skeinfall/report/detail/dyes.hpp"

#include <algorithm>
#include <cstdint>

#include "skeinfall/base/text.hpp"
#include "skeinfall/data/colour_words.hpp"

namespace skeinfall::report {

std::optional<Shade> shade_by_words(std::string_view colour) {
    std::vector<std::string> words;
    for (const std::string& word : base::split(base::lower(colour), ' '))
        if (!word.empty()) words.push_back(word);
    for (std::size_t from = 0; from < words.size(); ++from) {
        const std::string joined =
            base::join({words.begin() + static_cast<std::int64_t>(from), words.end()}, "");
        for (const data::colour_words_row& row : data::colour_words)
            if (row.word == joined) return shade_of(std::string(row.shade));
    }
    return std::nullopt;
}

std::vector<Dye> dyes_of(const project::Project& project) {
    std::vector<Dye> out;
    for (std::size_t i = 0; i < project.roles.size(); ++i) {
        const project::Role& role = project.roles[i];
        Dye dye;
        dye.pattern = i;
        dye.shade = !role.shade.empty() ? shade_of(role.shade)
                                        : shade_by_words(role.colour).value_or(usual_shade(i));
        out.push_back(dye);
    }
    for (std::size_t i = 0; i < project.roles.size(); ++i)
        for (std::size_t with = 0; with < project.roles.size(); ++with)
            if (project.roles[i].held_with == project.roles[with].id) out[with].with = out[i].shade;
    return out;
}

Shade shade_of_run(const project::ColourRun& run, std::size_t index) {
    return run.shade.empty() ? usual_shade(index) : shade_of(run.shade);
}

}  // namespace skeinfall::report
