#include "options.hpp"

#include <algorithm>
#include <array>
#include <filesystem>
#include <string_view>
#include <utility>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/make_words.hpp"
#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/exchange/yarn_words.hpp"
#include "skeinfall/need/unknown_stitches.hpp"
#include "skeinfall/project/make_questions.hpp"
#include "skeinfall/project/size_named.hpp"
#include "skeinfall/stash/reserve.hpp"
#include "skeinfall/store/location.hpp"
#include "skeinfall/store/store.hpp"
#include "skeinfall/units/example.hpp"
#include "skeinfall/units/parse.hpp"
#include "skeinfall/yarn/stated_total.hpp"

#include "share_option.hpp"
#include "stash_options.hpp"

namespace skeinfall::cli {

std::optional<std::string> Values::one(const std::string& name) const {
    const auto found = std::find_if(all_.rbegin(), all_.rend(),
                                    [&](const Value& value) { return value.name == name; });
    if (found == all_.rend()) return std::nullopt;
    found->read = true;
    return found->text;
}

std::vector<std::string> Values::all(const std::string& name) const {
    std::vector<std::string> out;
    for (const Value& value : all_) {
        if (value.name != name) continue;
        value.read = true;
        out.push_back(value.text);
    }
    return out;
}

bool Values::given(const std::string& name) const {
    return std::any_of(all_.begin(), all_.end(),
                       [&](const Value& value) { return value.name == name; });
}

std::vector<std::string> Values::unread() const {
    std::vector<std::string> out;
    for (const Value& value : all_)
        if (!value.read && !value.text.empty() && value.name != positional &&
            std::find(out.begin(), out.end(), value.name) == out.end())
            out.push_back(value.name);
    return out;
}

Option stash_option() {
    return {"stash", "FILE", "the stash file (else SKEINFALL_STASH, else the data folder)", false};
}

Option size_option() {
    return {"size", "NAME", "which size (default: the first)", false};
}

Option format_option(const std::string& formats) {
    Option option{"format", "NAME", formats, false, {}};
    std::string word;
    for (const char c : formats + " ") {
        if ((c >= 'a' && c <= 'z') || c == '-') {
            word += c;
            continue;
        }
        if (!word.empty() && word != "default" && word != "or") option.words.push_back(word);
        word.clear();
    }
    return option;
}

Option confidence_option() {
    return {"confidence", "PERCENT", "how sure \"covered\" must be (default 95 %)", false};
}

std::filesystem::path stash_path(const Values& values, const World& world) {
    if (const auto named = values.one("stash")) return *named;
    if (world.stash && !world.stash->empty()) return *world.stash;
    return store::default_path({world.xdg_data_home, world.home});
}

std::vector<stash::Skein> skeins_for(const Values& values, const World& world,
                                     const std::vector<std::string>& titles,
                                     const project::Project* project) {
    if (auto had = skeins_had(values, world, project)) return *std::move(had);
    refuse_without_yarn(values, world);
    return stash::as_found_by(skeins_of_stash(values, world), titles);
}

void refuse_without_yarn(const Values& values, const World& world) {
    std::error_code none;
    if (values.given(positional) || !is_asked(values) || values.given("stash") ||
        std::filesystem::exists(stash_path(values, world), none))
        return;
    throw base::InputError(
        base::Problem{"no yarn is given, and there is no stash yet",
                      {},
                      "--have, or a stash",
                      "Write --have \"2 skeins of 170 yd / 100 g\", or start a stash: \"skeinfall "
                      "stash import FILE.csv\" or \"skeinfall stash add\"."});
}

std::vector<stash::Skein> skeins_of_stash(const Values& values, const World& world) {
    return stash_to_read(values, world).skeins();
}

namespace {

/// cover "scarf 8 x 60 in": what is made, where a file's name stands.
void refuse_make_for_file(const std::string& file) {
    std::error_code none;
    if (file.ends_with(".toml") || std::filesystem::exists(file, none)) return;
    const bool piece = static_cast<bool>(exchange::parse_piece(file));
    if (!piece && !yarn::parse_stated_total(file)) return;
    throw base::InputError(base::Problem{
        base::quoted(file) + " is no file",
        {},
        "a project file",
        std::string("If that is ") + (piece ? "what you make" : "what it takes") + ", write " +
            (piece ? "--make" : "--need") + " \"" + base::shown_inert(file) + "\"."});
}

}  // namespace

project::Project project_in(const std::string& file, const Values& values) {
    refuse_make_for_file(file);
    project::Project project = exchange::read_project(file, values.settings().project);
    if (values.given("any-lot"))
        for (project::Role& role : project.roles) role.one_lot = false;
    // Under a banner, a stitch that nobody knows counts as a plain one.
    return values.given("despite-stops") ? need::with_plain_stitches(std::move(project)) : project;
}

std::optional<std::string> scale_text(const Values& values, const std::string& option) {
    if (auto text = values.one(option)) return text;
    if (const auto& scale = values.settings().scale) return scale->text;
    return std::nullopt;
}

std::size_t size_of(const Values& values, const project::Project& project) {
    const auto wanted = values.one("size");
    if (!wanted) return 0;
    const std::vector<std::size_t> meant = project::sizes_meant(project, *wanted);
    if (meant.size() == 1) return meant.front();
    std::vector<std::string> known = project.sizes;
    if (!meant.empty()) {
        known.clear();
        for (const std::size_t size : meant) known.push_back(project.sizes[size]);
    }
    if (known.empty())
        refuse_option("size", "this project is in one size", "no --size", "Leave --size out.");
    refuse_option("size",
                  meant.empty() ? "the project has no size \"" + base::shown_inert(*wanted) + "\""
                                : "several sizes of the project are " + base::shown_inert(*wanted),
                  "one of " + base::join(known, ", "),
                  base::did_you_mean(base::nearest_name(*wanted, known)));
}

void refuse_size_not_said(const project::Project& project) {
    std::vector<std::string> sizes;
    for (const std::string& size : project.sizes) sizes.push_back(base::shown_inert(size));
    refuse_option("size", "this make is begun, and its weighings do not say in which size",
                  "one of " + base::join(sizes, ", "), "");
}

void tell_size_taken(const Values& values, const project::Project& project, const World& world) {
    if (values.given("size") || project.sizes.size() < 2) return;
    constexpr std::size_t most = 8;
    std::vector<std::string> all = project.sizes;
    const bool more = all.size() > most;
    if (more) all.resize(most);
    *world.err << "note: size " << base::shown_inert(project.sizes.front())
               << " is taken, the first of " << base::shown_inert(base::join(all, ", "))
               << (more ? " and others" : "") << "; choose yours with --size\n";
}

std::string format_of(const Values& values, const std::vector<std::string>& formats) {
    std::string wanted = values.one("format").value_or(formats.front());
    if (std::find(formats.begin(), formats.end(), wanted) == formats.end()) {
        const auto near = base::nearest_name(wanted, formats);
        refuse_option("format", base::quoted(wanted) + " is not a format here",
                      base::join(formats, ", "), base::did_you_mean(near));
    }
    return wanted;
}

std::string table_format_of(const Values& values) {
    return format_of(values, {"text", "json", "csv", "markdown"});
}

std::string data_in(const std::string& format, const std::string& json, report::Records which) {
    if (format == "json") return json;
    return report::records(
        json, which, format == "csv" ? report::RecordForm::csv : report::RecordForm::markdown);
}

measure::Chance confidence_of(const Values& values) {
    const auto text = values.one("confidence");
    if (!text) return values.settings().confidence.value_or(measure::usual_confidence);
    const char* const range = "50 % to 99.99 %";
    const units::Ratio share =
        share_option("confidence", *text, range, "95 %", measure::least_confidence.value,
                     measure::most_confidence.value);
    if (share < measure::least_confidence.value || share > measure::most_confidence.value)
        refuse_option("confidence", base::quoted(*text) + " is out of range", range,
                      "Write --confidence \"95 %\".");
    return {share};
}

units::Ratio share_option(const std::string& option, const std::string& text,
                          const std::string& expected, const std::string& example,
                          units::Ratio least, units::Ratio most) {
    const auto share = units::parse_percent(text);
    if (share) return *share;
    base::Problem problem = share.problem();
    problem.place = {.file = "--" + option, .line = 0, .column = 0};
    problem.expected = expected;
    // A bare number is what it says, in percent.
    const std::string meant = text + " %";
    const auto said = units::parse_percent(meant);
    const bool in_reach = said && *said >= least && *said <= most;
    problem.remedy = "Write --" + option + " \"" + (in_reach ? meant : example) + "\".";
    throw base::InputError(std::move(problem));
}

namespace {

/// What would be right for an option that is read by a reader of quantities or counts.
std::string_view example_of(std::string_view option) {
    struct OptionExample {
        std::string_view option;
        std::string_view example;
    };
    static constexpr auto all = std::to_array<OptionExample>(
        {{"scale", "1 g"},       {"tare", "25 g"},     {"mass", "62 g"},
         {"used", "62 g"},       {"more", "50 g"},     {"count", "3"},
         {"makers", "12"},       {"strands", "2"},     {"row", "12"},
         {"most-joins", "2"},    {"stripe-rows", "2"}, {"by-turns", "2"},
         {"apart", "6"},         {"repeats", "8"},     {"rows", "96"},
         {"stitches", "33"},     {"repeat", "8"},      {"fade", "6"},
         {"outer-end", "2 m"},   {"rewound", "80 m"},  {"measured", "4 m"},
         {"length", "10 m"},     {"strand", "70 in"},  {"begins", "3 m"},
         {"row-width", "50 cm"}, {"need", "380 yd"},   {"label", "170 yd / 3.5 oz"}});
    const auto* const found = std::find_if(
        all.begin(), all.end(), [&](const OptionExample& one) { return one.option == option; });
    if (found != all.end()) return found->example;
    for (const project::MakeQuestion& question : project::make_questions())
        if (question.id == option) return question.example;
    return {};
}

}  // namespace

base::Problem in_option(const std::string& option, const std::string& text, base::Problem problem) {
    problem.place.file = "--" + option;
    return units::with_example(std::move(problem), text, "--" + option + " ", example_of(option));
}

void refuse_option(const std::string& option, const std::string& what, const std::string& expected,
                   const std::string& remedy) {
    throw base::InputError(
        base::Problem{what, {.file = "--" + option, .line = 0, .column = 0}, expected, remedy});
}

CountedOption read_counted(const std::string& option, const std::string& text) {
    const exchange::CountedSkeins read = read_option(option, text, exchange::parse_counted);
    return {read.count, read.rest};
}

}  // namespace skeinfall::cli
