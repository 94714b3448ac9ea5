#pragma once
/// \file
/// A designer's materials section as data: what a maker must have, for every size. Renderers in
/// report turn it into words.

#include <optional>
#include <string>
#include <vector>

#include "skeinfall/project/project.hpp"
#include "skeinfall/units/quantity.hpp"
#include "skeinfall/yarn/yarn.hpp"

namespace skeinfall::materials {

/// The yarn of one role. Lists have one entry a size.
struct YarnLine {
    std::string role;
    std::string name;
    std::string colour;
    std::optional<yarn::WeightClass> weight;
    yarn::FibreContent fibre;
    std::optional<units::Grist> grist;
    yarn::Label put_up;                ///< of one skein, when the project states it
    std::vector<units::Length> total;  ///< margin included, not rounded
    std::vector<long> skeins;          ///< whole skeins; empty without a put-up
    std::string how;                   ///< how the total was found
    bool one_lot = true;
};

struct FinishedLine {
    std::string piece;
    std::vector<long> count;
    std::vector<project::FinishedSize> size;
    bool round = false;  ///< width is a circumference
};

struct Section {
    std::string title;
    project::Craft craft = project::Craft::crochet;
    project::Terms terms = project::Terms::us;
    std::string skill;
    std::vector<std::string> sizes;
    std::vector<FinishedLine> finished;
    std::vector<YarnLine> yarns;
    units::Ratio margin{};
    project::Gauge gauge;
    std::vector<std::string> notions;
    std::vector<std::string> care;
    std::vector<std::string> cautions;
};

/// The section of a project, every size worked out. Throws what need::need_of() throws.
[[nodiscard]] Section section_of(const project::Project& project);

/// The usual cautions for a recipient and the fibres used; each defers to local rules.
[[nodiscard]] std::vector<std::string> cautions_for(const project::Project& project);

}  // namespace skeinfall::materials
