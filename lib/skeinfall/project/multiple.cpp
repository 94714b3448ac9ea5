#include "skeinfall/project/multiple.hpp"

#include <algorithm>
#include <cctype>
#include <cstdint>
#include <vector>

#include "skeinfall/base/text.hpp"

namespace skeinfall::project {
namespace {

struct FormWord {
    std::string text;  ///< in small letters, or one sign
    std::optional<std::int64_t> number;
    std::size_t at = 0;
};

constexpr std::int64_t too_large = 10 * largest_multiple;

std::vector<FormWord> words_of(std::string_view text) {
    std::vector<FormWord> out;
    const auto is = [&](std::size_t at, int (*kind)(int)) {
        return at < text.size() && kind(static_cast<unsigned char>(text[at])) != 0;
    };
    std::size_t at = 0;
    while (at < text.size()) {
        const std::size_t begin = at;
        FormWord word;
        word.at = begin;
        if (is(at, std::isspace)) {
            ++at;
            continue;
        }
        if (is(at, std::isdigit)) {
            std::int64_t number = 0;
            for (; is(at, std::isdigit); ++at)
                number = std::min(too_large, 10 * number + (text[at] - '0'));
            word.number = number;
        } else if (is(at, std::isalpha)) {
            while (is(at, std::isalpha)) ++at;
        } else {
            ++at;
        }
        word.text = base::lower(text.substr(begin, at - begin));
        out.push_back(std::move(word));
    }
    return out;
}

bool among(const std::string& word, std::initializer_list<std::string_view> words) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

/// Reads the words from left to right; each step passes over what it knows.
class Reader {
  public:
    explicit Reader(std::string_view text) : words_(words_of(text)), end_(text.size()) {}

    [[nodiscard]] bool done() const { return next_ >= words_.size(); }
    [[nodiscard]] std::size_t column() const { return (done() ? end_ : words_[next_].at) + 1; }

    bool pass(std::initializer_list<std::string_view> words) {
        if (done() || !among(words_[next_].text, words)) return false;
        ++next_;
        return true;
    }
    void pass_all(std::initializer_list<std::string_view> words) {
        while (pass(words)) {
        }
    }
    std::optional<std::int64_t> number() {
        if (done() || !words_[next_].number) return std::nullopt;
        return words_[next_++].number;
    }
    /// The next number, a multiple's; the words beside it passed over.
    std::optional<std::int64_t> counted() {
        pass_all({"a", "any", "the"});
        const auto out = number();
        pass_all({"st", "sts", "stitch", "stitches", "row", "rows", "rnd", "rnds", "round",
                  "rounds", "ch", "chs", "chain", "chains", "."});
        return out;
    }

  private:
    std::vector<FormWord> words_;
    std::size_t end_ = 0;
    std::size_t next_ = 0;
};

base::Problem problem(const Reader& reader, std::string what, std::string expected,
                      std::string remedy) {
    base::Problem out{std::move(what), {}, std::move(expected), std::move(remedy)};
    out.place.column = reader.column();
    return out;
}

std::optional<base::Problem> out_of_range(const Reader& reader, const Multiple& multiple) {
    if (multiple.repeat < 1)
        return problem(reader, "a repeat of nothing", "a repeat of 1 or more", "");
    if (multiple.repeat > largest_multiple || multiple.plus > largest_multiple ||
        multiple.foundation.value_or(0) > largest_multiple)
        return problem(reader, "this is too large for a repeat",
                       "at most " + std::to_string(largest_multiple), "");
    return std::nullopt;
}

base::Problem not_understood(const Reader& reader, const char* example) {
    return problem(reader, "this is no multiple", example,
                   "The repeat first, then what stands outside it.");
}

}  // namespace

std::optional<std::int64_t> Multiple::at_most(std::int64_t count) const {
    if (count < least()) return std::nullopt;
    return count - over(count);
}

std::int64_t Multiple::at_least(std::int64_t count) const {
    if (count <= least()) return least();
    const std::int64_t rest = over(count);
    return rest == 0 ? count : count - rest + repeat;
}

base::Result<Multiple> parse_multiple(std::string_view text) {
    constexpr const char* example =
        "a text such as \"3 + 1\" or \"12 + 3 and 2 for the foundation\"";
    Reader reader(text);
    Multiple out;
    reader.pass_all({"a", "any"});
    if (reader.pass({"multiple", "multiples", "mult"})) reader.pass({"of"});
    const auto repeat = reader.counted();
    if (!repeat) return not_understood(reader, example);
    out.repeat = *repeat;
    // "multiple of 3, plus 1" is 3 n + 1; ", add 2" is of the foundation.
    const bool comma = reader.pass({","});
    if (reader.pass({"+", "plus"})) {
        const auto plus = reader.counted();
        if (!plus) return not_understood(reader, example);
        out.plus = *plus;
    }
    if (!reader.done()) {
        // "and 2 for the turning chain", ", add 2", "(add 2 for base ch)", "+ 2 for the chain"
        bool more = comma && out.plus == 0;
        while (reader.pass({",", ";", "(", "and", "add", "plus", "+"})) more = true;
        const auto chains = more ? reader.counted() : std::nullopt;
        if (!chains) return not_understood(reader, example);
        out.foundation = *chains;
        reader.pass_all({"for", "the", "to", "a", "base", "foundation", "turning", "starting",
                         "beginning", "ch", "chain", "row", ")", "."});
        if (!reader.done()) return not_understood(reader, example);
    }
    if (auto wrong = out_of_range(reader, out)) return *wrong;
    return out;
}

base::Result<Multiple> parse_row_multiple(std::string_view text) {
    constexpr const char* example = "a text such as \"2\", \"4 + 2\" or \"rows 3 to 6\"";
    Reader reader(text);
    if (reader.pass({"row", "rows", "rnd", "rnds", "round", "rounds"})) {
        const auto first = reader.number();
        const bool range = reader.pass({"to", "-", "and"});
        const auto last = range ? reader.number() : first;
        if (!first || !last || !reader.done() || *first < 1 || *last < *first)
            return not_understood(reader, example);
        Multiple out{*last - *first + 1, *first - 1, std::nullopt};
        if (auto wrong = out_of_range(reader, out)) return *wrong;
        return out;
    }
    const auto out = parse_multiple(text);
    if (out && out->foundation)
        return problem(reader, "rows have no foundation", example, "Leave it out.");
    return out;
}

}  // namespace skeinfall::project
