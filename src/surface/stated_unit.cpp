#include "surface/stated_unit.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <string_view>

namespace crushwright {
namespace {

struct LengthUnit {
  std::string_view name;
  double metres;
};

// The inch and the foot are exact by definition (international yard and pound agreement, 1959).
constexpr std::array<LengthUnit, 6> units{
    {{"µm", 1e-6}, {"mm", 1e-3}, {"cm", 1e-2}, {"in", 0.0254}, {"ft", 0.3048}, {"m", 1}}};
constexpr double smallest = 0.005;
constexpr double largest = 10;

bool is_plausible(double metres) {
  return metres >= smallest && metres <= largest;
}

std::string shown_length(double metres) {
  return metres < 1 ? fmt::format("{:.3g} mm", 1000 * metres) : fmt::format("{:.3g} m", metres);
}

std::string name_of(double metres_per_unit) {
  for (const LengthUnit& unit : units)
    if (std::abs(unit.metres - metres_per_unit) < 1e-9 * unit.metres)
      return std::string(unit.name);
  return fmt::format("{:.6g} m", metres_per_unit);
}

} // namespace

std::string doubt_of_unit(double largest_side, double metres_per_unit) {
  if (is_plausible(largest_side))
    return "";
  std::string words = fmt::format("the largest side is {} with the stated unit, {}; a structure of {} is unlikely.",
                                  shown_length(largest_side), name_of(metres_per_unit),
                                  largest_side < smallest ? "under 5 mm" : "over 10 m");
  std::string others;
  for (const LengthUnit& unit : units) {
    const double side = largest_side / metres_per_unit * unit.metres;
    if (is_plausible(side))
      others += fmt::format("{}{} with {}", others.empty() ? "" : ", ", shown_length(side), unit.name);
  }
  words += others.empty() ? " No usual unit makes it plausible." : fmt::format(" It would be {}.", others);
  return words + " Check the unit that the file was exported in.";
}

} // namespace crushwright
