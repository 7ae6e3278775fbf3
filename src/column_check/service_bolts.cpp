#include "column_check/service_bolts.hpp"

#include "crushwright/errors.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace crushwright {
namespace {

/// Sums over the bolts about their own middle.
struct PatternSums {
  double count = 0;
  std::array<double, 2> middle{};
  double yy = 0, zz = 0, yz = 0; ///< [m^2]
};

PatternSums sums_of(const BoltPattern& bolts) {
  PatternSums sums;
  sums.count = static_cast<double>(bolts.places.size());
  for (const auto& [y, z] : bolts.places) {
    sums.middle[0] += y / sums.count;
    sums.middle[1] += z / sums.count;
  }
  for (const std::array<double, 2>& place : bolts.places) {
    const double y = place[0] - sums.middle[0], z = place[1] - sums.middle[1];
    sums.yy += y * y;
    sums.zz += z * z;
    sums.yz += y * z;
  }
  return sums;
}

/// Pressure of a bolt's place is a + b y + c z: b and c that balance a moment about the pattern's middle.
std::array<double, 2> slopes(const PatternSums& sums, double moment_y, double moment_z) {
  if (moment_y == 0 && moment_z == 0)
    return {0, 0};
  const double det = sums.yy * sums.zz - sums.yz * sums.yz;
  constexpr double in_a_row = 1e-9;
  if (det > in_a_row * std::pow(sums.yy + sums.zz, 2))
    return {(-moment_z * sums.zz - moment_y * sums.yz) / det, (moment_y * sums.yy + moment_z * sums.yz) / det};
  throw OutOfDomain(fmt::format("{} bolts in one row carry no moment about that row", sums.count));
}

/// The moment about the pattern's middle instead of the root section's centroid.
SpaceVector moment_about(const std::array<double, 2>& middle, const CutLoad& root) {
  const auto& [y, z] = middle;
  return {root.moment[0] - (y * root.force[2] - z * root.force[1]), root.moment[1] - z * root.force[0],
          root.moment[2] + y * root.force[0]};
}

double use_of(const BoltPattern& bolts, double pull, double shear) {
  const double stretched = std::max(pull, 0.0);
  const double tension = stretched / bolts.proof_load.value;
  const double sheared = bolts.shear_load ? shear / bolts.shear_load->value : 0;
  const double opening = bolts.preload.value > 0 ? stretched / bolts.preload.value : 0;
  return std::max(std::hypot(tension, sheared), opening);
}

} // namespace

BoltService bolt_service(const BoltPattern& bolts, const CutLoad& root, bool alternating) {
  if (bolts.places.empty())
    throw OutOfDomain("a pattern of 0 bolts carries nothing");
  const PatternSums sums = sums_of(bolts);
  const SpaceVector moment = moment_about(sums.middle, root);
  const std::array<double, 2> slope = slopes(sums, moment[1], moment[2]);
  const double polar = sums.yy + sums.zz;
  const double twist = polar > 0 ? moment[0] / polar : 0;
  BoltService worst;
  for (const std::array<double, 2>& place : bolts.places) {
    const double y = place[0] - sums.middle[0], z = place[1] - sums.middle[1];
    const double pull = -(root.force[0] / sums.count + slope[0] * y + slope[1] * z);
    const double greatest = alternating ? std::abs(pull) : pull;
    const double shear = std::hypot(root.force[1] / sums.count - twist * z, root.force[2] / sums.count + twist * y);
    worst.tension = std::max(worst.tension, greatest);
    worst.use = std::max(worst.use, use_of(bolts, greatest, shear));
  }
  return worst;
}

} // namespace crushwright
