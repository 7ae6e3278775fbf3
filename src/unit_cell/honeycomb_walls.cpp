#include "unit_cell/honeycomb_walls.hpp"

#include "crushwright/errors.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace crushwright {
namespace {

// Open hexagon over whole hexagon. Uniform wall t, width across flats S: (1 - t/S)². Doubled walls (2t on two
// opposite sides): area of the hexagon with half widths S/2 - t once and S/2 - t/2 twice. S = √3 × side.
constexpr double root3 = std::numbers::sqrt3;
constexpr std::array<HoneycombForm, 4> forms{{
    {2 / root3, -1.0 / 3, 1, 1, "all walls of one thickness", "side of the hexagon"},
    {2, -1, 1 / root3, 1, "all walls of one thickness", "width across flats"},
    {8 / (3 * root3), -4.0 / 9, 1, 2, "one wall of three doubled", "side of the hexagon"},
    {8.0 / 3, -4.0 / 3, 1 / root3, 2, "one wall of three doubled", "width across flats"},
}};

} // namespace

const HoneycombForm& honeycomb_form(double nominal_slope) {
  const auto form = std::find_if(forms.begin(), forms.end(), [&](const HoneycombForm& candidate) {
    return std::abs(candidate.nominal_slope - nominal_slope) < 2e-3;
  });
  if (form == forms.end())
    throw OutOfDomain(fmt::format("no regular honeycomb has a nominal density of {} times the wall's size ratio; "
                                  "expected 1.1547, 2, 1.5396 or 2.6667",
                                  nominal_slope));
  return *form;
}

std::array<double, 2> honeycomb_rectangle(const HoneycombForm& form) {
  return {root3 * form.side, 3 * form.side};
}

std::vector<StandingWall> honeycomb_walls(const HoneycombForm& form, double size_ratio, double reach) {
  const double half_width = 0.5 * root3;
  const std::array<double, 2> box = honeycomb_rectangle(form);
  std::vector<StandingWall> walls;
  const auto add = [&](double x1, double y1, double x2, double y2, double doubling) {
    const Eigen::Vector2d from = form.side * Eigen::Vector2d(x1, y1), to = form.side * Eigen::Vector2d(x2, y2);
    const double half_thickness = 0.5 * doubling * size_ratio;
    const double margin = reach + half_thickness;
    if (std::max(from.x(), to.x()) < -margin || std::min(from.x(), to.x()) > box[0] + margin ||
        std::max(from.y(), to.y()) < -margin || std::min(from.y(), to.y()) > box[1] + margin)
      return;
    walls.push_back({0.5 * (from + to), (to - from).normalized(), 0.5 * (to - from).norm(), half_thickness});
  };
  for (int shift = -2; shift <= 2; ++shift)
    for (int rise = -2; rise <= 2; ++rise) {
      const double x = 2 * half_width * shift, y = 3.0 * rise;
      add(x, y, x, y + 1, form.doubling);
      add(x, y + 1, x + half_width, y + 1.5, 1);
      add(x, y + 1, x - half_width, y + 1.5, 1);
      add(x + half_width, y + 1.5, x + half_width, y + 2.5, form.doubling);
      add(x + half_width, y + 2.5, x, y + 3, 1);
      add(x + half_width, y + 2.5, x + 2 * half_width, y + 3, 1);
    }
  return walls;
}

} // namespace crushwright
