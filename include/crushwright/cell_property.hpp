#pragma once
#include "crushwright/cell_curve.hpp"
#include "crushwright/unit_cell.hpp"

#include <optional>
#include <string>
#include <vector>

namespace crushwright {

/// One piece of evidence for one property, used or not.
struct PropertyEvidence {
  Evidence evidence = Evidence::generic;
  std::string law;  ///< the law's id
  double value = 0; ///< SI
  bool inside_fitted_range = true;
  std::optional<double> coefficient_of_variation;
  std::string remark; ///< what was fitted, on which basis, what does not match
  Source source;
};

/// One answer for one property, with all the evidence kept.
struct CellProperty {
  double value = 0;                  ///< SI
  std::vector<PropertyEvidence> all; ///< best first; all[0] is the one used
  std::string reason;                ///< why that one
};

/// The law picked for each property, with the base stress that the plateau law is multiplied by.
struct ChosenLaws {
  PowerLaw elastic_modulus;
  PowerLaw plateau_stress;
  double plateau_basis_stress = 0; ///< [Pa]
  std::optional<PowerLaw> first_peak_ratio;
  DensificationLaw locking_strain;
  DensificationLaw efficiency_strain;
  std::optional<DensificationLaw> plateau_end;
};

/// What a lattice of one cell, one base material and one relative density does when crushed along `direction`.
struct CellProperties {
  std::string cell;
  std::string material;
  std::string direction;
  double relative_density = 0;           ///< true [-]
  double nominal_relative_density = 0;   ///< [-]
  double density = 0;                    ///< ρ̄ ρs [kg/m^3]
  CellProperty elastic_modulus;          ///< [Pa]
  CellProperty plateau_stress;           ///< ISO 13314, mean over 20 to 40 % strain [Pa]
  CellProperty first_peak_ratio;         ///< first peak over plateau, >= 1 [-]
  CellProperty locking_strain;           ///< [-]
  CellProperty efficiency_strain;        ///< [-]
  CellProperty plateau_end_strain;       ///< [-]
  double specific_energy_absorption = 0; ///< energy to the efficiency strain over density [J/kg]
  std::vector<std::string> warnings;
};

/// Chooses the laws for a cell, material and direction around a relative density (true basis).
/// Order: measured, published that match in cell, direction, alloy, condition, process, range and basis, computed,
/// other published, generic; a law inside its range beats one outside. docs/method/cell_property.md.
/// @param asked  kind of evidence that goes before all others where a law of it holds for the direction
/// @throws OutOfDomain when the material lacks what every law needs, or when no law of the plateau stress is of the
///         kind that is asked for; the message names the kinds that there are.
ChosenLaws choose_laws(const UnitCell& cell, const BaseMaterial& material, const std::string& direction,
                       double relative_density, std::optional<Evidence> asked = std::nullopt);

/// All properties with their evidence. Errors as choose_laws.
CellProperties cell_properties(const UnitCell& cell, const BaseMaterial& material, const std::string& direction,
                               double relative_density, std::optional<Evidence> asked = std::nullopt);

/// The numbers that a layer of a structure needs, from laws already chosen; cheap.
struct CellNumbers {
  double plateau_stress = 0;    ///< [Pa]
  double elastic_modulus = 0;   ///< [Pa]
  double first_peak_ratio = 1;  ///< [-]
  double efficiency_strain = 0; ///< [-]
  double packing_strain = 0;    ///< the locking strain, where the curve tends to lock [-]
};
CellNumbers cell_numbers(const UnitCell& cell, const BaseMaterial& material, const ChosenLaws& laws,
                         double relative_density);

/// What the crush curve of a lattice is made from: the rise of lattice curves, or the elastic one where that is
/// softer.
/// @param efficiency_strain  of the layer [-], at most the lattice's own (a skin may be used up earlier).
CurveShapeInput curve_input(const CellNumbers& numbers, double efficiency_strain);

} // namespace crushwright
