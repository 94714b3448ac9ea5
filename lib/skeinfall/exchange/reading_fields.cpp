#include "skeinfall/exchange/reading_fields.hpp"

#include <cstdint>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/exchange/source_text.hpp"

namespace skeinfall::exchange {
namespace {

constexpr std::int64_t most_rows_worked = 1'000'000;

class ReadingReader {
  public:
    explicit ReadingReader(Fields& fields) : fields_(fields) {}

    stash::WorkReading read() {
        stash::WorkReading out;
        out.project = required("project", "the title of the project");
        out.role = required("role", "the yarn of the project, such as MC");
        out.piece = text("piece");
        out.copy = number("copy", 1, 1);
        out.row = number("row", 0, std::nullopt);
        out.skein = text("skein");
        out.mass = mass("mass", true).value_or(units::Printed<units::Mass>{});
        out.scale = mass("scale", true).value_or(units::Printed<units::Mass>{});
        out.tare = mass("tare", false);
        out.afresh = fields_.value("afresh") == "true";
        out.note = text("note");
        const std::string day = required("date", "a day such as 2024-05-31");
        if (day.empty()) return out;
        const auto parsed = base::parse_day(day);
        if (parsed)
            out.day = *parsed;
        else
            fail("date", parsed.problem());
        return out;
    }

  private:
    void fail(std::string_view field, const base::Problem& problem) {
        fields_.fail(field, problem.place.column > 0 ? problem.place.column - 1 : 0, problem.what,
                     problem.expected, problem.remedy);
    }

    std::string text(std::string_view field) {
        const std::string_view written = fields_.value(field);
        const std::size_t most = field == "project" ? longest_title : longest_text;
        if (const auto fault = text_fault(written, most, true)) {
            fields_.fail(field, 0, *fault, fmt::format("at most {} bytes of plain text", most),
                         "Shorten it, or type it anew.");
            return {};
        }
        return std::string(written);
    }

    std::string required(std::string_view field, std::string expected) {
        std::string out = text(field);
        if (out.empty())
            fields_.fail(field, 0, fmt::format("the reading has no {}", field), std::move(expected),
                         "Fill it in.");
        return out;
    }

    std::int64_t number(std::string_view field, std::int64_t least,
                        std::optional<std::int64_t> when_missing) {
        const std::string_view written = fields_.value(field);
        if (written.empty() && when_missing) return *when_missing;
        const auto out = base::number_of<std::int64_t>(written);
        if (out && *out >= least && *out <= most_rows_worked) return *out;
        fields_.fail(field, 0,
                     written.empty() ? fmt::format("the reading has no {}", field)
                                     : in_quotes(written) + " is out of range",
                     fmt::format("a whole number from {} to {}", least, most_rows_worked), "");
        return least;
    }

    std::optional<units::Printed<units::Mass>> mass(std::string_view field, bool needed) {
        const std::string written =
            needed ? required(field, "a mass such as \"62 g\"") : text(field);
        if (written.empty()) return std::nullopt;
        const auto read = units::parse_mass(written);
        if (read) return units::Printed<units::Mass>{written, *read};
        fail(field, read.problem());
        return std::nullopt;
    }

    Fields& fields_;
};

}  // namespace

stash::WorkReading read_reading(Fields& fields) {
    return ReadingReader(fields).read();
}

std::vector<Written> fields_of(const stash::WorkReading& reading) {
    std::vector<Written> out;
    const auto add = [&out](std::string_view field, std::string text) {
        if (!text.empty()) out.push_back({field, std::move(text)});
    };
    add("project", reading.project);
    add("role", reading.role);
    add("piece", reading.piece);
    if (reading.copy != 1) add("copy", std::to_string(reading.copy));
    add("row", std::to_string(reading.row));
    add("skein", reading.skein);
    add("mass", reading.mass.text);
    add("scale", reading.scale.text);
    if (reading.tare) add("tare", reading.tare->text);
    if (reading.afresh) add("afresh", "true");
    add("date", base::to_text(reading.day));
    add("note", reading.note);
    return out;
}

}  // namespace skeinfall::exchange
