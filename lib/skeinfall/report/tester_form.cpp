#include "skeinfall/report/tester_form.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/words.hpp"

namespace skeinfall::report {
namespace {

using base::shown_inert;

std::string block(const project::Project& project, const project::Role& role) {
    std::string out = "\n[[tester]]\nname = \"\"                # yours, or a number\n";
    if (!project.sizes.empty()) out += "size = \"\"                # the size you made\n";
    out += fmt::format("yarn = {:<18}# {}\n", base::quoted(role.id),
                       shown_inert(role.name.empty() ? "the yarn you used for it" : role.name));
    out +=
        "before = \" g\"            # all skeins and balls you set out, before you begin\n"
        "after = \" g\"             # what is left of them, with all scraps but the ends woven in\n"
        "scale = \"1 g\"            # the smallest step your scale shows\n"
        "stitches = \" per 10 cm\"  # your gauge, counted on the finished piece\n"
        "rows = \" per 10 cm\"\n"
        "grist = \" m / \"          # from your label, when your yarn is not the pattern's\n";
    return out;
}

}  // namespace

std::string tester_form(const project::Project& project) {
    std::string out = shown_inert(project.title) + ": form for testers\n";
    out +=
        "\n1. Before you begin, weigh all the yarn you set out, one colour at a time: balls "
        "without "
        "their\n   bands, everything of one colour together.\n"
        "2. Work the piece. Ripping back and working again does no harm.\n"
        "3. Weigh what is left of each colour on the same scale, in the same room.\n"
        "4. Count your gauge on the finished piece: stitches and rows over 10 cm or 4 in.\n"
        "5. Fill in one block for each colour and send all of it back. Leave out a line that you\n"
        "   cannot fill in; before and after are the ones that count.\n";
    if (!project.sizes.empty()) {
        std::vector<std::string> sizes;
        for (const std::string& size : project.sizes) sizes.push_back(shown_inert(size));
        out += "\nSizes: " + base::join(sizes, ", ") + "\n";
    }
    for (const project::Role& role : project.roles) out += block(project, role);
    return out;
}

}  // namespace skeinfall::report
