// Fits the regression of yarn use to the published makes and writes it as a C++ header:
// coefficients, their covariance and the scales. Usage: fit_yarn_use out.hpp

#include <exception>
#include <fstream>
#include <iomanip>
#include <iostream>

#include "use_fit.hpp"

namespace {

using namespace skeinfall;

void write(std::ostream& out, const char* name, const Eigen::MatrixXd& values) {
    out << "inline constexpr std::array<double, " << values.size() << "> " << name << "{";
    for (Eigen::Index row = 0; row < values.rows(); ++row)
        for (Eigen::Index column = 0; column < values.cols(); ++column)
            out << (row + column == 0 ? "" : ",") << values(row, column);
    out << "};\n";
}

void write_names(std::ostream& out, const char* name,
                 const std::vector<project::ColumnPrior>& columns) {
    out << "inline constexpr std::array<std::string_view, " << columns.size() << "> " << name
        << "{";
    for (std::size_t i = 0; i < columns.size(); ++i)
        out << (i == 0 ? "" : ",") << '"' << columns[i].name << '"';
    out << "};\n";
}

}  // namespace

int main(int argc, char** argv) try {
    if (argc != 2) throw std::runtime_error("usage: fit_yarn_use out.hpp");
    const std::vector<fit::Make> makes = fit::published_makes();
    const fit::Fit all = fit::fitted(makes, fit::best_scales(makes, {}));
    std::ofstream out(argv[1]);
    out << "// Made by fit_yarn_use from lib/data/published_makes.csv.\n#pragma once\n\n"
           "#include <array>\n#include <string_view>\n\nnamespace skeinfall::data {\n\n"
        << std::setprecision(12);
    write_names(out, "yarn_use_names", project::use_priors());
    write(out, "yarn_use", all.use);
    write(out, "yarn_use_covariance", all.use_covariance);
    write_names(out, "usual_density_names", project::gauge_priors());
    write(out, "usual_density", all.gauge);
    write(out, "usual_density_covariance", all.gauge_covariance);
    out << "struct yarn_use_scales_of {\n    double stitch, shape, page, exact, stated, "
           "balls;\n};\n"
        << "inline constexpr yarn_use_scales_of yarn_use_scales{" << all.scales.stitch << ","
        << all.scales.shape << "," << all.scales.page << "," << all.scales.exact << ","
        << all.scales.stated << "," << all.scales.balls << "};\n"
        << "inline constexpr int yarn_use_makes = " << makes.size() << ";\n"
        << "\n}  // namespace skeinfall::data\n";
    out.close();
    if (!out) throw std::runtime_error(std::string("cannot write ") + argv[1]);
    return 0;
} catch (const std::exception& error) {
    std::cerr << "fit_yarn_use: " << error.what() << "\n";
    return 1;
}
