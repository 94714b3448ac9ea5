#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/detail/amount_like.hpp"
#include "skeinfall/exchange/detail/sheet_rows.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::exchange::detail {

/// "62 g", "40 yd", "1.5 balls".
void SheetRows::take_left(const std::string& cell) {
    if (const auto mass = units::parse_mass(cell)) {
        weighed_ = Mass{cell, *mass};
    } else if (const auto length = units::parse_length(cell)) {
        length_left_ = Length{cell, *length};
    } else if (const auto count = quantity_in(cell)) {
        count_left_ = *count;
    } else {
        refuse(sheet_field::left, base::quoted(cell) + " does not say how much is left",
               "a weight, a length or a number of skeins, such as 62 g or 1.5 balls", "");
    }
}

void SheetRows::take_grist(const Column& column, const std::string& cell) {
    const auto grist = units::parse_grist(is_figure(cell) ? cell + " " + column.unit : cell);
    if (grist)
        grist_ = *grist;
    else
        refuse(sheet_field::grist, grist.problem().what,
               "a length per weight, such as 240 m per 100 g", "");
}

/// A length per mass gives the length of a skein whose mass is known, be it what is left of it.
void SheetRows::settle_grist() {
    if (!grist_ || (length_ && mass_)) return;
    if (!mass_ && weighed_each_) mass_ = weighed_each_;
    if (!mass_ && weighed_)
        mass_ = count_.all() == 1
                    ? *weighed_
                    : mass_like(*weighed_, weighed_->value / static_cast<double>(count_.all()));
    if (!mass_ && !total_mass_)
        return refuse(sheet_field::grist, "a length per weight does not say what a skein holds",
                      "what each skein weighs as well",
                      "Add a column \"label mass\", or one with what is left in grams.");
    const Mass each =
        mass_ ? *mass_
              : mass_like(*total_mass_, total_mass_->value / static_cast<double>(count_.all()));
    mass_ = each;
    const units::Length length = each.value * *grist_;
    if (!length_) length_ = length_like(Length{"1 m", units::metre}, length);
}

}  // namespace skeinfall::exchange::detail
