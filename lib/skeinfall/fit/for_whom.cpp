#include "skeinfall/fit/for_whom.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <regex>
#include <set>
#include <utility>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/data/body_sizes.hpp"
#include "skeinfall/data/ease_words.hpp"
#include "skeinfall/data/made_to_fit.hpp"
#include "skeinfall/data/sources.hpp"
#include "skeinfall/data/who_words.hpp"
#include "skeinfall/fit/detail/seamless.hpp"
#include "skeinfall/project/edging.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::fit {
namespace {

using data::body_sizes_row;
using data::made_to_fit_row;

constexpr std::int64_t months_a_year = 12;
constexpr std::int64_t infant_until = 12;  // months
constexpr std::int64_t child_until = 14 * months_a_year;

double number_in(std::string_view cell) {
    return base::number_of<double>(cell).value_or(0.0);
}

/// Words of a text in lower case, with whatever stands between them as single blanks.
std::string plain(std::string_view text) {
    static const std::regex possessive("('|\u2019)s?\\b");
    std::string out;
    for (const char c : std::regex_replace(base::lower(base::trimmed(text)), possessive, "")) {
        const bool mark = c == ',' || c == '(' || c == ')';
        const char next = mark || c == '\t' ? ' ' : c;
        if (next == ' ' && (out.empty() || out.back() == ' ')) continue;
        out += next;
    }
    return std::string(base::trimmed(out));
}

/// Whether `words` stand in `text` as whole words; a plural counts too.
bool says(const std::string& text, std::string_view words) {
    const std::string wanted = plain(words);
    for (std::size_t at = text.find(wanted); at != std::string::npos;
         at = text.find(wanted, at + 1)) {
        const std::size_t end = at + wanted.size();
        const bool begins = at == 0 || text[at - 1] == ' ' || text[at - 1] == '-';
        const bool ends = end == text.size() || text[end] == ' ' || text[end] == '-' ||
                          (text[end] == 's' && (end + 1 == text.size() || text[end + 1] == ' '));
        if (begins && ends) return true;
    }
    return false;
}

struct Months {
    double from = 0.0;
    double to = 0.0;
    std::string words;  ///< as the text has them
};

/// The ages a text names, "6 to 8 years" being from six until nine.
std::optional<Months> ages_in(const std::string& text) {
    static const std::regex ages(
        R"((\d+(?:[.]\d+)?)\s*(?:(?:-|to|/|or|and)\s*(\d+(?:[.]\d+)?)\s*)?(months?|mos?|m|years?|yrs?|yo|y)?(?:\s|$|-))",
        std::regex::icase);
    std::smatch found;
    if (!std::regex_search(text, found, ages)) return std::nullopt;
    const std::string unit = found[3];
    if (unit.empty() && !says(text, "child") && !says(text, "girl") && !says(text, "boy") &&
        !says(text, "children") && !says(text, "age") && !says(text, "toddler") &&
        !says(text, "aged") && !says(text, "teen"))
        return std::nullopt;
    const bool months = !unit.empty() && unit.front() == 'm';
    const double one = months ? 1.0 : static_cast<double>(months_a_year);
    const double from = number_in(found[1].str());
    const double to = found[2].matched ? number_in(found[2].str()) : from;
    if (to < from) return std::nullopt;
    return Months{from * one, (to + 1.0) * one, found.str()};
}

bool overlaps(const body_sizes_row& row, const Months& ages) {
    if (row.from_months.empty()) return false;
    return number_in(row.from_months) < ages.to && number_in(row.to_months) > ages.from;
}

bool is_named(const body_sizes_row& row, const std::string& text) {
    for (const std::string& name : base::split(row.who, ';'))
        if (says(text, name)) return true;
    return false;
}

/// "women", "ladies", "men": as the tables have them.
std::string singular(std::string text) {
    static const std::pair<std::regex, const char*> forms[] = {
        {std::regex(R"(\b(women|ladies|lady)\b)"), "woman"},
        {std::regex(R"(\b(men|gents)\b)"), "man"},
        {std::regex(R"(\bchildren\b)"), "child"},
        {std::regex(R"(\bbabies\b)"), "baby"},
        {std::regex(R"(\bmedium\b)"), "M"},
        {std::regex(R"(\bsmall\b)"), "S"},
        {std::regex(R"(\blarge\b)"), "L"}};
    for (const auto& [form, word] : forms) text = std::regex_replace(text, form, word);
    return base::lower(text);
}

std::vector<const body_sizes_row*> rows_of(std::string_view of, const std::string& who) {
    std::vector<const body_sizes_row*> out;
    if (const auto ages = ages_in(who))
        for (const body_sizes_row& row : data::body_sizes)
            if (row.of == of && overlaps(row, *ages)) out.push_back(&row);
    if (!out.empty()) {
        // A word beside the age leaves out the other half of the grown-ups.
        std::vector<const body_sizes_row*> named;
        for (const body_sizes_row* row : out)
            if (is_named(*row, who)) named.push_back(row);
        const bool grown = std::any_of(named.begin(), named.end(), [](const auto* row) {
            return number_in(row->to_months) > static_cast<double>(child_until);
        });
        return grown ? named : out;
    }
    for (const body_sizes_row& row : data::body_sizes)
        if (row.of == of && is_named(row, who)) out.push_back(&row);
    // "woman L" is a size of its own, not any woman's.
    std::size_t longest = 0;
    const auto name_length = [&](const body_sizes_row* row) {
        std::size_t most = 0;
        for (const std::string& name : base::split(row->who, ';'))
            if (says(who, name)) most = std::max(most, name.size());
        return most;
    };
    for (const body_sizes_row* row : out) longest = std::max(longest, name_length(row));
    std::erase_if(out, [&](const auto* row) { return name_length(row) < longest; });
    return out;
}

units::Length unit_of(const body_sizes_row& row) {
    return row.unit == "cm" ? units::centimetre : units::inch;
}

std::optional<Span> span_of(const body_sizes_row& row, std::string_view least,
                            std::string_view most) {
    if (least.empty()) return std::nullopt;
    return Span{number_in(least) * unit_of(row), number_in(most) * unit_of(row)};
}

void widen(std::optional<Span>& span, const std::optional<Span>& with) {
    if (!with) return;
    if (!span) {
        span = with;
        return;
    }
    span->least = std::min(span->least, with->least);
    span->most = std::max(span->most, with->most);
}

std::string title_of(std::string_view source) {
    const std::string id(source.substr(0, source.find(' ')));
    for (const data::sources_row& row : data::sources)
        if (row.id == id) return std::string(row.title) + " (" + std::string(row.publisher) + ")";
    return {};
}

SizeRow used(const body_sizes_row& row) {
    return {std::string(row.of),
            base::split(row.who, ';').front(),
            std::string(row.source),
            title_of(row.source),
            std::string(row.note),
            span_of(row, row.across_least, row.across_most),
            span_of(row, row.along_least, row.along_most)};
}

std::optional<Ease> ease_of(const made_to_fit_row& make) {
    if (make.ease == "none") return std::nullopt;
    Ease out;
    out.source = std::string(make.source);
    out.note = std::string(make.note);
    out.as_share = make.ease == "share";
    const double least = number_in(make.ease_least);
    const double most = number_in(make.ease_most);
    out.least_share = units::Ratio(out.as_share ? least : 0.0);
    out.most_share = units::Ratio(out.as_share ? most : 0.0);
    out.least = (out.as_share ? 0.0 : least) * units::inch;
    out.most = (out.as_share ? 0.0 : most) * units::inch;
    return out;
}

Span eased(const Span& body, const Ease& ease) {
    // A garment of the middle of the body, with the ease that it may have.
    return {body.middle() * (1.0 + ease.least_share.value()) + ease.least,
            body.middle() * (1.0 + ease.most_share.value()) + ease.most};
}

const made_to_fit_row* find_make(std::string_view word) {
    const std::string text = plain(word);
    for (const made_to_fit_row& row : data::made_to_fit) {
        if (says(text, row.make)) return &row;
        for (const std::string& name : base::split(row.also_called, '|'))
            if (says(text, name)) return &row;
    }
    return nullptr;
}

project::Recipient recipient_of(const std::string& who) {
    const auto named = [&](std::initializer_list<const char*> words) {
        return std::any_of(words.begin(), words.end(),
                           [&](const char* word) { return says(who, word); });
    };
    if (const auto ages = ages_in(who)) {
        if (ages->from < infant_until) return project::Recipient::infant;
        if (ages->from < child_until) return project::Recipient::child;
        return project::Recipient::adult;
    }
    if (named({"preemie", "premature", "newborn", "baby", "infant", "receiving", "lovey",
               "comforter", "security blanket", "crib", "cot", "cradle", "bassinet", "moses basket",
               "stroller", "pram"}))
        return project::Recipient::infant;
    if (named({"toddler", "child", "kid", "girl", "boy"})) return project::Recipient::child;
    return project::Recipient::adult;
}

base::Problem no_such_person(std::string_view of, std::string_view who) {
    std::vector<std::string> names;
    for (const body_sizes_row& row : data::body_sizes)
        if (row.of == of) {
            const std::string name = base::split(row.who, ';').front();
            if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
        }
    return {"no table of " + std::string(of) + " sizes knows " + base::quoted(who),
            {},
            base::join(names, ", "),
            "Measure, and give the width and length instead."};
}

/// Takes words out of a text, wherever they stand as whole words.
void take_out(std::string& text, std::string_view words) {
    const std::string wanted = plain(words);
    std::string padded = " " + text + " ";
    for (const std::string& form : {wanted, wanted + "s"})
        for (std::size_t at = padded.find(" " + form + " "); at != std::string::npos;
             at = padded.find(" " + form + " "))
            padded.erase(at, form.size() + 1);
    text = std::string(base::trimmed(padded));
}

/// What of a text chose no row: letters of sizes apart from words that nobody understands.
struct Unread {
    std::vector<std::string> letters;
    std::string words;
};

Unread unread_of(std::string text, const made_to_fit_row& make,
                 std::vector<std::string> names_used) {
    const auto ages = ages_in(text);
    const auto longer_first = [](const std::string& a, const std::string& b) {
        return a.size() > b.size();
    };
    std::sort(names_used.begin(), names_used.end(), longer_first);
    if (ages) text = plain(text.replace(text.find(ages->words), ages->words.size(), " "));
    for (const std::string& name : names_used) take_out(text, name);
    take_out(text, make.make);
    for (const std::string& name : base::split(make.also_called, '|')) take_out(text, name);
    Unread out;
    for (const data::who_words_row& row : data::who_words) {
        const std::size_t before = text.size();
        if (row.means != "beside an age" || ages) take_out(text, row.word);
        if (row.means == "letter" && text.size() < before) out.letters.emplace_back(row.word);
    }
    out.words = text;
    return out;
}

base::Problem words_not_understood(std::string_view of, std::string_view who,
                                   const std::string& words) {
    base::Problem out = no_such_person(of, who);
    out.what = base::quoted(words) + " is not understood in " + base::quoted(who);
    return out;
}

/// The way round, or the width, that one piece of the make gives.
double pieces_to_whole(const project::Project& project, std::size_t index, std::size_t size,
                       const SizeFor& wanted) {
    if (project::laid_size(project, index, size)) return 1.0;
    const project::Piece& piece = project.pieces.at(index);
    if (wanted.around && project::grows_from_centre(project, piece, size)) return std::numbers::pi;
    if (wanted.halves && piece.worked == project::Worked::flat) return 2.0;
    return 1.0;
}

}  // namespace

base::Result<Ease> parse_ease(std::string_view text) {
    std::string_view rest = base::trimmed(text);
    for (const data::ease_words_row& row : data::ease_words) {
        std::vector<std::string> names = base::split(row.also_called, '|');
        names.emplace_back(row.word);
        if (std::none_of(names.begin(), names.end(),
                         [&](const std::string& name) { return base::same_word(name, rest); }))
            continue;
        Ease out;
        out.least = number_in(row.least_in) * units::inch;
        out.most = number_in(row.most_in) * units::inch;
        out.source = std::string(row.source);
        out.note = std::string(row.word) + " fit";
        return out;
    }
    const bool minus = rest.starts_with('-');
    if (minus || rest.starts_with('+')) rest.remove_prefix(1);
    const double sign = minus ? -1.0 : 1.0;
    Ease out;
    if (rest.ends_with('%')) {
        const auto share = units::parse_percent(rest);
        if (!share) return share.problem();
        out.as_share = true;
        out.least_share = out.most_share = units::Ratio(sign * share->value());
        return out;
    }
    if (rest == "0") return out;
    const auto length = units::parse_length(rest);
    if (!length)
        return base::Problem{base::quoted(text) + " is no ease",
                             {},
                             "very close, close, standard, loose, oversized, a length such as "
                             "\"2 in\" or \"-1 in\", or a share such as \"-10 %\"",
                             ""};
    out.least = out.most = sign * *length;
    return out;
}

base::Result<SizeFor> size_for(std::string_view make, std::string_view who,
                               const std::optional<Ease>& ease) {
    const made_to_fit_row* const known = find_make(make);
    if (known == nullptr)
        return base::Problem{"no table says how large " + base::quoted(make) + " should be",
                             {},
                             base::join(known_makes(), ", "),
                             ""};
    const std::string text = singular(plain(who));
    SizeFor out;
    out.make = std::string(known->make);
    out.around = known->around == "yes";
    out.halves = known->halves == "yes";
    out.sideways = known->sideways == "yes";
    out.recipient = recipient_of(text);
    std::vector<std::string> names;
    const auto note_names = [&](const body_sizes_row& row) {
        for (std::string& name : base::split(row.who, ';')) names.push_back(std::move(name));
    };
    const auto across = rows_of(known->across_of, text);
    for (const body_sizes_row* row : across) {
        note_names(*row);
        out.rows.push_back(used(*row));
        widen(out.body, out.rows.back().across);
        if (known->along_of == known->across_of) widen(out.along, out.rows.back().along);
    }
    if (!known->along_of.empty() && known->along_of != known->across_of)
        for (const body_sizes_row* row : rows_of(known->along_of, text)) {
            note_names(*row);
            out.rows.push_back(used(*row));
            widen(out.along, out.rows.back().along);
        }
    if (!out.body && !out.along) return no_such_person(known->across_of, who);
    Unread unread = unread_of(text, *known, std::move(names));
    if (!unread.words.empty()) return words_not_understood(known->across_of, who, unread.words);
    out.letters_unused = std::move(unread.letters);
    out.ease = ease ? ease : ease_of(*known);
    if (out.body) out.across = out.ease ? eased(*out.body, *out.ease) : *out.body;
    if (out.across && out.across->least <= units::Length{})
        return base::Problem{"with so much negative ease nothing is left", {}, "less of it", ""};
    if (out.along && out.ease && out.ease->as_share && known->along_of == known->across_of)
        out.along = eased(*out.along, *out.ease);
    out.neck_of_child =
        (out.make == "scarf" || out.make == "cowl") && out.recipient != project::Recipient::adult;
    return out;
}

std::optional<std::string> make_of(const project::Project& project) {
    if (const auto* const by_title = find_make(project.title)) return std::string(by_title->make);
    for (const project::Piece& piece : project.pieces)
        if (const auto* const by_piece = find_make(piece.name)) return std::string(by_piece->make);
    return std::nullopt;
}

bool is_part_beside(const project::Project& project, std::size_t piece) {
    static const std::set<std::string, std::less<>> parts{
        "sleeve", "sleeves", "arm",  "arms",   "collar", "hood", "pocket", "pockets", "strap",
        "straps", "tie",     "ties", "gusset", "thumb",  "flap", "belt",   "button",  "yoke"};
    if (project.pieces.size() < 2) return false;
    const std::vector<std::string> words =
        base::split(base::lower(project.pieces.at(piece).name), ' ');
    return std::any_of(words.begin(), words.end(),
                       [&](const std::string& word) { return parts.contains(word); });
}

std::vector<std::string> known_makes() {
    std::vector<std::string> out;
    for (const made_to_fit_row& row : data::made_to_fit) out.emplace_back(row.make);
    return out;
}

bool goes_round_by_length(const project::Project& project, std::size_t piece, std::size_t size,
                          const SizeFor& wanted) {
    const project::Piece& one = project.pieces.at(piece);
    if (!wanted.sideways || one.worked != project::Worked::flat ||
        project::grows_from_centre(project, one, size))
        return false;
    const project::FinishedSize now = project::finished_size(project, one, size);
    return now.length > now.width;
}

bool has_more_than_foot(const project::Project& project, std::size_t piece, const SizeFor& wanted) {
    const std::string name = base::lower(project.pieces.at(piece).name);
    const std::string all = base::lower(project.title) + " " + name;
    const auto says = [](const std::string& text, const char* word) {
        return text.find(word) != std::string::npos;
    };
    return wanted.make == "sock" && !says(name, "foot") && !says(all, "slipper") &&
           !says(all, "bootie");
}

bool has_length(const project::Project& project, std::size_t piece, std::size_t size) {
    return project::laid_size(project, piece, size).has_value() ||
           !project::grows_from_centre(project, project.pieces.at(piece), size);
}

namespace {

/// What its borders add.
project::FinishedSize border_of(const project::Project& project, std::size_t piece,
                                std::size_t size) {
    const project::FinishedSize whole = project::finished_whole(project, piece, size);
    const project::FinishedSize inside =
        project::laid_size(project, piece, size)
            .value_or(project::finished_size(project, project.pieces.at(piece), size));
    return {whole.width - inside.width, whole.length - inside.length};
}

}  // namespace

std::optional<units::Length> worked_on_long(const project::Project& project, std::size_t piece,
                                            std::size_t size) {
    std::size_t first = piece;
    while (goes_on(project, first, size)) --first;
    std::size_t last = piece;
    while (goes_on(project, last + 1, size)) ++last;
    if (first == last) return std::nullopt;
    units::Length out{};
    for (std::size_t at = first; at <= last; ++at) {
        const project::Piece& one = project.pieces[at];
        const bool centre = project::grows_from_centre(project, one, size);
        out += (centre ? 0.5 : 1.0) * project::finished_size(project, one, size).length;
    }
    return out;
}

SizeMatch nearest_size(const project::Project& project, std::size_t piece, const SizeFor& wanted) {
    const auto off = [](const Span& span, units::Length length) {
        const units::Length out = length < span.least  ? span.least - length
                                  : length > span.most ? length - span.most
                                                       : units::Length{};
        return out / span.middle();
    };
    const auto from_middle = [](const Span& span, units::Length length) {
        return std::abs(length / span.middle() - 1.0);
    };
    SizeMatch best;
    double least = 0.0;
    double tie = 0.0;
    for (std::size_t size = 0; size < project.size_count(); ++size) {
        // A table tells what is finished: with its border, all squares joined.
        project::FinishedSize finished = project::finished_whole(project, piece, size);
        if (goes_round_by_length(project, piece, size, wanted))
            std::swap(finished.width, finished.length);
        finished.width *= pieces_to_whole(project, piece, size, wanted);
        double gap = 0.0;
        double middle = 0.0;
        const auto judge = [&](const std::optional<Span>& span, units::Length length) {
            if (!span) return;
            gap += off(*span, length);
            middle += from_middle(*span, length);
        };
        judge(wanted.across, finished.width);
        // How long a garment should be, and a crown worked from its centre, no table tells here.
        const bool flat = has_length(project, piece, size);
        if (flat && !wanted.ease) judge(wanted.along, finished.length);
        if (size == 0 || gap < least || (gap == least && middle < tie)) {
            best = {size, finished, gap == 0.0, units::Ratio(gap)};
            least = gap;
            tie = middle;
        }
    }
    return best;
}

Wish wish_for(const project::Project& project, std::size_t piece, const SizeFor& wanted) {
    Wish out;
    const project::FinishedSize border = border_of(project, piece, 0);
    if (wanted.across)
        out.width =
            wanted.across->middle() / pieces_to_whole(project, piece, 0, wanted) - border.width;
    if (wanted.along && has_length(project, piece, 0)) {
        out.length = wanted.along->middle() - border.length;
        // Of a crown and the sides below it, the sides alone become longer.
        if (const auto whole = worked_on_long(project, piece, 0))
            *out.length -=
                *whole - project::finished_size(project, project.pieces.at(piece), 0).length;
        if (*out.length <= units::Length{}) out.length.reset();
    }
    if (goes_round_by_length(project, piece, 0, wanted)) std::swap(out.width, out.length);
    return out;
}

Outside outside_of(const Fitted& fitted, const SizeFor& wanted) {
    project::FinishedSize whole =
        project::finished_whole(fitted.project, fitted.piece, fitted.size);
    if (goes_round_by_length(fitted.project, fitted.piece, fitted.size, wanted))
        std::swap(whole.width, whole.length);
    if (const auto long_one = worked_on_long(fitted.project, fitted.piece, fitted.size))
        whole.length = *long_one;
    // A span of a body is meant; a usual length is one of many.
    constexpr double of_a_tape = 0.125;
    constexpr double hardly = 0.05;
    const auto holds = [](const std::optional<Span>& span, units::Length length,
                          units::Length near) {
        return !span || (length >= span->least - near && length <= span->most + near);
    };
    const auto hardly_off = [&](const std::optional<Span>& span) {
        return span ? hardly * span->middle() : units::Length{};
    };
    Outside out;
    const units::Length across =
        whole.width * pieces_to_whole(fitted.project, fitted.piece, fitted.size, wanted);
    if (!holds(wanted.across, across,
               wanted.ease ? of_a_tape * units::inch : hardly_off(wanted.across)))
        out.across = across;
    if (has_length(fitted.project, fitted.piece, fitted.size) &&
        (fitted.rows.wished || fitted.motifs) &&
        !holds(wanted.along, whole.length, hardly_off(wanted.along)))
        out.along = whole.length;
    return out;
}

}  // namespace skeinfall::fit
