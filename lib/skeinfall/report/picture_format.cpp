#include "skeinfall/base/text.hpp"
#include "skeinfall/report/picture.hpp"

namespace skeinfall::report {

std::optional<PictureFormat> picture_format_of(std::string_view file_name) {
    const std::string name = base::lower(file_name);
    if (name.ends_with(".svg")) return PictureFormat::svg;
    if (name.ends_with(".pdf")) return PictureFormat::pdf;
    if (name.ends_with(".png")) return PictureFormat::png;
    return std::nullopt;
}

}  // namespace skeinfall::report
