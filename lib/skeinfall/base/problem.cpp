#include "skeinfall/base/problem.hpp"

#include <algorithm>
#include <string_view>
#include <tuple>
#include <utility>

#include "skeinfall/base/text.hpp"

namespace skeinfall::base {
namespace {

/// What a message quotes of a file or of a command line must not steer the terminal.
std::string inert(std::string_view text) {
    std::string out;
    while (true) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        out += shown_inert(text.substr(0, end));
        if (end == text.size()) return out;
        out += '\n';
        text.remove_prefix(end + 1);
    }
}

}  // namespace

std::string to_text(const Problem& problem) {
    std::string text;
    const Place& place = problem.place;
    if (!place.file.empty()) text += shown_inert(place.file) + ":";
    if (place.line != 0) text += std::to_string(place.line) + ":";
    // One line that somebody typed is quoted whole: only in a file one has to look for a place.
    if (place.line != 0 && place.column != 0) text += std::to_string(place.column) + ":";
    if (!text.empty()) text += " ";
    text += inert(problem.what);
    if (!problem.expected.empty()) text += "; expected " + inert(problem.expected);
    if (!problem.remedy.empty()) text += "\n    " + inert(problem.remedy);
    return text;
}

std::string to_text(const Problems& problems) {
    Problems sorted = problems;
    std::stable_sort(sorted.begin(), sorted.end(), [](const Problem& a, const Problem& b) {
        return std::tie(a.place.file, a.place.line, a.place.column) <
               std::tie(b.place.file, b.place.line, b.place.column);
    });
    std::string text;
    for (const Problem& problem : sorted) {
        if (!text.empty()) text += "\n";
        text += to_text(problem);
    }
    return text;
}

InputError::InputError(Problems problems)
    : std::runtime_error(to_text(problems)), problems_(std::move(problems)) {}

InputError::InputError(Problem problem) : InputError(Problems{std::move(problem)}) {}

StoreError::StoreError(Problem problem)
    : std::runtime_error(to_text(problem)), problem_(std::move(problem)) {}

}  // namespace skeinfall::base
