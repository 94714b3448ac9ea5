#pragma once
/// \file
/// A project made of answers instead of a file: what `questions` asked, what a stash knows of the
/// yarn, and what follows. The answers become the text of a project file first and are read as one,
/// so that both ways mean the same, obey the same rules, and the text can be kept.

#include <string>
#include <vector>

#include "skeinfall/exchange/make_questions.hpp"
#include "skeinfall/project/defaults.hpp"
#include "skeinfall/project/project.hpp"
#include "skeinfall/stash/skein.hpp"

namespace skeinfall::exchange {

/// Something that was taken for granted or looked up, and which answer would say otherwise.
struct Assumed {
    std::string question;  ///< id of the question that undoes it
    std::string what;      ///< "the yarn is Gorsebrook Worsted of the stash, 200 yd / 100 g"
};

struct AskedProject {
    project::Project project;
    std::string toml;  ///< the same as a file, with comments
    std::vector<Assumed> assumed;
};

/// `stash` tells label, class and fibre of a yarn that is named by some letters of its name; it may
/// be empty. Throws base::InputError; the file of a problem's place is the question's id.
[[nodiscard]] AskedProject project_of_answers(const MakeAnswers& answers,
                                              const std::vector<stash::Skein>& stash,
                                              const project::Defaults& defaults = {});

/// The yarns of a stash whose name holds `letters` (no regard to case), one skein of each, in the
/// order of adding; one alone where the name is just these letters.
[[nodiscard]] std::vector<stash::Skein> yarns_named(const std::string& letters,
                                                    const std::vector<stash::Skein>& stash);

/// A weight class by number, the Council's name, or a name of the trade on which all charts agree
/// ("worsted", "DK", "AU 8 ply"). A name on which charts differ is refused with what they say.
[[nodiscard]] base::Result<yarn::WeightClass> parse_class(std::string_view text);

/// Skeins told of in one line, as if they lay in the stash: "2 skeins of 170 yd / 100 g", "3 x 200
/// m", "48 g", "2 skeins". What is not said of a skein comes from `like` (its name, label, class,
/// fibre). Mass alone is a part skein on the scale, and needs a label's length per mass.
[[nodiscard]] base::Result<std::vector<stash::Skein>> parse_having(std::string_view text,
                                                                   const yarn::Yarn& like,
                                                                   const std::string& colour,
                                                                   std::size_t first);

}  // namespace skeinfall::exchange
