#include "skeinfall/units/wraps.hpp"

#include <string>

#include "skeinfall/base/letters.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::units {
namespace {

using base::is_digit;

/// Blanks over `word`, so that columns stay; true when it was there as a word of its own.
bool blank_out(std::string& text, std::string_view word) {
    const std::size_t at = base::lower(text).find(word);
    if (at == std::string::npos) return false;
    const auto letter = [&](std::size_t i) {
        return i < text.size() && base::lower(text.substr(i, 1)) >= "a" &&
               base::lower(text.substr(i, 1)) <= "z";
    };
    if (letter(at + word.size()) || (at > 0 && letter(at - 1))) return false;
    text.replace(at, word.size(), word.size(), ' ');
    return true;
}

}  // namespace

base::Result<WrapGauge> parse_wraps(std::string_view text) {
    // A gauge is a count over a length too, so its reader does the work.
    std::string as_gauge(text);
    bool per_inch = blank_out(as_gauge, "wpi");
    if (!per_inch) {
        const bool named = blank_out(as_gauge, "wraps") || blank_out(as_gauge, "wrap");
        const std::string_view rest = base::trimmed(as_gauge);
        per_inch = !named && !rest.empty() && is_digit(rest.back());
    }
    if (per_inch) as_gauge += " per in";
    const auto gauge = parse_stitch_gauge(as_gauge);
    if (gauge) return wrap / stitch * *gauge;
    base::Problem problem = gauge.problem();
    problem.what = base::quoted(text) + ": " + problem.what.substr(problem.what.find("\": ") + 3);
    problem.remedy = "Write it like \"9\" for 9 wraps per inch, or \"36 wraps per 10 cm\".";
    return problem;
}

}  // namespace skeinfall::units
