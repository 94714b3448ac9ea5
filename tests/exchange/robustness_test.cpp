#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/exchange/stash_csv.hpp"
#include "skeinfall/exchange/text_file.hpp"

namespace skeinfall::exchange {
namespace {

std::string data_file(const std::string& name) {
    return read_text_file(std::string(SKEINFALL_SOURCE_DIR) + "/tests/data/" + name);
}

/// The text with some of its bytes replaced, taken out or put in.
std::string damaged(std::string text) {
    const auto slips = *rc::gen::inRange(1, 6);
    for (int i = 0; i < slips && !text.empty(); ++i) {
        const auto at = *rc::gen::inRange<std::size_t>(0, text.size());
        const auto length = *rc::gen::inRange<std::size_t>(0, 4);
        const auto put = *rc::gen::element<std::string>(
            "", "0", "-", "9999999999", "\"", "'", "\n", ",", ".", "[", "]", "{", "=", "nan", "\\",
            "\xff", "\xc2\xbd", std::string(1, '\0'), "1e308", "#");
        text.replace(at, length, put);
    }
    return text;
}

/// True when the reading succeeds or tells what is wrong and where.
template <class Read>
bool reads_or_explains(Read read) {
    try {
        static_cast<void>(read());
        return true;
    } catch (const base::InputError& error) {
        for (const base::Problem& problem : error.problems())
            if (problem.what.empty() || problem.place.line == 0 || problem.place.column == 0)
                return false;
        return !error.problems().empty();
    }
}

RC_GTEST_PROP(Robustness, DamagedProjectReadsOrExplains, ()) {
    const std::string text = damaged(data_file("project.toml"));
    RC_ASSERT(reads_or_explains([&] { return parse_project(text, "p"); }));
}

RC_GTEST_PROP(Robustness, DamagedStashReadsOrExplains, ()) {
    const std::string text = damaged(data_file("stash.csv"));
    RC_ASSERT(reads_or_explains([&] { return parse_stash_csv(text, "s"); }));
}

}  // namespace
}  // namespace skeinfall::exchange
