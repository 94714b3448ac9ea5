#include "skeinfall/project/stitches.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <mutex>
#include <optional>
#include <utility>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/data/stitches.hpp"

namespace skeinfall::project {
namespace {

using base::leading_number;

constexpr std::int64_t most_together = 100;
constexpr std::size_t most_kinds = 10'000;

/// "dc3tog" as "dc" and 3.
std::optional<std::pair<std::string_view, std::int64_t>> parts_of_together(std::string_view name) {
    constexpr std::string_view ending = "tog";
    if (!name.ends_with(ending)) return std::nullopt;
    name.remove_suffix(ending.size());
    const auto base_end = name.find_last_not_of("0123456789");
    if (base_end == std::string_view::npos || base_end + 1 == name.size()) return std::nullopt;
    const std::string_view digits = name.substr(base_end + 1);
    const std::int64_t count = digits.size() > 3 ? 0 : leading_number<std::int64_t>(digits);
    if (count < 2 || count > most_together) return std::nullopt;
    return std::pair(name.substr(0, base_end + 1), count);
}

const data::stitches_row* row_of(std::string_view kind) {
    const auto found = std::find_if(data::stitches.begin(), data::stitches.end(),
                                    [&](const auto& row) { return row.us == kind; });
    return found == data::stitches.end() ? nullptr : found;
}

TurningChainCounts counts_of(std::string_view cell) {
    if (cell == "yes") return TurningChainCounts::yes;
    return cell == "varies" ? TurningChainCounts::varies : TurningChainCounts::no;
}

/// The name without the post it is worked around and how many are worked together.
std::string_view plain_name(std::string_view name) {
    if (name.starts_with("fp") || name.starts_with("bp")) name.remove_prefix(2);
    // Foundation, extended and linked stitches count as the plain ones.
    static constexpr std::pair<std::string_view, std::string_view> counted_as[] = {
        {"fsc", "sc"},  {"fhdc", "hdc"}, {"fdc", "dc"},  {"esc", "sc"},   {"ehdc", "hdc"},
        {"exdc", "dc"}, {"lidc", "dc"},  {"litr", "tr"}, {"spike", "sc"}, {"rsc", "sc"}};
    for (const auto& [kind, plain] : counted_as)
        if (name == kind) return plain;
    const auto parts = parts_of_together(name);
    return parts ? parts->first : name;
}

}  // namespace

std::optional<units::Ratio> relative_yarn(std::string_view kind,
                                          const std::vector<OwnStitch>& own) {
    for (const OwnStitch& stitch : own)
        if (stitch.name == kind && stitch.yarn) return stitch.yarn;
    if (const auto* row = row_of(kind))
        return units::Ratio(leading_number<double>(row->relative_yarn));
    const auto parts = parts_of_together(kind);
    if (!parts) return std::nullopt;
    const auto* base = row_of(parts->first);
    if (base == nullptr) return std::nullopt;
    const auto one = leading_number<double>(base->relative_yarn);
    if (base->craft == "knit") return units::Ratio(one);  // one loop drawn through them all
    // What every further stitch saves is the top that it does not close.
    const double saved = 2.0 - leading_number<double>(row_of("sc2tog")->relative_yarn);
    return units::Ratio(one + static_cast<double>(parts->second - 1) * (one - saved));
}

std::string_view full_name(std::string_view kind) {
    const auto* row = row_of(kind);
    return row == nullptr ? kind : row->name;
}

units::Ratio relative_yarn_spread_of(std::string_view kind) {
    const auto* row = row_of(kind);
    if (row == nullptr || row->relative_spread.empty()) return relative_yarn_spread;
    return units::Ratio(leading_number<double>(row->relative_spread));
}

std::optional<std::string> stitch_kind(std::string_view name, Craft craft, Terms terms) {
    // Asked for every row: a book is not copied for names that stand in it.
    static const std::array<StitchBook, 4> books{
        StitchBook(Craft::crochet, Terms::us), StitchBook(Craft::crochet, Terms::uk),
        StitchBook(Craft::knit, Terms::us), StitchBook(Craft::knit, Terms::uk)};
    const StitchBook& table =
        books.at((craft == Craft::knit ? 2U : 0U) + (terms == Terms::uk ? 1U : 0U));
    const std::string plain = base::lower(base::trimmed(name));
    if (const auto known = table.known(plain))
        return known->other_terms ? std::nullopt : std::optional(table.at(known->kind).name);
    StitchBook book = table;
    const auto named = book.find(plain);
    if (!named || named->other_terms) return std::nullopt;
    return book.at(named->kind).name;
}

StitchBook::StitchBook(Craft craft, Terms terms) : craft_(craft) {
    // To enter all names takes far longer than to copy them.
    struct Filled {
        std::once_flag once;
        std::optional<StitchBook> book;
    };
    static std::array<Filled, 4> all;
    Filled& filled = all.at((craft == Craft::knit ? 2U : 0U) + (terms == Terms::uk ? 1U : 0U));
    std::call_once(filled.once, [&] {
        const std::string_view wanted = craft == Craft::crochet ? "crochet" : "knit";
        std::vector<const data::stitches_row*> rows;
        for (const auto& row : data::stitches)
            // Chains and slip stitches keep their ids in both crafts.
            if (row.craft == wanted || row.us == "ch" || row.us == "sl st") rows.push_back(&row);
        for (const auto* row : rows) {
            Stitch stitch;
            stitch.name = row->us;
            stitch.written = terms == Terms::us ? row->us : row->uk;
            stitch.makes = leading_number<std::int64_t>(row->makes);
            stitch.takes = leading_number<std::int64_t>(row->takes);
            stitch.turning_chains = leading_number<std::int64_t>(row->turning_chains);
            stitch.counts = counts_of(row->turning_chain_counts);
            stitch.varies = row->make_up == "varies";
            stitch.plain = static_cast<KindId>(stitches_.size());
            const std::string_view plain = plain_name(stitch.name);
            for (std::size_t kind = 0; kind < stitches_.size(); ++kind)
                if (stitches_[kind].name == plain) stitch.plain = static_cast<KindId>(kind);
            stitches_.push_back(std::move(stitch));
        }
        for (const bool other : {false, true}) {
            const bool us = (terms == Terms::us) != other;
            for (std::size_t at = 0; at < rows.size(); ++at) {
                if (rows[at]->craft != wanted) continue;
                const auto kind = static_cast<KindId>(at);
                enter(us ? rows[kind]->us : rows[kind]->uk, kind, other);
                enter(us ? rows[kind]->other_us : rows[kind]->other_uk, kind, other);
            }
        }
        filled.book = *this;
    });
    *this = *filled.book;
}

void StitchBook::enter(std::string_view names, KindId kind, bool other_terms) {
    for (const std::string& written : base::split(names, '|')) {
        const std::string name = base::lower(written);
        if (name.empty() || !by_name_.emplace(name, Named{kind, other_terms}).second) continue;
        const auto blank = name.find(' ');
        if (blank != std::string::npos) first_words_.insert(name.substr(0, blank));
    }
}

std::optional<StitchBook::Named> StitchBook::known(std::string_view name) const {
    const auto found = by_name_.find(std::string(name));
    return found == by_name_.end() ? std::nullopt : std::optional(found->second);
}

std::optional<StitchBook::Named> StitchBook::find(std::string_view name) {
    if (const auto found = known(name)) return found;
    const auto parts = parts_of_together(name);
    if (!parts) return std::nullopt;
    const auto base = by_name_.find(std::string(parts->first));
    if (base == by_name_.end()) return std::nullopt;
    const Stitch& single = stitches_[base->second.kind];
    if (single.makes != 1 || single.takes != 1) return std::nullopt;
    const Named together_kind{together(base->second.kind, parts->second), base->second.other_terms};
    by_name_.emplace(std::string(name), together_kind);
    return together_kind;
}

KindId StitchBook::find_us(std::string_view abbreviation) const {
    KindId kind = 0;
    while (stitches_[kind].name != abbreviation) ++kind;
    return kind;
}

bool StitchBook::begins_long_name(std::string_view word) const {
    return first_words_.contains(std::string(word));
}

KindId StitchBook::together(KindId kind, std::int64_t count) {
    const auto known = together_.find({kind, count});
    if (known != together_.end()) return known->second;
    const std::string name = stitches_[kind].name + std::to_string(count) + "tog";
    auto id = static_cast<KindId>(stitches_.size());
    for (std::size_t other = 0; other < stitches_.size(); ++other)
        if (stitches_[other].name == name) id = static_cast<KindId>(other);
    if (id == stitches_.size()) {
        Stitch stitch;
        stitch.name = name;
        stitch.takes = count;
        stitch.plain = stitches_[kind].plain;
        stitches_.push_back(std::move(stitch));
    }
    together_.emplace(std::pair(kind, count), id);
    return id;
}

bool StitchBook::varies(std::string_view name) const {
    const auto found = by_name_.find(std::string(name));
    return found != by_name_.end() && stitches_[found->second.kind].varies;
}

std::optional<KindId> StitchBook::add(Stitch stitch) {
    const auto id = static_cast<KindId>(stitches_.size());
    const std::string name = base::lower(stitch.name);
    const auto found = by_name_.find(name);
    if (found != by_name_.end() && stitches_[found->second.kind].varies) {
        const KindId old = found->second.kind;
        for (auto& [other, named] : by_name_)
            if (named.kind == old) named = {id, false};
    } else if ((found != by_name_.end() && !found->second.other_terms) ||
               stitches_.size() >= most_kinds) {
        return std::nullopt;
    } else if (found != by_name_.end()) {
        by_name_.erase(found);
    }
    if (stitches_.size() >= most_kinds) return std::nullopt;
    if (stitch.plain == 0) stitch.plain = id;
    stitches_.push_back(std::move(stitch));
    enter(name, id, false);
    return id;
}

KindId StitchBook::add_unknown(const std::string& name) {
    const auto known = unknown_.find(name);
    if (known != unknown_.end()) return known->second;
    if (stitches_.size() >= most_kinds && !unknown_.empty()) return unknown_.begin()->second;
    Stitch stitch;
    stitch.name = name;
    stitch.unknown = true;
    stitch.plain = static_cast<KindId>(stitches_.size());
    stitches_.push_back(stitch);
    unknown_.emplace(name, stitch.plain);
    return stitch.plain;
}

std::vector<std::string> StitchBook::names() const {
    std::vector<std::string> out;
    for (const auto& [name, named] : by_name_)
        // "s c" of old books is no name to propose.
        if (!named.other_terms && (name.size() > 4 || name.find(' ') == std::string::npos))
            out.push_back(name);
    std::sort(out.begin(), out.end());
    return out;
}

}  // namespace skeinfall::project
