#include <algorithm>
#include <cstdint>
#include <filesystem>
#include <ostream>

#include "skeinfall/base/name.hpp"
#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/materials/class_of.hpp"
#include "skeinfall/report/class_text.hpp"
#include "skeinfall/report/planning.hpp"
#include "skeinfall/units/parse.hpp"
#include "skeinfall/yarn/put_up.hpp"

#include "commands.hpp"
#include "exit_code.hpp"
#include "make_options.hpp"
#include "planning.hpp"

namespace skeinfall::cli {

namespace {

cover::Prices prices_of(const Values& values) {
    cover::Prices prices;
    for (const std::string& text : values.all("price")) {
        const std::size_t sign = text.rfind('=');
        if (sign == std::string::npos || base::trimmed(text.substr(0, sign)).empty())
            refuse_option("price", base::quoted(text) + " names no yarn",
                          "a yarn and a price such as \"Marlpit Everyday=4.50 EUR\"", "");
        prices[std::string(base::trimmed(text.substr(0, sign)))] =
            read_option("price", text.substr(sign + 1), cover::parse_price);
    }
    return prices;
}

/// A price of a yarn that no project names would be passed over.
void check_names(const cover::Prices& prices, const std::vector<cover::Make>& makes,
                 const std::vector<cover::BuyingLine>& lines) {
    std::vector<std::string> names;
    for (const cover::Make& make : makes)
        for (const project::Role& role : make.project->roles)
            if (!role.name.empty()) names.push_back(role.name);
    for (const cover::BuyingLine& line : lines) names.push_back(line.yarn);
    for (const auto& price : prices) {
        const std::string& name = price.first;
        if (std::any_of(names.begin(), names.end(),
                        [&](const std::string& one) { return base::same_name(one, name); }))
            continue;
        const auto near = base::nearest_name(name, names);
        refuse_option("price", "no project has a yarn called " + base::quoted(name),
                      "the name of a yarn that is to be bought", base::did_you_mean(near));
    }
}

/// Before there is a stash everything has to be bought.
bool has_nothing(const Values& values, const World& world) {
    std::error_code none;
    if (values.given("have") || values.given("stash") ||
        std::filesystem::exists(stash_path(values, world), none))
        return false;
    *world.err << "note: there is no stash yet, so all of it is on the list\n";
    return true;
}

constexpr std::int64_t makers_at_most = 1000;

/// For a class: the stash is not asked, and no hand is known.
int answer_class(const std::vector<Read>& reads, const std::string& text, const yarn::Label& put_up,
                 const Values& values, const World& world) {
    const std::string format = format_of(values, {"text", "json"});
    const std::int64_t makers = read_option("makers", text, units::parse_whole);
    if (makers < 1 || makers > makers_at_most)
        refuse_option("makers", "no class is as large as that", "1 to 1000", "");
    if (reads.size() != 1)
        refuse_option("makers", "a class makes one thing", "one project",
                      "Ask for each by itself.");
    for (const char* option : {"price", "no-stash", "have", "margin"})
        if (values.given(option))
            refuse_option(option, "it does not go with a class", "it without --makers", "");
    const Read& read = reads.front();
    const measure::Chance confidence = confidence_of(values);
    const auto yarns = materials::class_of(read.project, read.size, makers, confidence, put_up);
    *world.out << (format == "json"
                       ? report::class_json(read.project.title, makers, yarns)
                       : report::class_text(read.project.title, makers, yarns, confidence));
    return not_so;
}

}  // namespace

namespace {

/// Skeins of another length per mass are another yarn.
void refuse_another_yarn(const std::vector<Read>& reads, const yarn::Label& put_up) {
    if (!put_up.length) return;
    std::string stated;
    for (const Read& read : reads)
        for (const project::Role& role : read.project.roles) {
            if (cover::may_be_bought_as(role, put_up)) return;
            stated = role.grist->text;
        }
    refuse_option("put-up", "its length per weight is not that of " + base::quoted(stated),
                  "a skein of the same yarn in another size",
                  "For another yarn, plan with its label.");
}

/// Skeins beyond all counting are a slip in a figure or its unit.
void refuse_countless(const std::vector<Read>& reads, const yarn::Label& put_up) {
    for (const Read& read : reads)
        for (const need::RoleNeed& one : read.need.roles) {
            const project::Role* const role = read.project.role(one.role);
            const yarn::Label own =
                role != nullptr && role->grist ? yarn::put_up_in(role->grist->text) : yarn::Label{};
            const yarn::Label& printed =
                put_up.length && role != nullptr && cover::may_be_bought_as(*role, put_up) ? put_up
                                                                                           : own;
            if (printed.length &&
                one.length.centre > static_cast<double>(cover::most_bought) * printed.length->value)
                refuse_option("put-up",
                              base::quoted(printed.length->text) + " would be over " +
                                  std::to_string(cover::most_bought) + " skeins",
                              "what one skein holds, such as \"200 yd / 100 g\"",
                              "Check the need and the skein, and their units.");
        }
}

}  // namespace

Command buy_command() {
    Command command;
    command.name = "buy";
    command.grams_serve = true;
    command.yes = "nothing is missing";
    command.no = "there is something to buy";
    command.arguments = "PROJECT.toml...";
    command.summary = "what to buy so that projects are covered, in whole skeins";
    command.purpose =
        "What must I buy? Covers all the projects from the stash at once, then lists\n"
        "what is missing, yarn by yarn, in whole skeins. Two ends are allowed for on\n"
        "each.";
    command.options = {
        margin_option(),
        {"put-up", "TEXT",
         "what one skein you can buy holds, if not as in the project: \"200 yd / 100 g\"", false},
        {"price", "YARN=AMOUNT", "what one skein costs: \"Marlpit Everyday=4.50 EUR\"", true},
        {"no-stash", "", "buy everything, without looking in the stash", false},
        {"makers", "NUMBER",
         "for a class of this many makers whose tension is not known, each with one dye lot",
         false},
        confidence_option(),
        size_option(),
        stash_option(),
        format_option(table_formats)};
    take_makes(command);
    command.examples = {
        {"skeinfall buy sample_stash/projects/threepenny-blanket.toml",
         "what to buy besides your stash"},
        {"skeinfall buy sample_stash/projects/lantern-cowl.toml --makers 12",
         "a class of twelve makes the cowl"},
        {"skeinfall buy cowl.toml hat.toml --margin \"10 %\"", "one list for two makes"}};
    command.run = [](const Values& values, const World& world) -> int {
        const std::string format = table_format_of(values);
        const std::vector<std::string> files = values.all(positional);
        yarn::Label put_up;
        if (const auto text = values.one("put-up")) {
            put_up = yarn::put_up_in(*text);
            if (!put_up.length)
                refuse_option("put-up", base::quoted(*text) + " does not say what one skein holds",
                              "length and weight of one skein",
                              "Write it like \"200 yd / 100 g\".");
        }
        if (values.given("no-stash") && values.given("have"))
            refuse_option("no-stash", "it buys everything, and --have says what there is",
                          "one of the two", "");
        std::vector<Read> reads;
        reads.reserve(files.size());
        for (const std::string& file : files) reads.push_back(read_make(file, values, world));
        if (files.empty() || is_asked(values)) reads.push_back(read_asked(values, world));
        if (const auto text = values.one("makers"))
            return answer_class(reads, *text, put_up, values, world);
        refuse_another_yarn(reads, put_up);
        refuse_countless(reads, put_up);
        std::vector<Read*> all;
        all.reserve(reads.size());
        for (Read& read : reads) all.push_back(&read);
        const bool none = values.given("no-stash") || has_nothing(values, world);
        const std::vector<stash::Skein> stash =
            none ? std::vector<stash::Skein>() : stash_for(values, world, all);
        std::vector<cover::Make> makes;
        makes.reserve(reads.size());
        for (const Read& read : reads) makes.push_back({&read.project, &read.need, read.rules});
        const auto covers = cover::cover_makes(makes, stash, cover::Sharing::joint);
        const cover::Prices prices = prices_of(values);
        const auto lines = cover::buying_list(makes, covers, stash, put_up, prices);
        check_names(prices, makes, lines);
        const std::vector<std::string> open = report::contradictions_of(covers);
        const bool anywhere = std::any_of(
            covers.begin(), covers.end(),
            [](const cover::MakeCover& one) { return report::only_if_joined_anywhere(one); });
        *world.out << (format == "text"
                           ? report::buying_text(lines, confidence_of(values), open, anywhere)
                           : data_in(format, report::buying_json(lines, open),
                                     report::Records::buying));
        return lines.empty() && open.empty() ? done : not_so;
    };
    return command;
}

}  // namespace skeinfall::cli
