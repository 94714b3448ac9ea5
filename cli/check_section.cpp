#include "check_section.hpp"

#include "skeinfall/base/problem.hpp"
#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/exchange/text_file.hpp"
#include "skeinfall/materials/lint.hpp"

namespace skeinfall::cli {

CheckedSection check_section(const std::filesystem::path& file,
                             const std::optional<std::string>& project) {
    const std::string text = exchange::read_text_file(file);
    if (!materials::looks_like_section(text))
        throw base::InputError(
            base::Problem{"no materials section was found in it",
                          {.file = file.string(), .line = 0, .column = 0},
                          "a section as \"skeinfall materials\" writes it, text or Markdown",
                          ""});
    CheckedSection out;
    out.title = materials::title_of(text);
    if (project) {
        const materials::Section section = materials::section_of(exchange::read_project(*project));
        out.findings = materials::lint(text, file.string(), &section);
    } else {
        out.findings = materials::lint(text, file.string());
    }
    return out;
}

}  // namespace skeinfall::cli
