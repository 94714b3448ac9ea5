#include "skeinfall/yarn/avoid.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <map>
#include <set>
#include <utility>

#include "skeinfall/base/text.hpp"
#include "skeinfall/data/fibre_families.hpp"
#include "skeinfall/data/fibre_names.hpp"
#include "skeinfall/data/fibre_summary.hpp"
#include "skeinfall/yarn/detail/cells.hpp"
#include "skeinfall/yarn/detail/spaced.hpp"

namespace skeinfall::yarn {
namespace {

/// "flax" of "flax (linen)", "cotton" of "cotton, mercerised".

/// "animal fibres", "Animal fiber" and "animal" are one word here.
std::string plain(std::string_view text) {
    std::string out;
    for (const std::string& word : base::split(std::string_view(spaced(text)), ' '))
        if (!word.empty() && word != "fibre" && word != "fibres" && word != "fiber" &&
            word != "fibers")
            out += " " + word;
    return out.empty() ? std::string() : out + " ";
}

using Names = std::set<std::string_view>;

/// Every word of the tables, and what each belongs to.
class Kinds {
  public:
    static const Kinds& table() {
        static const Kinds kinds;
        return kinds;
    }

    /// The fibres and families that a printed name speaks of. "camel hair" is camel alone: a
    /// family adds nothing to one of its own.
    [[nodiscard]] Names named_in(std::string_view printed) const {
        const std::string text = plain(printed);
        Names all;
        for (const auto& [word, name] : words_)
            if (text.find(word) != std::string::npos) all.insert(name);
        Names out = all;
        for (const std::string_view one : all)
            for (const std::string_view above : above_.at(one)) out.erase(above);
        return out;
    }

    /// What a whole text names: a word of the tables, or words that narrow each other down
    /// ("merino wool"), with none beside them.
    [[nodiscard]] std::optional<std::string_view> named_by(std::string_view text) const {
        const std::string wanted = plain(text);
        for (const auto& [word, name] : words_)
            if (word == wanted) return name;
        // "wools", "synthetics"
        if (wanted.size() > 3 && wanted.ends_with("s ")) {
            const std::string one = wanted.substr(0, wanted.size() - 2) + " ";
            for (const auto& [word, name] : words_)
                if (word == one) return name;
        }
        const Names names = named_in(text);
        if (names.size() != 1 || !unread(text).empty()) return std::nullopt;
        return *names.begin();
    }

    /// The words of a text that no table holds.
    [[nodiscard]] std::vector<std::string> unread(std::string_view text) const {
        std::string left = plain(text);
        // The longest first, so that no word is cut out of a name of two.
        std::vector<std::string> words;
        for (const auto& [word, name] : words_)
            if (left.find(word) != std::string::npos) words.push_back(word);
        std::sort(words.begin(), words.end(),
                  [](const auto& a, const auto& b) { return a.size() > b.size(); });
        for (const std::string& word : words)
            for (std::size_t at = 0; (at = left.find(word)) != std::string::npos;)
                left.replace(at, word.size(), " ");
        std::vector<std::string> out;
        for (std::string& word : base::split(left, ' '))
            if (!word.empty()) out.push_back(std::move(word));
        return out;
    }

    [[nodiscard]] const Names& above(std::string_view name) const { return above_.at(name); }

    [[nodiscard]] const std::vector<std::string>& known() const { return known_; }

  private:
    Kinds() {
        const auto add = [&](std::string_view word, std::string_view name) {
            words_.emplace_back(plain(word), name);
            known_.emplace_back(base::lower(word));
            above_[name];
        };
        for (const auto& row : data::fibre_summary)
            add(short_fibre_name(row.fibre), short_fibre_name(row.fibre));
        for (const auto& row : data::fibre_families) add(row.name, row.name);
        for (const auto& row : data::fibre_names) add(row.name, short_fibre_name(row.fibre));
        // A family may belong to another; the chain is short.
        for (bool more = true; more;) {
            more = false;
            for (const auto& row : data::fibre_families) {
                if (row.within.empty()) continue;
                Names& its = above_[row.name];
                const std::size_t before = its.size();
                its.insert(row.within);
                its.insert(above_[row.within].begin(), above_[row.within].end());
                more = more || its.size() > before;
            }
        }
    }

    std::vector<std::pair<std::string, std::string_view>> words_;  ///< as plain() has them
    std::map<std::string_view, Names> above_;
    std::vector<std::string> known_;
};

/// The known name that one of the words may be a slip for.
std::optional<std::string> slip_in(const std::vector<std::string>& words) {
    constexpr std::size_t too_short = 3;  // "kid" is a word of its own
    for (const std::string& word : words)
        if (word.size() >= too_short)
            if (auto near = base::nearest_name(word, Kinds::table().known())) return near;
    return std::nullopt;
}

/// Whether what is `named` is `avoided` or belongs to it, or the other way round.
std::optional<Presence> presence_of(const Names& named, std::string_view avoided) {
    const Kinds& kinds = Kinds::table();
    const auto is_it = [&](std::string_view one) {
        return one == avoided || kinds.above(one).contains(avoided);
    };
    if (std::any_of(named.begin(), named.end(), is_it)) return Presence::holds;
    const Names& above = kinds.above(avoided);
    if (std::any_of(named.begin(), named.end(),
                    [&](std::string_view one) { return above.contains(one); }))
        return Presence::may_hold;
    return std::nullopt;
}

std::optional<Objection> against_fibre(const std::string& printed, const std::string& word,
                                       std::string_view avoided) {
    const Names named = Kinds::table().named_in(printed);
    if (const auto presence = presence_of(named, avoided))
        return Objection{*presence, word, printed, {}};
    const auto near = slip_in(Kinds::table().unread(printed));
    if (near && presence_of(Kinds::table().named_in(*near), avoided))
        return Objection{Presence::may_hold, word, printed, *near};
    if (named.empty()) return Objection{Presence::fibre_unknown, word, printed, near.value_or("")};
    return std::nullopt;
}

/// Words of a wish; what is left without them may be the fibre that is meant.
constexpr auto words_of_a_wish = std::to_array<std::string_view>(
    {"allergy",     "allergies",   "allergic",   "allergen", "allergens", "free",
     "no",          "not",         "non",        "without",  "any",       "sensitive",
     "sensitivity", "intolerance", "intolerant", "to",       "reaction",  "itchy",
     "itches",      "scratchy",    "avoid",      "keep",     "out",       "of"});

std::string without_wish(std::string_view text) {
    std::vector<std::string> left;
    for (std::string& word : base::split(std::string_view(plain(text)), ' '))
        if (!word.empty() && std::find(words_of_a_wish.begin(), words_of_a_wish.end(), word) ==
                                 words_of_a_wish.end())
            left.push_back(std::move(word));
    return base::join(left, " ");
}

/// What a word that is no fibre asks for.
std::string_view meant_by(std::string_view text) {
    using Meant = std::pair<std::string_view, std::string_view>;
    constexpr auto meant = std::to_array<Meant>({{" vegan ", "animal fibre"},
                                                 {" lanolin ", "wool"},
                                                 {" woolly ", "wool"},
                                                 {" woollen ", "wool"},
                                                 {" petrochemical ", "synthetic"},
                                                 {" oil ", "synthetic"}});
    const std::string words = plain(text);
    for (const auto& [word, fibre] : meant)
        if (words.find(word) != std::string::npos) return fibre;
    return {};
}

std::string remedy_for(std::string_view text) {
    const std::string rest = without_wish(text);
    const auto named = Kinds::table().named_by(rest);
    if (named && !rest.empty()) {
        const bool hair = Kinds::table().above(*named).contains("wool family");
        return "Write " + base::quoted(rest) + " alone" +
               (hair ? ", or \"wool family\" for every animal's wool and hair." : ".");
    }
    if (const std::string_view meant = meant_by(text); !meant.empty())
        return "Write " + base::quoted(meant) + ".";
    const Names names = Kinds::table().named_in(rest);
    if (names.size() > 1 && Kinds::table().unread(rest).empty())
        return "Write each fibre by itself: \"" +
               base::join({names.begin(), names.end()}, "\", \"") + "\".";
    auto near = base::nearest_name(rest, Kinds::table().known());
    if (!near) near = slip_in(Kinds::table().unread(rest));
    return base::did_you_mean(
        near, "For a fibre that is not known here name its family, such as \"plant fibre\".");
}

}  // namespace

base::Result<std::string> parse_avoided(std::string_view text) {
    if (Kinds::table().named_by(text) && !plain(text).empty())
        return base::lower(base::trimmed(text));
    return base::Problem{base::quoted(text) + " is not a fibre or a family of fibres known here",
                         {},
                         "a fibre such as wool or nylon, or wool family, animal fibre, plant "
                         "fibre, man-made or synthetic",
                         remedy_for(text)};
}

std::optional<Objection> objection_to(const FibreContent& content,
                                      const std::vector<std::string>& avoid) {
    std::optional<Objection> surest;
    const auto object = [&](const Objection& found) {
        if (!surest || found.presence < surest->presence) surest = found;
    };
    for (const std::string& word : avoid) {
        const auto avoided = Kinds::table().named_by(word);
        if (!avoided) {
            object({Presence::word_unknown, word, {}, {}});
        } else if (!content.known()) {
            object({Presence::content_unknown, word, {}, {}});
        } else {
            for (const FibreShare& share : content.shares)
                if (const auto found = against_fibre(share.fibre, word, *avoided)) object(*found);
        }
    }
    return surest;
}

std::string text(const Objection& objection) {
    const std::string& out = objection.avoided;
    switch (objection.presence) {
        case Presence::holds:
            if (plain(objection.printed).find(plain(out)) != std::string::npos)
                return "contains " + out + ", which must be kept out";
            return "contains " + objection.printed + ", and " + out + " must be kept out";
        case Presence::may_hold:
            return base::quoted(objection.printed) + " may be " +
                   (objection.perhaps.empty() ? out : objection.perhaps) + ", and " + out +
                   " must be kept out";
        case Presence::fibre_unknown:
            return base::quoted(objection.printed) + " is not a fibre known here, and " + out +
                   " must be kept out";
        case Presence::content_unknown:
            return "content unknown, and " + out + " must be kept out";
        case Presence::word_unknown:
            break;
    }
    return "it must be free of " + base::quoted(out) + ", and no such fibre is known here";
}

std::vector<std::string> unproven_in_heat(const FibreContent& content) {
    const auto stands = [](std::string_view name) {
        return std::any_of(
            data::fibre_summary.begin(), data::fibre_summary.end(), [&](const auto& row) {
                return short_fibre_name(row.fibre) == name && row.hot_pad_ok == "yes";
            });
    };
    std::vector<std::string> out;
    for (const FibreShare& share : content.shares) {
        const Names named = Kinds::table().named_in(share.fibre);
        if (named.empty() || !std::all_of(named.begin(), named.end(), stands) ||
            slip_in(Kinds::table().unread(share.fibre)))
            out.push_back(share.fibre);
    }
    return out;
}

}  // namespace skeinfall::yarn
