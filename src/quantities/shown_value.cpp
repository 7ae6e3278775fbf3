#include "quantities/dimension_table.hpp"
#include "quantities/unit_conversion.hpp"
#include "quantities/units.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace crushwright {

namespace {

constexpr int significant_digits = 4;
constexpr double least_written_out = 1e-4;
constexpr double greatest_written_out = 1e9;

std::string without_trailing_zeros(std::string digits) {
  if (digits.find('.') == std::string::npos) {
    return digits;
  }
  digits.erase(digits.find_last_not_of('0') + 1);
  if (digits.back() == '.') {
    digits.pop_back();
  }
  return digits;
}

std::string show_number(double number) {
  const double size = std::abs(number);
  if (number == 0) {
    return "0";
  }
  if (!std::isfinite(number) || size < least_written_out || size >= greatest_written_out) {
    return fmt::format("{:.{}g}", number, significant_digits);
  }
  const int decimals = significant_digits - 1 - static_cast<int>(std::floor(std::log10(size)));
  return without_trailing_zeros(fmt::format("{:.{}f}", number, std::max(decimals, 0)));
}

} // namespace

std::string display_unit(Dimension dimension) {
  const DimensionRow& row = row_of(dimension);
  return row.spellings.empty() ? std::string() : row.spellings.front().written;
}

double in_display_unit(double si_value, Dimension dimension) {
  return to_first_unit(si_value, dimension);
}

std::string show(double si_value, Dimension dimension) {
  const std::string number = show_number(in_display_unit(si_value, dimension));
  const std::string unit = display_unit(dimension);
  return unit.empty() ? number : fmt::format("{} {}", number, unit);
}

std::string si_unit(Dimension dimension) {
  return std::string(row_of(dimension).si_unit);
}

} // namespace crushwright
