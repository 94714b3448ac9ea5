#pragma once
/// \file
/// What the commands that change the stash share: options that describe a skein, days, opening.

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "skeinfall/base/day.hpp"
#include "skeinfall/exchange/stash_fields.hpp"
#include "skeinfall/store/store.hpp"

#include "command.hpp"

namespace skeinfall::cli {

/// --label, --class, --fibre, --colourway, --colour-repeat, --lot, --shade-group, --part, --knots,
/// --note.
[[nodiscard]] std::vector<Option> describing_options();

/// The option that gives a field; the field's own name where none does.
[[nodiscard]] std::string option_of_field(std::string_view field);
[[nodiscard]] Option date_option();
/// --note: anything else, in words.
[[nodiscard]] Option note_option();
[[nodiscard]] Option scale_option();

/// Options and arguments as fields: the same rules as in tables. Mistakes name the option.
class OptionFields : public exchange::Fields {
  public:
    OptionFields() = default;
    /// Takes over every option that is a field.
    explicit OptionFields(const Values& values);

    void set(std::string_view field, const std::string& text);
    /// What mistakes in a field name as their place, in place of its option; nothing at all where
    /// it is empty.
    void name_place(std::string_view field, std::string place) {
        places_[std::string(field)] = std::move(place);
    }
    /// Sets label_length and label_mass from "170 yd / 3.5 oz". Throws base::InputError.
    void set_label(const std::string& text);

    /// The field was set, if only to nothing.
    [[nodiscard]] bool has(std::string_view field) const { return texts_.contains(field); }
    [[nodiscard]] std::string_view value(std::string_view field) const override;
    [[nodiscard]] bool are_cells() const override { return false; }
    void fail(std::string_view field, std::size_t at, std::string what, std::string expected,
              std::string remedy) override;

    /// Throws base::InputError with every mistake.
    [[nodiscard]] std::vector<stash::Movement> movements();
    /// The first mistake of one field, when there is any.
    [[nodiscard]] std::optional<base::Problem> mistake_in(std::string_view field);

  private:
    std::map<std::string, std::string, std::less<>> texts_;
    std::map<std::string, std::string, std::less<>> places_;
    std::vector<std::pair<std::string, base::Problem>> mistakes_;
};

/// --date, else the day it is.
[[nodiscard]] base::Day day_of(const Values& values, const World& world);

/// The stash, to be changed; tells when it was brought up to date.
[[nodiscard]] store::Store stash_to_change(const Values& values, const World& world);

/// Whether a stash would be begun although there is one elsewhere, or in a folder that is not there
/// yet: so looks a path that was mistyped.
[[nodiscard]] bool begins_second_stash(const Values& values, const World& world);
void note_new_stash(const Values& values, const World& world);

/// The stash, to be looked at; says when a large one was not checked whole for a month.
[[nodiscard]] store::Store stash_to_read(const Values& values, const World& world);

/// That no skein has this id, with those whose yarn is called so, or the nearest id.
[[nodiscard]] std::string no_such_skein(const std::string& id,
                                        const std::vector<stash::Skein>& skeins);

/// The `index`th argument. InputError naming it when it is missing.
[[nodiscard]] std::string argument(const Values& values, std::size_t index, const std::string& what,
                                   const std::string& remedy);

}  // namespace skeinfall::cli
