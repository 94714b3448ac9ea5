#pragma once
/// \file
/// A project made of answers instead of a file: what `questions` asked, what a stash knows of the
/// yarn, and what follows. The answers become the text of a project file first and are read as one,
/// so that both ways mean the same, obey the same rules, and the text can be kept.

#include <string>
#include <vector>

#include "skeinfall/project/defaults.hpp"
#include "skeinfall/project/make_questions.hpp"
#include "skeinfall/project/project.hpp"
#include "skeinfall/stash/skein.hpp"

namespace skeinfall::exchange {

using project::MakeAnswers;

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

/// An answer that no question asks for: every copy of a piece has one of the colours of "stripes".
inline constexpr const char* one_colour_each = "one colour each";

/// `stash` tells label, class and fibre of a yarn that is named by some letters of its name; it may
/// be empty. Where `rows_matter`, a gauge that was not said is asked for though the yarn does not
/// hang on it. Throws base::InputError; the file of a problem's place is the question's id.
[[nodiscard]] AskedProject project_of_answers(const MakeAnswers& answers,
                                              const std::vector<stash::Skein>& stash,
                                              const project::Defaults& defaults = {},
                                              bool rows_matter = false);

/// What the answers so far tell, for the choice of what to ask next.
struct SoFar {
    bool stitch_said = false;
    bool knit = false;
    bool yarn_known = false;  ///< the stash has it
    bool colour_said = false;
    bool stripes_said = false;
};
/// Answers that cannot be read tell nothing.
[[nodiscard]] SoFar so_far(const MakeAnswers& answers, const std::vector<stash::Skein>& stash,
                           const project::Defaults& defaults);

}  // namespace skeinfall::exchange
