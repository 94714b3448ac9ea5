#pragma once
/// \file
/// What the planning commands (cover, buy, largest) share.

#include <optional>
#include <string>
#include <vector>

#include "skeinfall/cover/cover.hpp"
#include "skeinfall/joins/stop_weights.hpp"
#include "skeinfall/report/picture.hpp"
#include "skeinfall/report/text.hpp"
#include "skeinfall/store/store.hpp"

#include "options.hpp"

namespace skeinfall::cli {

/// What the answer hung on, as it is typed again.
[[nodiscard]] report::AskedWith asked_with(const Values& values);

[[nodiscard]] Option margin_option();
/// What it asks for on top; nothing where it is not given. Throws base::InputError.
[[nodiscard]] std::optional<units::Ratio> margin_asked(const Values& values);
[[nodiscard]] Option prefer_option();

/// Rules for a project: --confidence, --margin (else the project's), --prefer, tails; with progress
/// on stderr once a search passes a second, and its end when the maker stops it.
[[nodiscard]] cover::Rules rules_for(const Values& values, const project::Project& project,
                                     const World& world);

/// The title that readings and skeins set aside go by. Empty for a make that options alone tell:
/// its title is a word of its description, and two scarves are not one.
[[nodiscard]] std::string known_title(const project::Project& project, const Values& values);

/// A project read and worked out in one size.
struct Read {
    project::Project project;
    std::size_t size = 0;
    need::MakeNeed need;
    cover::Rules rules;
    bool size_said = true;  ///< or there is one alone
};
[[nodiscard]] Read read_make(const std::string& file, const Values& values, const World& world);
/// The same of what options say in place of a file.
[[nodiscard]] Read read_asked(const Values& values, const World& world);

/// The stash as these makes find it, one after the other. Of those in work the need becomes that of
/// the rest, by the readings that the stash keeps, and the rules say what is done. With --have what
/// there is was just told, and nothing is in work.
[[nodiscard]] std::vector<stash::Skein> stash_for(const Values& values, const World& world,
                                                  const std::vector<Read*>& reads);

/// The same of a stash that is open.
[[nodiscard]] std::vector<stash::Skein> stash_in_work(const store::Store& store,
                                                      const std::vector<Read*>& reads);

[[nodiscard]] Option work_scale_option();
[[nodiscard]] Option work_tare_option();
/// --scale and --tare.
[[nodiscard]] joins::Scale scale_of(const Values& values);

/// What to draw by the ending of a file's name.
[[nodiscard]] report::PictureFormat picture_format(const std::string& option,
                                                   const std::string& file);

/// The id of a skein that this one may be a slip for.
[[nodiscard]] std::optional<std::string> nearest_id(const std::string& id,
                                                    const std::vector<stash::Skein>& stash);

}  // namespace skeinfall::cli
