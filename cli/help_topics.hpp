#pragma once
/// \file
/// What help says beside the commands: the project file by a starter, and the words of the trade.

#include <string>
#include <vector>

namespace skeinfall::cli {

struct Topic {
    std::string name;     ///< "lots"
    std::string summary;  ///< a line for the list
    std::string text;
};
[[nodiscard]] const std::vector<Topic>& help_topics();
/// Nothing for a name that is no topic.
[[nodiscard]] const Topic* help_topic(const std::string& name);
/// The list of topics.
[[nodiscard]] std::string topics_text();

}  // namespace skeinfall::cli
