#pragma once
/// \file
/// Words by which makers name things, and what each says of how many there are, for whom or for
/// what. Tables: lib/data/thing_words.csv, lib/data/colour_words.csv.

#include <string_view>

namespace skeinfall::project {

enum class Thing {
    pair,      ///< worn two at a time: "mitts"
    several,   ///< a plural without an s: "feet"
    one,       ///< one thing in the plural: "trousers"
    group,     ///< "set"
    measure,   ///< behind a figure that counts no things: "2 hour hat"
    size,      ///< behind a name: "socks adult M"
    amount,    ///< on top of a piece, and told by no length of its own: "embroidery 2 m"
    heat,      ///< used near kitchen heat
    infant,    ///< for an infant
    child,     ///< for a child
    adult,     ///< for an adult
    cord,      ///< what can tighten round a neck, or come off
    shedding,  ///< a fibre that sheds hair
    unsaid,    ///< an answer that says nothing: "don't know"
    hollow,    ///< two layers where it is measured flat: "mittens", "bag"
    shape,     ///< no rectangle: "hexagons"
    counter,   ///< behind a figure that counts things: "48 pcs"
    bids,      ///< before a count: "make 3"
    roughly,   ///< beside an amount that may be more: "at least"
    nearby,    ///< the same right before it, and a place elsewhere: "around 30 yd"
    at_most,   ///< beside an amount that is the most: "up to"
    numbered,  ///< before a figure that says which, and not how many: "version 2"
    holder,    ///< holds so many of what is made: "box" of "box of 6 coasters"
    sleeved,   ///< has sleeves besides its body: "sweater"
    fingered,  ///< has fingers besides its hand: "gloves"
    bodiless,  ///< says that those are not there: "sleeveless"
    coloured,  ///< of several colours: "striped"
    one_ball,  ///< whose colours come from one yarn: "self-striping"
    felted     ///< shrunk when it is done
};

/// Whether a word is of that kind, in either case.
[[nodiscard]] bool is_thing(std::string_view word, Thing means);

/// Whether a text holds a word or phrase of that kind; hyphens part words as blanks do, and "'s" of
/// a word is left out.
[[nodiscard]] bool speaks_of(std::string_view text, Thing means);

/// "moss", "teal".
[[nodiscard]] bool is_colour_word(std::string_view word);

}  // namespace skeinfall::project
