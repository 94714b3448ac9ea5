// What is done with a field of a skein follows from its row in the table: each row is tried by
// itself, so that a row more is tried without a test more.

#include "skeinfall/stash/fields.hpp"

#include <optional>
#include <string>

#include <gmock/gmock.h>

#include "skeinfall/exchange/stash_csv.hpp"
#include "skeinfall/exchange/stash_fields.hpp"
#include "skeinfall/exchange/stash_json.hpp"
#include "skeinfall/stash/find.hpp"
#include "skeinfall/stash/sheet.hpp"
#include "skeinfall/store/rows.hpp"

#include "store/stash_file.hpp"

namespace skeinfall::store_tests {
namespace {

using stash::Field;
using store::Access;
using store::Store;
using testing::HasSubstr;

/// Another value than that of a plain skein.
struct Change {
    void operator()(std::string& text) const { text = "Quern"; }
    void operator()(std::optional<std::string>& text) const { text = "Quern"; }
    void operator()(std::optional<yarn::WeightClass>& weight) const {
        weight = yarn::WeightClass{6};
    }
    void operator()(yarn::FibreContent& content) const {
        content.shares = {{"linen", units::Ratio::from_value(1.0)}};
    }
    void operator()(std::optional<units::Printed<units::Length>>& printed) const {
        printed = {"91 m", 91.0 * units::metre};
    }
    void operator()(std::optional<units::Printed<units::Mass>>& printed) const {
        printed = {"77 g", 77.0 * units::gram};
    }
    void operator()(stash::Begun& part) const { part = true; }
    void operator()(stash::Count& count) const { count = 3; }
};

stash::Skein changed(const Field& field, stash::Skein skein) {
    std::visit([&](const auto& member) { Change()(member.of(skein)); }, field.held);
    return skein;
}

stash::Movement bought(const stash::Skein& skein) {
    stash::Movement movement;
    movement.skein = skein.id;
    movement.day = today;
    movement.described = skein;
    return movement;
}

class EachField : public testing::TestWithParam<std::string_view> {
  protected:
    const Field& field = *stash::find_field(GetParam());
    const stash::Skein plain = plain_skein("Cloudmoss", "s1");
    const stash::Skein other = changed(field, plain);
};

TEST_P(EachField, DiffersWhereItWasChanged) {
    for (const Field& one : stash::fields())
        EXPECT_EQ(same(one, plain, other), one.name != field.name) << one.name;
    EXPECT_EQ(stash::difference_of({plain, {}}, {other, {}}), field.title);
}

TEST_P(EachField, IsKeptInTheStash) {
    const Folder folder;
    make_stash(folder / "stash", {other});
    const auto read = skeins_in(folder / "stash");
    ASSERT_EQ(read.size(), 1U);
    EXPECT_TRUE(same(field, read[0], other));
    EXPECT_TRUE(identical(read[0], other));
}

TEST_P(EachField, IsPartOfTheDigest) {
    EXPECT_NE(store::digest_of(bought(plain), "s1", today),
              store::digest_of(bought(other), "s1", today));
}

TEST_P(EachField, IsWrittenAndReadAgain) {
    const auto csv = exchange::parse_stash_csv(exchange::stash_csv({bought(other)}), "mine.csv");
    const auto json =
        exchange::parse_stash_json(exchange::stash_json({bought(other)}, {}), "mine.json");
    for (const auto* table : {&csv, &json}) {
        ASSERT_EQ(table->lines.size(), 1U);
        ASSERT_TRUE(table->lines[0].movement.described);
        EXPECT_TRUE(same(field, *table->lines[0].movement.described, other));
    }
    EXPECT_THAT(exchange::stash_csv({bought(other)}), HasSubstr(std::string(field.name)));
}

TEST_P(EachField, CorrectsWhatWasKnownAndTakesNothingAway) {
    stash::Skein skein = plain;
    correct(field, skein, other);
    EXPECT_TRUE(same(field, skein, other));
    if (field.name == "yarn") return;  // a row without it is refused
    correct(field, skein, stash::Skein{});
    EXPECT_TRUE(same(field, skein, other));
}

TEST_P(EachField, ClashesWithWhatTheStashHolds) {
    const Folder folder;
    make_stash(folder / "stash", {plain});
    Store store = Store::open(folder / "stash", Access::write);
    stash::Movement used;
    used.kind = stash::MovementKind::given;
    used.skein = "s1";
    try {
        store::TakeIn how;
        how.entered = today;
        store.take_in({{bought(other), {}, {}}, {used, {}, {}}}, how);
        ADD_FAILURE() << "taken in";
    } catch (const base::InputError& error) {
        EXPECT_THAT(error.problems().front().what, HasSubstr(std::string(field.title)));
    }
}

std::vector<std::string_view> names() {
    std::vector<std::string_view> out;
    for (const Field& field : stash::fields()) out.push_back(field.name);
    return out;
}

INSTANTIATE_TEST_SUITE_P(Table, EachField, testing::ValuesIn(names()),
                         [](const auto& one) { return std::string(one.param); });

TEST(Fields, AreFoundByTheirTexts) {
    for (const Field& field : stash::fields()) {
        std::vector<std::string_view> texts;
        const stash::Skein skein = changed(field, plain_skein("Cloudmoss", "s1"));
        add_texts(field, skein, texts);
        for (const std::string_view text : texts) {
            stash::Wish wish;
            wish.text = std::string(text);
            EXPECT_TRUE(stash::meets(skein, wish)) << field.name;
        }
    }
}

}  // namespace
}  // namespace skeinfall::store_tests
