#include "help_topics.hpp"

#include <gtest/gtest.h>

#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/need/need.hpp"

namespace {

using namespace skeinfall;

/// What help shows to be copied is a project as it stands.
TEST(HelpTopics, StarterIsAProject) {
    const cli::Topic* const topic = cli::help_topic("project");
    ASSERT_NE(topic, nullptr);
    const auto project = exchange::parse_project(topic->text, "scarf.toml");
    EXPECT_EQ(project.title, "Scarf");
    EXPECT_GT(need::need_of(project, 0).roles.front().length.centre.value(), 100.0);
}

TEST(HelpTopics, EachHasASummary) {
    for (const cli::Topic& topic : cli::help_topics()) {
        EXPECT_FALSE(topic.summary.empty()) << topic.name;
        EXPECT_NE(cli::topics_text().find(topic.summary), std::string::npos) << topic.name;
    }
    EXPECT_EQ(cli::help_topic("no such"), nullptr);
}

}  // namespace
