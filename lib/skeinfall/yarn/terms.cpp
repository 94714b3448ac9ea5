#include "skeinfall/yarn/terms.hpp"

#include <algorithm>

#include "skeinfall/base/text.hpp"
#include "skeinfall/data/abbreviations.hpp"
#include "skeinfall/data/us_uk_terms.hpp"

namespace skeinfall::yarn {
namespace {

using base::Problem;
using base::Result;

/// What goes round a stitch name: "FP" before it, "2tog" after it.
struct Affixes {
    std::string before;        ///< "FP"
    std::string before_words;  ///< "front post "
    std::string after;         ///< "2tog"
    std::string after_words;   ///< " 2 together"
};

struct Wanted {
    std::string text;
    std::optional<Naming> naming;
};

std::string single_blanks(std::string_view text) {
    std::vector<std::string> words = base::split(text, ' ');
    std::erase(words, std::string());
    return base::join(words, " ");
}

/// Takes "US" or "UK" off either end: "UK tr", "tr (UK)".
Wanted without_naming(std::string_view text) {
    Wanted out;
    std::vector<std::string> words;
    for (const std::string& word : base::split(text, ' ')) {
        std::string plain;
        std::copy_if(word.begin(), word.end(), std::back_inserter(plain),
                     [](char c) { return c != '(' && c != ')' && c != ':'; });
        if (base::same_word(plain, "US"))
            out.naming = Naming::us;
        else if (base::same_word(plain, "UK"))
            out.naming = Naming::uk;
        else
            words.push_back(word);
    }
    out.text = single_blanks(base::join(words, " "));
    return out;
}

/// Takes "FP", "BP" and "2tog" off an abbreviation; what is left must be a stitch.
Affixes take_affixes(std::string& text) {
    Affixes out;
    const auto starts = [&](std::string_view with) {
        return text.size() > with.size() && base::same_word(text.substr(0, with.size()), with);
    };
    if (starts("FP") || starts("BP")) {
        out.before = base::same_word(text.substr(0, 1), "F") ? "FP" : "BP";
        out.before_words = out.before == "FP" ? "front post " : "back post ";
        text.erase(0, 2);
    }
    constexpr std::string_view together = "tog";
    if (text.size() > together.size() + 1 &&
        base::same_word(text.substr(text.size() - together.size()), together)) {
        const std::size_t digit = text.size() - together.size() - 1;
        if (text[digit] >= '2' && text[digit] <= '9') {
            out.after = text.substr(digit, 1) + "tog";
            out.after_words = " " + text.substr(digit, 1) + " together";
            text.erase(digit);
        }
    }
    return out;
}

/// "treble (triple) crochet" gives "treble crochet" and "triple crochet".
std::vector<std::string> spellings(std::string_view name) {
    const std::size_t open = name.find('(');
    const std::size_t close = name.find(')');
    std::vector<std::string> out;
    if (open == std::string_view::npos || close == std::string_view::npos) {
        out.emplace_back(name);
    } else {
        const std::string rest(name.substr(close + 1));
        const std::string_view before = name.substr(0, open);
        const std::size_t word = base::trimmed(before).rfind(' ');
        const std::string kept(before.substr(0, word == std::string_view::npos ? 0 : word + 1));
        out.push_back(single_blanks(std::string(before) + rest));
        out.push_back(
            single_blanks(kept + std::string(name.substr(open + 1, close - open - 1)) + rest));
    }
    constexpr std::string_view ending = " crochet";
    const std::size_t whole = out.size();
    for (std::size_t i = 0; i < whole; ++i)
        if (out[i].ends_with(ending))
            out.push_back(out[i].substr(0, out[i].size() - ending.size()));
    return out;
}

/// "trtr or ttr" and "MC, CC" hold two abbreviations each.
std::vector<std::string> alternatives(std::string_view cell) {
    std::string commas(cell);
    for (std::size_t at = commas.find(" or "); at != std::string::npos; at = commas.find(" or "))
        commas.replace(at, 4, ",");
    return base::split(commas, ',');
}

bool one_of(const std::vector<std::string>& known, std::string_view text) {
    return std::any_of(known.begin(), known.end(),
                       [&](const std::string& each) { return base::same_word(each, text); });
}

bool is_named(std::string_view abbreviation, std::string_view name, std::string_view text) {
    return one_of(alternatives(abbreviation), text) || one_of(spellings(name), text);
}

TermName with_affixes(std::string_view abbreviation, std::string_view name,
                      const Affixes& affixes) {
    if (affixes.before.empty() && affixes.after.empty())
        return {std::string(abbreviation), std::string(name)};
    return {affixes.before + alternatives(abbreviation).front() + affixes.after,
            affixes.before_words + std::string(name) + affixes.after_words};
}

std::vector<Term> readings_of(const Wanted& wanted, const std::string& text,
                              const Affixes& affixes) {
    const bool stitches_only = !affixes.before.empty() || !affixes.after.empty();
    std::vector<Term> out;
    for (const Naming naming : {Naming::us, Naming::uk}) {
        if (wanted.naming && *wanted.naming != naming) continue;
        for (const auto& row : data::us_uk_terms) {
            if (stitches_only && row.turning_chains.empty()) continue;
            const bool us = naming == Naming::us;
            if (!is_named(us ? row.us_abbrev : row.uk_abbrev, us ? row.us_term : row.uk_term, text))
                continue;
            Term term{naming,
                      with_affixes(row.us_abbrev, row.us_term, affixes),
                      with_affixes(row.uk_abbrev, row.uk_term, affixes),
                      row.turning_chains,
                      row.status == "memory",
                      row.source,
                      row.note};
            const bool again = std::any_of(out.begin(), out.end(), [&](const Term& other) {
                return other.us == term.us && other.uk == term.uk;
            });
            if (!again) out.push_back(term);
        }
    }
    return out;
}

}  // namespace

std::string_view text(Naming naming) {
    return naming == Naming::us ? "US" : "UK";
}

Result<Naming> parse_naming(std::string_view text) {
    if (base::same_word(text, "US")) return Naming::us;
    if (base::same_word(text, "UK")) return Naming::uk;
    return Problem{base::quoted(text) + " is not a set of stitch names", {}, "US or UK", ""};
}

std::vector<Term> term_readings(std::string_view text) {
    const Wanted wanted = without_naming(text);
    if (auto plain = readings_of(wanted, wanted.text, {}); !plain.empty()) return plain;
    std::string stem = wanted.text;
    const Affixes affixes = take_affixes(stem);
    return readings_of(wanted, stem, affixes);
}

Result<Term> term_for(std::string_view text, Naming to) {
    const std::vector<Term> readings = term_readings(text);
    if (readings.size() == 1) return readings.front();
    if (readings.size() > 1) {
        std::string both;
        for (const Term& term : readings) {
            const TermName& from = term.in(term.written);
            const TermName& other = term.in(to);
            both += (both.empty() ? "as " : "; as ") + std::string(yarn::text(term.written)) + " " +
                    from.abbreviation + " (" + from.name + ") it ";
            if (term.written == to)
                both += "stays as it is";
            else
                both += "is " + std::string(yarn::text(to)) + " " + other.abbreviation + " (" +
                        other.name + ")";
        }
        return Problem{base::quoted(text) + " names different stitches: " + both,
                       {},
                       "the set it is written in",
                       "Write \"US " + base::shown_inert(text) + "\" or \"UK " +
                           base::shown_inert(text) + "\"."};
    }
    std::vector<std::string> known;
    for (const auto& row : data::us_uk_terms) {
        for (const auto cell : {row.us_abbrev, row.uk_abbrev})
            for (const std::string& each : alternatives(cell)) known.push_back(each);
        for (const auto name : {row.us_term, row.uk_term})
            for (const std::string& each : spellings(name)) known.push_back(each);
    }
    const Wanted wanted = without_naming(text);
    const auto near = base::nearest_name(wanted.text, known);
    return Problem{base::quoted(text) + " is not a stitch known here",
                   {},
                   "an abbreviation or name such as \"UK tr\" or \"half double crochet\"",
                   base::did_you_mean(near)};
}

std::vector<Abbreviation> abbreviations_of(std::string_view text) {
    const std::string wanted = single_blanks(text);
    std::vector<Abbreviation> out;
    for (const auto& row : data::abbreviations) {
        std::vector<std::string> written = base::split(row.abbrev, ',');
        if (row.abbrev == "st(s)") written = {"st", "sts"};
        if (one_of(written, wanted))
            out.push_back({row.craft, row.abbrev, row.meaning, row.status == "memory", row.source});
    }
    return out;
}

}  // namespace skeinfall::yarn
