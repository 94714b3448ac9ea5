// What is read back is what was written, to the byte and to the bit.

#include <cmath>
#include <cstdint>

#include <SQLiteCpp/SQLiteCpp.h>
#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>
#include <utf8.h>

#include "store/stash_file.hpp"

namespace skeinfall::store_tests {
namespace {

using store::Access;
using store::Store;
using testing::ElementsAre;
using testing::HasSubstr;

TEST(RoundTrip, KeepsEveryField) {
    const Folder folder;
    const auto path = folder / "stash";
    const stash::Skein full = full_skein("attic-1");
    make_stash(path, {full});

    const auto read = skeins_in(path);

    ASSERT_EQ(read.size(), 1U);
    EXPECT_TRUE(identical(read[0], full));
    // Spelled out, so that a field that operator== forgets is still looked at.
    EXPECT_EQ(read[0].id, "attic-1");
    EXPECT_EQ(read[0].yarn.name, "Cloudmoss DK");
    EXPECT_EQ(read[0].yarn.label.length->text, "170 yd");
    EXPECT_EQ(read[0].yarn.label.length->value.value(), 170 * 0.9144);
    EXPECT_EQ(read[0].yarn.label.mass->text, "3.5 oz");
    EXPECT_EQ(read[0].yarn.label.mass->value.value(), 3.5 * 28.349523125);
    ASSERT_EQ(read[0].yarn.fibre.shares.size(), 2U);
    EXPECT_EQ(read[0].yarn.fibre.shares[1].fibre, "nylon");
    EXPECT_EQ(read[0].yarn.fibre.shares[1].share.value(), 0.2);
    EXPECT_EQ(read[0].yarn.weight->number, 3);
    EXPECT_EQ(read[0].yarn.colour_repeat->text, "8 ft");
    EXPECT_EQ(read[0].colourway, "Dämmerung");
    EXPECT_EQ(read[0].dye_lot, "A17");
    EXPECT_EQ(read[0].shade_group, "dusk");
    EXPECT_TRUE(read[0].part);
    EXPECT_EQ(read[0].weighing->shown.text, "62 g");
    EXPECT_EQ(read[0].weighing->scale.text, "0.1 oz");
    EXPECT_EQ(read[0].weighing->tare->text, "40 g");
    EXPECT_EQ(read[0].knots, 2);
    EXPECT_EQ(read[0].note, "from the \"attic\" box;\nsmells of cedar");
}

TEST(RoundTrip, KeepsWhatIsNotKnownUnknown) {
    const Folder folder;
    make_stash(folder / "stash", {plain_skein()});

    const auto read = skeins_in(folder / "stash");

    ASSERT_EQ(read.size(), 1U);
    EXPECT_TRUE(identical(read[0], plain_skein("Cloudmoss", "s1")));
    EXPECT_FALSE(read[0].dye_lot);
    EXPECT_FALSE(read[0].weighing);
    EXPECT_FALSE(read[0].yarn.weight);
}

TEST(RoundTrip, KeepsTheOrderOfAdding) {
    const Folder folder;
    Store store = Store::open(folder / "stash", Access::write);
    store.add({plain_skein("Zephyr", "z"), plain_skein("Brook", "b")}, today);
    store.add({plain_skein("Acorn", "a")}, today);

    EXPECT_THAT(store.ids(), ElementsAre("z", "b", "a"));
    const auto read = store.skeins();
    ASSERT_EQ(read.size(), 3U);
    EXPECT_EQ(read[0].yarn.name, "Zephyr");
    EXPECT_EQ(read[1].yarn.name, "Brook");
    EXPECT_EQ(read[2].yarn.name, "Acorn");
}

TEST(RoundTrip, FindsOneSkeinByItsId) {
    const Folder folder;
    Store store = Store::open(folder / "stash", Access::write);
    store.add({plain_skein("Brook", "b"), full_skein("f")}, today);

    const auto found = store.skein("f");
    ASSERT_TRUE(found);
    EXPECT_TRUE(identical(*found, full_skein("f")));
    EXPECT_FALSE(store.skein("F"));
    EXPECT_FALSE(store.skein(""));
    EXPECT_FALSE(store.skein("' OR 1=1 --"));
}

TEST(RoundTrip, TheNewestWeighingIsTheCurrentOne) {
    const Folder folder;
    const auto path = folder / "stash";
    make_stash(path, {full_skein("f"), plain_skein("Brook", "b")});
    SQLite::Database(path.string(), SQLite::OPEN_READWRITE)
        .exec(
            "INSERT INTO movement (entry, skein, kind, amount_text, amount_g, scale_text, scale_g,"
            " purpose, note) VALUES (1, 1, 'weighed', '55 g', 55, '1 g', 1, '', '')");

    const auto read = skeins_in(path);

    ASSERT_EQ(read.size(), 2U);
    EXPECT_EQ(read[0].weighing->shown.text, "55 g");
    EXPECT_EQ(read[0].weighing->scale.text, "1 g");
    EXPECT_FALSE(read[0].weighing->tare);
    EXPECT_FALSE(read[1].weighing);
}

TEST(RoundTrip, OneYarnIsKeptOnceAndAnyDifferenceMakesAnother) {
    const Folder folder;
    const auto path = folder / "stash";
    std::vector<stash::Skein> skeins(12, full_skein());
    skeins[1].dye_lot = "another lot";  // no part of the yarn
    skeins[2].yarn.name = "Cloudmoss Aran";
    skeins[3].yarn.weight.reset();
    skeins[4].yarn.fibre.shares.clear();
    skeins[5].yarn.label.length = metres("155 m", 155);
    skeins[6].yarn.label.mass.reset();
    skeins[7].yarn.colour_repeat.reset();
    skeins[8].yarn.label.length->value = 155.0 * units::metre;  // same text, other number
    skeins[9].yarn.fibre.shares[0].share = units::Ratio(std::nextafter(0.8, 1.0));
    skeins[10] = plain_skein();  // two yarns with nothing known are one
    skeins[11] = plain_skein();

    make_stash(path, skeins);

    EXPECT_EQ(sqlite3_says(path, "SELECT count(*) FROM yarn"), "10\n");
    const auto read = skeins_in(path);
    ASSERT_EQ(read.size(), skeins.size());
    for (std::size_t i = 0; i < skeins.size(); ++i) {
        skeins[i].id = read[i].id;
        EXPECT_TRUE(identical(read[i], skeins[i])) << i;
    }
}

// A name out of a file is never part of a statement, and never steers a terminal.
TEST(RoundTrip, TextIsInert) {
    const Folder folder;
    const auto path = folder / "stash";
    std::vector<stash::Skein> skeins;
    for (const std::string text : {"'); DROP TABLE skein; --", "\"; DELETE FROM yarn; --",
                                   "%s%n?1:a@b$c", "NULL", "0x41", "\x1b[2J\x1b]0;owned\x07",
                                   "\xe2\x80\xae"
                                   "desrever",
                                   "  blanks  ", "\r\n\t", "=1+1"}) {
        stash::Skein skein = full_skein(text);
        skein.yarn.name = text;
        skein.yarn.label.length->text = text + " m";
        skein.yarn.label.mass->text = text + " g";
        skein.yarn.colour_repeat->text = text + " m";
        skein.yarn.fibre.shares[0].fibre = text;
        skein.colourway = text;
        skein.dye_lot = text;
        skein.shade_group = text;
        skein.weighing->shown.text = text + " g";
        skein.weighing->scale.text = text + " g";
        skein.weighing->tare->text = text + " g";
        skein.note = text;
        skeins.push_back(skein);
    }
    make_stash(path, skeins);

    EXPECT_TRUE(identical(skeins_in(path), skeins));
    EXPECT_EQ(sqlite3_says(path, "SELECT count(*) FROM skein"), "10\n");
    try {
        make_stash(path, skeins);
        FAIL() << "ids were taken twice";
    } catch (const base::InputError& error) {
        EXPECT_EQ(error.problems().size(), skeins.size());
        const std::string message = error.what();
        EXPECT_EQ(message.find('\x1b'), std::string::npos);
        EXPECT_EQ(message.find("\xe2\x80\xae"), std::string::npos);
        EXPECT_THAT(message, HasSubstr("\\x1b[2J"));
    }
}

std::string any_text(const char* first = "") {
    const auto points = *rc::gen::container<std::vector<std::uint32_t>>(rc::gen::oneOf(
        rc::gen::inRange<std::uint32_t>(1, 0x80), rc::gen::inRange<std::uint32_t>(0x80, 0xd800),
        rc::gen::inRange<std::uint32_t>(0xe000, 0x110000)));
    std::string out = first;
    for (const std::uint32_t point : points) utf8::append(point, std::back_inserter(out));
    return out;
}

/// Any positive finite number, subnormal to huge, with every bit of its mantissa used.
double any_positive() {
    const auto mantissa = *rc::gen::inRange<std::int64_t>(1, std::int64_t{1} << 53);
    return std::ldexp(static_cast<double>(mantissa), *rc::gen::inRange(-1074, 970));
}

template <class T, class Make>
std::optional<T> maybe(Make make) {
    if (*rc::gen::arbitrary<bool>()) return make();
    return std::nullopt;
}

stash::Skein any_skein() {
    const auto length = [] { return metres(any_text("l") + " m", any_positive()); };
    const auto mass = [] { return grams(any_text("m") + " g", any_positive()); };
    using Length = units::Printed<units::Length>;
    using Mass = units::Printed<units::Mass>;
    stash::Skein skein;
    skein.yarn.name = any_text("n");
    skein.yarn.label = {maybe<Length>(length), maybe<Mass>(mass)};
    const int fibres = *rc::gen::inRange(0, 4);
    for (int i = 0; i < fibres; ++i)
        skein.yarn.fibre.shares.push_back({any_text(), units::Ratio(any_positive())});
    skein.yarn.weight =
        maybe<yarn::WeightClass>([] { return yarn::WeightClass{*rc::gen::inRange(0, 8)}; });
    skein.yarn.colour_repeat = maybe<Length>(length);
    skein.colourway = any_text();
    skein.dye_lot = maybe<std::string>([] { return any_text("d"); });
    skein.shade_group = maybe<std::string>([] { return any_text("g"); });
    skein.part = *rc::gen::arbitrary<bool>();
    skein.weighing = maybe<measure::Weighing>([&] {
        return measure::Weighing{mass(), mass(), maybe<Mass>(mass)};
    });
    skein.knots = *rc::gen::inRange(0, 2147483647);
    skein.note = any_text();
    return skein;
}

TEST(RoundTrip, HoldsForAnySkeins) {
    const Folder folder;
    Store store = Store::open(folder / "stash", Access::write);
    std::vector<stash::Skein> all;
    EXPECT_TRUE(rc::check("read back as written", [&] {
        std::vector<stash::Skein> skeins(*rc::gen::inRange<std::size_t>(1, 5));
        for (auto& skein : skeins) skein = any_skein();
        const auto ids = store.add(skeins, today);
        RC_ASSERT(ids.size() == skeins.size());
        for (std::size_t i = 0; i < ids.size(); ++i) {
            skeins[i].id = ids[i];
            const auto read = store.skein(ids[i]);
            RC_ASSERT(read.has_value());
            RC_ASSERT(identical(*read, skeins[i]));
        }
        all.insert(all.end(), skeins.begin(), skeins.end());
    }));
    EXPECT_TRUE(identical(skeins_in(folder / "stash"), all));
}

}  // namespace
}  // namespace skeinfall::store_tests
