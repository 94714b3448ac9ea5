#pragma once
/// \file
/// How a reader wants numbers written, and how wide the page is. The formatter of format.hpp and
/// the renderers of report ask for the style in force, so that no finished text has to be searched
/// for numbers and names with points in them stay as they are. Numbers for programs (JSON, CSV)
/// never change.

#include <cstddef>
#include <string_view>

namespace skeinfall::units {

enum class Systems { both, metric, imperial };

struct NumberStyle {
    char decimal_mark = '.';
    Systems systems = Systems::both;  ///< which of yards and metres, inches and centimetres
    bool metres_first = false;        ///< where both are printed
    /// Of a yarn whose length per mass nobody knows a metre stands for a gram, and is printed so.
    bool yarn_in_grams = false;
    std::size_t columns = 0;  ///< of the page that tables are to fit; 0: of any width

    [[nodiscard]] bool metric() const { return systems != Systems::imperial; }
    [[nodiscard]] bool imperial() const { return systems != Systems::metric; }
    /// The unit to print in where there is room for one: metres and centimetres, or yards and
    /// inches.
    [[nodiscard]] bool metric_leads() const { return metric() && (metres_first || !imperial()); }
    /// Between the numbers of a list: a comma that is a decimal mark cannot part them.
    [[nodiscard]] std::string_view list_mark() const { return decimal_mark == ',' ? "; " : ", "; }
};

/// The style in force in this thread: a point, yards before metres, unless a WithNumberStyle lives.
[[nodiscard]] const NumberStyle& number_style();

/// Puts a style in force in this thread for as long as it lives.
class WithNumberStyle {
  public:
    explicit WithNumberStyle(const NumberStyle& style);
    WithNumberStyle(const WithNumberStyle&) = delete;
    WithNumberStyle& operator=(const WithNumberStyle&) = delete;
    WithNumberStyle(WithNumberStyle&&) = delete;
    WithNumberStyle& operator=(WithNumberStyle&&) = delete;
    ~WithNumberStyle();

  private:
    NumberStyle before_;
};

}  // namespace skeinfall::units
