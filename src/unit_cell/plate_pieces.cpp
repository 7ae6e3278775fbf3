#include "unit_cell/plate_pieces.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace crushwright {
namespace {

using Vector = Eigen::Vector3d;

constexpr double rounding = 1e-6; // cell edges: what typed corners may miss

Vector corner(const Plate& plate, std::size_t place) {
  return Vector(plate.corners[place % plate.corners.size()].data());
}

/// Twice the area, along the normal.
Vector area_vector(const Plate& plate) {
  Vector sum = Vector::Zero();
  for (std::size_t i = 1; i + 1 < plate.corners.size(); ++i)
    sum += (corner(plate, i) - corner(plate, 0)).cross(corner(plate, i + 1) - corner(plate, 0));
  return sum;
}

PlatePiece prepared(const Plate& plate, double size_ratio) {
  PlatePiece piece;
  piece.origin = corner(plate, 0);
  const Vector normal = area_vector(plate).normalized();
  const Vector first = (corner(plate, 1) - corner(plate, 0)).normalized();
  piece.frame.row(0) = first;
  piece.frame.row(1) = normal.cross(first);
  piece.frame.row(2) = normal;
  std::vector<Eigen::Vector2d> flat;
  for (std::size_t i = 0; i < plate.corners.size(); ++i)
    flat.push_back((piece.frame * (corner(plate, i) - piece.origin)).head<2>());
  piece.corners = std::make_shared<const std::vector<Eigen::Vector2d>>(std::move(flat));
  piece.half_thickness = 0.5 * plate.thickness_factor * size_ratio;
  return piece;
}

bool comes_near_cell(const Plate& plate, const Vector& shift, double reach) {
  for (int axis = 0; axis < 3; ++axis) {
    double low = 4, high = -4;
    for (const auto& point : plate.corners) {
      low = std::min(low, point[std::size_t(axis)] + shift[axis]);
      high = std::max(high, point[std::size_t(axis)] + shift[axis]);
    }
    if (high < -reach || low > 1 + reach)
      return false;
  }
  return true;
}

/// Corners moved by whole cells so that their mean lies in [0, 1)³, on a grid of 1e-6, in rising order.
std::vector<std::array<double, 3>> folded(const Plate& plate) {
  std::array<double, 3> shift{};
  const auto on_grid = [](double x) { return std::round(x / rounding) * rounding; };
  for (std::size_t axis = 0; axis < 3; ++axis) {
    double mean = 0;
    for (const auto& point : plate.corners)
      mean += point[axis] / static_cast<double>(plate.corners.size());
    shift[axis] = std::floor(on_grid(mean));
  }
  std::vector<std::array<double, 3>> moved = plate.corners;
  for (auto& point : moved)
    for (std::size_t axis = 0; axis < 3; ++axis)
      point[axis] = std::round((point[axis] - shift[axis]) / rounding);
  std::sort(moved.begin(), moved.end());
  return moved;
}

} // namespace

double PlatePiece::distance(const Vector& p) const {
  const Vector local = frame * (p - origin);
  const Eigen::Vector2d q = local.head<2>();
  double nearest = std::numeric_limits<double>::infinity();
  bool inside = true;
  for (std::size_t i = 0; i < corners->size(); ++i) {
    const Eigen::Vector2d& from = (*corners)[i];
    const Eigen::Vector2d along = (*corners)[i + 1 == corners->size() ? 0 : i + 1] - from;
    const Eigen::Vector2d offset = q - from;
    if (along.x() * offset.y() - along.y() * offset.x() >= 0)
      continue;
    inside = false;
    const double s = std::clamp(offset.dot(along) / along.squaredNorm(), 0.0, 1.0);
    nearest = std::min(nearest, (offset - s * along).squaredNorm());
  }
  return (inside ? std::abs(local.z()) : std::sqrt(nearest + local.z() * local.z())) - half_thickness;
}

std::vector<PlatePiece> plate_pieces(const std::vector<Plate>& plates, double size_ratio, double reach) {
  std::vector<PlatePiece> pieces;
  for (const Plate& plate : plates) {
    const PlatePiece piece = prepared(plate, size_ratio);
    for (int x = -2; x <= 2; ++x)
      for (int y = -2; y <= 2; ++y)
        for (int z = -2; z <= 2; ++z) {
          const Vector shift(x, y, z);
          if (!comes_near_cell(plate, shift, reach + piece.half_thickness))
            continue;
          pieces.push_back(piece);
          pieces.back().origin += shift;
        }
  }
  return pieces;
}

double plate_area(const Plate& plate) {
  return 0.5 * area_vector(plate).norm();
}

std::optional<std::string> plate_fault(const Plate& plate) {
  if (plate.corners.size() < 3)
    return fmt::format("has {} corners; a plate has at least three", plate.corners.size());
  const Vector normal = area_vector(plate);
  if (normal.norm() < rounding)
    return "has no area";
  const Vector unit = normal.normalized();
  for (std::size_t i = 0; i < plate.corners.size(); ++i) {
    const double off = unit.dot(corner(plate, i) - corner(plate, 0));
    if (std::abs(off) > rounding)
      return fmt::format("is not flat: corner {} lies {:.2g} cell edges off the plane of the others", i + 1,
                         std::abs(off));
    const Vector before = corner(plate, i + 1) - corner(plate, i);
    const Vector after = corner(plate, i + 2) - corner(plate, i + 1);
    if (unit.dot(before.cross(after)) < rounding)
      return fmt::format("turns the wrong way, or not at all, at corner {}", (i + 1) % plate.corners.size() + 1);
  }
  return std::nullopt;
}

std::optional<std::pair<std::size_t, std::size_t>> repeated_plate(const std::vector<Plate>& plates) {
  for (std::size_t second = 1; second < plates.size(); ++second)
    for (std::size_t first = 0; first < second; ++first)
      if (folded(plates[first]) == folded(plates[second]))
        return std::pair(first, second);
  return std::nullopt;
}

} // namespace crushwright
