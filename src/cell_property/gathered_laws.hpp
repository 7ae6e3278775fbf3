#pragma once
#include "cell_property/law_ranking.hpp"
#include "crushwright/cell_property.hpp"

#include <vector>

namespace crushwright {

/// A law with its place in the order and with what it gives for the question.
template <class Law>
struct RatedLaw {
  Law law;
  RankedOrigin rank;
  double value = 0; ///< SI: law times base property
};

/// Everything known for one question, property by property, best first. Laws whose base stress the material lacks are
/// left out.
struct GatheredLaws {
  std::vector<RatedLaw<PowerLaw>> elastic_modulus;
  std::vector<RatedLaw<PowerLaw>> plateau_stress;
  std::vector<RatedLaw<PowerLaw>> first_peak_ratio;
  std::vector<RatedLaw<DensificationLaw>> locking_strain;
  std::vector<RatedLaw<DensificationLaw>> efficiency_strain;
  std::vector<RatedLaw<DensificationLaw>> plateau_end;
};

/// @throws OutOfDomain when the material has no Young's modulus or no stress that a law needs, when no law holds for
/// the
///         direction, or when the relative density cannot be had with the cell.
GatheredLaws gather_laws(const LawQuestion& question);

} // namespace crushwright
