#include "check_section.hpp"

#include "skeinfall/base/problem.hpp"
#include "skeinfall/exchange/file_kind.hpp"
#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/exchange/returns_csv.hpp"
#include "skeinfall/exchange/text_file.hpp"
#include "skeinfall/materials/lint.hpp"

namespace skeinfall::cli {

CheckedSection check_section(const std::filesystem::path& file,
                             const std::optional<std::string>& project,
                             const std::optional<std::string>& returns) {
    const std::string text = exchange::read_text_file(file);
    if (!materials::looks_like_section(text)) {
        if (const auto other = exchange::other_kind(text, file.string(), exchange::Wanted::section))
            throw base::InputError(*other);
        throw base::InputError(
            base::Problem{"no materials section was found in it",
                          {.file = file.string(), .line = 0, .column = 0},
                          "a section as \"skeinfall materials\" writes it, text or Markdown",
                          ""});
    }
    CheckedSection out;
    out.title = materials::title_of(text);
    if (project) {
        const materials::Section section = materials::section_of(
            returns ? exchange::with_returns(exchange::read_text_file(*project), *project,
                                             exchange::read_text_file(*returns), *returns)
                    : exchange::read_project(*project));
        out.findings = materials::lint(text, file.string(), &section);
    } else {
        out.findings = materials::lint(text, file.string());
    }
    return out;
}

}  // namespace skeinfall::cli
