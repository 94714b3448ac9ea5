#include "skeinfall/exchange/detail/plain_piece.hpp"

#include <array>
#include <cstdint>
#include <regex>
#include <string_view>

#include <fmt/format.h>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/count_words.hpp"
#include "skeinfall/exchange/detail/name_counts.hpp"
#include "skeinfall/exchange/detail/sides.hpp"
#include "skeinfall/project/fabric_words.hpp"
#include "skeinfall/project/stitches.hpp"
#include "skeinfall/project/thing_words.hpp"
#include "skeinfall/units/length_parts.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::exchange::detail {
namespace {

constexpr auto piece_icase = std::regex::icase;

/// "90 x 120 cm baby blanket": the name behind the size.
std::string name_first(const std::string& text) {
    if (text.find(':') != std::string::npos) return text;
    static const std::regex sized(
        R"(^(\d+)\s+(\d[\d./]*(?:\s+\d+/\d+)?)[\s-]*(in|inch|inches|cm|")[\s-]+((?:[A-Za-z]+\s+)?(?:squares|blocks|motifs|tiles))$)",
        piece_icase);
    std::smatch found;
    if (std::regex_match(text, found, sized))
        return found[1].str() + " " + found[4].str() + " of " + found[2].str() + " " +
               found[3].str();
    static const std::regex squared(
        R"(^(\d[\d./ ]*(?:cm|m|in|inch|inches|ft|feet|foot|")[\s-]*square)\s+([A-Za-z][A-Za-z' -]*)$)",
        piece_icase);
    if (std::regex_match(text, found, squared)) return found[2].str() + ": " + found[1].str();
    static const std::regex behind(
        R"(^(\d[\d.,/ ]*(?:mm|cm|m|in|inch|inches|ft|")?\s*(?:x|by)\s*\d[\d.,/ ]*(?:mm|cm|m|in|inch|inches|ft|"))\s+([A-Za-z][A-Za-z' -]*)$)",
        piece_icase);
    if (!std::regex_match(text, found, behind)) return text;
    const std::string size = found[1];
    const std::string name = found[2];
    const std::string first = base::lower(name.substr(0, name.find_first_of(" -")));
    for (const std::string_view way :
         {"wide", "across", "around", "round", "long",   "tall",   "high",   "deep", "in",   "of",
          "each", "square", "sq",     "all",   "width",  "length", "height", "x",    "by",   "and",
          "to",   "both",   "twice",  "pair",  "apiece", "make",   "times",  "with", "plus", "or"})
        if (first == way) return text;
    if (!two_sides(size) || project::is_thing(first, project::Thing::measure)) return text;
    return name + ": " + size;
}

/// "seven inches by sixty inches" in figures.
std::string figures_before_units(const std::string& text) {
    static const std::regex form(
        R"(\b([A-Za-z]+)(\s+(?:inch(?:es)?|cm|centimet(?:re|er)s?|met(?:re|er)s?|feet|foot|yards?)\b))",
        piece_icase);
    std::string out;
    std::size_t at = 0;
    for (std::sregex_iterator found(text.begin(), text.end(), form), end; found != end; ++found) {
        const std::string word = (*found)[1];
        const auto number =
            word.size() > 2 && !base::same_word(word, "the") ? spoken_number(word) : std::nullopt;
        if (!number) continue;
        out += text.substr(at, static_cast<std::size_t>(found->position(0)) - at) +
               std::to_string(*number) + (*found)[2].str();
        at = static_cast<std::size_t>(found->position(0) + found->length(0));
    }
    return out + text.substr(at);
}

/// Things that are longer than wide.
bool is_a_strip(const std::string& name) {
    static const std::regex strips(
        R"(\b(?:scar(?:f|ves)|stoles?|wraps?|runners?|belts?|straps?|ties|sash(?:es)?|bookmarks?|headbands?)\b)",
        piece_icase);
    return std::regex_search(name, strips);
}

}  // namespace

bool ends_in_length(const std::string& text) {
    static const std::regex form(R"(\d\s*([A-Za-z\x22\x27]+)\.?\s*,?$)");
    std::smatch found;
    return std::regex_search(text, found, form) && units::parse_length("1 " + found[1].str());
}

namespace {

/// "10 in wide scarf, 2 yards long", "chain 34, 33 hdc in each row, 96 rows", "hat: cast on 96, 60
/// rounds", as a name and two sides.
std::string as_name_and_sides(const std::string& text) {
    static const std::regex wide_first(
        R"(^(?:an?\s+)?(\d[\d.,/ ]*\s*[A-Za-z"']+)[\s-]+(wide|long|high|tall|around|across)\s+([A-Za-z][A-Za-z' -]*?),?\s+(\d[\d.,/ ]*\s*[A-Za-z"']+)\s+(wide|long|high|tall|deep|around)$)",
        piece_icase);
    // The chain is not the row: what is worked into it has to be said.
    static const std::regex from_chain(
        R"(^((?:[A-Za-z][A-Za-z' -]*:\s*)?)(?:ch|chain)\s+\d{1,4}\s*[,;]\s*(\d{1,4}\s*[A-Za-z]+)\s*(?:in|per|a|each)?\s*(?:each|every)?\s*(?:row)?\s*[,;]\s*(?:for\s+|work\s+)?(\d{1,4}\s*rows)$)",
        piece_icase);
    static const std::regex cast_on(
        R"(^((?:[A-Za-z][A-Za-z' -]*:\s*)?)(?:cast\s+on|co)\s+(\d{1,4})(?:\s*(?:sts|stitches))?\s*[,;]\s*(?:then\s+)?(?:(?:knit|work|for)\s+)?(\d{1,4}\s*(?:rows|rounds|rnds))$)",
        piece_icase);
    // Joined to a ring every chain is worked into.
    static const std::regex ring(
        R"(^((?:[A-Za-z][A-Za-z' -]*:\s*)?)(?:ch|chain)\s+(\d{1,4})\s*[,;]\s*(\d{1,4}\s*(?:rounds|rnds))\s+(?:of|in)\s+([A-Za-z]+)$)",
        piece_icase);
    std::smatch found;
    if (text.size() > longest_answer) return text;
    if (std::regex_match(text, found, wide_first))
        return found[3].str() + ": " + found[1].str() + " " + found[2].str() + " x " +
               found[4].str() + " " + found[5].str();
    if (std::regex_match(text, found, from_chain))
        return found[1].str() + found[2].str() + " x " + found[3].str();
    if (std::regex_match(text, found, cast_on))
        return found[1].str() + found[2].str() + " sts x " + found[3].str();
    if (std::regex_match(text, found, ring))
        return found[1].str() + found[2].str() + " " + found[4].str() + " x " + found[3].str();
    return text;
}

}  // namespace

std::string in_usual_order(std::string text) {
    static const std::regex dashed(R"((\d)-(\d{1,2}/\d{1,2})(?!\d))");
    static const std::regex star(R"(\s*\*\s*)");
    text = std::regex_replace(text, dashed, "$1 $2");
    text = std::regex_replace(text, star, " x ");
    return name_first(units::lengths_in_one_unit(figures_before_units(as_name_and_sides(text))));
}

std::optional<base::Problem> no_size(std::string_view given, const std::string& name,
                                     const std::string& text) {
    const std::string plain = without_age(text);
    if (plain.find_first_of("0123456789") != std::string::npos || plain.empty() ||
        plain.find(':') != std::string::npos || !name.empty())
        return std::nullopt;
    static const std::regex for_whom(R"(\s+for(?:\s+(?:an?|my|the|our))?$)", std::regex::icase);
    const std::string thing = std::regex_replace(plain, for_whom, "");
    static const std::regex worn_around(
        R"(\b(?:hats?|beanies?|caps?|cowls?|snoods?|headbands?|mitts?|mittens?|socks?)\b)",
        std::regex::icase);
    const bool around = std::regex_search(plain, worn_around);
    return base::Problem{base::quoted(given) + " does not say how big it is",
                         {},
                         "its size, \"" + thing +
                             (around ? ": 50 cm around x 20 cm" : ": 20 cm x 30 cm") +
                             "\", or its stitches and rows, \"" + thing + ": 40 sts x 60 " +
                             (around ? "rounds\"" : "rows\""),
                         plain == text ? ""
                                       : "An age alone is no size: measure who it is for, or "
                                         "something that fits."};
}

std::optional<base::Problem> doubtful_figures(const std::string& name, const std::string& sides) {
    if (auto two = units::reads_two_ways(sides)) return two;
    static const std::regex form(
        R"(^(\d[\d.,]*)\s*(?:x|by)\s*(\d[\d.,]*)\s*(m|met(?:re|er)s?|ft|feet|foot|yds?|yards?|cm|in|inch|inches|")(?:\s.*)?$)",
        piece_icase);
    std::smatch found;
    if (!std::regex_match(sides, found, form)) return std::nullopt;
    const std::string unit = found[3];
    const auto one = units::parse_length(found[1].str() + " " + unit);
    const auto other = units::parse_length(found[2].str() + " " + unit);
    if (!one || !other) return std::nullopt;
    const std::string low = base::lower(unit);
    const bool small = low.starts_with("c") || low.starts_with("i") || low == "\"";
    const double ratio = one->value() / other->value();
    constexpr double absurd = 3.0;
    constexpr double ribbon = 0.125;
    constexpr double narrow = 0.03;  // metres
    const bool wide = !small && (ratio >= absurd || (ratio > 1.0 && is_a_strip(name)));
    const bool thin = small && ratio <= ribbon && one->value() < narrow &&
                      found[1].str().find_first_of(".,") != std::string::npos;
    if (!wide && !thin) return std::nullopt;
    const std::string usual = low.starts_with("m") ? "cm" : thin ? "m" : "in";
    return base::Problem{base::quoted(sides) + " gives one unit, and its sides would be far apart",
                         {},
                         "the unit of both, \"" + found[1].str() + " " + usual + " x " +
                             found[2].str() + " " + unit + "\" or \"" + found[1].str() + " " +
                             unit + " x " + found[2].str() + " " + unit + "\"",
                         ""};
}

namespace {

/// "sock" of "socks".
std::string one_of(const std::string& name) {
    const bool plain = name.size() > 3 && name.ends_with("s") && !name.ends_with("ss") &&
                       base::lower(kind_of(name)) == base::lower(name);
    return plain ? name.substr(0, name.size() - 1) : name;
}

}  // namespace

std::string counted_text(const WrittenPiece& piece) {
    if (piece.pair)
        return fmt::format("two are counted, since {} come in pairs; one alone is \"1 {}: ...\"",
                           base::shown_inert(piece.name), base::shown_inert(one_of(piece.name)));
    if (!piece.count_in_name || piece.count < 2) return {};
    return fmt::format("{} are counted: {}", piece.count,
                       piece.name.empty() ? "pieces" : base::shown_inert(piece.name));
}

std::vector<std::string> taken_of_piece(const WrittenPiece& piece, const std::string& counted,
                                        project::Craft craft) {
    std::vector<std::string> out;
    const std::string name = piece.name.empty() ? "piece" : base::shown_inert(piece.name);
    if (piece.last_stitches || !piece.last_width.empty())
        out.push_back(
            fmt::format("{}: its width is taken to change evenly from {} to {}", name,
                        piece.stitches ? fmt::format("{} stitches", *piece.stitches) : piece.width,
                        piece.last_stitches ? fmt::format("{} stitches", *piece.last_stitches)
                                            : piece.last_width));
    if (!piece.shape.empty()) return out;  // a granny square is no fabric of its own
    const std::string low_counted = base::lower(counted);
    const auto told = [&](const std::string& said) {
        out.push_back(fmt::format("it is counted in {}, whatever its name says of {}", low_counted,
                                  base::quoted(said)));
    };
    static constexpr std::array<std::pair<const char*, const char*>, 6> stitches_in_names{
        {{"half double crochet", "hdc"},
         {"single crochet", "sc"},
         {"double crochet", "dc"},
         {"treble crochet", "tr"},
         {"treble", "tr"},
         {"hdc", "hdc"}}};
    const std::string low = " " + base::lower(piece.name) + " ";
    for (const auto& [said, known] : stitches_in_names) {
        if (low.find(" " + std::string(said) + " ") == std::string::npos) continue;
        if (low_counted.find(known) == std::string::npos &&
            low_counted.find(said) == std::string::npos)
            told(said);
        return out;
    }
    if (counted.empty()) return out;
    const auto own = project::fabric_word(craft, counted);
    for (const project::FabricWord& word : project::fabrics_in_name(craft, piece.name)) {
        // A granny square is clusters of double crochet.
        const bool of_clusters = word.group == "granny" && low_counted.find("dc") == 0;
        if (word.takes_more || of_clusters) continue;
        if (!own || own->group != word.group || own->texture != word.texture)
            told(std::string(word.word));
        break;
    }
    return out;
}

}  // namespace skeinfall::exchange::detail
