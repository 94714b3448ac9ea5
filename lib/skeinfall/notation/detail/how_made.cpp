#include "skeinfall/notation/detail/how_made.hpp"

#include <algorithm>
#include <cstdint>
#include <string>
#include <vector>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/notation/detail/line_kinds.hpp"

namespace skeinfall::notation {
namespace {

struct Leg {
    std::int64_t overs = 0;   ///< yarn overs before the hook goes in
    std::int64_t by_two = 0;  ///< times the yarn is drawn through two loops
    bool by_one = false;
    bool next = false;  ///< it goes into a stitch of its own
};

/// Goes through the words; every insertion of the hook is a leg.
class Loops {
  public:
    explicit Loops(std::string_view low) : words_(words_of(low)) {}

    std::optional<std::vector<Leg>> run() {
        for (at_ = 0; at_ < words_.size(); ++at_) {
            if (is({"*"})) star_ = legs_.size();
            if (is({"yo", "yoh", "yrh"}) || (is({"yarn", "wrap"}) && is({"over"}, 1)) ||
                (is({"wrap"}) && is({"yarn"}, 1)))
                over();
            else if (is({"insert", "inserting"}))
                insert();
            else if (is({"through", "thru"}))
                through();
            else if (is({"repeat", "rep"}))
                repeat();
        }
        if (legs_.empty() || !closed_) return std::nullopt;
        return legs_;
    }

  private:
    [[nodiscard]] bool is(Names names, std::size_t by = 0) const {
        return at_ + by < words_.size() && one_of(words_[at_ + by], names);
    }

    void over() {
        overs_ += is({"twice"}, 1) || (is({"2"}, 1) && is({"times"}, 2)) ? 2 : 1;
        if (overs_ > 4) overs_ = 4;
    }

    void insert() {
        Leg leg;
        leg.overs = overs_;
        overs_ = 0;
        for (std::size_t by = 1; by < 9 && at_ + by < words_.size() && !is({",", "."}, by); ++by)
            if (is({"next"}, by)) leg.next = true;
        legs_.push_back(leg);
    }

    void through() {
        overs_ = 0;
        if (legs_.empty()) return;
        std::size_t by = 1;
        while (is({"the", "next", "first", "last"}, by)) ++by;
        if (is({"all", "both", "remaining", "rem"}, by)) {
            closed_ = true;
            if (is({"both"}, by)) ++legs_.back().by_two;
            return;
        }
        std::int64_t loops = is({"one"}, by) ? 1 : is({"two"}, by) ? 2 : is({"three"}, by) ? 3 : 0;
        if (loops == 0 && at_ + by < words_.size() && number(words_[at_ + by]) &&
            words_[at_ + by].size() < 3)
            loops = base::leading_number<std::int64_t>(words_[at_ + by]);
        if (loops == 1) legs_.back().by_one = true;
        if (loops == 2) {
            const bool twice = is({"twice"}, by + 2) || is({"twice"}, by + 3);
            legs_.back().by_two += twice ? 2 : 1;
            closed_ = true;
        }
        if (loops > 2) closed_ = true;
    }

    void repeat() {
        std::int64_t more = 0;
        for (std::size_t by = 1; by < 8 && at_ + by < words_.size() && !is({"."}, by); ++by) {
            if (is({"once"}, by)) more = 1;
            if (is({"twice"}, by)) more = 2;
            if (number(words_[at_ + by]) && words_[at_ + by].size() == 1 &&
                (is({"times", "time", "more"}, by + 1)))
                more = base::leading_number<std::int64_t>(words_[at_ + by]);
        }
        const std::vector<Leg> part(legs_.begin() + static_cast<std::ptrdiff_t>(star_),
                                    legs_.end());
        for (; more > 0 && legs_.size() < 30; --more)
            legs_.insert(legs_.end(), part.begin(), part.end());
    }

    std::vector<std::string> words_;
    std::size_t at_ = 0;
    std::size_t star_ = 0;
    std::int64_t overs_ = 0;
    bool closed_ = false;
    std::vector<Leg> legs_;
};

}  // namespace

bool tells_how(std::string_view low) {
    static constexpr std::string_view signs[] = {
        "insert hook",      "insert your hook", "insert the hook", "pull up a l",  "pull up l",
        "draw up a l",      "draw up l",        "pull through",    "draw through", "yarn over",
        "straight through", "through two",      "through 2",       "through all",  "loops on hook",
        "lps on hook",      "loops left on"};
    return std::any_of(std::begin(signs), std::end(signs), [&](std::string_view sign) {
        return low.find(sign) != std::string_view::npos;
    });
}

std::optional<HowMade> how_made(std::string_view low) {
    const auto legs = Loops(low).run();
    if (!legs) return std::nullopt;
    const Leg& first = legs->front();
    // Legs that differ are no cluster of one stitch.
    for (const Leg& leg : *legs)
        if (leg.overs != first.overs) return std::nullopt;
    HowMade out;
    out.legs = static_cast<std::int64_t>(legs->size());
    const bool one = out.legs == 1;
    if (first.overs == 0)
        out.kind = one && first.by_one ? "esc" : "sc";
    else if (first.overs == 1)
        out.kind = first.by_two >= (one ? 2 : 1) ? "dc" : "hdc";
    else if (first.overs == 2)
        out.kind = "tr";
    else
        return std::nullopt;
    const auto own =
        std::count_if(legs->begin(), legs->end(), [](const Leg& leg) { return leg.next; });
    out.places = own > 1 ? out.legs : 1;
    return out;
}

}  // namespace skeinfall::notation
