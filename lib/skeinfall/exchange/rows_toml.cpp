#include "skeinfall/exchange/rows_toml.hpp"

#include <algorithm>
#include <cstdint>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/per_size.hpp"
#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/exchange/text_file.hpp"
#include "skeinfall/notation/proposal_text.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::exchange {
namespace {

constexpr std::size_t longest_name = 40;

}  // namespace

std::vector<project::KindCount> read_kinds(TomlTable& in, std::string_view key,
                                           std::int64_t least) {
    std::vector<project::KindCount> out;
    const TomlValue* value = in.value(key);
    if (value == nullptr) return out;
    const auto* entries = std::get_if<TomlValue::Table>(&value->held);
    if (entries == nullptr || entries->empty()) {
        in.fail(key, fmt::format("this is {}", entries == nullptr ? value->kind() : "empty"),
                "stitches by kind", fmt::format("Write it like {} = {{ dc = 12, ch = 4 }}.", key));
        return out;
    }
    for (const TomlEntry& entry : *entries)
        if (const auto count = in.whole_of(key, entry.value, least, largest_count))
            out.push_back({entry.key, static_cast<double>(*count) * units::stitch});
    return out;
}

namespace {

notation::CountedRows counted_rows(TomlTable& in) {
    notation::CountedRows out;
    out.rows = in.whole("rows", 1, largest_count).value_or(1);
    if (!in.has("stitches"))
        in.missing("stitches", "stitches by kind",
                   "Write it like { rows = 5, stitches = { dc = 12 } }.");
    out.kinds = read_kinds(in, "stitches", 1);
    out.increase = read_kinds(in, "increase", -largest_count);
    out.every = in.whole("every", 1, largest_count).value_or(1);
    for (const project::KindCount& more : out.increase)
        if (std::none_of(out.kinds.begin(), out.kinds.end(),
                         [&](const auto& kind) { return kind.kind == more.kind; }))
            in.fail("increase", "no " + in_quotes(more.kind) + " is among the stitches",
                    "kinds that the first of the rows has");
    const std::int64_t steps = (out.rows - 1) / out.every;
    double most = 0.0;
    for (const project::KindCount& kind : out.kinds) {
        double last = kind.count.value();
        for (const project::KindCount& more : out.increase)
            if (more.kind == kind.kind) last += static_cast<double>(steps) * more.count.value();
        most += std::max(last, kind.count.value());
        if (last < 0.0)
            in.fail("increase",
                    fmt::format("there are fewer than no {} in the last row", in_quotes(kind.kind)),
                    "at least none in every row", "Take away fewer, or work fewer rows.");
    }
    if (most > static_cast<double>(largest_count))
        in.fail("stitches", "a row has too many stitches",
                fmt::format("at most {} in a row", largest_count));
    in.finish();
    return out;
}

/// The mistakes of all lines, with what is proposed for them, so that they are mended once: a
/// strict reading ends at the first.
base::Problems all_faults(base::Problems first, const std::vector<notation::WrittenRows>& entries,
                          notation::NotationOptions options) {
    options.lenient = true;
    const notation::NotationResult lenient = notation::work_rows(entries, options);
    for (const notation::RowReading& reading : lenient.readings) {
        auto fault = notation::fault_of(reading);
        if (!fault) continue;
        const auto told = std::find_if(first.begin(), first.end(), [&](const base::Problem& one) {
            return one.place == fault->place || one.what == fault->what;
        });
        if (told == first.end())
            first.push_back(*std::move(fault));
        else if (told->what == fault->what)
            *told = *std::move(fault);
    }
    return first;
}

}  // namespace

namespace {

/// The number in a text that only counts rows, "150 rows".
std::optional<std::int64_t> counted_in_words(TomlTable& piece) {
    const TomlValue* value = piece.value("rows");
    const auto* text = value == nullptr ? nullptr : std::get_if<std::string>(&value->held);
    if (text == nullptr) return std::nullopt;
    const std::string_view all = base::trimmed(*text);
    const std::size_t digits = std::min(all.find_first_not_of("0123456789"), all.size());
    const auto count = units::parse_whole(all.substr(0, digits));
    const std::string word = base::lower(base::trimmed(all.substr(digits)));
    const bool counts = word.empty() || word == "row" || word == "rows" || word == "round" ||
                        word == "rounds" || word == "rnd" || word == "rnds";
    if (!count || !counts) return std::nullopt;
    return *count;
}

}  // namespace

project::PerSize<std::int64_t> read_row_count(TomlTable& piece, std::optional<std::size_t> sizes) {
    const auto count = counted_in_words(piece);
    if (!count) return read_wholes(piece, "rows", sizes);
    piece.fail("rows", "this is a number in quotes", fmt::format("rows = {}", *count));
    return {};
}

bool rows_are_written(TomlTable& piece) {
    const TomlValue* value = piece.value("rows");
    if (value == nullptr || counted_in_words(piece)) return false;
    if (std::holds_alternative<std::string>(value->held)) return true;
    const auto* list = std::get_if<TomlValue::List>(&value->held);
    return list != nullptr && std::any_of(list->begin(), list->end(), [](const TomlValue& one) {
               return std::holds_alternative<std::string>(one.held) ||
                      std::holds_alternative<TomlValue::Table>(one.held);
           });
}

std::vector<std::string> written_entries(TomlTable& piece) {
    const TomlValue* rows = piece.value("rows");
    if (rows == nullptr) return {};
    if (const auto* text = std::get_if<std::string>(&rows->held)) return {*text};
    std::vector<std::string> out;
    if (const auto* list = std::get_if<TomlValue::List>(&rows->held))
        for (const TomlValue& one : *list) {
            const auto* text = std::get_if<std::string>(&one.held);
            if (text == nullptr) return {};
            out.push_back(*text);
        }
    return out;
}

project::PerSize<project::WorkedRows> read_rows(TomlTable& piece,
                                                const notation::NotationOptions& given,
                                                const SourceText& source, ProblemList& problems) {
    const TomlValue& rows = *piece.value("rows");
    std::vector<const TomlValue*> values;
    if (const auto* list = std::get_if<TomlValue::List>(&rows.held))
        for (const TomlValue& one : *list) values.push_back(&one);
    else
        values.push_back(&rows);

    const std::size_t problems_before = problems.size();
    std::vector<notation::WrittenRows> entries;
    for (const TomlValue* value : values) {
        if (std::holds_alternative<TomlValue::Table>(value->held)) {
            TomlTable table(*value, source, problems);
            entries.push_back({{}, counted_rows(table)});
        } else if (auto text = piece.text_of("rows", *value, largest_file)) {
            entries.push_back({std::move(*text), std::nullopt});
        }
    }
    project::PerSize<project::WorkedRows> out;
    if (problems.size() != problems_before) return out;

    notation::NotationOptions options = given;
    options.locate = [&](std::size_t entry, std::size_t offset) {
        const TomlValue& value = *values[std::min(entry, values.size() - 1)];
        return source.place_inside(value.offset, entries[entry].text, offset);
    };
    for (options.size = 0; options.size < std::max<std::size_t>(1, options.sizes); ++options.size) {
        notation::NotationResult result = notation::work_rows(entries, options);
        if (!result.problems.empty()) {
            for (base::Problem& problem : all_faults(result.problems, entries, options))
                problems.add(std::move(problem));
            return {};
        }
        for (project::Finding& finding : result.rows.findings) finding.place.file = source.file();
        // Who says what the bind-off takes means it beside the rows.
        const bool its_own = piece.has("bind_off_rows") || piece.has("bind_off");
        if (options.craft == project::Craft::knit && !its_own) result.rows.take_bind_off_out();
        out.values.push_back(std::move(result.rows));
    }
    return out;
}

notation::NotationOptions with_yarns(notation::NotationOptions options,
                                     const std::vector<project::Role>& roles,
                                     const project::Piece& piece) {
    const std::string& first = piece.stripes.empty() ? piece.role : piece.stripes.front().role;
    for (const project::Role& role : roles) {
        if (role.id == first) options.yarn = options.yarns.size();
        options.yarns.push_back(
            {role.id,
             {base::lower(role.id), base::lower(role.colour), base::lower(role.name),
              base::lower(role.name + " " + role.colour)}});
    }
    return options;
}

void take_stripes(TomlTable& in, project::Piece& piece) {
    const auto role_at = [](const std::vector<project::Stripe>& stripes, std::int64_t row) {
        std::int64_t repeat = 0;
        for (const project::Stripe& stripe : stripes) repeat += stripe.rows;
        row %= std::max<std::int64_t>(1, repeat);
        std::size_t at = 0;
        while (row >= stripes[at].rows) row -= stripes[at++].rows;
        return stripes[at].role;
    };
    bool one_yarn = true;
    for (const project::WorkedRows& rows : piece.pattern.values) {
        one_yarn = one_yarn && rows.stripes.size() <= 1;
        if (rows.stripes.empty() || piece.stripes.empty()) continue;
        for (std::int64_t row = 0; row < rows.rows(); ++row)
            if (role_at(rows.stripes, row) != role_at(piece.stripes, row))
                return in.fail("stripes",
                               fmt::format("row {} is worked in {} here, the rows say {}", row + 1,
                                           role_at(piece.stripes, row), role_at(rows.stripes, row)),
                               "the yarns in the stripes or in the rows", "Leave one of them out.");
    }
    if (!piece.stripes.empty() || !piece.pattern.stated()) return;
    const std::vector<project::Stripe>& said = piece.pattern.values.front().stripes;
    if (said.empty()) return;
    if (!one_yarn) {
        piece.stripes = said;
        return;
    }
    piece.role = said.front().role;
    for (project::WorkedRows& rows : piece.pattern.values) rows.stripes.clear();
}

std::vector<project::OwnStitch> read_own_stitches(TomlTable& top, const SourceText& source) {
    std::vector<project::OwnStitch> out;
    for (auto [name, in] : top.named_tables("stitch")) {
        project::OwnStitch stitch;
        stitch.name = name;
        stitch.place = in.place();
        const bool fine = !name.empty() && name.size() <= longest_name &&
                          std::all_of(name.begin(), name.end(),
                                      [](char c) {
                                          return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
                                                 (c >= '0' && c <= '9') || c == '-' || c == ' ';
                                      }) &&
                          !(name.front() >= '0' && name.front() <= '9') && name.front() != '-' &&
                          name.front() != ' ';
        if (!fine)
            in.fail("", in_quotes(name) + " cannot name a stitch",
                    fmt::format("up to {} letters without accents, digits, \"-\" and blanks, a "
                                "letter first",
                                longest_name));
        stitch.makes = in.whole("makes", 0, 1000);
        stitch.takes = in.whole("takes", 0, 1000).value_or(1);
        stitch.of = in.text("of").value_or(std::string());
        if (const TomlValue* of = in.value("of"))
            stitch.of_place = source.place_inside(of->offset, stitch.of, 0);
        stitch.yarn = in.number("yarn", 0.0, 1000.0);
        if (in.has("of") == in.has("yarn"))
            in.fail(
                in.has("of") ? "yarn" : "",
                in.has("of") ? "both \"of\" and \"yarn\"" : "its make-up is missing",
                "either \"of\" or \"yarn\"",
                "Write of = \"2 dc, ch 1, 2 dc\", or yarn = 2.5 for that many times the yarn of "
                "one plain stitch.");
        in.finish();
        out.push_back(std::move(stitch));
    }
    return out;
}

}  // namespace skeinfall::exchange
