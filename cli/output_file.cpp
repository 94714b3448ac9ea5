#include "output_file.hpp"

#include <filesystem>
#include <fstream>

#include "skeinfall/base/text.hpp"

#include "options.hpp"

namespace skeinfall::cli {

void write_output(const std::string& option, const std::string& file, const std::string& bytes) {
    const std::string beside = file + ".part";
    std::ofstream out(beside, std::ios::binary);
    out << bytes;
    out.close();
    std::error_code error;
    if (out) std::filesystem::rename(beside, file, error);
    if (!out || error) {
        std::filesystem::remove(beside, error);
        refuse_option(option, "\"" + base::shown_inert(file) + "\" cannot be written",
                      "a file in a folder that is there and may be written to", "");
    }
}

}  // namespace skeinfall::cli
