#pragma once
/// \file
/// Other people's programs, to look at what was written.

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <memory>
#include <string>

#include <gtest/gtest.h>

namespace skeinfall::support {

/// What `command` prints, "FILE" in it standing for a file with `bytes`. Fails the test when the
/// command does.
inline std::string outside(std::string command, const std::string& bytes,
                           const std::string& ending) {
    const std::filesystem::path file =
        std::filesystem::path(testing::TempDir()) /
        (std::string("skeinfall_") + testing::UnitTest::GetInstance()->current_test_info()->name() +
         ending);
    std::ofstream(file, std::ios::binary) << bytes;
    command.replace(command.find("FILE"), 4, "'" + file.string() + "'");
    std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen((command + " 2>&1").c_str(), "r"), pclose);
    std::string out;
    std::array<char, 4096> buffer{};
    while (const std::size_t read = fread(buffer.data(), 1, buffer.size(), pipe.get()))
        out.append(buffer.data(), read);
    EXPECT_EQ(pclose(pipe.release()), 0) << command << "\n" << out;
    std::filesystem::remove(file);
    return out;
}

}  // namespace skeinfall::support
