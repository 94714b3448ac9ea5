#include "skeinfall/exchange/text_file.hpp"

#include <algorithm>
#include <fstream>
#include <system_error>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"

namespace skeinfall::exchange {
namespace {

[[noreturn]] void fail(const std::filesystem::path& path, std::string what, std::string expected,
                       std::string remedy) {
    throw base::InputError({std::move(what),
                            {.file = path.string(), .line = 0, .column = 0},
                            std::move(expected),
                            std::move(remedy)});
}

/// The file that was meant: of that name with an ending, or nearly of that name.
std::string near_it(const std::filesystem::path& path) {
    namespace fs = std::filesystem;
    constexpr std::size_t most_files = 1000;
    std::error_code error;
    for (const char* ending : {".toml", ".csv", ".txt"}) {
        fs::path with = path;
        with += ending;
        if (fs::is_regular_file(with, error))
            return base::did_you_mean(base::shown_inert(with.string()));
    }
    const fs::path folder = path.has_parent_path() ? path.parent_path() : fs::path(".");
    if (!fs::is_directory(folder, error))
        return "The folder \"" + base::shown_inert(folder.string()) + "\" is not there either.";
    std::vector<std::string> names;
    for (fs::directory_iterator one(folder, error), end; !error && one != end;
         one.increment(error)) {
        if (names.size() == most_files) break;
        if (std::error_code none; one->is_regular_file(none))
            names.push_back(one->path().filename().string());
    }
    std::sort(names.begin(), names.end());
    const auto near = base::nearest_name(path.filename().string(), names);
    if (!near) return "Check the name and the folder.";
    return base::did_you_mean(
        base::shown_inert((path.has_parent_path() ? folder / *near : fs::path(*near)).string()));
}

}  // namespace

std::string read_text_file(const std::filesystem::path& path, std::size_t most_bytes) {
    std::error_code error;
    const std::filesystem::file_status status = std::filesystem::status(path, error);
    if (status.type() == std::filesystem::file_type::not_found)
        fail(path, "there is no such file", {}, near_it(path));
    if (std::filesystem::is_directory(status)) fail(path, "this is a folder", "a file", {});

    const auto refuse_size = [&] {
        fail(path, "the file is too large", fmt::format("at most {} bytes", most_bytes),
             "Check that it is the right file.");
    };
    // At once, where the size is known; a pipe tells only when it was read.
    if (std::filesystem::is_regular_file(status) &&
        std::filesystem::file_size(path, error) > most_bytes && !error)
        refuse_size();

    std::ifstream in(path, std::ios::binary);
    std::string text;
    constexpr std::size_t piece = 65536;
    while (in && text.size() <= most_bytes) {
        const std::size_t had = text.size();
        text.resize(std::min(had + piece, most_bytes + 1));
        in.read(text.data() + had, static_cast<std::streamsize>(text.size() - had));
        text.resize(had + static_cast<std::size_t>(in.gcount()));
    }
    if (!in.eof() && text.size() <= most_bytes)
        fail(path, "the file cannot be read", {}, "Check that you are allowed to read it.");
    if (text.size() > most_bytes) refuse_size();
    return text;
}

}  // namespace skeinfall::exchange
