#include "homogenisation/oblique_collapse.hpp"

#include "crushwright/errors.hpp"
#include "homogenisation/frame_collapse.hpp"

#include <Eigen/Geometry>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

namespace crushwright {
namespace {

constexpr double steepest = std::numbers::pi / 3;
/// Held sides only tell how far above the free ones the load may lie.
constexpr double gap_of_held = 0.01;
/// Directions of shear whose collapse at the steepest angle differs by less are taken as equivalent: the bounds are
/// 0.2 % wide each.
constexpr double equivalent = 0.005;

Voigt flat_stress(const Eigen::Matrix3d& stress) {
  Voigt flat;
  flat << stress(0, 0), stress(1, 1), stress(2, 2), stress(1, 2), stress(0, 2), stress(0, 1);
  return flat;
}

Voigt flat_strain(const Eigen::Matrix3d& strain) {
  Voigt flat = flat_stress(strain);
  flat.tail<3>() *= 2;
  return flat;
}

/// Shortening along an axis, and both shears of the planes across it.
Eigen::Matrix<double, 6, Eigen::Dynamic> strains_between_plates(const Eigen::Vector3d& along,
                                                                const Eigen::Vector3d& across) {
  const Eigen::Vector3d other = along.cross(across);
  Eigen::Matrix<double, 6, Eigen::Dynamic> strains(6, 3);
  strains.col(0) = flat_strain(along * along.transpose());
  strains.col(1) = flat_strain(0.5 * (along * across.transpose() + across * along.transpose()));
  strains.col(2) = flat_strain(0.5 * (along * other.transpose() + other * along.transpose()));
  return strains;
}

void require_usable(const std::vector<double>& angles) {
  double last = 0;
  for (const double angle : angles) {
    if (!(angle >= last && angle <= steepest)) {
      throw OutOfDomain(
          fmt::format("a force at {:.4g} rad to the crush axis: angles rise from 0 to 60 degrees", angle));
    }
    last = angle;
  }
}

/// What a frame with held sides carries at least, over its free collapse stress: the states that it carries are a
/// convex set, so those on the chord between no shear and the steepest are in it.
struct HeldChord {
  double straight = 0;
  double steepest = 0; ///< axial stress at `tangent`
  double tangent = 0;

  double at(double angle) const {
    const double slope = std::tan(angle);
    return straight * steepest * tangent / (steepest * tangent - slope * (steepest - straight));
  }
};

/// A frame with its collapse stress without shear, which the others are set over.
class ObliqueFrame {
public:
  ObliqueFrame(HingedFrame frame, const Eigen::Vector3d& along)
      : frame_(std::move(frame)), along_(along), axes_(lateral_axes(along)),
        straight_(oblique_collapse(frame_, along_, axes_.front(), 0, Sides::free)) {}

  double free(const Eigen::Vector3d& shear, double angle) const {
    return oblique_collapse(frame_, along_, shear, std::tan(angle), Sides::free) / straight_;
  }

  HeldChord held(const std::vector<Eigen::Vector3d>& shears, double angle) const {
    const double tangent = std::tan(angle);
    HeldChord chord{over_straight(shears.front(), 0), 0, tangent};
    for (const Eigen::Vector3d& shear : shears) {
      chord.steepest = std::max(chord.steepest, over_straight(shear, tangent));
    }
    return chord;
  }

  /// Both lateral axes in both senses, less those that collapse alike: a square or a mirror of the cell.
  std::vector<Eigen::Vector3d> unlike_shears(double angle) const {
    std::vector<Eigen::Vector3d> shears;
    std::vector<double> factors;
    for (const double sense : {1.0, -1.0}) {
      for (const Eigen::Vector3d& axis : axes_) {
        const Eigen::Vector3d shear = sense * axis;
        const double factor = free(shear, angle);
        if (std::none_of(factors.begin(), factors.end(),
                         [&](double other) { return std::abs(factor - other) < equivalent * other; })) {
          shears.push_back(shear);
          factors.push_back(factor);
        }
      }
    }
    return shears;
  }

private:
  double over_straight(const Eigen::Vector3d& shear, double tangent) const {
    return oblique_collapse(frame_, along_, shear, tangent, Sides::held, gap_of_held) / straight_;
  }

  HingedFrame frame_;
  Eigen::Vector3d along_;
  std::vector<Eigen::Vector3d> axes_;
  double straight_;
};

} // namespace

Voigt oblique_stress(const Eigen::Vector3d& along, const Eigen::Vector3d& across, double shear) {
  return flat_stress(along * along.transpose() + shear * (along * across.transpose() + across * along.transpose()));
}

std::vector<Eigen::Vector3d> lateral_axes(const Eigen::Vector3d& direction) {
  const Eigen::Vector3d along = unit_direction(direction);
  // The cell edge that lies most across; for an edge itself the next one in turn.
  Eigen::Vector3d across = Eigen::Vector3d::Zero();
  for (int edge = 0; edge < 3; ++edge) {
    const Eigen::Vector3d part = Eigen::Vector3d::Unit(edge) - along[edge] * along;
    if (part.norm() > across.norm() + 1e-9) {
      across = part;
    }
  }
  across.normalize();
  return {across, along.cross(across)};
}

double oblique_collapse(const HingedFrame& frame, const Eigen::Vector3d& along, const Eigen::Vector3d& across,
                        double tangent, Sides sides, double gap) {
  LimitOptions options{.gap = gap};
  if (sides == Sides::held) {
    options.free_strains = strains_between_plates(along, across);
  }
  return limit_load(frame, oblique_stress(along, across, tangent), options).lower;
}

double shear_collapse(const HingedFrame& frame, const Eigen::Vector3d& along, const Eigen::Vector3d& across) {
  const Voigt shear = oblique_stress(along, across, 1) - oblique_stress(along, across, 0);
  return limit_load(frame, shear, {.gap = 0.002}).lower;
}

ObliqueCollapse frame_oblique_collapse(const UnitCell& cell, double size_ratio, const Eigen::Vector3d& direction,
                                       const std::vector<double>& angles) {
  require_usable(angles);
  const ObliqueFrame frame(hinged_frame_of(cell, size_ratio), unit_direction(direction));
  ObliqueCollapse result;
  result.low.assign(angles.size(), 1);
  result.high.assign(angles.size(), 1);
  if (angles.empty() || angles.back() == 0) {
    return result;
  }
  const std::vector<Eigen::Vector3d> shears = frame.unlike_shears(angles.back());
  const HeldChord held = frame.held(shears, angles.back());
  for (std::size_t k = 0; k < angles.size(); ++k) {
    if (angles[k] == 0) {
      continue;
    }
    result.low[k] = result.high[k] = frame.free(shears.front(), angles[k]);
    for (const Eigen::Vector3d& shear : shears) {
      const double factor = frame.free(shear, angles[k]);
      result.low[k] = std::min(result.low[k], factor);
      result.high[k] = std::max(result.high[k], factor);
    }
    result.high[k] = std::max(result.high[k], std::min(1.0, held.at(angles[k])));
  }
  return result;
}

double frame_shear_ratio(const UnitCell& cell, double size_ratio, const Eigen::Vector3d& direction) {
  const Eigen::Vector3d along = unit_direction(direction);
  const HingedFrame frame = hinged_frame_of(cell, size_ratio);
  const std::vector<Eigen::Vector3d> axes = lateral_axes(along);
  const double shear = std::min(shear_collapse(frame, along, axes[0]), shear_collapse(frame, along, axes[1]));
  return shear / oblique_collapse(frame, along, axes[0], 0, Sides::free);
}

} // namespace crushwright
