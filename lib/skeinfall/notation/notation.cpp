#include "skeinfall/notation/notation.hpp"

#include <algorithm>
#include <utility>

#include "skeinfall/notation/detail/pattern_worker.hpp"

namespace skeinfall::notation {
namespace {

/// `shared`: whether rows that were worked stand at the place of an earlier one.
NotationResult work_once(const std::vector<WrittenRows>& entries, const NotationOptions& options,
                         bool share, bool& shared) {
    StitchBook book(options.craft, options.terms);
    base::Problems problems;
    const Pattern pattern = read_pattern(entries, options, book, problems, share);
    const bool none = std::none_of(pattern.slots.begin(), pattern.slots.end(),
                                   [](const auto& slot) { return slot.written >= 0; });
    if (problems.empty() && none && !is_chain_alone(pattern, options.craft))
        problems.push_back({"there is no row in it", options.locate(0, 0), "at least one row",
                            ends_in_chains(pattern, options.craft)
                                ? "Write \"Fasten off.\" behind it where it is only a chain."
                                : "Write it like: Row 1: sc in each st across. (25 sts)"});
    shared = pattern.shared && problems.empty();
    if (!problems.empty()) return {{}, std::move(problems), {}, {}};
    return PatternWorker(pattern, options, book).run();
}

}  // namespace

NotationResult work_rows(const std::vector<WrittenRows>& entries, const NotationOptions& given) {
    NotationOptions options = given;
    if (!options.locate)
        options.locate = [&entries](std::size_t entry, std::size_t offset) {
            const std::string_view before =
                entry < entries.size() ? std::string_view(entries[entry].text).substr(0, offset)
                                       : std::string_view();
            const auto line_start = before.rfind('\n');
            base::Place place;
            place.line = entry + 1 +
                         static_cast<std::size_t>(std::count(before.begin(), before.end(), '\n'));
            place.column = offset + 1 - (line_start == std::string_view::npos ? 0 : line_start + 1);
            return place;
        };
    bool shared = false;
    NotationResult result = work_once(entries, options, !options.lenient, shared);
    // Only when something is to be said does it matter which of two rows in the same words it is.
    if (shared && !(result.problems.empty() && result.rows.findings.empty()))
        result = work_once(entries, options, false, shared);
    return result;
}

base::Problems problems_of_own(const NotationOptions& options) {
    StitchBook book(options.craft, options.terms);
    base::Problems problems;
    static_cast<void>(read_pattern({}, options, book, problems, false));
    return problems;
}

NotationResult work_rows(const std::string& text, const NotationOptions& options) {
    return work_rows(std::vector<WrittenRows>{{text, std::nullopt}}, options);
}

}  // namespace skeinfall::notation
