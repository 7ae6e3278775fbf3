#pragma once
#include "crushwright/study.hpp"

#include <functional>
#include <string>

namespace crushwright {

/// Designs that differ in one number: a strut or wall, a foam's density, a skin. More of it is more mass.
struct DesignFamily {
  std::string label;
  std::string cell;
  std::string material;
  double cell_edge = 0; ///< [m]
  double low = 0;       ///< of the number [m or -]
  double high = 0;
  double step = 1e-6;                      ///< the number is given in whole steps of this
  Objective objective = Objective::mass;   ///< of which less is better
  std::function<CrashCase(double)> design; ///< the case with the number put in
};

/// Up to the next whole step, so that the number as printed still passes.
double up_to_step(double number, double step);

/// Whether sizes are put on whole steps, to be built as printed, or kept exact, to meet a stated relative density.
enum class Steps { whole, exact };

/// The lattice of the case in another cell edge: strut or wall scaled over its length, its grading kept.
/// The number is the size at the tip.
DesignFamily sized_lattice(const CrashCase& crash_case, const Catalogue& catalogue, const std::string& cell,
                           const std::string& material, double cell_edge, double low, double high,
                           Steps steps = Steps::whole);

/// The case without a lattice, its skin (or one of its lattice's material) thickened. The number is the thickness.
DesignFamily empty_skin(const CrashCase& crash_case);

/// The case's structures filled with a foam; the number is the relative density.
DesignFamily foam_filled(const CrashCase& crash_case, const std::string& foam, const std::string& material);

/// Root size over tip size of the case's lattice, kept through a study [-]; 1 without a lattice.
double grading_of(const CrashCase& crash_case);

/// Size at the tip that gives a true relative density at mid length [m]; a foam: the density itself.
/// @throws OutOfDomain when the catalogue entry does not reach it.
double tip_size_for(const UnitCell& cell, double relative_density, double cell_edge, double grading);

} // namespace crushwright
