#include "skeinfall/units/detail/scanner.hpp"

#include <algorithm>
#include <array>
#include <utility>
#include <vector>

#include "skeinfall/base/letters.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/units/example.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::units::detail {
namespace {

constexpr std::array<std::string_view, 3> wide_blanks{"\u00a0", "\u202f", "\u2009"};
constexpr std::string_view double_prime = "\u2033";

using base::is_letter;
using base::lower_letter;

std::string kind_words(Kind kind) {
    switch (kind) {
        case Kind::length:
            return "a length (m, cm, mm, yd, ft, in)";
        case Kind::mass:
            return "a weight (g, kg, oz, lb)";
        case Kind::stitches:
            return "sts";
        case Kind::rows:
            return "rows";
        case Kind::direct:
        case Kind::indirect:
            break;
    }
    return "a yarn count (tex, dtex, den, Nm, NeC, NeW, NeL, run, cut)";
}

/// What a unit is that does not fit.
std::string other_kind(const Match& match) {
    switch (match.names.front().kind) {
        case Kind::length:
            return "a length";
        case Kind::mass:
            return "a weight";
        case Kind::stitches:
        case Kind::rows:
            return "a count";
        case Kind::direct:
        case Kind::indirect:
            break;
    }
    return "a yarn count";
}

const Name* of_kind(const Match& match, Kind kind) {
    for (const Name& name : match.names)
        if (name.kind == kind) return &name;
    return nullptr;
}

const Name* count_of(const Match& match) {
    for (const Name& name : match.names)
        if (is_count(name.kind)) return &name;
    return nullptr;
}

/// "worsted hank, 560 yd; ..." for every name whose kind passes.
template <class Passes>
std::string readings_of(const Match& match, Passes passes) {
    std::string out;
    for (const Name& name : match.names) {
        if (!passes(name.kind)) continue;
        if (!out.empty()) out += "; ";
        out += std::string(unit_title(name)) + ", " + std::string(unit_definition(name));
    }
    return out;
}

/// "NeW" or "NeC" for every name whose kind passes, quoted.
template <class Passes>
std::string symbols_of(const Match& match, Passes passes) {
    std::vector<std::string> out;
    for (const Name& name : match.names)
        if (passes(name.kind)) out.push_back("\"" + std::string(unit_symbol(name)) + "\"");
    return base::join(out, " or ");
}

}  // namespace

bool Scanner::at_letter() const {
    return !at_end() && is_letter(text_[at_]);
}

std::nullopt_t Scanner::fail(std::string what, std::string expected, std::string remedy,
                             std::size_t at) {
    if (!problem_) {
        if (remedy.empty()) remedy = std::string(shows_form) + std::string(example_) + "\".";
        problem_ = base::Problem{base::quoted(text_) + ": " + std::move(what),
                                 {.file = {}, .line = 0, .column = at + 1},
                                 std::move(expected),
                                 std::move(remedy)};
    }
    return std::nullopt;
}

std::size_t Scanner::past_blanks(std::size_t at) const {
    while (at < text_.size()) {
        if (text_[at] == ' ' || text_[at] == '\t') {
            ++at;
            continue;
        }
        if (is_plain(text_[at])) break;
        const std::string_view rest = text_.substr(at);
        const auto* const wide =
            std::find_if(wide_blanks.begin(), wide_blanks.end(),
                         [&](std::string_view blank) { return rest.starts_with(blank); });
        if (wide == wide_blanks.end()) break;
        at += wide->size();
    }
    return at;
}

void Scanner::skip_blanks() {
    at_ = past_blanks(at_);
}

std::size_t Scanner::letters_end(std::size_t at) const {
    while (at < text_.size() && is_letter(text_[at])) ++at;
    return at;
}

std::string_view Scanner::word() {
    const std::size_t start = at_;
    if (!at_end() && text_[at_] == '"')
        ++at_;
    else if (text_.substr(at_).starts_with(double_prime))
        at_ += double_prime.size();
    else
        at_ = letters_end(at_);
    const std::string_view found = text_.substr(start, at_ - start);
    if (!found.empty() && !at_end() && text_[at_] == '.') ++at_;  // "yds." and "oz."
    skip_blanks();
    return found;
}

/// The longest known name that starts at `at`, of up to four words.
Scanner::Words Scanner::names_at(std::size_t at) const {
    Words best;
    if (text_.substr(at).starts_with('"') || text_.substr(at).starts_with(double_prime)) {
        const std::size_t size = text_[at] == '"' ? 1 : double_prime.size();
        best.text = text_.substr(at, size);
        best.match = named(best.text);
        best.end = past_blanks(at + size);
        return best;
    }
    std::array<char, 40> key{};
    std::size_t size = 0;
    std::size_t place = at;
    for (int words = 0; words < 4; ++words) {
        const std::size_t end = letters_end(place);
        const std::size_t room = (words == 0 ? 0 : 1) + (end - place);
        if (end == place || size + room > key.size()) break;
        if (words != 0) key[size++] = ' ';
        for (; place < end; ++place) key[size++] = lower_letter(text_[place]);
        const Match match = named({key.data(), size});
        if (place < text_.size() && text_[place] == '.') ++place;
        place = past_blanks(place);
        if (!match.names.empty()) best = {match, text_.substr(at, end - at), place};
        if (!match.longer) break;
    }
    return best;
}

void Scanner::use(const Name& name) {
    if (caution_.empty()) caution_ = name.caution;
    from_memory_ = from_memory_ || name.from_memory;
}

std::nullopt_t Scanner::which_unit(const Words& words, Kind kind) {
    const std::string said = base::shown_inert(words.text);
    return fail("\"" + said + "\" means several units: " +
                    readings_of(words.match, [kind](Kind other) { return other == kind; }),
                "the trade as well",
                "Write which one, such as \"cotton " + said + "\" or \"linen " + said + "\".", at_);
}

std::nullopt_t Scanner::unknown_unit(std::string_view expected,
                                     const std::vector<std::string>& known) {
    const std::size_t start = at_;
    if (thousands_follow())
        return fail("a blank between thousands can part two numbers as well",
                    "a number without a blank", "Write it like \"1500 m\".", start);
    const std::string_view name = word();
    if (name.empty())
        return fail(at_end() ? "the unit is missing" : "there is no unit here",
                    std::string(expected), "", start);
    // "14 or 15 g": two figures, and no slip of a unit.
    for (const std::string_view sign : {"or", "to", "and"})
        if (base::same_word(name, sign))
            return fail("there are two figures", "one figure with its unit",
                        "Of two that may be right, give the one that is safe for you.", start);
    const auto near = base::nearest_name(name, known);
    return fail("unknown unit " + base::quoted(name), std::string(expected),
                base::did_you_mean(near), start);
}

std::optional<double> Scanner::unit(Kind kind) {
    const Words words = names_at(at_);
    if (words.match.names.empty()) return unknown_unit(kind_words(kind), names_of(kind));
    const Name* const found = of_kind(words.match, kind);
    if (found == nullptr)
        return fail("\"" + std::string(words.text) + "\" is " + other_kind(words.match),
                    kind_words(kind), "", at_);
    const auto same_kind = std::count_if(words.match.names.begin(), words.match.names.end(),
                                         [&](const Name& name) { return name.kind == kind; });
    if (same_kind > 1) return which_unit(words, kind);
    at_ = words.end;
    use(*found);
    return found->factor;
}

std::optional<double> Scanner::quantity(Kind kind) {
    const auto value = amount();
    if (!value) return std::nullopt;
    const auto factor = unit(kind);
    if (!factor) return std::nullopt;
    return *value * *factor;
}

std::optional<double> Scanner::maybe_counted(Kind kind) {
    return at_number() ? quantity(kind) : unit(kind);
}

bool Scanner::at_number() const {
    return !at_end() && !is_letter(text_[at_]) && text_[at_] != '"' &&
           !text_.substr(at_).starts_with(double_prime);
}

void Scanner::optional_unit(Kind kind) {
    const Words words = names_at(at_);
    if (of_kind(words.match, kind) != nullptr) at_ = words.end;
}

bool Scanner::per(bool equals_too) {
    if (take_sign('/') || (equals_too && take_sign('=')) || take_word("per")) return true;
    fail("the part after the first amount is missing", "\"/\" or \"per\"", "", at_);
    return false;
}

bool Scanner::take_word(std::string_view wanted) {
    const std::size_t start = at_;
    if (base::same_word(word(), wanted)) return true;
    at_ = start;
    return false;
}

bool Scanner::take_sign(char sign) {
    if (at_end() || text_[at_] != sign) return false;
    ++at_;
    skip_blanks();
    return true;
}

bool Scanner::times() {
    constexpr std::string_view sign = "\u00d7";
    if (!text_.substr(at_).starts_with(sign)) return take_word("x");
    at_ = past_blanks(at_ + sign.size());
    return true;
}

/// Where the first word stands that is not the mark of a count.
std::size_t Scanner::first_word() const {
    std::size_t at = at_;
    while (at < text_.size()) {
        if (const std::size_t mark = count_mark(at); mark != 0)
            at += mark;
        else if (is_letter(text_[at]) || text_[at] == '"' ||
                 text_.substr(at).starts_with(double_prime))
            break;
        else
            ++at;
    }
    return at;
}

bool Scanner::only_numbers() const {
    return first_word() == text_.size();
}

const Name* Scanner::leading_name() const {
    const Match match = names_at(first_word()).match;
    if (const Name* const count = count_of(match)) return count;
    return match.names.empty() ? nullptr : &match.names.front();
}

const Name* Scanner::count_name() {
    const Words words = names_at(at_);
    const Name* const found = count_of(words.match);
    if (found == nullptr) {
        unknown_unit(kind_words(Kind::indirect), count_names());
        return nullptr;
    }
    if (std::count_if(words.match.names.begin(), words.match.names.end(),
                      [](const Name& name) { return is_count(name.kind); }) > 1) {
        fail(base::quoted(words.text) +
                 " is counted in several systems: " + readings_of(words.match, is_count),
             "the name of the system",
             "Write " + symbols_of(words.match, is_count) + " in its place.", at_);
        return nullptr;
    }
    at_ = words.end;
    use(*found);
    return found;
}

bool Scanner::finished() {
    if (problem_) return false;
    if (at_end()) return true;
    fail(base::quoted(text_.substr(at_)) + " is left over", "the end of the text", "", at_);
    return false;
}

}  // namespace skeinfall::units::detail
