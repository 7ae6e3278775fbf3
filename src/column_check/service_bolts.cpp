#include "column_check/service_bolts.hpp"

#include "column_check/bolt_sums.hpp"
#include "crushwright/errors.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace crushwright {
namespace {

/// Pressure of a bolt's place is a + b y + c z: b and c that balance a moment about the pattern's middle.
std::array<double, 2> slopes(const BoltSums& sums, double moment_y, double moment_z) {
  if (moment_y == 0 && moment_z == 0)
    return {0, 0};
  if (in_a_row(sums))
    throw OutOfDomain(fmt::format("{} bolts in one row carry no moment about that row", sums.count));
  const double det = sums.determinant();
  return {(-moment_z * sums.zz - moment_y * sums.yz) / det, (moment_y * sums.yy + moment_z * sums.yz) / det};
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
  const BoltSums sums = bolt_sums(bolts.places);
  const SpaceVector moment = moment_about(sums.middle, root);
  const std::array<double, 2> slope = slopes(sums, moment[1], moment[2]);
  const double polar = sums.polar();
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
