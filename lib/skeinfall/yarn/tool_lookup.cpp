#include <algorithm>

#include "skeinfall/base/letters.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/units/parse.hpp"
#include "skeinfall/yarn/tools.hpp"

namespace skeinfall::yarn {
namespace {

using base::Problem;
using base::Result;

using base::is_digit;
using base::is_letter;

/// A label taken apart: "K-10 1/2" and "10.5/K" have the letters "K" and the number "10.5".
struct SizeLabel {
    std::string letters;
    std::string number;

    explicit SizeLabel(std::string_view text) {
        std::size_t at = 0;
        while (at < text.size()) {
            const char c = text[at];
            if (is_letter(c)) letters += base::lower(std::string_view(&c, 1));
            ++at;
            if (!is_digit(c)) continue;
            number += c;
            while (at < text.size() && is_digit(text[at])) number += text[at++];
            const std::size_t after = text.find_first_not_of(" -", at);
            const std::string_view rest = text.substr(std::min(after, text.size()));
            for (const std::string_view half : {"1/2", "\u00bd", ".5"}) {
                if (!rest.starts_with(half)) continue;
                number += ".5";
                at = after + half.size();
            }
        }
    }

    /// True when this label of a table bears all that was asked for.
    [[nodiscard]] bool bears(const SizeLabel& wanted) const {
        const bool has_letters =
            std::all_of(wanted.letters.begin(), wanted.letters.end(),
                        [&](char c) { return letters.find(c) != std::string::npos; });
        return has_letters && (wanted.number.empty() || wanted.number == number);
    }
    [[nodiscard]] bool empty() const { return letters.empty() && number.empty(); }
};

bool bears(std::string_view printed, const SizeLabel& wanted) {
    return !printed.empty() && SizeLabel(printed).bears(wanted);
}

std::string known_labels(Tool tool, std::optional<Naming> naming) {
    std::vector<std::string> us;
    std::vector<std::string> uk;
    for (const ToolSize& size : sizes_of(tool)) {
        const auto add = [](std::vector<std::string>& to, std::string_view label) {
            if (!label.empty() && std::find(to.begin(), to.end(), label) == to.end())
                to.emplace_back(label);
        };
        add(us, size.us);
        add(uk, size.uk);
    }
    const std::string us_text = "US " + base::join(us, ", ");
    const std::string uk_text = "UK " + base::join(uk, ", ");
    if (naming) return *naming == Naming::us ? us_text : uk_text;
    return us_text + "; " + uk_text;
}

Problem refuse_steel(const ToolWish& wish) {
    const SizeLabel wanted(wish.label);
    std::string readings;
    for (const ToolSize& size : sizes_of(Tool::steel_hook)) {
        if (!bears(size.us, wanted)) continue;
        readings += readings.empty() ? ": " : "; ";
        readings += std::string(size.us) + " is " +
                    units::figures_text(units::Ratio(size.diameter / units::millimetre), 5) +
                    " mm on " + (size.second_scale ? "the other" : "one") + " numbering" +
                    (size.from_memory ? " (not checked)" : "");
    }
    return {"steel hook numbers are not one scale, so a number alone fixes no size" + readings,
            {},
            "the diameter in millimetres",
            "Read the millimetres stamped on the hook, or measure it: \"steel hook 1.5 mm\"."};
}

ToolAnswer by_diameter(const ToolWish& wish) {
    ToolAnswer out;
    std::vector<ToolSize> sizes = sizes_of(wish.tool);
    std::stable_sort(sizes.begin(), sizes.end(),
                     [](const ToolSize& a, const ToolSize& b) { return a.diameter < b.diameter; });
    for (const ToolSize& size : sizes)
        if (same_diameter(size.diameter, *wish.diameter)) out.sizes.push_back(size);
    if (!out.sizes.empty()) return out;
    const auto above = std::find_if(sizes.begin(), sizes.end(), [&](const ToolSize& size) {
        return size.diameter > *wish.diameter;
    });
    if (above != sizes.begin()) out.nearest.push_back(*std::prev(above));
    if (above != sizes.end()) out.nearest.push_back(*above);
    out.notes.emplace_back("No chart labels exactly this diameter; the nearest sizes are shown.");
    return out;
}

/// Some charts give a US label to another size than most do.
void note_other_charts(const ToolWish& wish, const SizeLabel& wanted, ToolAnswer& out) {
    if (wish.naming == Naming::uk) return;
    for (const ToolSize& size : sizes_of(wish.tool))
        if (bears(size.us_also, wanted))
            out.notes.push_back(
                "Some charts print US " + std::string(size.us_also) + " for " +
                units::figures_text(units::Ratio(size.diameter / units::millimetre), 5) + " mm" +
                (size.from_memory ? " (not checked)" : "") + ": read the millimetres on the tool.");
}

Result<ToolAnswer> by_label(const ToolWish& wish) {
    const SizeLabel wanted(wish.label);
    ToolAnswer out;
    bool any_us = false;
    bool any_uk = false;
    for (const ToolSize& size : sizes_of(wish.tool)) {
        const bool us = wish.naming != Naming::uk && bears(size.us, wanted);
        const bool uk = wish.naming != Naming::us && bears(size.uk, wanted);
        if (us || uk) out.sizes.push_back(size);
        any_us = any_us || us;
        any_uk = any_uk || uk;
    }
    if (wanted.empty() || out.sizes.empty()) {
        // Only millimetres have such figures: "2.25".
        const auto mm = units::parse_length(wish.label + " mm");
        if (mm && !wish.naming && wish.label.find('.') != std::string::npos) {
            ToolWish by_mm = wish;
            by_mm.diameter = *mm;
            if (ToolAnswer measured = by_diameter(by_mm); !measured.sizes.empty()) return measured;
        }
        return Problem{
            "no chart has a " + std::string(text(wish.tool)) + " \"" +
                base::shown_inert(wish.label) + "\"",
            {},
            "one of " + known_labels(wish.tool, wish.naming),
            "Or give the diameter, such as \"" + std::string(text(wish.tool)) + " 5.5 mm\"."};
    }
    const bool number_only = wanted.letters.empty();
    note_other_charts(wish, wanted, out);
    if (out.sizes.size() > 1 && any_us && any_uk)
        out.notes.emplace_back(
            "US and UK numbers differ: say \"US\" or \"UK\" before it, or read the millimetres.");
    else if (out.sizes.size() > 1)
        out.notes.emplace_back(
            std::string(number_only ? "Charts give this number" : "Charts give this letter") +
            " to more than one size: read the millimetres on the tool.");
    if (wish.tool == Tool::hook && number_only)
        out.notes.emplace_back("On a steel hook the same number is another size.");
    return out;
}

/// A Japanese number is one size of one tool.
Result<ToolAnswer> by_japanese(const ToolWish& wish) {
    ToolAnswer out;
    std::vector<std::string> known;
    for (const ToolSize& size : sizes_of(wish.tool)) {
        if (size.jp.empty()) continue;
        known.emplace_back(size.jp);
        if (size.jp == base::trimmed(wish.label)) out.sizes.push_back(size);
    }
    if (out.sizes.empty())
        return Problem{"no chart has a Japanese " + std::string(text(wish.tool)) + " \"" +
                           base::shown_inert(wish.label) + "\"",
                       {},
                       "one of " + base::join(known, ", "),
                       ""};
    return out;
}

}  // namespace

std::optional<Result<ToolWish>> parse_tool(std::string_view text) {
    ToolWish wish;
    bool named = false;
    bool steel = false;
    std::vector<std::string> rest;
    for (const std::string& word : base::split(text, ' ')) {
        const std::string plain = base::lower(word);
        if (plain.empty()) continue;
        if (plain == "hook" || plain == "hooks") {
            named = true;
        } else if (plain == "needle" || plain == "needles") {
            named = true;
            wish.tool = Tool::needle;
        } else if (plain == "steel" || plain == "lace") {
            steel = true;
        } else if (plain == "us" || plain == "uk") {
            wish.naming = plain == "us" ? Naming::us : Naming::uk;
        } else if (plain == "jp" || plain == "japanese") {
            wish.japanese = true;
        } else if (plain != "crochet" && plain != "knitting" && plain != "size" && plain != "no" &&
                   plain != "no.") {
            rest.push_back(word);
        }
    }
    if (!named) return std::nullopt;
    if (steel && wish.tool == Tool::hook) wish.tool = Tool::steel_hook;
    const std::string label = base::join(rest, " ");
    if (label.empty())
        return Result<ToolWish>(Problem{base::quoted(text) + " names no size",
                                        {},
                                        "a label or a diameter",
                                        "Write it like \"hook I-9\", \"hook 5.5 mm\" or \"US "
                                        "needle 8\"."});
    if (const auto diameter = units::parse_length(label))
        wish.diameter = *diameter;
    else
        wish.label = label;
    return Result<ToolWish>(wish);
}

Result<ToolAnswer> find_tools(const ToolWish& wish) {
    if (!wish.diameter && wish.tool == Tool::steel_hook && !wish.japanese)
        return refuse_steel(wish);
    Result<ToolAnswer> found = wish.diameter   ? by_diameter(wish)
                               : wish.japanese ? by_japanese(wish)
                                               : by_label(wish);
    if (!found) return found;
    ToolAnswer answer = *found;
    for (const ToolSize& size : answer.sizes)
        if (size.from_memory)
            answer.notes.push_back(text(size) + " was not checked in a published chart.");
    return answer;
}

Result<units::Length> parse_tool_size(Tool tool, std::string_view text) {
    const std::string_view said = base::trimmed(text);
    if (said.ends_with("mm") || said.ends_with("cm"))
        if (const auto diameter = units::parse_length(text); !diameter) return diameter.problem();
    const auto wish = parse_tool(std::string(yarn::text(tool)) + " " + std::string(text));
    if (!*wish) return wish->problem();
    if ((*wish)->diameter) return *(*wish)->diameter;
    const Result<ToolAnswer> found = find_tools(**wish);
    if (!found) return found.problem();
    if (found->sizes.size() == 1) return found->sizes.front().diameter;
    std::vector<std::string> sizes;
    for (const ToolSize& size : found->sizes) sizes.push_back(yarn::text(size));
    return Problem{base::quoted(text) + " is more than one size",
                   {},
                   "one of " + base::join(sizes, ", "),
                   "Read the millimetres on the tool."};
}

}  // namespace skeinfall::yarn
