#pragma once
/// \file
/// HTML from the templates of lib/templates, which are mustache: everything a template prints is
/// escaped but for what its author writes in three braces. Inner header of report.

#include <string>
#include <string_view>
#include <vector>

#include <kainjow/mustache.hpp>

#include "skeinfall/report/materials.hpp"

namespace skeinfall::report {

using TemplateData = kainjow::mustache::data;
using TemplateList = kainjow::mustache::list;

/// A template with its partials ("table", "materials") filled.
[[nodiscard]] std::string rendered(std::string_view name, TemplateData data);

/// The shades of both schemes and the style sheet of all pages.
[[nodiscard]] std::string page_style();

/// A template as it stands.
[[nodiscard]] std::string template_text(std::string_view name);

/// A PictureFormat::web picture as part of a page: its ids begin with `prefix`, so that two
/// pictures keep apart.
[[nodiscard]] std::string inline_svg(std::string svg, const std::string& prefix);

/// What the partial "materials" prints: blocks, table, chart (`chart` is an inline SVG, may be
/// empty).
void put_materials(TemplateData& data, const MaterialsDocument& document, const std::string& chart);

[[nodiscard]] TemplateList texts_of(const std::vector<std::string>& texts);

}  // namespace skeinfall::report
