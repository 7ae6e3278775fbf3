#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace crushwright {

/// What the marks in a number's text say about themselves.
enum class NumberForm {
  none,          ///< not a number
  whole,         ///< no mark: 12, -3e2
  decimal_point, ///< a point that can only stand before decimals: 1.5, 0.123, 1.234e3
  decimal_comma, ///< the same for a comma
  unsure_point,  ///< 1.234: decimals, or a mark between thousands
  unsure_comma,  ///< 1,234
  grouped        ///< marks between thousands: 1,234,567 or 1.234,5
};

NumberForm form_of(std::string_view cell);

/// The value of a number's text; absent when it is no number with this decimal mark or beyond double precision.
std::optional<double> number_in(std::string_view cell, char decimal_mark);

/// Collects over the cells of a file what they say about its decimal mark.
class DecimalMarkSearch {
public:
  struct Sighting {
    std::string text;
    std::size_t line = 0; ///< index from 0
  };
  void see(std::string_view cell, std::size_t line);

  std::optional<Sighting> decimal_point, decimal_comma, unsure_point, unsure_comma, grouped; ///< the first of each
};

} // namespace crushwright
