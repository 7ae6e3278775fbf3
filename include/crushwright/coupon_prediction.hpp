#pragma once
#include "crushwright/cell_property.hpp"
#include "crushwright/correlation.hpp"
#include "crushwright/coupon_series.hpp"

#include <string>

namespace crushwright {

/// One specimen beside what the program says of a lattice of its density.
struct SpecimenPrediction {
  std::string specimen;
  double relative_density = 0; ///< [-]
  std::string law;             ///< of the plateau stress
  Evidence evidence = Evidence::generic;
  Correlation correlation; ///< stress [Pa] over strain [-], up to the measured efficiency strain
};

/// The predicted curve of a cell (stress_strain of its properties) against the specimen's, from zero strain to where
/// the specimen is used up: beyond it solid metal decides.
///
/// @param properties  of the cell at the specimen's relative density.
/// @throws OutOfDomain when the properties make no curve.
SpecimenPrediction predicted_specimen(const ReducedSpecimen& specimen, const CellProperties& properties,
                                      double plateau_from, double plateau_to);

} // namespace crushwright
