#include "skeinfall/yarn/finding.hpp"

#include <algorithm>

namespace skeinfall::yarn {

std::string_view name_of(Level level) {
    switch (level) {
        case Level::caution:
            return "caution";
        case Level::stop:
            return "stop";
        case Level::ok:
            break;
    }
    return "ok";
}

std::string_view name_of(Confidence confidence) {
    switch (confidence) {
        case Confidence::likely:
            return "likely";
        case Confidence::possible:
            return "possible";
        case Confidence::unlikely:
            break;
    }
    return "unlikely";
}

Level gravest(const std::vector<Finding>& findings) {
    Level worst = Level::ok;
    for (const Finding& finding : findings) worst = std::max(worst, finding.level);
    return worst;
}

}  // namespace skeinfall::yarn
