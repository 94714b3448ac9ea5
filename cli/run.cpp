#include "run.hpp"

#include <ostream>

#include "skeinfall/base/version.hpp"

namespace skeinfall::cli {

int run(const std::vector<std::string>&, std::ostream& out, std::ostream&) {
    out << "skeinfall " << base::version() << "\n";
    return 0;
}

}  // namespace skeinfall::cli
