#pragma once
#include "crushwright/catalogue.hpp"

#include <filesystem>

namespace crushwright {

inline Catalogue own_catalogue() {
  return Catalogue({std::filesystem::path(CRUSHWRIGHT_SOURCE_DIR) / "lattices"});
}

inline Quantity known(double value) {
  Quantity quantity;
  quantity.value = value;
  return quantity;
}

/// An invented metal with round numbers.
inline BaseMaterial round_metal() {
  BaseMaterial material;
  material.id = "round-metal";
  material.name = "Round metal";
  material.process = "casting";
  material.density = known(2000);
  material.youngs_modulus = known(100e9);
  material.proof_stress = known(100e6);
  material.fracture_elongation = known(0.2);
  return material;
}

/// An invented foam, so that every density basis is one and the same.
inline UnitCell round_foam() {
  UnitCell cell;
  cell.id = "round-foam";
  cell.name = "Round foam";
  cell.cell_class = CellClass::foam;
  cell.behaviour = CellBehaviour::bending;
  cell.symmetry = "isotropic";
  return cell;
}

inline PowerLaw law_of(const std::string& id, Evidence evidence, double coefficient, Range range = {0.05, 0.30}) {
  PowerLaw law;
  law.origin.id = id;
  law.origin.evidence = evidence;
  law.origin.direction = "any";
  law.origin.fitted_relative_density = range;
  law.coefficient = coefficient;
  law.exponent = 1.0;
  return law;
}

/// A catalogue cell as a user would have it before anything of it was computed.
inline UnitCell without_computed_laws(UnitCell cell) {
  for (std::vector<PowerLaw>* laws : {&cell.elastic_modulus, &cell.plateau_stress, &cell.first_peak_ratio}) {
    std::erase_if(*laws, [](const PowerLaw& law) { return law.origin.evidence == Evidence::computed; });
  }
  return cell;
}

} // namespace crushwright
