#pragma once
#include "crushwright/scaling_law.hpp"
#include "crushwright/surface.hpp"

#include <array>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace crushwright {

/// strut: round bars; sheet: a wall about a surface; skeletal: the metal on one side of a surface; plate: flat
/// plates; solid: the user's own closed surface of one cell.
enum class CellClass { strut, sheet, skeletal, plate, solid, honeycomb, foam };

/// How the cell carries load; decides the generic law used when nothing better exists.
enum class CellBehaviour { bending, stretching, folding };

/// Straight strut between two points of the unit cube, in cell edges.
struct Strut {
  std::array<double, 3> from;
  std::array<double, 3> to;
};

/// Flat plate with straight edges, inside the unit cube.
struct Plate {
  std::vector<std::array<double, 3>>
      corners;                 ///< convex, in order around; shape = (number of corners, 3) [cell edges]
  double thickness_factor = 1; ///< thickness over the cell's size [-], > 0
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
  std::string surface;       ///< sheet and skeletal cells: "gyroid", "diamond"; sheets also "primitive", "iwp"
  std::vector<Plate> plates; ///< plate cells
  std::shared_ptr<const TriangleMesh> mesh; ///< solid cells: closed, one cell is [0, 1)³ [cell edges]
  std::string mesh_file;                    ///< solid cells: as named in the entry, beside it
  std::string size_name; ///< what is sized: "strut diameter", "wall thickness"; empty for a foam or a solid
  std::string edge_name; ///< what the size is measured against: "cell edge", "side of the hexagon", ...

  /// True relative density ρ̄ = Σ coefficient_k τ^k, k = 1..; τ = size over edge. Fitted by scripts to the cell's own
  /// solid, valid in `size_ratio_range`. Empty for a foam, whose density is stated directly. A solid has one size:
  /// its ratio is 1, and the only coefficient is the density of its mesh.
  std::vector<double> true_density_coefficients;
  /// Added to that sum; skeletal cells only, whose network falls apart at about this density while the neck goes to
  /// 0.
  double true_density_constant = 0;
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

/// Whether the cell has a strut, wall or neck to be sized. A foam and a solid have none: a case states their relative
/// density.
bool is_sized(const UnitCell& cell);

/// How far a stated relative density of a solid may lie from that of its mesh [-].
constexpr double solid_density_tolerance = 0.02;

/// True (or nominal) relative density of a cell with size ratio τ = size / edge.
/// @throws OutOfDomain when τ is outside the entry's range or the result is outside (0, 1).
double relative_density(const UnitCell& cell, double size_ratio, DensityBasis basis = DensityBasis::true_);

/// The size ratio that gives a true relative density; inverse of the above by bisection to 1e-12.
/// A solid answers 1 where the density is that of its mesh to solid_density_tolerance.
/// @throws OutOfDomain when no ratio inside the entry's range gives it.
double size_ratio(const UnitCell& cell, double true_relative_density);

/// A true relative density expressed in another basis, through the size ratio; a foam's bases are all the same.
double in_basis(const UnitCell& cell, double true_relative_density, DensityBasis basis);

} // namespace crushwright
