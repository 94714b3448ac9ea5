#include "skeinfall/exchange/detail/strands.hpp"

#include <cstdint>
#include <optional>
#include <regex>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/detail/amounts_in.hpp"
#include "skeinfall/yarn/stated_total.hpp"

namespace skeinfall::exchange::detail {
namespace {

[[noreturn]] void refuse_strand(const std::string& question, std::string what, std::string expected,
                                std::string remedy) {
    throw base::InputError(base::Problem{std::move(what),
                                         {.file = question, .line = 0, .column = 0},
                                         std::move(expected),
                                         std::move(remedy)});
}

/// What the make is called, where that speaks of strands.
std::optional<std::pair<std::string, std::string>> strands_named(
    const project::MakeAnswers& answers) {
    for (const char* const id : {"make", "title"})
        for (const std::string& text : answers.all(id))
            if (says_strands_together(text)) return std::pair{std::string(id), text};
    return std::nullopt;
}

/// How many they are; 0 where only "together" says so.
std::int64_t strands_in(const std::string& text) {
    static const std::regex two(R"(\bdoubl|\b(?:two|2)[\s-]*(?:x\s*)?strand|\bboth\b)",
                                std::regex::icase);
    static const std::regex three(R"(\btripl|\b(?:three|3)[\s-]*(?:x\s*)?strand)",
                                  std::regex::icase);
    static const std::regex four(R"(\b(?:four|4)[\s-]*(?:x\s*)?strand)", std::regex::icase);
    std::int64_t count = 0;
    for (const auto& [form, strands] :
         {std::pair{&two, 2}, std::pair{&three, 3}, std::pair{&four, 4}}) {
        if (!std::regex_search(text, *form)) continue;
        if (count != 0) return 0;
        count = strands;
    }
    return count;
}

/// "strap 2 in x 40 in doubled", where no word of yarn stands beside it.
bool may_be_folded(const std::string& text) {
    static const std::regex doubled(R"(\bdoubled\b)", std::regex::icase);
    static const std::regex of_yarn(R"(\b(?:held|hold(?:ing)?|yarns?|strand(?:s|ed)?|threads?)\b)",
                                    std::regex::icase);
    return std::regex_search(text, doubled) && !std::regex_search(text, of_yarn);
}

}  // namespace

void refuse_strands(const project::MakeAnswers& answers) {
    for (const char* const id :
         {"yarn", "stitch", "label", "class", "colour", "fibre", "hook", "needle", "gauge"})
        for (const std::string& text : answers.all(id))
            if (says_strands_together(text))
                refuse_strand(
                    id,
                    base::quoted(text) +
                        ": what strands held together take cannot be known from one of them",
                    "it without the words of strands",
                    "Say them in the name of the make, \"hat held double: 60 sts x 40 "
                    "rounds\", and weigh a swatch worked so.");
    for (const std::string& text : answers.all("plus"))
        if (says_strands_together(text))
            refuse_strand("plus", base::quoted(text) + " may be the yarn of one strand or of all",
                          "the yarn of all strands, \"edging 30 yd\"",
                          "Leave the words of strands out then.");
    const auto named = strands_named(answers);
    if (!named) return;
    if (may_be_folded(named->second))
        refuse_strand(named->first,
                      base::quoted(named->second) +
                          ": \"doubled\" may be fabric folded in two, or two strands",
                      "its size before it is folded, without the word",
                      "Of two strands, say \"2 strands\" in the name, and weigh a swatch of both.");
    if (answers.has("swatch") || answers.has("total")) return;
    refuse_strand(named->first,
                  base::quoted(named->second) +
                      ": what strands held together take cannot be known from the class",
                  "a swatch worked and weighed with all its strands, or the pattern's total",
                  "Where it is one strand, leave the words out of the name.");
}

std::optional<base::Problem> swatch_of_other_strands(const project::MakeAnswers& answers,
                                                     const WrittenSwatch& swatch) {
    if (swatch.strands == 0) return std::nullopt;
    const auto named = strands_named(answers);
    if (!named && swatch.strands == 1) return std::nullopt;
    const base::Place place{.file = "swatch", .line = 0, .column = 0};
    if (!named)
        return base::Problem{"it is of several strands, and the make is not said to be", place,
                             "the make with the words, such as \"hat held double: 60 sts x 40 "
                             "rounds\"",
                             "Then all strands of swatch and make are counted."};
    if (swatch.strands != strands_in(named->second))
        return base::Problem{
            "it and the make are not said to be of as many strands", place,
            "a swatch worked and weighed with all strands of the make, \"15 x 15 cm, 14 g\"", ""};
    return std::nullopt;
}

std::optional<std::string> strands_of_swatch_unsaid(const project::MakeAnswers& answers,
                                                    const WrittenSwatch& swatch) {
    if (swatch.strands != 0 || !strands_named(answers)) return std::nullopt;
    return "the swatch is taken as worked with all strands, as the make is; worked with one strand "
           "it weighs too little";
}

std::int64_t strands_of_make(const project::MakeAnswers& answers) {
    const auto named = strands_named(answers);
    return named ? strands_in(named->second) : 0;
}

std::string take_strands(std::string& text) {
    static const std::regex behind(
        R"(^(.*\d.*?[A-Za-z"'])\s*(?:,|\(|\s)\s*((?:worked |knit(?:ted)? |crocheted |made )?(?:with |in )?(?:(?:yarn |the yarn )?held (?:double|doubled|together|triple)|doubled|doubl(?:e|ed)[\s-]strand(?:s|ed)?|(?:two|three|four|2|3|4)[\s-]strands?(?:ed)?(?:\s+held)?(?:\s+(?:double|together))?)(?:\s+throughout)?)\)?$)",
        std::regex::icase);
    std::smatch found;
    if (!std::regex_match(text, found, behind)) return {};
    const std::string said = found[2];
    const std::string rest = found[1];
    text = rest;
    return said;
}

std::string total_of_strands(const std::string& total, const project::MakeAnswers& answers) {
    const auto named = strands_named(answers);
    if (!named) return total;
    static const std::regex of_all(
        R"(\s*,?\s*\b(?:of|for|in)\s+(?:all|both)(?:\s+(?:the\s+)?strands?)(?:\s+together)?$)",
        std::regex::icase);
    static const std::regex in_all(R"(\b(?:in all|in total|altogether|all together|all told)$)",
                                   std::regex::icase);
    static const std::regex of_each(
        R"(\s*,?\s*(?:\b(?:of|for|per|in)\s+)?(?:\b(?:each|every|one|a|the)\s+)?strand$)",
        std::regex::icase);
    std::smatch found;
    if (std::regex_search(total, found, of_all)) return found.prefix();
    if (std::regex_search(total, in_all)) return total;
    const std::int64_t count = strands_in(named->second);
    const std::string one = std::regex_replace(total, of_each, "");
    const auto stated = yarn::parse_stated_total(one);
    if (one == total || count == 0 || !stated || stated->skeins > 0 ||
        (!stated->length && !stated->mass))
        refuse_strand("total", "it may be of one strand or of all of them",
                      one == total && count > 0
                          ? "\"" + one + " in all\" or \"" + one + " of each strand\""
                          : "the yarn of all strands, such as \"200 m in "
                            "all\"",
                      "The make is said to be worked with several strands.");
    const auto times = static_cast<double>(count);
    const double least =
        times * (stated->length ? stated->length->least.value()
                                : units::Ratio(stated->mass->least / units::gram).value());
    const double most =
        times * (stated->length ? stated->length->most.value()
                                : units::Ratio(stated->mass->most / units::gram).value());
    const char* const unit = stated->length ? "m" : "g";
    return least == most ? fmt::format("{:.4f} {}", most, unit)
                         : fmt::format("{:.4f} to {:.4f} {}", least, most, unit);
}

}  // namespace skeinfall::exchange::detail
