#include "skeinfall/exchange/name_words.hpp"

#include <algorithm>
#include <array>
#include <regex>
#include <string_view>
#include <utility>

#include "skeinfall/base/letters.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/count_words.hpp"
#include "skeinfall/project/thing_words.hpp"

namespace skeinfall::exchange {
namespace {

/// One word that says something is added, and what.
constexpr std::array<std::pair<std::string_view, std::string_view>, 31> added{
    {{"fringed", "fringe"},    {"tasselled", "tassels"}, {"tasseled", "tassels"},
     {"lined", "lining"},      {"hooded", "hood"},       {"edged", "edging"},
     {"bordered", "border"},   {"belted", "belt"},       {"pocketed", "pockets"},
     {"ruffled", "ruffle"},    {"frilled", "frill"},     {"fringe", "fringe"},
     {"fringes", "fringe"},    {"tassel", "tassels"},    {"tassels", "tassels"},
     {"pompom", "pompom"},     {"pom-pom", "pompom"},    {"pompoms", "pompoms"},
     {"pom-poms", "pompoms"},  {"bobble", "pompom"},     {"earflap", "earflaps"},
     {"earflaps", "earflaps"}, {"strap", "strap"},       {"strappy", "straps"},
     {"strapped", "straps"},   {"straps", "straps"},     {"handled", "handles"},
     {"fringy", "fringe"},     {"tasselly", "tassels"},  {"frilly", "frill"},
     {"ruffly", "ruffle"}}};

/// What a piece may be "with" that its own rows hold, or that is no yarn.
constexpr std::array<std::string_view, 34> within{
    "stripe",  "stripes", "cable",   "cables",  "lace",       "twist",   "hole",
    "holes",   "button",  "buttons", "zip",     "zipper",     "bead",    "beads",
    "rib",     "ribs",    "ribbing", "brim",    "texture",    "eyelet",  "eyelets",
    "colour",  "color",   "colours", "colors",  "colourwork", "love",    "shape",
    "shaping", "waves",   "ridges",  "ripples", "bobbles",    "popcorns"};

bool is_within(const std::string& thing) {
    const std::vector<std::string> words = base::split(thing, ' ');
    return std::find(within.begin(), within.end(), words.back()) != within.end();
}

/// "strap", "bag strap": the piece is one, and none comes on top of it.
bool is_strap_itself(const std::string& name) {
    static const std::regex form(R"(^(?:(?!(?:with|and|plus|including)\b)[a-z-]+\s+){0,3}straps?$)",
                                 std::regex::icase);
    return std::regex_match(name, form);
}

/// A sweater that is one tube: its sleeves take a third of the yarn, and are nowhere.
std::optional<base::Problem> part_not_told(const WrittenPiece& piece,
                                           const std::vector<WrittenPiece>& pieces,
                                           const std::vector<WrittenExtra>& extras) {
    struct Part {
        project::Thing of;
        const char* name;
        const char* example;
        const char* without;
    };
    static constexpr std::array<Part, 2> parts{
        {{project::Thing::sleeved, "sleeves", "2 sleeves: 9 to 14 in x 17 in", "sleeveless "},
         {project::Thing::fingered, "fingers", "10 fingers: 3 in around x 2.5 in", "fingerless "}}};
    for (const Part& part : parts) {
        if (!is_kind(piece.name, part.of) ||
            project::speaks_of(piece.name, project::Thing::bodiless))
            continue;
        const auto tells = [&](const auto& one) { return of_one_thing(one.name, part.name); };
        if (std::any_of(extras.begin(), extras.end(), tells) ||
            std::any_of(pieces.begin(), pieces.end(), tells))
            continue;
        return base::Problem{
            base::quoted(piece.name) + " has " + part.name + ", and they are not given",
            {.file = "make", .line = 0, .column = 0},
            std::string("the ") + part.name + " as well, \"" + part.example + "\"",
            std::string("Where it has none, call it \"") + part.without + kind_of(piece.name) +
                "\"."};
    }
    return std::nullopt;
}

}  // namespace

std::vector<std::string> named_besides(const std::string& name) {
    static const std::regex short_with(R"(\bw/\s*)");
    // "scarf/hat" are two things; "8/4 cotton" is one.
    static const std::regex slash(R"(([a-z])\s*/\s*(?=[a-z]))");
    const std::string low = std::regex_replace(
        std::regex_replace(base::lower(name), short_with, "with "), slash, "$1 and ");
    std::vector<std::string> out;
    const auto take = [&](const std::string& thing) {
        if (std::find(out.begin(), out.end(), thing) == out.end()) out.push_back(thing);
    };
    static const std::regex joined(
        R"((?:\bwith\b|\bincluding\b|\bincl\b\.?|\bplus\b|\band\b|&|\+)\s*(?:an?\s|the\s|its\s|\d+\s|two\s|three\s|four\s|long\s|short\s|matching\s)*([a-z' -]*?)\s*(?=\bwith\b|\bincluding\b|\bincl\b|\bplus\b|\band\b|&|\+|,|\bin\b|\bfor\b|\bfrom\b|$))");
    for (std::sregex_iterator found(low.begin(), low.end(), joined), end; found != end; ++found)
        if (const std::string thing = (*found)[1]; !thing.empty() && !is_within(thing)) take(thing);
    static const std::regex word(R"([a-z]+(?:-[a-z]+)*)");
    // On a hat a bobble is a pompom; in a fabric it is a stitch.
    static const std::regex headwear(R"(\b(?:hats?|beanies?|caps?|tams?|toques?|berets?)\b)");
    for (std::sregex_iterator found(low.begin(), low.end(), word), end; found != end; ++found)
        for (const auto& [sign, thing] : added)
            if (found->str() == sign && (sign != "bobble" || std::regex_search(low, headwear)) &&
                std::none_of(out.begin(), out.end(), [thing = thing](const std::string& one) {
                    return of_one_thing(one, std::string(thing));
                }))
                take(std::string(thing));
    static const std::regex without(R"(\b(?:without|no|un)[\s-]+([a-z-]+))");
    for (std::sregex_iterator found(low.begin(), low.end(), without), end; found != end; ++found)
        std::erase_if(out, [&](const std::string& one) { return of_one_thing(one, (*found)[1]); });
    return out;
}

bool says_how_many(const std::string& name) {
    const std::string first = base::lower(name.substr(0, name.find(' ')));
    for (const std::string_view word : {"both", "each", "every", "per", "pair", "several"})
        if (first == word) return true;
    const std::string counted = counted_in_figures(name + " of them");
    return !counted.empty() && base::is_digit(counted.front());
}

bool of_one_thing(const std::string& a, const std::string& b) {
    constexpr std::size_t least = 4;
    const std::string low = base::lower(b);
    for (const std::string& one : base::split(base::lower(a), ' '))
        for (const std::string& other : base::split(low, ' ')) {
            if (one == other && !one.empty()) return true;
            const std::size_t shorter = std::min(one.size(), other.size());
            const std::size_t alike = static_cast<std::size_t>(
                std::mismatch(one.begin(), one.begin() + static_cast<std::ptrdiff_t>(shorter),
                              other.begin())
                    .first -
                one.begin());
            if (alike >= least && shorter - alike <= 3 &&
                one.size() + other.size() <= 2 * alike + 6)
                return true;
        }
    return false;
}

std::optional<base::Problem> yarn_not_told(const std::vector<WrittenPiece>& pieces,
                                           const std::vector<WrittenExtra>& extras) {
    for (const WrittenPiece& piece : pieces)
        if (auto problem = part_not_told(piece, pieces, extras)) return problem;
    for (const WrittenPiece& piece : pieces)
        for (const std::string& thing : named_besides(piece.name)) {
            if (is_strap_itself(piece.name) && of_one_thing(thing, "strap")) continue;
            const auto tells = [&](const auto& part) { return of_one_thing(thing, part.name); };
            const auto another = [&](const WrittenPiece& other) {
                return &other != &piece && tells(other);
            };
            if (std::any_of(extras.begin(), extras.end(), tells) ||
                std::any_of(pieces.begin(), pieces.end(), another))
                continue;
            return base::Problem{
                base::quoted(piece.name) +
                    " names more than the piece, and its yarn is not said: " + base::quoted(thing),
                {.file = "plus", .line = 0, .column = 0},
                "the yarn it takes, \"" + thing + " 30 yd\"",
                "Where it takes none, leave the word out of the name."};
        }
    return std::nullopt;
}

std::optional<base::Problem> colours_not_told(const std::vector<WrittenPiece>& pieces) {
    for (const WrittenPiece& piece : pieces)
        if (project::speaks_of(piece.name, project::Thing::coloured) &&
            !project::speaks_of(piece.name, project::Thing::one_ball))
            return base::Problem{
                base::quoted(piece.name) + " speaks of several colours, and only one yarn is given",
                {.file = "stripes", .line = 0, .column = 0},
                "its colours with the rows of each, \"rust 6, sand 4\"",
                "Where it is of one yarn, leave the word out of the name."};
    return std::nullopt;
}

std::optional<base::Problem> shrinks_when_done(const std::vector<WrittenPiece>& pieces) {
    static const std::regex before(R"(\b(?:before|unfelted|un-felted|not yet)\b)",
                                   std::regex::icase);
    for (const WrittenPiece& piece : pieces)
        if (!(piece.width.empty() && piece.length.empty()) &&
            project::speaks_of(piece.name, project::Thing::felted) &&
            !std::regex_search(piece.name, before))
            return base::Problem{
                base::quoted(piece.name) +
                    ": is this its size before felting? It shrinks by a quarter or more",
                {.file = "make", .line = 0, .column = 0},
                "the size before felting, and \"before felting\" in the name",
                "Write it like \"bag, before felting: 28 in around x 16 in\"."};
    return std::nullopt;
}

}  // namespace skeinfall::exchange
