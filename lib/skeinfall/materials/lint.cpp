#include "skeinfall/materials/lint.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>
#include <tuple>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/data/materials_words.hpp"
#include "skeinfall/materials/detail/lint_lines.hpp"
#include "skeinfall/materials/detail/scan.hpp"
#include "skeinfall/need/size_steps.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/yarn/tools.hpp"

namespace skeinfall::materials {
namespace {

using project::Severity;
using units::Length;

const double per_4in = units::Ratio(4.0 * units::inch / (10.0 * units::centimetre));
constexpr double half_step = 0.25;  // of a gauge

std::string number(double value) {
    constexpr int figures = 10;
    return units::figures_text(units::Ratio(value), figures);
}

/// A figure that was worked out, to so many decimals.
std::string worked_out(double value, units::Step step) {
    return units::number_text(units::Ratio(value), step, units::Rounding::nearest);
}

Length metres(double value, std::string_view unit) {
    return value * (unit == "yd" ? units::yard : units::metre);
}

units::Mass mass_of(const Group& group) {
    return group.numbers.front() * (group.unit == "oz" ? units::ounce : units::gram);
}

/// The step a total or a label is rounded to.
double step_of(double value) {
    constexpr double large = 100.0;
    constexpr double five = 5.0;
    return value >= large && std::fmod(value, five) < scan_noise ? five : 1.0;
}

/// What one yarn's lines say.
struct Told {
    const Line* what = nullptr;
    const Line* total = nullptr;
    std::optional<Length> put_up;
    std::optional<units::Mass> put_up_mass;
    std::optional<int> weight;
    std::vector<Length> totals;
};

class Lint {
  public:
    Lint(std::string_view text, std::string file, const Section* section)
        : lines_(lines_of(text)), file_(std::move(file)), section_(section) {
        if (section != nullptr)
            for (const std::string& name : section->sizes)
                names_.push_back(base::shown_inert(name));
    }

    project::Findings findings() {
        find_sizes();
        for (const Line& line : lines_) {
            pairs(line, "yd", "m");
            pairs(line, "in", "cm");
            pairs(line, "oz", "g");
            lists(line);
            gauge(line);
            classes(line);
            for (const Otherwise& one : tool_labels_against(line))
                find(Severity::stop, line.number, one.column, one.what);
            if (line.heading)
                block_ = block_of(line.text);
            else if (block_ == "sizes" && section_ == nullptr && names_.empty())
                names_ = names_in(line);
            if (block_ != "by_size" && block_ != "adjust") yarn(line);
            if (section_ != nullptr) block_against_project(line);
        }
        for (auto& [role, told] : yarns_) of_yarn(role, told);
        if (section_ != nullptr) against_project();
        std::stable_sort(out_.begin(), out_.end(), [](const auto& a, const auto& b) {
            return std::tie(a.place.line, a.place.column) < std::tie(b.place.line, b.place.column);
        });
        return std::move(out_);
    }

  private:
    void find(Severity severity, std::size_t line, std::size_t column, std::string what,
              std::string remedy = {}) {
        out_.push_back({severity, {file_, line, column}, std::move(what), std::move(remedy)});
    }
    void stop(const Line& line, const Group& group, std::string what, std::string remedy = {}) {
        find(Severity::stop, line.number, group.column, std::move(what), std::move(remedy));
    }

    /// As many as the project has, else as the longest list that stands twice.
    void find_sizes() {
        if (section_ != nullptr) {
            sizes_ = std::max<std::size_t>(1, section_->sizes.size());
            return;
        }
        grid_ = grid_shape_of(lines_);
        if (grid_.lengths > 0) {
            sizes_ = grid_.widths;
            return;
        }
        std::map<std::size_t, int> lengths;
        for (const Line& line : lines_)
            for (const Group& group : line.groups)
                if (group.numbers.size() > 1) ++lengths[group.numbers.size()];
        int most = 0;
        for (const auto& [length, count] : lengths)
            if (count >= most) {
                most = count;
                sizes_ = length;
            }
    }

    /// Neighbouring figures in two systems.
    void pairs(const Line& line, std::string_view a, std::string_view b) {
        for (std::size_t i = 0; i + 1 < line.groups.size(); ++i) {
            const Group& first = line.groups[i];
            // "200 yd per 100 g (185 m per 100 g)": the mass stands between.
            std::size_t next = i + 1;
            if (first.unit != "oz" && line.groups[next].unit == "g" &&
                next + 1 < line.groups.size())
                ++next;
            const Group& second = line.groups[next];
            const bool forth = first.unit == a && second.unit == b;
            const bool back = first.unit == b && second.unit == a;
            if ((!forth && !back) || in_a_size_name(line, first, section_) ||
                in_a_size_name(line, second, section_))
                continue;
            const Group& imperial = forth ? first : second;
            const Group& metric = forth ? second : first;
            const std::size_t many = std::max(imperial.numbers.size(), metric.numbers.size());
            for (std::size_t size = 0; size < many; ++size) compare(line, imperial, metric, size);
            i = next;
        }
    }

    static std::optional<double> at(const Group& group, std::size_t size) {
        if (group.numbers.size() == 1) return group.numbers.front();
        if (size < group.numbers.size()) return group.numbers[size];
        return std::nullopt;
    }

    void compare(const Line& line, const Group& imperial, const Group& metric, std::size_t size) {
        const auto one = at(imperial, size);
        const auto other = at(metric, size);
        if (!one || !other) return;
        const bool inches = imperial.unit == "in";
        const bool ounces = imperial.unit == "oz";
        const double factor = inches   ? units::Ratio(units::inch / units::centimetre)
                              : ounces ? units::Ratio(units::ounce / units::gram)
                                       : units::Ratio(units::yard / units::metre);
        // Half a step of each: quarters and whole centimetres, hundredths and whole grams; totals
        // go up by a whole step.
        constexpr double half = 0.5;
        const double room = inches   ? 0.125 * factor + half
                            : ounces ? 0.005 * factor + half
                                     : step_of(*one) * factor + step_of(*other);
        if (std::abs(*one * factor - *other) <= room + scan_noise) return;
        stop(line, imperial,
             fmt::format("{} {} are {} {}, not {} {}", number(*one), imperial.unit,
                         worked_out(*one * factor, inches ? units::Step::tenth : units::Step::one),
                         metric.unit, number(*other), metric.unit),
             "Convert the correct figure again.");
    }

    [[nodiscard]] bool is_grid() const {
        if (section_ == nullptr) return grid_.lengths > 0;
        return section_->grid && !section_->grid->widths.empty() &&
               !section_->grid->lengths.empty();
    }
    /// In a grid a list may have one figure a width, or one a length.
    [[nodiscard]] bool of_grid(std::size_t count) const {
        if (section_ == nullptr) return grid_.lengths > 0 && count == grid_.lengths;
        return section_->grid &&
               (count == section_->grid->widths.size() || count == section_->grid->lengths.size());
    }

    void lists(const Line& line) {
        for (const Group& group : line.groups)
            if (group.numbers.size() > 1 && sizes_ > 0 && group.numbers.size() != sizes_ &&
                !of_grid(group.numbers.size()))
                stop(line, group,
                     fmt::format("{} figures for {} {}", group.numbers.size(), sizes_,
                                 sizes_ == 1 ? "size" : "sizes"),
                     "Give one figure for each size, or one for all.");
    }

    /// "22 sts and 30 rows to 10 cm": the counts that stand before a square of this unit.
    static const Group* counts_to(const Line& line, std::string_view unit) {
        const std::vector<Group>& g = line.groups;
        for (std::size_t i = 2; i < g.size(); ++i)
            if (g[i].unit == unit && g[i - 1].unit == "rows") return &g[i - 2];
        return nullptr;
    }

    void gauge(const Line& line) {
        const Group* const inches = counts_to(line, "in");
        const Group* const metric = counts_to(line, "cm");
        if (inches == nullptr || metric == nullptr) return;
        for (std::size_t i = 0; i < 2; ++i) {
            const double said = inches[i].numbers.front();
            const double from_cm = metric[i].numbers.front() * per_4in;
            if (std::abs(said - from_cm) > half_step * (1.0 + per_4in) + scan_noise)
                stop(line, inches[i],
                     fmt::format("{} {} to 10 cm are {} to 4 in, not {}",
                                 number(metric[i].numbers.front()), metric[i].unit,
                                 worked_out(from_cm, units::Step::tenth), number(said)));
        }
    }

    /// "class 4 (Medium)": the number of "Medium" is 4.
    void classes(const Line& line) {
        for (const yarn::WeightClass weight : yarn::known_classes()) {
            const std::string name = " (" + std::string(yarn::class_name(weight)) + ")";
            const std::size_t at = line.text.find(name);
            if (at == std::string::npos || at == 0) continue;
            const char before = line.text[at - 1];
            if (before < '0' || before > '9' || before - '0' == weight.number) continue;
            find(Severity::stop, line.number, line.columns[at - 1],
                 fmt::format("class {} is {}, and {} is class {}", before,
                             yarn::class_name(yarn::WeightClass{before - '0'}),
                             yarn::class_name(weight), weight.number));
        }
    }

    static std::string first_word(const std::string& text) {
        return text.substr(0, text.find(' '));
    }

    void yarn(const Line& line) {
        const Group* length = line.first("yd");
        if (length == nullptr) length = line.first("m");
        const Group* mass = line.first("g");
        if (mass == nullptr) mass = line.first("oz");
        const std::string head = line.head();
        // "53 yd per oz (185 yd per 100 g)": the length that stands before the mass.
        if (length != nullptr && mass != nullptr && head.empty() && mass > length &&
            ((mass - 1)->unit == "yd" || (mass - 1)->unit == "m"))
            length = mass - 1;
        if (length != nullptr && mass != nullptr && head.empty()) {
            instead(line, *length, *mass);
            return;
        }
        if (head.empty() || tells_colours(head)) return;
        const std::string role = first_word(head);
        if (length != nullptr && mass != nullptr) {
            Told& told = yarns_[role];
            told.what = &line;
            told.put_up = metres(length->numbers.front(), length->unit);
            // Of two systems the label's own comes first, and is the exact one.
            if (&line.groups.front() <= length && line.first("m") != nullptr &&
                line.first("m") < length)
                told.put_up = metres(line.first("m")->numbers.front(), "m");
            told.put_up_mass = mass_of(*mass);
            told.weight = class_of(line);
        } else if (length != nullptr && is_grid()) {
            return;  // the least and the most, and the lines below have them all
        } else if (length != nullptr) {
            Told& told = yarns_[role];
            told.total = &line;
            // The finer step tells more.
            for (const double value : length->numbers)
                told.totals.push_back(metres(value, length->unit));
        } else if (block_ == "colours" && yarns_.count(role) == 1) {
            colour(line, role);
        }
    }

    /// "S (M, L)"; a name with brackets or commas of its own is not taken apart.
    static std::vector<std::string> names_in(const Line& line) {
        std::vector<std::string> out;
        const std::size_t open = line.text.find(" (");
        out.push_back(line.text.substr(0, open));
        if (open == std::string::npos || !line.text.ends_with(')')) return {line.text};
        std::string others = line.text.substr(open + 2, line.text.size() - open - 3);
        std::replace(others.begin(), others.end(), ';', ',');
        for (std::string& name : base::split(others, ',')) out.push_back(std::move(name));
        return out;
    }

    [[nodiscard]] std::string size_name(std::size_t size) const {
        return size < names_.size() ? names_[size] : std::to_string(size + 1);
    }

    static std::optional<int> class_of(const Line& line) {
        for (const yarn::WeightClass weight : yarn::known_classes())
            if (line.has(yarn::text(weight))) return weight.number;
        return std::nullopt;
    }

    /// "MC: cream" below "MC: Marlpit Everyday in cream".
    void colour(const Line& line, const std::string& role) {
        const Told& told = yarns_.at(role);
        if (line.head() != role || told.what == nullptr) return;
        const std::string colour = line.text.substr(role.size() + 2);
        if (!told.what->has(colour))
            find(Severity::stop, line.number, line.columns.front(),
                 fmt::format("{} is {} here and another colour in line {}", role,
                             base::quoted(colour), told.what->number));
    }

    /// "MC may be any class 3 yarn with about 250 yd per 100 g".
    void instead(const Line& line, const Group& length, const Group& mass) {
        const auto found = yarns_.find(first_word(line.text));
        if (found == yarns_.end()) return;
        const Told& told = found->second;
        if (told.weight && !line.groups.empty() && line.groups.front().unit != length.unit &&
            line.groups.front().numbers.front() != *told.weight)
            stop(line, line.groups.front(),
                 fmt::format("class {} here and {} in line {}",
                             number(line.groups.front().numbers.front()), *told.weight,
                             told.what->number));
        if (!told.put_up || !told.put_up_mass) return;
        const units::Grist own = *told.put_up / *told.put_up_mass;
        const units::Grist said = metres(length.numbers.front(), length.unit) / mass_of(mass);
        constexpr double about = 0.06;
        if (std::abs(units::Ratio(said / own).value() - 1.0) > about)
            stop(line, length,
                 fmt::format(
                     "about {} {} per {} {}, and the skein in line {} has {} {}",
                     number(length.numbers.front()), length.unit, number(mass.numbers.front()),
                     mass.unit, told.what->number,
                     worked_out(own * mass_of(mass) / metres(1.0, length.unit), units::Step::one),
                     length.unit));
    }

    void of_yarn(const std::string& role, const Told& told) {
        if (told.total == nullptr) return;
        if (told.what == nullptr && section_ == nullptr && any_described())
            find(Severity::stop, told.total->number, told.total->columns.front(),
                 "a total for " + role + ", a yarn that is not described");
        skeins(role, told);
        for (const need::OutOfLine& one : need::out_of_line(told.totals)) {
            const Group* group = told.total->first("yd");
            if (group == nullptr) group = told.total->first("m");
            find(Severity::caution, told.total->number, group->column,
                 need::words_of(one.growth, role, size_name(one.size - 1), size_name(one.size)),
                 std::string(need::look_at_the_rows));
        }
    }

    [[nodiscard]] bool any_described() const {
        return std::any_of(yarns_.begin(), yarns_.end(),
                           [](const auto& one) { return one.second.what != nullptr; });
    }

    void skeins(const std::string& role, const Told& told) {
        if (!told.put_up) return;
        const std::vector<Group>& groups = told.total->groups;
        const auto found = std::find_if(groups.begin(), groups.end(), [](const Group& group) {
            return group.unit != "yd" && group.unit != "m" && !group.unit.empty();
        });
        if (found == groups.end()) return;
        for (std::size_t size = 0; size < told.totals.size(); ++size) {
            const auto count = at(*found, size);
            if (!count) continue;
            // A printed total may lie a step above the one that was counted.
            const double holds = *count * units::Ratio(*told.put_up / units::metre).value();
            const double wants = told.totals[size] / units::metre;
            constexpr double step = 5.0;
            constexpr double to_spare = 1.04;
            const bool few = holds < wants - step;
            const bool many =
                holds - units::Ratio(*told.put_up / units::metre).value() > wants * to_spare;
            if (few || many)
                stop(*told.total, *found,
                     fmt::format("{} x {} m make {} m, but {} needs {} m", number(*count),
                                 worked_out(*told.put_up / units::metre, units::Step::one),
                                 worked_out(holds, units::Step::one), role,
                                 worked_out(wants, units::Step::one)),
                     "Count the skeins again.");
        }
    }

    void against_project() {
        for (const YarnLine& yarn : section_->yarns) {
            const auto found = yarns_.find(yarn.role);
            if (found == yarns_.end()) {
                find(Severity::stop, 0, 0, "the project's yarn " + yarn.role + " is not here");
                continue;
            }
            of_project(yarn, found->second);
        }
        for (const auto& one : yarns_) {
            const std::string& role = one.first;
            const Told& told = one.second;
            const bool known = std::any_of(section_->yarns.begin(), section_->yarns.end(),
                                           [&](const YarnLine& yarn) { return yarn.role == role; });
            const Line* line = told.what != nullptr ? told.what : told.total;
            if (!known && line != nullptr)
                find(Severity::stop, line->number, line->columns.front(),
                     "the project has no yarn " + base::quoted(role));
        }
        for (const FinishedLine& piece : section_->finished) of_piece(piece);
    }

    /// What else the project says, where the title above tells what a line is about.
    void block_against_project(const Line& line) {
        if (line.heading) return;
        for (const Otherwise& one : block_ == "by_size"  ? grid_line_against(line, *section_)
                                    : block_ == "adjust" ? adjust_line_against(line, *section_)
                                                         : std::vector<Otherwise>{})
            find(Severity::stop, line.number, one.column, one.what,
                 "Write the section again, or see what changed in the project.");
        if (block_ == "sizes" && !names_.empty() && !section_->grid)
            of_sizes(line);
        else if (block_ == "hook" && section_->gauge.hook)
            of_tool(line, *section_->gauge.hook);
        else if (block_ == "needles" && section_->gauge.needle)
            of_tool(line, *section_->gauge.needle);
        else if (block_ == "gauge")
            of_gauge(line);
        else if (block_ == "method")
            of_method(line);
    }

    void of_sizes(const Line& line) {
        for (const std::string_view mark : {", ", "; "}) {
            std::string all = names_.front();
            if (names_.size() > 1)
                all += " (" + base::join({names_.begin() + 1, names_.end()}, mark) + ")";
            if (line.text == all) return;
        }
        find(Severity::stop, line.number, line.columns.front(),
             "the project's sizes are " + base::quoted(base::join(names_, ", ")));
    }

    void of_tool(const Line& line, Length diameter) {
        const Group* const said = line.first("mm");
        if (said == nullptr ||
            yarn::same_diameter(said->numbers.front() * units::millimetre, diameter))
            return;
        stop(line, *said,
             fmt::format("{} mm here and {} mm in the project", number(said->numbers.front()),
                         number(diameter / units::millimetre)));
    }

    /// The gauge before washing, in any language.
    [[nodiscard]] static bool is_unwashed(const Line& line) {
        return std::any_of(
            data::materials_words.begin(), data::materials_words.end(), [&](const auto& row) {
                return row.key == "gauge_unwashed" &&
                       line.text.starts_with(row.text.substr(0, row.text.find("{gauge}")));
            });
    }

    void of_gauge(const Line& line) {
        if (is_unwashed(line)) return;
        const auto of = [&](const Group* said, double stitches, double rows) {
            if (said == nullptr) return;
            const std::array made{stitches, rows};
            for (std::size_t i = 0; i < made.size(); ++i)
                if (std::abs(said[i].numbers.front() - made.at(i)) > half_step + scan_noise)
                    stop(line, said[i],
                         fmt::format("{} {} here, and the project has {}",
                                     number(said[i].numbers.front()), said[i].unit,
                                     worked_out(made.at(i), units::Step::tenth)));
        };
        const project::Gauge& gauge = section_->gauge;
        namespace shown = units::shown;
        of(counts_to(line, "in"), gauge.stitches / shown::per_4in.one,
           gauge.rows / shown::rows_per_4in.one);
        of(counts_to(line, "cm"), gauge.stitches / shown::per_10cm.one,
           gauge.rows / shown::rows_per_10cm.one);
    }

    /// A share stands in the place of "{margin}" or "{share}" of its sentence, in any language.
    void of_share(const Line& line, std::string_view key, std::string_view place, units::Ratio made,
                  const char* what) {
        for (const data::materials_words_row& row : data::materials_words) {
            if (row.key != key) continue;
            const std::string_view before = row.text.substr(0, row.text.find(place));
            if (!line.text.starts_with(before) || line.groups.empty()) continue;
            const Group& said = line.groups.front();
            constexpr double a_tenth = 0.05;
            if (std::abs(said.numbers.front() - 100.0 * made.value()) > a_tenth + scan_noise)
                stop(line, said,
                     fmt::format(
                         "{} {} % here and {} in the project", what, number(said.numbers.front()),
                         units::percent_text(made, units::Step::tenth, units::Rounding::nearest)));
        }
    }

    void of_method(const Line& line) {
        of_share(line, "margin", "{margin}", section_->margin, "a margin of");
        if (section_->within) of_share(line, "within", "{share}", *section_->within, "totals for");
    }

    void of_project(const YarnLine& yarn, const Told& told) {
        if (told.what != nullptr) {
            for (const std::string& word : {yarn.name, yarn.colour})
                if (!word.empty() && !told.what->has(base::shown_inert(word)))
                    find(Severity::stop, told.what->number, told.what->columns.front(),
                         fmt::format("the project says {} for {}", base::quoted(word), yarn.role));
            if (yarn.weight && told.weight && *told.weight != yarn.weight->number)
                find(Severity::stop, told.what->number, told.what->columns.front(),
                     fmt::format("class {} here and {} in the project", *told.weight,
                                 yarn.weight->number));
        }
        if (is_grid()) return;
        if (told.total == nullptr || told.totals.empty()) {
            find(Severity::stop, 0, 0, "the total of " + yarn.role + " is not here");
            return;
        }
        const Group* group = told.total->first("yd");
        if (group == nullptr) group = told.total->first("m");
        for (std::size_t size = 0; size < yarn.total.size(); ++size) {
            const auto said = at(*group, size);
            if (!said) continue;
            const double made = yarn.total[size] / metres(1.0, group->unit);
            if (made <= *said + scan_noise && *said - made < step_of(*said) + scan_noise) continue;
            stop(*told.total, *group,
                 fmt::format("{} {} of {} for size {}, and the project makes it {}", number(*said),
                             group->unit, yarn.role, size_name(size),
                             worked_out(made, units::Step::tenth)),
                 "Write the section again, or see what changed in the project.");
        }
    }

    void of_piece(const FinishedLine& piece) {
        // Under the name of one copy stands the size of one.
        if (piece.joined) return;
        const std::string name = base::shown_inert(piece.piece);
        for (const Line& line : lines_) {
            const std::string head = line.head();
            const bool own = head == name || (head.ends_with(" x " + name) && !line.groups.empty());
            if (!own) continue;
            std::vector<const Group*> metric;
            for (const Group& group : line.groups)
                if (group.unit == "cm") metric.push_back(&group);
            if (metric.size() != 2) continue;
            for (std::size_t size = 0; size < piece.size.size(); ++size)
                for (std::size_t side = 0; side < 2; ++side) {
                    const Length made =
                        side == 0 ? piece.size[size].width : piece.size[size].length;
                    const std::size_t lengths =
                        is_grid() ? section_->grid->lengths.size() : std::size_t{1};
                    const std::size_t at_size = !is_grid()  ? size
                                                : side == 0 ? size / lengths
                                                            : size % lengths;
                    const auto said = at(*metric[side], at_size);
                    constexpr double half = 0.5;
                    if (said && std::abs(*said - made / units::centimetre) > half + scan_noise)
                        stop(line, *metric[side],
                             fmt::format("{} cm {} for size {}, and the project makes it {}",
                                         number(*said), side == 0 ? "across" : "long",
                                         size_name(size),
                                         worked_out(made / units::centimetre, units::Step::tenth)));
                }
        }
    }

    std::vector<Line> lines_;
    std::string file_;
    const Section* section_;
    std::size_t sizes_ = 0;
    GridShape grid_;  ///< as the section shows it, without a project
    std::map<std::string, Told> yarns_;
    std::vector<std::string> names_;  ///< of the sizes
    std::string_view block_;          ///< key of the title above
    project::Findings out_;
};

}  // namespace

project::Findings lint(std::string_view text, const std::string& file, const Section* section) {
    return Lint(text, file, section).findings();
}

std::string title_of(std::string_view text) {
    const std::vector<Line> lines = lines_of(text);
    return lines.empty() ? std::string() : lines.front().text;
}

bool looks_like_section(std::string_view text) {
    const std::vector<Line> lines = lines_of(text);
    return std::any_of(lines.begin(), lines.end(), [](const Line& line) {
        return (line.first("yd") != nullptr || line.first("m") != nullptr) && !line.head().empty();
    });
}

}  // namespace skeinfall::materials
