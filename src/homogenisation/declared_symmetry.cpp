#include "homogenisation/declared_symmetry.hpp"

#include "crushwright/errors.hpp"

#include <fmt/format.h>

namespace crushwright {

namespace {

std::string fitting_symmetries(const StiffnessMatrix& stiffness, double limit) {
  std::string fitting;
  for (const char* symmetry : {"cubic", "tetragonal", "hexagonal"}) {
    if (symmetry_error(stiffness, symmetry) <= limit) {
      fitting += fmt::format("{}`{}`", fitting.empty() ? "" : " or ", symmetry);
    }
  }
  return fitting;
}

} // namespace

void require_declared_symmetry(const UnitCell& cell, const StiffnessMatrix& stiffness, double limit) {
  const double error = symmetry_error(stiffness, cell.symmetry.c_str());
  if (error <= limit) {
    return;
  }
  const std::string fitting = fitting_symmetries(stiffness, limit);
  throw OutOfDomain(fmt::format(
      "{}: symmetry is `{}`, but its stiffness misses that by {:.0f} % (Young's modulus over the metal's: {:.3g} "
      "along x, "
      "{:.3g} along y, {:.3g} along z). {}",
      cell.name, cell.symmetry, 100 * error, youngs_modulus(stiffness, Eigen::Vector3d::UnitX()),
      youngs_modulus(stiffness, Eigen::Vector3d::UnitY()), youngs_modulus(stiffness, Eigen::Vector3d::UnitZ()),
      fitting.empty() ? "None of the symmetries known here fits: turn the cell so that its odd axis is z, or make it "
                        "alike along x and y."
                      : fmt::format("Write {}.", fitting)));
}

} // namespace crushwright
