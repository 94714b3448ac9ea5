// How well published makes are foretold by the others: page after page is left out, scales and
// coefficients are fitted anew to the rest, and what the rest foretells is laid beside what the
// page says. Usage: left_out_makes [--all | --posed | --kept-back FILE]   (--all: every make, else
// the worst ten; --posed: the regression itself as JSON, with its solution, for another program to
// solve; --kept-back: makes of a file with the table's columns, foretold by the whole table)
//
// "error" is the foretold amount over the stated one. Intervals are of a bootstrap by page, 4 000
// times, from a fixed seed. Whole balls only say between what and what the amount lies: inside that
// nothing is off, outside it counts how far the nearer end is.

#include <algorithm>
#include <cmath>
#include <fstream>
#include <functional>
#include <iostream>
#include <iterator>
#include <map>
#include <random>
#include <set>
#include <string>
#include <vector>

#include <csv.h>
#include <fmt/format.h>

#include "use_fit.hpp"

namespace {

using namespace skeinfall;

struct Judged {
    fit::Make make;
    fit::Foretold told;
    std::size_t alike = 0;  ///< other pages with this stitch

    [[nodiscard]] double rest() const { return told.rest(); }
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
                                       {"least", posed.least},
                                       {"most", posed.most},
                                       {"of_interval", posed.of_interval},
                                       {"coefficients", fit.use},
                                       {"covariance", fit.use_covariance}}) {
        std::cout << ",\n";
        print_matrix(name, values);
    }
    std::cout << "}\n";
    return 0;
}

std::size_t pages_alike(const fit::Make& make, const std::vector<fit::Make>& makes) {
    std::set<std::string_view> alike;
    for (const fit::Make& other : makes)
        if (other.page != make.page && other.fabric.stitch == make.fabric.stitch &&
            other.fabric.knit == make.fabric.knit)
            alike.insert(other.page);
    return alike.size();
}

/// Each make by the others' pages.
std::vector<Judged> left_out(const std::vector<fit::Make>& makes) {
    std::set<std::string_view> pages;
    for (const fit::Make& make : makes) pages.insert(make.page);
    std::vector<Judged> out;
    for (const std::string_view page : pages) {
        std::vector<fit::Make> rest;
        for (const fit::Make& make : makes)
            if (make.page != page) rest.push_back(make);
        const fit::Fit fit = fit::fitted(rest, fit::best_scales(rest, {}));
        for (const fit::Make& make : makes)
            if (make.page == page)
                out.push_back({make, fit::foretold(fit, make), pages_alike(make, rest)});
    }
    return out;
}

using Cells = std::vector<std::vector<std::string>>;

Cells cells_of(const std::string& file) {
    struct Table {
        Cells rows;
        std::vector<std::string> row;
    } table;
    std::ifstream in(file);
    const std::string text{std::istreambuf_iterator<char>(in), {}};
    const auto cell = [](void* data, std::size_t size, void* to) {
        static_cast<Table*>(to)->row.emplace_back(static_cast<const char*>(data), size);
    };
    const auto end = [](int, void* to) {
        auto* all = static_cast<Table*>(to);
        all->rows.push_back(std::move(all->row));
        all->row.clear();
    };
    csv_parser parser{};
    csv_init(&parser, CSV_STRICT | CSV_STRICT_FINI);
    const bool read =
        csv_parse(&parser, text.data(), text.size(), cell, end, &table) == text.size();
    csv_fini(&parser, cell, end, &table);
    csv_free(&parser);
    if (!read || table.rows.empty() || table.rows.front() != fit::make_columns())
        throw std::runtime_error(file + " has not the columns of published_makes.csv");
    table.rows.erase(table.rows.begin());
    return table.rows;
}

/// How far makes differ of which a page says the same: no table of them can foretell another's
/// make more closely. What the fit says of each is taken off first, so that a tool a little
/// thicker is no noise.
struct Scatter {
    double spread = 0.0;
    std::size_t pairs = 0;
};

Scatter scatter(const std::vector<fit::Make>& makes, const fit::Fit& fit, bool of_one_page) {
    Scatter out;
    for (std::size_t i = 0; i < makes.size(); ++i)
        for (std::size_t j = i + 1; j < makes.size(); ++j) {
            const fit::Make& a = makes[i];
            const fit::Make& b = makes[j];
            const bool same = a.fabric.knit == b.fabric.knit &&
                              a.fabric.stitch == b.fabric.stitch && a.weight == b.weight &&
                              a.evidence == b.evidence;
            if (!same || a.evidence == "balls" || (a.page == b.page) != of_one_page) continue;
            const fit::Foretold first = fit::foretold(fit, a);
            const fit::Foretold second = fit::foretold(fit, b);
            const double apart = first.rest() - second.rest();
            out.spread += 0.5 * apart * apart;
            ++out.pairs;
        }
    if (out.pairs > 0) out.spread = std::sqrt(out.spread / static_cast<double>(out.pairs));
    return out;
}

constexpr double half_of_normal = 0.67449;

void print_noise(const std::vector<fit::Make>& makes) {
    const fit::Fit fit = fit::fitted(makes, fit::best_scales(makes, {}));
    const double noise = std::hypot(fit.scales.page, fit.scales.exact);
    std::cout << fmt::format(
        "\nPages differ by {:.0f} % where stitch, tool and yarn are alike, and weighed makes of "
        "one "
        "page by {:.0f} %:\nno way to foretell another's make from these can reach a median error "
        "below {:.1f} %.\n",
        100.0 * fit.scales.page, 100.0 * fit.scales.exact, 100.0 * half_of_normal * noise);
    const Scatter within = scatter(makes, fit, true);
    const Scatter between = scatter(makes, fit, false);
    std::cout << fmt::format(
        "Pairs of one stitch, class and evidence: {} on one page differ by {:.1f} %, {} of two "
        "pages by {:.1f} %,\nwhich alone is a median error of {:.1f} %.\n",
        within.pairs, 100.0 * within.spread, between.pairs, 100.0 * between.spread,
        100.0 * half_of_normal * between.spread);
}

void print_groups(const std::vector<Judged>& judged) {
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
    print("all but balls", some([](const fit::Make& make) { return make.evidence != "balls"; }));
    print("whole balls", some([](const fit::Make& make) { return make.evidence == "balls"; }));
    print("crochet", some([](const fit::Make& make) { return !make.fabric.knit; }));
    print("knitting", some([](const fit::Make& make) { return make.fabric.knit; }));
}

void print_tenths(const std::vector<Judged>& judged) {
    std::array<int, 10> tenths{};
    for (const Judged& each : judged) {
        const double share = 0.5 * std::erfc(-each.standard() / std::sqrt(2.0));
        ++tenths.at(std::min<std::size_t>(9, static_cast<std::size_t>(10.0 * share)));
    }
    std::cout << "Makes by the tenth of their own law they fall in (even is right):";
    for (const int count : tenths) std::cout << ' ' << count;
}

void print_worst(std::vector<Judged> judged, bool all) {
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
}

}  // namespace

int main(int argc, char** argv) try {
    const std::string wanted = argc > 1 ? argv[1] : "";
    const std::vector<fit::Make> makes = fit::published_makes();
    if (wanted == "--posed") return print_posed(makes);
    if (wanted == "--kept-back" && argc > 2) {
        const Cells cells = cells_of(argv[2]);
        const fit::Fit fit = fit::fitted(makes, fit::best_scales(makes, {}));
        std::vector<Judged> judged;
        for (const std::vector<std::string>& row : cells) {
            const fit::Make make = fit::make_of(row);
            judged.push_back({make, fit::foretold(fit, make), pages_alike(make, makes)});
        }
        print_groups(judged);
        print_tenths(judged);
        print_worst(judged, true);
        return 0;
    }
    const std::vector<Judged> judged = left_out(makes);
    print_groups(judged);
    print_noise(makes);
    print_tenths(judged);
    print_worst(judged, wanted == "--all");
    return 0;
} catch (const std::exception& error) {
    std::cerr << "left_out_makes: " << error.what() << "\n";
    return 1;
}
