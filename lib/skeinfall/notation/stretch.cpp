#include "skeinfall/notation/stretch.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstdint>
#include <map>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/notation/detail/pattern.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::notation {
namespace {

using Entries = std::vector<WrittenRows>;

constexpr std::int64_t most_tries = 600;

bool digit(char c) {
    return std::isdigit(static_cast<unsigned char>(c)) != 0;
}

/// A whole number in a text.
struct Number {
    std::size_t begin = 0;
    std::size_t end = 0;
    std::int64_t value = 0;
};

std::vector<Number> numbers_in(const std::string& text, std::size_t from, std::size_t to) {
    std::vector<Number> out;
    to = std::min(to, text.size());
    for (std::size_t at = from; at < to;) {
        if (!digit(text[at])) {
            ++at;
            continue;
        }
        Number number;
        number.begin = at;
        for (; at < to && digit(text[at]); ++at)
            number.value =
                std::min(std::int64_t{100'000'000}, 10 * number.value + (text[at] - '0'));
        number.end = at;
        out.push_back(number);
    }
    return out;
}

std::size_t end_of_line(const std::string& text, std::size_t from) {
    return std::min(text.find('\n', from), text.size());
}

struct Edit {
    std::size_t entry = 0;
    Number number;
    std::int64_t value = 0;
};

Entries edited(const Entries& entries, std::vector<Edit> edits) {
    Entries out = entries;
    std::sort(edits.begin(), edits.end(), [](const Edit& a, const Edit& b) {
        return std::pair(a.entry, a.number.begin) > std::pair(b.entry, b.number.begin);
    });
    for (const Edit& edit : edits)
        out[edit.entry].text.replace(edit.number.begin, edit.number.end - edit.number.begin,
                                     std::to_string(edit.value));
    return out;
}

/// The rows as read, beside what they come to.
struct Worked {
    Pattern pattern;
    NotationResult result;
    bool breaks_law = false;  ///< a row does not follow the row below as it did, see judge()

    [[nodiscard]] bool readable() const { return result.problems.empty(); }
    [[nodiscard]] bool fits() const {
        return readable() && !breaks_law &&
               std::none_of(
                   result.rows.findings.begin(), result.rows.findings.end(),
                   [](const Finding& finding) { return finding.severity == Severity::stop; });
    }
    /// The work of the row that is to come to what a line declares, by line.
    [[nodiscard]] std::map<std::int64_t, RowWork> counted() const {
        std::map<std::int64_t, RowWork> out;
        std::int64_t row = 0;
        for (const Slot& slot : pattern.slots) {
            if (slot.written < 0) continue;
            ++row;
            if (row > result.rows.rows()) break;
            if (slot.counted) out[slot.written] = result.rows.row(row);
        }
        return out;
    }
};

class Stretcher {
  public:
    Stretcher(const NotationOptions& options) : options_(options) {
        options_.by_words_alone = true;
        // A place is the entry and the byte in it.
        options_.locate = [](std::size_t entry, std::size_t offset) {
            return base::Place{{}, entry + 1, offset + 1};
        };
    }

    [[nodiscard]] Worked work(const Entries& entries) const {
        Worked out;
        StitchBook book(options_.craft, options_.terms);
        base::Problems problems;
        out.pattern = read_pattern(entries, options_, book, problems, false);
        out.result = work_rows(entries, options_);
        return out;
    }

    /// The foundation's number: the only one of its line with that value.
    [[nodiscard]] std::optional<Edit> foundation(const Worked& worked,
                                                 const Entries& entries) const {
        std::optional<Edit> out;
        for (const std::int64_t index : worked.pattern.foundation) {
            const Written& written = worked.pattern.written[static_cast<std::size_t>(index)];
            for (const Item& item : written.body.items) {
                if (item.what != Item::Do::chain && item.what != Item::Do::work) continue;
                if (out || item.count < 2) return std::nullopt;
                const std::string& text = entries[written.entry].text;
                for (const Number& number :
                     numbers_in(text, written.base, end_of_line(text, written.base))) {
                    if (number.value != item.count) continue;
                    if (out) return std::nullopt;
                    out = Edit{written.entry, number, item.count};
                }
            }
        }
        return out;
    }

    /// Declared counts that follow from the rows as they now come out.
    /// `apart` is what they are larger by in `after`, and `alone` the rows as they were, read by
    /// their words alone as those of `after` are then.
    [[nodiscard]] Entries recounted(const Worked& before, const Worked& after,
                                    const Entries& entries, const Worked& alone,
                                    std::int64_t apart) const {
        const std::map<std::int64_t, RowWork> was = before.counted();
        const std::map<std::int64_t, RowWork> was_alone = alone.counted();
        const std::map<std::int64_t, RowWork> now = after.counted();
        std::vector<Edit> edits;
        StitchBook book(options_.craft, options_.terms);
        base::Problems problems;
        static_cast<void>(read_pattern(entries, options_, book, problems, false));
        const auto follow = [&](std::size_t entry, std::size_t base,
                                const std::vector<Declared>& declared, const RowWork& as_declared,
                                const RowWork& old_work, const RowWork& new_work) {
            for (Declared one : declared) {
                const std::string& text = entries[entry].text;
                const std::size_t at = base + one.at;
                const auto found = numbers_in(text, at, end_of_line(text, at));
                if (found.empty() || found.front().value != one.count) continue;
                one.count -= apart;
                const std::int64_t more = growth_of(one, as_declared, old_work, new_work, book);
                if (more != 0 || apart != 0)
                    edits.push_back({entry, found.front(), one.count + more});
            }
        };
        for (const auto& [index, work] : now) {
            const auto old_work = was.find(index);
            const auto old_alone = was_alone.find(index);
            if (old_work == was.end() || old_alone == was_alone.end()) continue;
            const Written& written = after.pattern.written[static_cast<std::size_t>(index)];
            follow(written.entry, written.base, written.body.declared, old_work->second,
                   old_alone->second, work);
        }
        for (std::size_t k = 0;
             k < std::min(before.pattern.behind.size(), after.pattern.behind.size()); ++k) {
            const Behind& old_one = before.pattern.behind[k];
            const Behind& new_one = after.pattern.behind[k];
            if (old_one.row < 1 || old_one.row > before.result.rows.rows() || new_one.row < 1 ||
                new_one.row > after.result.rows.rows())
                continue;
            if (old_one.row > alone.result.rows.rows()) continue;
            follow(new_one.entry, new_one.base, new_one.declared,
                   before.result.rows.row(old_one.row), alone.result.rows.row(old_one.row),
                   after.result.rows.row(new_one.row));
        }
        return edited(entries, std::move(edits));
    }

    /// A row goes on from the row below as it did before: as many stitches more or fewer (at the
    /// edges), or in the same proportion (spread over the row). One that does neither leaves out
    /// what was added, though its words find their places: "3 dc in last sc".
    static void judge(const Worked& before, Worked& after) {
        const project::WorkedRows& was = before.result.rows;
        const project::WorkedRows& now = after.result.rows;
        if (!after.readable() || was.rows() != now.rows()) return;
        const auto law = [&](std::int64_t row, auto count) {
            const double old_below = count(row > 1 ? was.row(row - 1) : was.foundation);
            const double new_below = count(row > 1 ? now.row(row - 1) : now.foundation);
            const double old_row = count(was.row(row));
            const double new_row = count(now.row(row));
            constexpr double noise = 1e-6;
            return std::abs((new_row - old_row) - (new_below - old_below)) < noise ||
                   std::abs(new_row * old_below - old_row * new_below) < noise;
        };
        std::int64_t row = 0;
        for (const Slot& slot : after.pattern.slots) {
            if (slot.written < 0) continue;
            if (++row > now.rows()) return;
            if (law(row, [](const RowWork& work) { return work.across.value(); }) ||
                law(row, [](const RowWork& work) { return work.made.value(); }))
                continue;
            after.breaks_law = true;
            return;
        }
    }

    /// Whether the text comes out, its declared counts put right first. What is found in it may
    /// not be more than before: another reading of a row would be one.
    [[nodiscard]] std::optional<Stretched> settled(const Entries& original, const Worked& before,
                                                   const Entries& entries,
                                                   Worked* last = nullptr) const {
        // A count that was may fit another reading of the words as they are now: then again with
        // counts that fit none, before and after.
        for (const std::int64_t apart : {std::int64_t{0}, fits_no_row}) {
            const Entries tried = apart == 0 ? entries : counts_apart(entries, apart);
            const Worked first = work(tried);
            if (!first.readable()) return std::nullopt;
            Entries counted = apart == 0 ? recounted(before, first, tried, before, 0)
                                         : recounted(before, first, tried,
                                                     work(counts_apart(original, apart)), apart);
            Worked worked = work(counted);
            judge(before, worked);
            const bool fine = worked.fits() && worked.result.rows.findings.size() ==
                                                   before.result.rows.findings.size();
            if (last != nullptr) *last = worked;
            if (fine) return Stretched{std::move(counted), std::move(worked.result.rows)};
        }
        return std::nullopt;
    }

    static constexpr std::int64_t fits_no_row = 700'000;

    /// Every declared count so much larger.
    [[nodiscard]] Entries counts_apart(const Entries& entries, std::int64_t apart) const {
        StitchBook book(options_.craft, options_.terms);
        base::Problems problems;
        const Pattern pattern = read_pattern(entries, options_, book, problems, false);
        std::vector<Edit> edits;
        const auto add = [&](std::size_t entry, std::size_t base,
                             const std::vector<Declared>& declared) {
            for (const Declared& one : declared) {
                const std::string& text = entries[entry].text;
                const std::size_t at = base + one.at;
                const auto found = numbers_in(text, at, end_of_line(text, at));
                if (!found.empty() && found.front().value == one.count)
                    edits.push_back({entry, found.front(), one.count + apart});
            }
        };
        for (const Written& written : pattern.written)
            add(written.entry, written.base, written.body.declared);
        for (const Behind& behind : pattern.behind) add(behind.entry, behind.base, behind.declared);
        return edited(entries, std::move(edits));
    }

    /// Numbers of a row that its width may hang on: times of repeats, stitches in a run.
    struct Adjustable {
        std::size_t entry = 0;
        Number number;
    };
    [[nodiscard]] std::vector<Adjustable> adjustables(const Written& written,
                                                      const Entries& entries) const {
        std::vector<Adjustable> out;
        const std::string& text = entries[written.entry].text;
        const std::size_t line_end = end_of_line(text, written.base);
        std::size_t declared_from = line_end;
        for (const Declared& declared : written.body.declared)
            declared_from = std::min(declared_from, written.base + declared.at);
        const std::vector<Item>& items = written.body.items;
        for (std::size_t k = 0; k < items.size(); ++k) {
            const Item& item = items[k];
            const std::size_t begin = written.base + item.at;
            const std::size_t end =
                k + 1 < items.size() ? written.base + items[k + 1].at : declared_from;
            std::int64_t value = 0;
            bool from_behind = false;
            if (item.what == Item::Do::repeat && item.extent.until != Extent::Until::to_end) {
                value = item.extent.count;
                from_behind = true;
            } else if (item.what == Item::Do::work && item.spot.which == Spot::Which::next &&
                       item.spot.count >= 4) {
                value = item.spot.count;
            } else if (item.what == Item::Do::work && item.count >= 4 &&
                       item.spot.which == Spot::Which::implied) {
                value = item.count;
            }
            if (value < 1) continue;
            auto found = numbers_in(text, begin, std::max(begin, end));
            if (from_behind) std::reverse(found.begin(), found.end());
            for (const Number& number : found)
                if (number.value == value) {
                    out.push_back({written.entry, number});
                    break;
                }
        }
        return out;
    }

    /// Puts counted repeats right line by line, each judged with the lines before it only, since
    /// rows that are repeated further on speak at the place of their words.
    [[nodiscard]] std::optional<Stretched> adjusted(const Entries& original, Entries entries,
                                                    double growth) const {
        // Most patterns come out as they are; line by line, time grows with the lines squared.
        if (auto whole = settled(original, work(original), entries)) return whole;
        for (std::size_t entry = 0; entry < original.size(); ++entry) {
            for (std::size_t line = 0; line_begin(original[entry].text, line); ++line) {
                const Entries upto = up_to(original, entry, line);
                const Worked before = work(upto);
                if (!before.readable()) continue;  // no row yet
                Worked now;
                if (settled(upto, before, up_to(entries, entry, line), &now)) continue;
                if (!adjust_line(upto, before, entries, entry, line, growth)) return std::nullopt;
            }
        }
        return settled(original, work(original), entries);
    }

  private:
    [[nodiscard]] static std::optional<std::size_t> line_begin(const std::string& text,
                                                               std::size_t line) {
        std::size_t at = 0;
        for (; line > 0; --line) {
            at = text.find('\n', at);
            if (at == std::string::npos) return std::nullopt;
            ++at;
        }
        return at < text.size() ? std::optional(at) : std::nullopt;
    }

    [[nodiscard]] static Entries up_to(const Entries& entries, std::size_t entry,
                                       std::size_t line) {
        Entries out(entries.begin(), entries.begin() + static_cast<std::ptrdiff_t>(entry) + 1);
        std::string& text = out.back().text;
        text.resize(end_of_line(text, line_begin(text, line).value_or(0)));
        return out;
    }

    /// Changes one number of a line so that it comes out.
    [[nodiscard]] bool adjust_line(const Entries& original, const Worked& before, Entries& entries,
                                   std::size_t entry, std::size_t line, double growth) const {
        const std::size_t base = line_begin(entries[entry].text, line).value_or(0);
        const Worked now = work(up_to(entries, entry, line));
        for (const Written& written : now.pattern.written) {
            if (written.entry != entry || written.base != base) continue;
            for (const Adjustable& one : adjustables(written, entries)) {
                const std::int64_t guess =
                    std::llround(static_cast<double>(one.number.value) * growth);
                constexpr std::int64_t around = 3;
                for (std::int64_t off = 0; off <= 2 * around; ++off) {
                    const std::int64_t value = guess + (off % 2 == 0 ? -off / 2 : (off + 1) / 2);
                    if (value < 1 || value == one.number.value) continue;
                    Entries tried = edited(entries, {{one.entry, one.number, value}});
                    if (!settled(original, before, up_to(tried, entry, line))) continue;
                    entries = std::move(tried);
                    return true;
                }
            }
        }
        return false;
    }

    /// What a declared count may be of: the row's stitches, with the chains of its spaces or
    /// without, or those of one kind.
    enum class Counts { made, across, of_kind };

    static std::int64_t figure(const Declared& declared, const RowWork& work,
                               const StitchBook& book, Counts counts) {
        if (declared.what == Declared::What::spaces) return work.chain_spaces;
        if (declared.what == Declared::What::chains)
            return std::llround(work.across.value() - work.made.value());
        if (counts == Counts::made) return std::llround(work.made.value());
        if (counts == Counts::across) return std::llround(work.across.value());
        for (const KindCount& kind : work.kinds)
            if (kind.kind == book.at(declared.kind).name) return std::llround(kind.count.value());
        return 0;
    }

    /// By how much a declared count grows: by what it was a count of.
    static std::int64_t growth_of(const Declared& declared, const RowWork& as_declared,
                                  const RowWork& was, const RowWork& now, const StitchBook& book) {
        if (declared.what == Declared::What::other) return 0;
        const bool kind = declared.what == Declared::What::kind;
        Counts counts = kind ? Counts::of_kind : Counts::made;
        for (const Counts one : {Counts::across, Counts::made})
            if (figure(declared, as_declared, book, one) == declared.count) counts = one;
        if (kind && figure(declared, as_declared, book, Counts::of_kind) == declared.count)
            counts = Counts::of_kind;
        return figure(declared, now, book, counts) - figure(declared, was, book, counts);
    }

    NotationOptions options_;
};

/// "60 in" in a text: where its number and its unit end.
struct WrittenLength {
    std::size_t begin = 0;
    std::size_t digits_end = 0;
    std::size_t end = 0;
    units::Length length{};
};

std::optional<WrittenLength> length_at(const std::string& text, std::size_t at) {
    const auto in_number = [&](std::size_t i) {
        return digit(text[i]) || (text[i] == '.' && i + 1 < text.size() && digit(text[i + 1]));
    };
    if (!digit(text[at]) || (at > 0 && (in_number(at - 1) || text[at - 1] == '/')))
        return std::nullopt;
    WrittenLength out{at, at, at, {}};
    while (out.digits_end < text.size() && in_number(out.digits_end)) ++out.digits_end;
    out.end = out.digits_end;
    if (out.end < text.size() && text[out.end] == ' ') ++out.end;
    const std::size_t unit = out.end;
    while (out.end < text.size() &&
           (std::isalpha(static_cast<unsigned char>(text[out.end])) != 0 || text[out.end] == '"'))
        ++out.end;
    if (out.end == unit) return std::nullopt;
    const auto length = units::parse_length(text.substr(at, out.end - at));
    if (!length || *length <= units::Length{}) return std::nullopt;
    out.length = *length;
    return out;
}

/// The text with another length there, and with the same in other units behind it, "(152 cm)";
/// to this part of its unit.
std::string with_length(const std::string& text, const WrittenLength& was, units::Length now,
                        double part) {
    const auto number = [&](const WrittenLength& of, double to) {
        const auto figure =
            base::leading_number<double>(text.substr(of.begin, of.digits_end - of.begin));
        const double in_unit = figure * units::Ratio(now / of.length).value();
        return fmt::format("{:.6g}", std::round(in_unit / to) * to);
    };
    std::string out = text;
    if (const std::size_t next = text.find_first_not_of(" (/[", was.end);
        next != std::string::npos && next > was.end)
        if (const auto beside = length_at(text, next)) {
            constexpr double same = 0.05;
            if (std::abs(units::Ratio(beside->length / was.length).value() - 1.0) < same)
                out.replace(beside->begin, beside->digits_end - beside->begin,
                            number(*beside, 1.0));
        }
    return out.replace(was.begin, was.digits_end - was.begin, number(was, part));
}

bool only_text(const Entries& entries) {
    return std::none_of(entries.begin(), entries.end(),
                        [](const WrittenRows& entry) { return entry.counted.has_value(); });
}

}  // namespace

std::optional<std::int64_t> foundation_count(const Entries& entries,
                                             const NotationOptions& options) {
    if (!only_text(entries)) return std::nullopt;
    const Stretcher stretcher(options);
    const Worked worked = stretcher.work(entries);
    if (!worked.readable()) return std::nullopt;
    const auto found = stretcher.foundation(worked, entries);
    return found ? std::optional<std::int64_t>(found->value) : std::nullopt;
}

std::optional<Stretched> with_foundation(const Entries& entries, const NotationOptions& options,
                                         std::int64_t count) {
    if (!only_text(entries) || options.sizes > 1 || count < 1) return std::nullopt;
    const Stretcher stretcher(options);
    const Worked before = stretcher.work(entries);
    if (!before.fits()) return std::nullopt;
    auto number = stretcher.foundation(before, entries);
    if (!number) return std::nullopt;
    const double growth = static_cast<double>(count) / static_cast<double>(number->value);
    number->value = count;
    return stretcher.adjusted(entries, edited(entries, {*number}), growth);
}

namespace {

/// "until piece measures 60 in" with another length, the last of the text first.
std::optional<Stretched> with_other_length(
    const Stretcher& stretcher, const Entries& entries, const Worked& before,
    const NotationOptions& options, std::int64_t count,
    const std::function<bool(const project::WorkedRows&)>& wanted) {
    if (!options.row_gauge || options.row_gauge->value() <= 0.0) return std::nullopt;
    const auto more = static_cast<double>(count - before.result.rows.rows()) * units::row;
    for (std::size_t entry = entries.size(); entry-- > 0;) {
        const std::string& text = entries[entry].text;
        for (std::size_t at = text.size(); at-- > 0;) {
            const auto was = length_at(text, at);
            if (!was) continue;
            const units::Length now = was->length + units::Length(more / *options.row_gauge);
            if (now <= units::Length{}) continue;
            for (const double part : {1.0, 0.5, 0.25, 0.1, 0.05}) {
                Entries tried = entries;
                tried[entry].text = with_length(text, *was, now, part);
                const Worked worked = stretcher.work(tried);
                if (!worked.readable() || worked.result.rows.rows() != count) continue;
                auto done = stretcher.settled(entries, before, tried);
                if (done && (!wanted || wanted(done->rows))) return done;
            }
        }
    }
    return std::nullopt;
}

}  // namespace

std::optional<Stretched> with_rows(const Entries& entries, const NotationOptions& options,
                                   std::int64_t count,
                                   const std::function<bool(const project::WorkedRows&)>& wanted) {
    if (!only_text(entries) || options.sizes > 1 || count < 1) return std::nullopt;
    const Stretcher stretcher(options);
    const Worked before = stretcher.work(entries);
    if (!before.fits()) return std::nullopt;
    const std::int64_t more = count - before.result.rows.rows();
    if (more == 0) return Stretched{entries, before.result.rows};

    // Every number of the text, the last first, with what the rows behind it are called then.
    struct OfRow {
        std::size_t entry = 0;
        std::size_t begin = 0;
        std::size_t end = 0;
    };
    std::vector<OfRow> lines;
    for (std::size_t entry = 0; entry < entries.size(); ++entry) {
        const std::string& text = entries[entry].text;
        for (std::size_t at = 0; at < text.size();) {
            const std::size_t end = end_of_line(text, at);
            lines.push_back({entry, at, end});
            at = end + 1;
        }
    }
    std::optional<Stretched> otherwise;
    std::int64_t tries = 0;
    for (std::size_t k = lines.size(); k-- > 0;) {
        const OfRow& line = lines[k];
        std::vector<Number> numbers = numbers_in(entries[line.entry].text, line.begin, line.end);
        for (std::size_t n = numbers.size(); n-- > 0;) {
            const Number& number = numbers[n];
            // The number may count rows, or times of a repeat of up to `longest` rows.
            constexpr std::int64_t longest = 24;
            for (std::int64_t rows = 1; rows <= longest && tries < most_tries; ++rows) {
                if (more % rows != 0 || number.value + more / rows < 1) continue;
                std::vector<Edit> edits{{line.entry, number, number.value + more / rows}};
                const std::int64_t last = number.value;
                for (std::size_t behind = k + 1; behind < lines.size(); ++behind) {
                    const std::string& text = entries[lines[behind].entry].text;
                    const std::size_t colon = text.find(':', lines[behind].begin);
                    if (colon == std::string::npos || colon > lines[behind].end) continue;
                    for (const Number& label : numbers_in(text, lines[behind].begin, colon))
                        if (rows > 1 || label.value > last)
                            edits.push_back({lines[behind].entry, label, label.value + more});
                }
                ++tries;
                const Entries tried = edited(entries, std::move(edits));
                const Worked worked = stretcher.work(tried);
                if (!worked.readable() || worked.result.rows.rows() != count) continue;
                auto done = stretcher.settled(entries, before, tried);
                if (done && (!wanted || wanted(done->rows))) return done;
                if (done && !otherwise) otherwise = std::move(done);
            }
        }
    }
    if (!otherwise)
        otherwise = with_other_length(stretcher, entries, before, options, count, wanted);
    return otherwise;
}

}  // namespace skeinfall::notation
