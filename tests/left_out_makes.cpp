// How well published makes are foretold by the others: page after page is left out, scales and
// coefficients are fitted anew to the rest, and what the rest foretells is laid beside what the
// page says. Usage: left_out_makes [--all | --posed]   (--all: every make, else the worst ten;
// --posed: the regression itself as JSON, with its solution, for another program to solve)
//
// "error" is the foretold amount over the stated one. Intervals are of a bootstrap by page, 4 000
// times, from a fixed seed. Whole balls count by the middle of what they can be.

#include <algorithm>
#include <cmath>
#include <functional>
#include <iostream>
#include <map>
#include <random>
#include <set>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "use_fit.hpp"

namespace {

using namespace skeinfall;

struct Judged {
    fit::Make make;
    fit::Foretold told;
    std::size_t alike = 0;  ///< other pages with this stitch

    [[nodiscard]] double rest() const { return told.observed - told.mean; }
    [[nodiscard]] double standard() const { return rest() / told.spread; }
};

using Some = std::vector<const Judged*>;
using Statistic = std::function<double(const Some&)>;

double median(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    const std::size_t half = values.size() / 2;
    return values.size() % 2 == 1 ? values[half] : 0.5 * (values[half - 1] + values[half]);
}

double median_error(const Some& some) {
    std::vector<double> out;
    for (const Judged* each : some) out.push_back(std::abs(std::expm1(-each->rest())));
    return 100.0 * median(out);
}

double bias(const Some& some) {
    double sum = 0.0;
    for (const Judged* each : some) sum -= each->rest();
    return 100.0 * sum / static_cast<double>(some.size());
}

Statistic covered(double z) {
    return [z](const Some& some) {
        const auto in = std::count_if(some.begin(), some.end(), [&](const Judged* each) {
            return std::abs(each->standard()) <= z;
        });
        return 100.0 * static_cast<double>(in) / static_cast<double>(some.size());
    };
}

struct Interval {
    double low = 0.0;
    double high = 0.0;
};

Interval bootstrap(const Some& some, const Statistic& statistic) {
    std::map<std::string_view, Some> by_page;
    for (const Judged* each : some) by_page[each->make.page].push_back(each);
    std::vector<const Some*> pages;
    for (const auto& [page, makes] : by_page) pages.push_back(&makes);
    std::mt19937 random(20240518);
    std::uniform_int_distribution<std::size_t> any(0, pages.size() - 1);
    constexpr std::size_t times = 4000;
    std::vector<double> found;
    for (std::size_t i = 0; i < times; ++i) {
        Some drawn;
        for (std::size_t page = 0; page < pages.size(); ++page) {
            const Some& one = *pages[any(random)];
            drawn.insert(drawn.end(), one.begin(), one.end());
        }
        found.push_back(statistic(drawn));
    }
    std::sort(found.begin(), found.end());
    return {found[times / 40], found[times - times / 40 - 1]};
}

void print(const std::string& name, const Some& some) {
    if (some.empty()) return;
    const auto cell = [&](const Statistic& statistic) {
        const Interval interval = bootstrap(some, statistic);
        return fmt::format("{:6.1f} ({:.1f} to {:.1f})", statistic(some), interval.low,
                           interval.high);
    };
    std::set<std::string_view> pages;
    for (const Judged* each : some) pages.insert(each->make.page);
    std::cout << fmt::format("{:<16}{:>6}{:>6}  {:<24}{:<24}{:<24}{:<24}\n", name, some.size(),
                             pages.size(), cell(median_error), cell(bias), cell(covered(1.28155)),
                             cell(covered(1.95996)));
}

std::string why(const Judged& one) {
    std::string out =
        fmt::format("{} other page{} with this stitch", one.alike, one.alike == 1 ? "" : "s");
    if (!one.make.class_known.empty()) out += "; thickness by class only";
    if (!(one.make.fabric.tool_mm > 0.0)) out += "; no tool stated";
    if (!(one.make.fabric.stitches_per_sq_dm > 0.0)) out += "; no gauge";
    if (one.make.evidence == "balls") out += "; whole balls";
    if (one.make.fabric.shape == "triangle" || one.make.fabric.shape == "garment")
        out += "; its area is only roughly what its sizes say";
    return out;
}

void print_matrix(const char* name, const Eigen::MatrixXd& matrix) {
    std::cout << '"' << name << "\": [";
    for (Eigen::Index row = 0; row < matrix.rows(); ++row) {
        std::cout << (row == 0 ? "[" : ",\n[");
        for (Eigen::Index column = 0; column < matrix.cols(); ++column)
            std::cout << fmt::format("{}{}", column == 0 ? "" : ",", matrix(row, column));
        std::cout << ']';
    }
    std::cout << ']';
}

int print_posed(const std::vector<fit::Make>& makes) {
    const fit::Scales scales = fit::best_scales(makes, {});
    const fit::Posed posed = fit::posed(makes, scales);
    const fit::Fit fit = fit::fitted(makes, scales);
    std::cout << '{';
    print_matrix("rows", posed.rows);
    for (const auto& [name, values] : {std::pair<const char*, Eigen::MatrixXd>{"seen", posed.seen},
                                       {"noise", posed.noise},
                                       {"mean", posed.mean},
                                       {"spread", posed.spread},
                                       {"coefficients", fit.use},
                                       {"covariance", fit.use_covariance}}) {
        std::cout << ",\n";
        print_matrix(name, values);
    }
    std::cout << "}\n";
    return 0;
}

}  // namespace

int main(int argc, char** argv) {
    const bool all = argc > 1 && std::string(argv[1]) == "--all";
    const std::vector<fit::Make> makes = fit::published_makes();
    if (argc > 1 && std::string(argv[1]) == "--posed") return print_posed(makes);
    std::set<std::string_view> pages;
    for (const fit::Make& make : makes) pages.insert(make.page);
    std::vector<Judged> judged;
    for (const std::string_view page : pages) {
        std::vector<fit::Make> rest;
        for (const fit::Make& make : makes)
            if (make.page != page) rest.push_back(make);
        const fit::Fit fit = fit::fitted(rest, fit::best_scales(rest, {}));
        for (const fit::Make& make : makes) {
            if (make.page != page) continue;
            std::set<std::string_view> alike;
            for (const fit::Make& other : rest)
                if (other.fabric.stitch == make.fabric.stitch &&
                    other.fabric.knit == make.fabric.knit)
                    alike.insert(other.page);
            judged.push_back({make, fit::foretold(fit, make), alike.size()});
        }
    }
    std::cout << fmt::format("{:<16}{:>6}{:>6}  {:<24}{:<24}{:<24}{:<24}\n", "", "makes", "pages",
                             "median error, %", "bias, %", "in the 80 % band, %",
                             "in the 95 % band, %");
    const auto some = [&](const std::function<bool(const fit::Make&)>& wanted) {
        Some out;
        for (const Judged& each : judged)
            if (wanted(each.make)) out.push_back(&each);
        return out;
    };
    print("all", some([](const fit::Make&) { return true; }));
    print("weighed", some([](const fit::Make& make) { return make.evidence == "exact"; }));
    print("stated", some([](const fit::Make& make) { return make.evidence == "stated"; }));
    print("whole balls", some([](const fit::Make& make) { return make.evidence == "balls"; }));
    print("crochet", some([](const fit::Make& make) { return !make.fabric.knit; }));
    print("knitting", some([](const fit::Make& make) { return make.fabric.knit; }));

    const fit::Fit fit = fit::fitted(makes, fit::best_scales(makes, {}));
    const double noise = std::hypot(fit.scales.page, fit.scales.exact);
    constexpr double half_of_normal = 0.67449;
    std::cout << fmt::format(
        "\nPages differ by {:.0f} % where stitch, tool and yarn are alike, and weighed makes of "
        "one "
        "page by {:.0f} %:\nno way to foretell another's make from these can reach a median error "
        "below {:.1f} %.\n",
        100.0 * fit.scales.page, 100.0 * fit.scales.exact, 100.0 * half_of_normal * noise);

    std::array<int, 10> tenths{};
    for (const Judged& each : judged) {
        const double share = 0.5 * std::erfc(-each.standard() / std::sqrt(2.0));
        ++tenths.at(std::min<std::size_t>(9, static_cast<std::size_t>(10.0 * share)));
    }
    std::cout << "Makes by the tenth of their own law they fall in (even is right):";
    for (const int count : tenths) std::cout << ' ' << count;
    std::cout << "\n\n" << (all ? "Every make" : "The worst ten") << ", foretold over stated:\n";
    std::sort(judged.begin(), judged.end(), [](const Judged& a, const Judged& b) {
        return std::abs(a.rest()) > std::abs(b.rest());
    });
    for (std::size_t i = 0; i < judged.size() && (all || i < 10); ++i)
        std::cout << fmt::format(
            "{} {:<8}{:<14}{:+6.0f} %, {:.1f} times its band; {} ({})\n", judged[i].make.id,
            judged[i].make.fabric.knit ? "knit" : "crochet", judged[i].make.fabric.stitch,
            100.0 * std::expm1(-judged[i].rest()), std::abs(judged[i].standard()), why(judged[i]),
            judged[i].make.page);
    return 0;
}
