#pragma once
#include "crushwright/scaling_law.hpp"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace crushwright {

enum class CellClass { strut, sheet, honeycomb, foam };

/// How the cell carries load; decides the generic law used when nothing better exists.
enum class CellBehaviour { bending, stretching, folding };

/// Straight strut between two points of the unit cube, in cell edges.
struct Strut {
  std::array<double, 3> from;
  std::array<double, 3> to;
};

/// One catalogue entry: lattices/unit_cells/<id>.yaml.
struct UnitCell {
  std::string id;
  std::string name;
  std::string description;
  CellClass cell_class = CellClass::strut;
  CellBehaviour behaviour = CellBehaviour::bending;
  std::string symmetry;      ///< "cubic", "hexagonal", "isotropic", "tetragonal"
  std::vector<Strut> struts; ///< strut cells only; shape = (number of struts)
  std::string surface;       ///< sheet cells: "gyroid", "diamond"
  std::string size_name;     ///< what is sized: "strut diameter", "wall thickness"; empty for a foam
  std::string edge_name;     ///< what the size is measured against: "cell edge", "side of the hexagon", ...

  /// True relative density ρ̄ = Σ coefficient_k τ^k, k = 1..; τ = size over edge. Fitted by scripts to the cell's own
  /// solid, valid in `size_ratio_range`. Empty for a foam, whose density is stated directly.
  std::vector<double> true_density_coefficients;
  /// The same for the nominal density (strut or wall volumes summed), closed form.
  std::vector<double> nominal_density_coefficients;
  Range size_ratio_range;       ///< of τ [-]
  double density_fit_error = 0; ///< largest |fit - solid| / solid over the range [-]

  std::optional<Quantity> printable_minimum; ///< smallest strut or wall the process is usually trusted with [m]
  std::vector<PowerLaw> elastic_modulus;     ///< E*/Es
  std::vector<PowerLaw> plateau_stress;      ///< σpl over the law's stress basis
  std::vector<PowerLaw> first_peak_ratio;    ///< first peak over plateau; exponent usually 0
  std::vector<DensificationLaw> densification;
};

/// True (or nominal) relative density of a cell with size ratio τ = size / edge.
/// @throws OutOfDomain when τ is outside the entry's range or the result is outside (0, 1).
double relative_density(const UnitCell& cell, double size_ratio, DensityBasis basis = DensityBasis::true_);

/// The size ratio that gives a true relative density; inverse of the above by bisection to 1e-12.
/// @throws OutOfDomain when no ratio inside the entry's range gives it.
double size_ratio(const UnitCell& cell, double true_relative_density);

/// A true relative density expressed in another basis, through the size ratio; a foam's bases are all the same.
double in_basis(const UnitCell& cell, double true_relative_density, DensityBasis basis);

} // namespace crushwright
