// The tables behind units: no name lost, no factor at odds with its decimal column.

#include <cmath>
#include <string>

#include <gtest/gtest.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/units/any.hpp"
#include "skeinfall/units/count.hpp"
#include "skeinfall/units/detail/names.hpp"
#include "skeinfall/units/parse.hpp"

namespace {

using namespace skeinfall::units;

TEST(UnitTables, EveryNameReads) {
    for (const std::string& name : detail::every_name()) {
        const bool ticket = name == "tkt" || name == "ticket" || name == "metric ticket";
        const bool counted = name.starts_with("st") || name.starts_with("r");
        const std::string text =
            counted && name != "run" && name != "runs" ? "2 " + name + " / cm" : "2 " + name;
        EXPECT_EQ(parse_quantity(text).ok(), !ticket) << text;
    }
}

TEST(UnitTables, NamesAreFoundInAnyCase) {
    for (const std::string& name : detail::every_name()) {
        const auto as_written = detail::named(name).names;
        ASSERT_EQ(as_written.size(), 1U) << name;
        EXPECT_EQ(detail::named(skeinfall::base::lower(name)).names.data(), as_written.data());
    }
    EXPECT_TRUE(detail::named("").names.empty());
    EXPECT_TRUE(detail::named("zzz").names.empty());
    EXPECT_TRUE(detail::named("west of").longer);
    EXPECT_FALSE(detail::named("yd").longer);
}

TEST(UnitTables, SeveralUnitsUnderOneName) {
    EXPECT_EQ(detail::named("hank").names.size(), 3U);
    EXPECT_EQ(detail::named("lea").names.size(), 4U);  // three lengths and the linen count
    EXPECT_EQ(detail::named("silk").names.size(), 2U);
}

TEST(UnitTables, ExactNumbers) {
    EXPECT_EQ(detail::exact_number_of("1.7718451953125"), 1.7718451953125);
    EXPECT_EQ(detail::exact_number_of("32399455/54864"), 32399455.0 / 54864.0);
    EXPECT_EQ(detail::exact_number_of("1/9"), 1.0 / 9.0);
    EXPECT_EQ(detail::exact_number_of("14400"), 14400.0);
}

TEST(UnitTables, SystemsAreWhole) {
    EXPECT_GE(count_systems().size(), 25U);
    for (const CountSystem& system : count_systems()) {
        EXPECT_EQ(find_count_system(system.id), &system) << system.id;
        EXPECT_FALSE(system.definition.empty()) << system.id;
        EXPECT_FALSE(system.source.empty()) << system.id;
        EXPECT_GT(system.one.value(), 0.0) << system.id;
        EXPECT_TRUE(std::isfinite(system.one.value())) << system.id;
    }
    EXPECT_EQ(find_count_system("furlong"), nullptr);
}

}  // namespace
