#include "crushwright/errors.hpp"
#include "crushwright/resolved_impact.hpp"

#include <cmath>
#include <fmt/format.h>

namespace crushwright {
namespace {

void check(double plateau_stress, double density, double locking_strain) {
  if (!(plateau_stress >= 0) || !std::isfinite(plateau_stress))
    throw OutOfDomain(fmt::format("the plateau stress is {} Pa; it must be 0 or more", plateau_stress));
  if (!(density > 0) || !std::isfinite(density))
    throw OutOfDomain(fmt::format("the density of the cellular body is {} kg/m^3; it must be above 0", density));
  if (!(locking_strain > 0 && locking_strain < 1))
    throw OutOfDomain(fmt::format("the locking strain is {}; it must lie between 0 and 1", locking_strain));
}

} // namespace

double shock_stress(double plateau_stress, double density, double speed, double locking_strain) {
  check(plateau_stress, density, locking_strain);
  if (!(speed >= 0) || !std::isfinite(speed))
    throw OutOfDomain(fmt::format("the speed is {} m/s; it must be 0 or more", speed));
  return plateau_stress + density * speed * speed / locking_strain;
}

double shock_onset_speed(double plateau_stress, double density, double locking_strain) {
  check(plateau_stress, density, locking_strain);
  return std::sqrt(0.1 * plateau_stress * locking_strain / density);
}

} // namespace crushwright
