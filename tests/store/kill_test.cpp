// A program that is killed while it writes loses nothing that was done and leaves nothing half
// done.

#include <chrono>
#include <csignal>
#include <random>

#include <gmock/gmock.h>
#include <sys/wait.h>

#include "skeinfall/store/care.hpp"

#include "store/stash_file.hpp"
#include "support/seed.hpp"

namespace skeinfall::store_tests {
namespace {

using stash::Movement;
using stash::MovementKind;
using store::Access;
using store::Store;
using testing::IsEmpty;

constexpr std::size_t skeins_an_entry = 3;

Movement moved_grams(MovementKind kind, const std::string& id, double mass) {
    Movement out;
    out.kind = kind;
    out.skein = id;
    out.day = today;
    out.amount = grams(std::to_string(mass) + " g", mass);
    out.scale = grams("1 g", 1);
    return out;
}

/// Enters one thing after the other and tells `pipe` of each that is done. Never returns.
[[noreturn]] void work(const fs::path& path, int pipe, unsigned seed) {
    std::mt19937 random(seed);
    const auto up_to = [&random](unsigned most) { return random() % most; };
    while (true) {
        Store store = Store::open(path, Access::write);
        for (unsigned round = 0; round < 8; ++round) {
            const auto ids = store.ids();
            try {
                if (ids.empty() || up_to(3) == 0) {
                    store.add(std::vector<stash::Skein>(skeins_an_entry, full_skein()), today);
                } else {
                    const std::string& id = ids[up_to(static_cast<unsigned>(ids.size()))];
                    switch (up_to(7)) {
                        case 0:
                            store.record({moved_grams(MovementKind::weighed, id, 50)}, today);
                            break;
                        case 1:
                            store.record({moved_grams(MovementKind::used_in, id, 2)}, today);
                            break;
                        case 2:
                            store.wind_off(moved_grams(MovementKind::wound_off, id, 3), today);
                            break;
                        case 3: {
                            Movement promise = moved_grams(MovementKind::set_aside, id, 1);
                            promise.purpose = "Hat";
                            store.set_aside({promise}, {*store.skein(id)}, today);
                            break;
                        }
                        case 4: {
                            Movement release;
                            release.kind = MovementKind::released;
                            release.skein = id;
                            release.day = today;
                            release.purpose = "Hat";
                            store.record({release}, today);
                            break;
                        }
                        case 5: {
                            stash::WorkReading reading;
                            reading.project = "Hat";
                            reading.role = "MC";
                            reading.mass = grams("62 g", 62);
                            reading.scale = grams("1 g", 1);
                            reading.day = today;
                            store.note({reading}, today);
                            break;
                        }
                        default:
                            store.undo(today);
                    }
                }
            } catch (const base::InputError&) {
                continue;
            }
            if (write(pipe, ".", 1) != 1) _exit(1);
        }
    }
}

int entries_in(const fs::path& path) {
    return std::stoi(sqlite3_says(path, "SELECT count(*) FROM entry"));
}

TEST(Killed, AtTwoHundredRandomPoints) {
    constexpr int rounds = 200;
    constexpr int rounds_a_file = 25;
    const unsigned seed = support::seed();
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937 random(seed);
    const Folder folder;
    int killed_at_work = 0;
    int before = 0;
    for (int round = 0; round < rounds; ++round) {
        const auto path = folder / ("stash" + std::to_string(round / rounds_a_file));
        if (round % rounds_a_file == 0) {
            make_stash(path, {});
            before = 0;
        }
        std::array<int, 2> ends{};
        ASSERT_EQ(pipe(ends.data()), 0);
        const pid_t child = fork();
        ASSERT_GE(child, 0);
        if (child == 0) {
            close(ends[0]);
            work(path, ends[1], static_cast<unsigned>(random()));
        }
        close(ends[1]);
        // Most are killed at work, however slow the machine; the others may not have begun.
        int told = 0;
        char first = 0;
        if (round % 4 != 0) told += static_cast<int>(read(ends[0], &first, 1));
        const auto microseconds = std::uniform_int_distribution<unsigned>(1000, 40'000)(random);
        usleep(microseconds);
        ASSERT_EQ(kill(child, SIGKILL), 0);
        int status = 0;
        ASSERT_EQ(waitpid(child, &status, 0), child);
        ASSERT_TRUE(WIFSIGNALED(status)) << "the work ended by itself";
        std::array<char, 256> block{};
        while (const auto got = read(ends[0], block.data(), block.size()))
            told += static_cast<int>(got);
        close(ends[0]);

        // The one in hand may have been done but not told of.
        const Store store = Store::open(path, Access::write);
        const int now = entries_in(path);
        EXPECT_GE(now, before + told);
        EXPECT_LE(now, before + told + 1);
        killed_at_work += told > 0 ? 1 : 0;
        before = now;
        EXPECT_THAT(store::verify(path), IsEmpty());
        EXPECT_EQ(sqlite3_says(path,
                               "SELECT count(*) FROM (SELECT entry, count(*) AS parts FROM movement"
                               " WHERE kind = 'bought' GROUP BY entry) WHERE parts <> 3"),
                  "0\n");
        if (HasFailure()) break;
    }
    EXPECT_GE(killed_at_work, rounds * 3 / 4);
}

}  // namespace
}  // namespace skeinfall::store_tests
