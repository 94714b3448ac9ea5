#include "completion.hpp"

#include <algorithm>

#include "skeinfall/base/text.hpp"

namespace skeinfall::cli {
namespace {

using Kind = Fits::Kind;

Fits fits_word(const std::string& word) {
    if (word == "FILE") return {Kind::file};
    if (word == "FOLDER") return {Kind::folder};
    if (word == "ID") return {Kind::skein};
    if (word == "COMMAND") return {Kind::command};
    if (const std::size_t dot = word.find('.'); dot != std::string::npos)
        return {Kind::file, {}, word.substr(dot)};
    return {};
}

}  // namespace

Fits fits_option(const Option& option) {
    if (!option.words.empty()) return {Kind::word, option.words};
    return fits_word(option.argument);
}

std::vector<Place> places_of(const Command& command) {
    std::vector<Place> out;
    for (std::string word : base::split(command.arguments, ' ')) {
        Place place;
        std::erase_if(word, [](char c) { return c == '[' || c == ']'; });
        place.repeated = word.ends_with("...");
        if (place.repeated) word.resize(word.size() - 3);
        if (word.empty()) continue;
        place.fits = command.words.empty() ? fits_word(word) : Fits{Kind::word, command.words};
        place.name = std::move(word);
        out.push_back(std::move(place));
    }
    return out;
}

std::vector<std::string> groups_of(const std::vector<Command>& table) {
    std::vector<std::string> out;
    for (const Command& command : table) {
        const std::size_t blank = command.name.find(' ');
        if (blank == std::string::npos) continue;
        std::string group = command.name.substr(0, blank);
        if (std::find(out.begin(), out.end(), group) == out.end()) out.push_back(std::move(group));
    }
    return out;
}

}  // namespace skeinfall::cli
