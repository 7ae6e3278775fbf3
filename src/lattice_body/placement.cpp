#include "crushwright/errors.hpp"
#include "crushwright/lattice_body.hpp"

#include <Eigen/Dense>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace crushwright {
namespace {

using Vector = Eigen::Vector3d;

Vector direction_of(const std::string& digits) {
  const bool usable = digits.size() == 3 && digits != "000" &&
                      std::all_of(digits.begin(), digits.end(), [](char c) { return c >= '0' && c <= '9'; });
  if (!usable)
    throw OutOfDomain(
        fmt::format("crush direction '{}': write three digits in cell axes, for instance 100 along an edge", digits));
  return Vector(digits[0] - '0', digits[1] - '0', digits[2] - '0').normalized();
}

/// The direction, in cell axes, that lies along the structure's z before any turn.
Vector upright(const Vector& along) {
  const Vector third = Vector::UnitZ() - along * along.z();
  return third.norm() > 1e-9 ? third.normalized() : Vector(Vector::UnitY());
}

void require_length(const char* what, double value) {
  if (!(value > 0 && std::isfinite(value)))
    throw OutOfDomain(fmt::format("{} is {:g} m; expected more than 0", what, value));
}

} // namespace

std::array<std::array<double, 3>, 3> cell_axes(const std::string& crush_direction, double turn) {
  const Vector x = direction_of(crush_direction);
  const Vector z = upright(x);
  const Vector y = z.cross(x);
  std::array<std::array<double, 3>, 3> axes{};
  for (int axis = 0; axis < 3; ++axis)
    axes[std::size_t(axis)] = {x[axis], std::cos(turn) * y[axis] - std::sin(turn) * z[axis],
                               std::sin(turn) * y[axis] + std::cos(turn) * z[axis]};
  return axes;
}

LatticePlacement place_lattice(const PlacementChoice& choice) {
  require_length("the cell edge", choice.cell_edge);
  require_length("the length of the body", choice.length);
  if (!std::isfinite(choice.turn))
    throw OutOfDomain("the turn of the lattice about its axis is not a finite angle");
  LatticePlacement placement;
  placement.cell_edge = choice.cell_edge;
  placement.origin = choice.origin.value_or(std::array<double, 3>{choice.length, choice.middle[0], choice.middle[1]});
  placement.axes = cell_axes(choice.crush_direction, choice.turn);
  return placement;
}

} // namespace crushwright
