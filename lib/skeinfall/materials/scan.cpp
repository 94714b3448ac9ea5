#include "skeinfall/materials/detail/scan.hpp"

#include <algorithm>
#include <cctype>
#include <optional>

#include "skeinfall/base/numbers.hpp"

namespace skeinfall::materials {
namespace {

bool digit(char c) {
    return c >= '0' && c <= '9';
}

bool letter(char c) {
    return std::isalpha(static_cast<unsigned char>(c)) != 0 ||
           (static_cast<unsigned char>(c) & 0x80U) != 0;
}

class Scanner {
  public:
    explicit Scanner(Line& line) : line_(line), text_(line.text) {}

    void scan() {
        while (at_ < text_.size()) {
            const bool inside_word = at_ > 0 && letter(text_[at_ - 1]);
            if (!digit(text_[at_]) || inside_word) {
                ++at_;
                continue;
            }
            group();
        }
    }

  private:
    /// "1055", "16.25", "16,25", "1,055": a comma before exactly three digits keeps thousands
    /// apart, else it is a decimal mark.
    std::optional<double> number() {
        std::string digits;
        std::size_t at = at_;
        while (at < text_.size() && digit(text_[at])) digits += text_[at++];
        if (digits.empty()) return std::nullopt;
        if (at + 1 < text_.size() && (text_[at] == '.' || text_[at] == ',') &&
            digit(text_[at + 1])) {
            std::string rest;
            std::size_t end = at + 1;
            while (end < text_.size() && digit(text_[end])) rest += text_[end++];
            const bool thousands = text_[at] == ',' && rest.size() == 3 && digits != "0";
            digits += thousands ? rest : "." + rest;
            at = end;
        }
        at_ = at;
        return base::leading_number<double>(digits);
    }

    void blanks() {
        while (at_ < text_.size() && text_[at_] == ' ') ++at_;
    }

    /// " (1055, 1180)" after the first number; nothing is taken when it is something else.
    void others(std::vector<double>& numbers) {
        const std::size_t back = at_;
        blanks();
        if (at_ == text_.size() || text_[at_] != '(') {
            at_ = back;
            return;
        }
        ++at_;
        std::vector<double> more;
        while (true) {
            blanks();
            const auto value = number();
            if (!value) break;
            more.push_back(*value);
            blanks();
            if (at_ < text_.size() && text_[at_] == ')') {
                ++at_;
                numbers.insert(numbers.end(), more.begin(), more.end());
                return;
            }
            if (at_ == text_.size() || (text_[at_] != ',' && text_[at_] != ';')) break;
            ++at_;
        }
        at_ = back;
    }

    void group() {
        Group out;
        out.column = line_.columns[at_];
        out.numbers = {*number()};
        others(out.numbers);
        const std::size_t back = at_;
        blanks();
        while (at_ < text_.size() && letter(text_[at_])) out.unit += text_[at_++];
        if (out.unit.empty() && at_ < text_.size() && text_[at_] == '%') out.unit = text_[at_++];
        if (out.unit.empty()) at_ = back;
        // No piece is a thousand inches: "2,375 in" is an eighth of a ruler's inch.
        constexpr double thousand = 1000.0;
        if (out.unit == "in")
            for (double& number : out.numbers)
                if (number >= thousand) number /= thousand;
        line_.groups.push_back(std::move(out));
    }

    Line& line_;
    const std::string& text_;
    std::size_t at_ = 0;
};

Line line_of(std::string_view raw, std::size_t number) {
    Line out;
    out.number = number;
    std::size_t at = raw.find_first_not_of(" \t");
    if (at == std::string_view::npos) return out;
    out.heading = at == 0;
    while (at < raw.size() && raw[at] == '#') ++at;
    if (raw.substr(at, 2) == "- ") {
        at += 2;
        out.heading = false;
    }
    while (at < raw.size() && (raw[at] == ' ' || raw[at] == '\t')) ++at;
    for (; at < raw.size(); ++at) {
        // An escape of Markdown; the isolates that keep right-to-left names apart.
        if (raw[at] == '\\' && at + 1 < raw.size() &&
            std::ispunct(static_cast<unsigned char>(raw[at + 1])) != 0)
            ++at;
        if (raw.substr(at, 3) == "\u2068" || raw.substr(at, 3) == "\u2069") {
            at += 2;
            continue;
        }
        if (raw[at] == '\r') continue;
        out.text += raw[at];
        out.columns.push_back(at + 1);
    }
    Scanner(out).scan();
    return out;
}

}  // namespace

std::string Line::head() const {
    const std::size_t colon = text.find(": ");
    return colon == std::string::npos ? std::string() : text.substr(0, colon);
}

const Group* Line::first(std::string_view unit) const {
    const auto found = std::find_if(groups.begin(), groups.end(),
                                    [&](const Group& group) { return group.unit == unit; });
    return found == groups.end() ? nullptr : &*found;
}

std::vector<Line> lines_of(std::string_view text) {
    std::vector<Line> out;
    std::size_t number = 0;
    while (!text.empty()) {
        const std::size_t end = text.find('\n');
        Line line = line_of(text.substr(0, end), ++number);
        if (!line.text.empty()) out.push_back(std::move(line));
        text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
    }
    return out;
}

}  // namespace skeinfall::materials
