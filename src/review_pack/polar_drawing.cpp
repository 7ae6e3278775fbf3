#include "review_pack/polar_drawing.hpp"

#include "review_pack/chart.hpp"
#include "review_pack/svg.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <vector>

#include <fmt/format.h>

namespace crushwright {

namespace {

constexpr double panel = 290, radius = 108, middle_y = 140;
constexpr int steps = 144; // 2.5 degrees, so that 45 degrees is a point of its own

struct Plane {
  const char* title;
  const char *across, *upward;
  Eigen::Vector3d first, second;
};

std::array<Plane, 3> planes() {
  const Eigen::Vector3d x = Eigen::Vector3d::UnitX(), y = Eigen::Vector3d::UnitY(), z = Eigen::Vector3d::UnitZ();
  return {{{"plane of x and y", "x", "y", x, y},
           {"plane of x and z", "x", "z", x, z},
           {"plane of y and z", "y", "z", y, z}}};
}

Eigen::Vector3d direction_at(const Plane& plane, int step) {
  const double angle = 2 * std::numbers::pi * step / steps;
  return std::cos(angle) * plane.first + std::sin(angle) * plane.second;
}

double greatest_modulus(const StiffnessMatrix& stiffness) {
  double greatest = 0;
  for (const Plane& plane : planes()) {
    for (int i = 0; i < steps; ++i) {
      greatest = std::max(greatest, youngs_modulus(stiffness, direction_at(plane, i)));
    }
  }
  return greatest;
}

std::vector<SvgPoint> modulus_line(const StiffnessMatrix& stiffness, const Plane& plane, double centre,
                                   double scale) {
  std::vector<SvgPoint> points;
  for (int i = 0; i <= steps; ++i) {
    const double angle = 2 * std::numbers::pi * i / steps;
    const double reach = scale * youngs_modulus(stiffness, direction_at(plane, i));
    points.push_back({centre + reach * std::cos(angle), middle_y - reach * std::sin(angle)});
  }
  return points;
}

std::vector<SvgPoint> ring(double centre, double reach) {
  std::vector<SvgPoint> points;
  for (int i = 0; i <= 72; ++i) {
    const double angle = 2 * std::numbers::pi * i / 72;
    points.push_back({centre + reach * std::cos(angle), middle_y - reach * std::sin(angle)});
  }
  return points;
}

} // namespace

std::string polar_drawing(const StiffnessMatrix& main, const std::optional<StiffnessMatrix>& other, double factor,
                          const std::string& unit) {
  const double greatest = std::max(greatest_modulus(main), other ? greatest_modulus(*other) : 0.0);
  const double outer = rounded_up(greatest * factor);
  const double scale = radius * factor / outer;
  Svg svg;
  double centre = panel / 2;
  for (const Plane& plane : planes()) {
    for (const double part : {0.5, 1.0}) {
      svg.path(ring(centre, part * radius), "ring");
    }
    svg.line({centre - radius, middle_y}, {centre + radius, middle_y}, "axis");
    svg.line({centre, middle_y - radius}, {centre, middle_y + radius}, "axis");
    if (other) {
      svg.path(modulus_line(*other, plane, centre, scale), "curve other");
    }
    svg.path(modulus_line(main, plane, centre, scale), "curve");
    svg.text({centre + radius + 12, middle_y + 4}, plane.across);
    svg.text({centre, middle_y - radius - 8}, plane.upward);
    svg.text({centre + 0.72 * radius, middle_y - 0.72 * radius - 4}, fmt::format("{:.3g} {}", outer, unit), "start");
    svg.text({centre, middle_y + radius + 24}, plane.title);
    centre += panel;
  }
  return svg.take(3 * panel, middle_y + radius + 36, "Young's modulus by direction in the three planes of the axes");
}

} // namespace crushwright
