#pragma once
/// \file
/// What the tests of the store share: folders that go away, skeins, and looks at the file that do
/// not go through the code under test.

#include <array>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <unistd.h>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/stash/skein.hpp"
#include "skeinfall/store/store.hpp"

#include "support/whole_file.hpp"

namespace skeinfall::store_tests {

namespace fs = std::filesystem;

/// An empty folder that anybody may enter, removed with everything in it.
class Folder {
  public:
    Folder() {
        std::string name = (fs::temp_directory_path() / "skeinfall-store-XXXXXX").string();
        if (mkdtemp(name.data()) == nullptr) throw std::runtime_error("no temporary folder");
        path_ = name;
        fs::permissions(path_, fs::perms(0755));
    }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    ~Folder() {
        std::error_code ignored;
        fs::permissions(path_, fs::perms::owner_all, ignored);
        fs::remove_all(path_, ignored);
    }
    [[nodiscard]] fs::path operator/(const fs::path& name) const { return path_ / name; }
    [[nodiscard]] const fs::path& path() const { return path_; }

    /// Names of what lies in it.
    [[nodiscard]] std::vector<std::string> listing() const {
        std::vector<std::string> names;
        for (const auto& entry : fs::directory_iterator(path_))
            names.push_back(entry.path().filename().string());
        return names;
    }

  private:
    fs::path path_;
};

/// The day everything is entered in the tests.
inline constexpr base::Day today = std::chrono::year{2024} / 5 / 31;

using support::bytes_of;

/// The layout that this program writes.
inline int current_layout() {
    return std::stoi(bytes_of(fs::path(SKEINFALL_SOURCE_DIR) / "schema/layout_version"));
}

inline void write_bytes(const fs::path& path, const std::string& bytes) {
    std::ofstream out(path, std::ios::binary | std::ios::trunc);
    out << bytes;
}

/// What the sqlite3 command line program prints for one command on a file.
inline std::string sqlite3_says(const fs::path& path, const std::string& command) {
    const std::string line = "sqlite3 '" + path.string() + "' \"" + command + "\" 2>&1";
    FILE* pipe = popen(line.c_str(), "r");
    if (pipe == nullptr) throw std::runtime_error("cannot run sqlite3");
    std::string out;
    std::array<char, 4096> block{};
    while (const std::size_t got = fread(block.data(), 1, block.size(), pipe))
        out.append(block.data(), got);
    if (pclose(pipe) != 0) throw std::runtime_error("sqlite3 failed: " + out);
    return out;
}

inline std::string dump_of(const fs::path& path) {
    return sqlite3_says(path, ".dump");
}

inline units::Printed<units::Length> metres(const std::string& text, double value) {
    return {text, value * units::metre};
}
inline units::Printed<units::Mass> grams(const std::string& text, double value) {
    return {text, value * units::gram};
}

/// Only what a skein must have.
inline stash::Skein plain_skein(const std::string& name = "Cloudmoss", const std::string& id = "") {
    stash::Skein skein;
    skein.id = id;
    skein.yarn.name = name;
    return skein;
}

/// Every field set.
inline stash::Skein full_skein(const std::string& id = "") {
    stash::Skein skein = plain_skein("Cloudmoss DK", id);
    skein.yarn.label = {metres("170 yd", 170 * 0.9144), grams("3.5 oz", 3.5 * 28.349523125)};
    skein.yarn.fibre.shares = {{"wool", units::Ratio(0.8)}, {"nylon", units::Ratio(0.2)}};
    skein.yarn.weight = yarn::WeightClass{3};
    skein.yarn.colour_repeat = metres("8 ft", 8 * 0.3048);
    skein.colourway = "Dämmerung";
    skein.dye_lot = "A17";
    skein.shade_group = "dusk";
    skein.part = true;
    skein.weighing =
        measure::Weighing{grams("62 g", 62), grams("0.1 oz", 2.8349523125), grams("40 g", 40)};
    skein.knots = 2;
    skein.note = "from the \"attic\" box;\nsmells of cedar";
    return skein;
}

template <class Q>
bool identical(const std::optional<units::Printed<Q>>& a,
               const std::optional<units::Printed<Q>>& b) {
    return a == b && (!a || a->value.value() == b->value.value());
}

/// Equal, and the converted numbers too, bit for bit; Printed compares its text only.
inline bool identical(const stash::Skein& a, const stash::Skein& b) {
    if (!(a == b)) return false;
    if (!identical(a.yarn.label.length, b.yarn.label.length) ||
        !identical(a.yarn.label.mass, b.yarn.label.mass) ||
        !identical(a.yarn.colour_repeat, b.yarn.colour_repeat))
        return false;
    if (!a.weighing) return true;
    return a.weighing->shown.value.value() == b.weighing->shown.value.value() &&
           a.weighing->scale.value.value() == b.weighing->scale.value.value() &&
           identical(a.weighing->tare, b.weighing->tare);
}

inline bool identical(const std::vector<stash::Skein>& a, const std::vector<stash::Skein>& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                      [](const auto& x, const auto& y) { return identical(x, y); });
}

/// A stash file with these skeins.
inline std::vector<std::string> make_stash(const fs::path& path,
                                           const std::vector<stash::Skein>& skeins) {
    return store::Store::open(path, store::Access::write).add(skeins, today);
}

inline std::vector<stash::Skein> skeins_in(const fs::path& path) {
    return store::Store::open(path, store::Access::read).skeins();
}

/// The message of the StoreError that `act` throws; a failure and "" when it throws none.
template <class Act>
std::string refusal(Act&& act) {
    try {
        act();
    } catch (const base::StoreError& error) {
        EXPECT_FALSE(error.problem().what.empty());
        EXPECT_FALSE(error.problem().place.file.empty());
        EXPECT_FALSE(error.problem().expected.empty());
        EXPECT_FALSE(error.problem().remedy.empty());
        return error.what();
    }
    ADD_FAILURE() << "was not refused";
    return {};
}

inline std::string refusal_to_open(const fs::path& path, store::Access access) {
    return refusal([&] { static_cast<void>(store::Store::open(path, access)); });
}

/// Permission bits bind while this lives, also when the tests run as root.
class Unprivileged {
  public:
    Unprivileged() {
        if (geteuid() == 0) lowered_ = seteuid(65534) == 0;
    }
    Unprivileged(const Unprivileged&) = delete;
    Unprivileged& operator=(const Unprivileged&) = delete;
    ~Unprivileged() {
        if (lowered_ && seteuid(0) != 0) std::abort();
    }

  private:
    bool lowered_ = false;
};

}  // namespace skeinfall::store_tests
