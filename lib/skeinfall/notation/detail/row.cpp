#include "skeinfall/notation/detail/row.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdint>
#include <string>

#include <fmt/format.h>

#include "skeinfall/notation/detail/worker.hpp"

namespace skeinfall::notation {
namespace {

bool same_result(const Outcome& a, const Outcome& b) {
    return a.work.made.value() == b.work.made.value() &&
           a.work.across.value() == b.work.across.value();
}

/// The readings in words, less usual ones first.
std::string in_words(unsigned taken, unsigned usual, Craft craft) {
    std::string out;
    const auto say = [&](unsigned bit, std::string_view words) {
        if ((taken & bit) == 0) return;
        if (!out.empty()) out += " and ";
        out += words;
    };
    say(reading::spaces_passed, (usual & reading::spaces_passed) != 0
                                    ? "\"st\" means chain spaces, too"
                                    : "\"st\" does not mean chain spaces");
    say(reading::turning,
        "the chain at the beginning is taken the less usual way, as counting or "
        "not counting as a stitch");
    say(reading::times_in_all, "\"rep from * n times\" means n times in all");
    say(reading::every_in_each, "\"n sts in next n sts\" puts n in each");
    say(reading::partly, "the last repeat is worked as far as it goes");
    say(reading::goes_on, "its words are worked again to the end of the row");
    say(reading::narrow_mesh, "an open mesh is ch 1, sk 1");
    say(reading::in_one, "several stitches without a place go into one");
    say(reading::turning_skipped, "some chains of the foundation are left to turn with");
    say(reading::gathered, "the stitches listed before a place go all into it");
    say(reading::other_kind, "a stitch or space that the row below has not means any of its own");
    say(reading::begins_later, "what the round passes over at its beginning comes at its end");
    say(reading::gap_free, craft == Craft::knit
                               ? "\"m1\" is worked into the next stitch, or \"inc\" between two"
                               : "a stitch between two others passes none of them");
    say(reading::skips_group, "the rest of a group is skipped behind its space");
    say(reading::last_only, "only the last part before \"around\" is repeated");
    return out;
}

bool open_ended(const std::vector<Item>& items) {
    return std::any_of(items.begin(), items.end(), [](const Item& item) {
        return item.spot.which == Spot::Which::each || item.spot.which == Spot::Which::last ||
               item.spot.which == Spot::Which::turning ||
               (item.what == Item::Do::repeat && item.extent.until == Extent::Until::to_end) ||
               open_ended(item.items);
    });
}

Edge chain_of(std::int64_t chains, const StitchBook& book, bool counted = false) {
    Edge edge;
    edge.foundation = !counted;
    edge.counted_only = counted;
    const KindId plain = book.find_us(book.craft() == Craft::crochet ? "sc" : "k");
    edge.stretches = {{1, {{{counted ? plain : book.chain(), 0}, chains}}}};
    edge.settle();
    return edge;
}

}  // namespace

bool fits(const Outcome& outcome) {
    return std::none_of(outcome.findings.begin(), outcome.findings.end(),
                        [](const RowFinding& f) { return f.severity == Severity::stop; });
}

Outcome work_row(const Body& body, const Edge& below, const Context& context,
                 std::optional<unsigned> settled) {
    if (settled) {
        Outcome same = Worker(body, below, context, *settled).run();
        if (same.given_up || fits(same)) return same;
    }
    const unsigned rule = context.passes_spaces ? reading::spaces_passed : 0;
    Outcome usual = Worker(body, below, context, rule).run();
    const std::uint32_t at = body.items.empty() ? 0 : body.items.front().at;
    if (usual.given_up || usual.asked == 0) return usual;
    // "(1 box increased)" says nothing of the stitches.
    const bool declared =
        context.check_count &&
        std::any_of(body.declared.begin(), body.declared.end(),
                    [](const Declared& one) { return one.what != Declared::What::other; });
    const bool usual_fits = fits(usual);
    if (usual_fits && declared) {
        for (unsigned bits = 1; usual.loose_count && bits <= reading::all; ++bits) {
            if ((bits & ~(usual.doubtful | (usual.asked & reading::turning))) != 0) continue;
            Outcome other = Worker(body, below, context, bits ^ rule).run();
            if (fits(other) && !other.loose_count) return other;
        }
        return usual;
    }

    if (usual_fits && usual.doubtful == 0) return usual;
    // Fewer departures from the usual reading go first.
    static const std::vector<unsigned> others = [] {
        std::vector<unsigned> all;
        for (unsigned bits = 1; bits <= reading::all; ++bits) all.push_back(bits);
        std::stable_sort(all.begin(), all.end(), [](unsigned a, unsigned b) {
            const auto weight = [](unsigned bits) {
                const bool passed = (bits & reading::spaces_passed) != 0;
                // What names the shells of the row below says more than where a repeat breaks off.
                if (bits == reading::skips_group) return 1;
                return 2 * std::popcount(bits) + (passed && std::popcount(bits) > 1 ? 1 : 0);
            };
            return weight(a) < weight(b);
        });
        return all;
    }();
    unsigned asked = usual.asked;
    for (const unsigned bits : others) {
        if ((bits & ~(usual_fits ? usual.doubtful : asked)) != 0) continue;
        Outcome other = Worker(body, below, context, bits ^ rule).run();
        if (other.given_up) return other;
        asked |= other.asked;
        if (!fits(other)) continue;
        if (usual_fits) {
            if (same_result(usual, other)) continue;
            // Whether spaces are stitches changes nothing of what is made here.
            if (bits == reading::spaces_passed && usual.work.kinds == other.work.kinds &&
                usual.work.made.value() == other.work.made.value())
                continue;
            usual.findings.push_back(
                {Severity::caution, at,
                 fmt::format("the row can be read two ways: the usual one makes {} stitches, {} "
                             "when {}",
                             usual.work.made.value(), other.work.made.value(),
                             in_words(bits, rule, context.book->craft())),
                 "Declare the row's count in brackets at its end."});
            return usual;
        }
        const bool sure =
            declared || bits == reading::goes_on || bits == reading::narrow_mesh ||
            (bits == reading::made_in_stitch && context.book->craft() == Craft::knit) ||
            (bits == reading::turning && !other.against_note);
        other.findings.push_back(
            {sure ? Severity::ok : Severity::caution, at,
             fmt::format("the row fits when {}", in_words(bits, rule, context.book->craft())),
             sure ? "" : "Declare the row's count at its end."});
        return other;
    }
    return usual;
}

std::optional<std::int64_t> fitting_base(const Body& body, const Context& context, bool counted) {
    if (!open_ended(body.items)) {
        const Edge endless = chain_of(largest_number, *context.book, counted);
        const Outcome outcome = Worker(body, endless, context, 0).run();
        const std::int64_t used = std::llround(outcome.work.consumed.value());
        return used > 0 && used < largest_number ? std::optional<std::int64_t>(used) : std::nullopt;
    }
    std::int64_t wanted = 0;
    for (const Declared& declared : body.declared) wanted += declared.count;
    if (body.declared.empty() || wanted == 0) return std::nullopt;
    // The count of a row grows with the row below it: narrow down, then try what is near.
    const auto reaches = [&](std::int64_t chains) {
        const Outcome outcome =
            Worker(body, chain_of(chains, *context.book, counted), context, 0).run();
        return outcome.given_up || outcome.work.across.value() >= static_cast<double>(wanted);
    };
    std::int64_t low = 1;
    std::int64_t high = std::min(largest_number, 8 * wanted + 64);
    while (low < high) {
        const std::int64_t middle = low + (high - low) / 2;
        if (reaches(middle))
            high = middle;
        else
            low = middle + 1;
    }
    constexpr std::int64_t around = 32;
    for (std::int64_t chains = std::max<std::int64_t>(1, low - around); chains <= low + around;
         ++chains)
        if (fits(work_row(body, chain_of(chains, *context.book, counted), context))) return chains;
    return std::nullopt;
}

namespace {

bool only_tunisian(const RowWork& work) {
    return !work.kinds.empty() &&
           std::all_of(work.kinds.begin(), work.kinds.end(), [](const KindCount& kind) {
               for (const std::string_view name :
                    {"tss", "tks", "tps", "tfs", "trss", "tes", "tts", "tdc"})
                   if (kind.kind == name) return true;
               return false;
           });
}

/// The stitches of `kind` that are several worked together: "(12 sc)" alone behind sc and sc2tog
/// counts both.
std::int64_t worked_together(const std::string& kind, const RowWork& work, const Edge& edge,
                             const StitchBook& book) {
    std::int64_t count = 0;
    for (const KindCount& other : work.kinds)
        if (other.kind.starts_with(kind) && other.kind.ends_with("tog"))
            count += edge.count(book.find_us(other.kind), nullptr);
    return count;
}

}  // namespace

std::vector<RowFinding> check_declared(const std::vector<Declared>& all, const Edge& edge,
                                       const RowWork& work, const StitchBook& book, bool* loose,
                                       std::int64_t rest) {
    std::vector<RowFinding> out;
    for (const Declared& declared : all) {
        const std::int64_t wanted = declared.count;
        std::int64_t got = 0;
        std::string what;
        switch (declared.what) {
            case Declared::What::stitches:
                got = edge.stitches;
                if (edge.stitches + edge.chains == wanted) got = wanted;
                // Of a short row, all that is on the needle, or without what waits elsewhere.
                if (edge.stitches + rest == wanted) got = wanted;
                if (edge.stitches + rest + edge.waiting_stitches == wanted) got = wanted;
                what = "stitches";
                break;
            case Declared::What::kind: {
                got = edge.count(declared.kind, nullptr);
                double worked = 0.0;
                for (const KindCount& kind : work.kinds)
                    if (kind.kind == book.at(declared.kind).name) worked = kind.count.value();
                const std::int64_t together =
                    all.size() == 1 ? worked_together(book.at(declared.kind).name, work, edge, book)
                                    : 0;
                got += together;
                if (edge.count(declared.kind, &book) == wanted && together == 0) got = wanted;
                if (got != wanted && together == 0 && std::llround(worked) == wanted) {
                    got = wanted;
                    if (loose != nullptr) *loose = true;
                }
                // "(2 dc, 10 V-sts)": the stitches of the groups are no such dc.
                for (const Declared& other : all)
                    if (other.what == Declared::What::other && other.count > 0 && got > wanted &&
                        (got - wanted) % other.count == 0)
                        got = wanted;
                what = declared.name;
                break;
            }
            case Declared::What::spaces:
                got = edge.count_spaces(declared.chains);
                if (got != wanted && only_tunisian(work) &&
                    (declared.name.starts_with("lp") || declared.name.starts_with("loop")))
                    got = edge.stitches;  // "(20 loops)" on the hook
                what = declared.chains > 0 ? fmt::format("ch-{} sps", declared.chains) : "ch sps";
                break;
            case Declared::What::chains:
                got = edge.chains;
                if (edge.spaces == wanted) got = wanted;
                what = "ch";
                break;
            case Declared::What::other:
                out.push_back(
                    {Severity::ok, declared.at,
                     fmt::format("the declared count of \"{}\" is not checked", declared.name),
                     ""});
                continue;
        }
        if (got == wanted) continue;
        std::string makes = fmt::format("{}", got);
        if (declared.what == Declared::What::stitches && edge.chains > 0)
            makes += fmt::format(" and {} of chain", edge.chains);
        out.push_back(
            {Severity::stop, declared.at,
             fmt::format("the pattern says {} {}; these words make {}", wanted, what, makes),
             "Correct the count or the row."});
    }
    return out;
}

}  // namespace skeinfall::notation
