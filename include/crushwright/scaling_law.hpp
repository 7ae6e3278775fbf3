#pragma once
#include "crushwright/material.hpp"
#include "crushwright/quantity.hpp"

#include <optional>
#include <string>
#include <vector>

namespace crushwright {

/// A closed range of a law's argument.
struct Range {
  double low = 0;
  double high = 1;
  bool contains(double x) const { return low <= x && x <= high; }
  bool operator==(const Range&) const = default;
};

/// Which relative density a law was fitted on. `nominal` sums strut or wall volumes and counts nodes twice, `true_`
/// is the volume of the union, `weighed` the part on the scales.
enum class DensityBasis { nominal, true_, weighed };

/// Which stress of the base material normalises a law.
enum class StressBasis { proof_stress, flow_stress, ultimate_stress };

/// How a law of evidence `computed` was computed.
struct Computation {
  std::string method; ///< "frame" or "voxels"
  int grid = 0;       ///< voxels along the cell edge on the finest grid; 0 for frames
  double spread = 0;  ///< largest |extrapolated - finest grid| / extrapolated of its points [-]; 0 for frames
  double largest_residual = 0; ///< largest |law / computed point - 1| [-]
  std::string version;         ///< of the program
  bool operator==(const Computation&) const = default;
};

/// A file of test data that a law rests on.
struct TestedFile {
  std::string name;
  std::string sha256; ///< of its bytes, 64 hexadecimal digits
  bool operator==(const TestedFile&) const = default;
};

/// From which tests a law of evidence `measured` was fitted; docs/coupon_format.md.
struct Measurement {
  int specimens = 0;
  std::vector<TestedFile> files;
  std::optional<Range> plateau_window;       ///< strains whose mean stress is the plateau [-]
  std::optional<Range> strain_rate;          ///< slowest and fastest test [1/s]
  std::optional<Range> coefficient_range;    ///< 95 % interval of C [-]
  std::optional<Range> exponent_range;       ///< of the exponent [-]
  std::optional<double> leave_one_out_error; ///< relative [-]
  bool exponent_assumed = false;             ///< one density: only the coefficient was measured
  bool operator==(const Measurement&) const = default;
};

/// What a law was fitted to or derived from; shown as evidence and used in choosing between laws.
struct LawOrigin {
  std::string id; ///< unique within the cell, for instance "pin-jointed-collapse"
  Evidence evidence = Evidence::generic;
  std::string direction; ///< crush direction in cell axes, "100"; "any" for isotropic solids
  std::string material;  ///< base material the fit was made on; empty for laws that carry over by their basis
  std::string process;
  Range fitted_relative_density; ///< inside (0, 1)
  DensityBasis density_basis = DensityBasis::true_;
  std::optional<double> coefficient_of_variation; ///< of the law about its data
  std::string remark;
  Source source;
  std::optional<Computation> computation; ///< there for evidence `computed`, and for no other
  std::optional<Measurement> measurement; ///< only for evidence `measured`; absent in an entry typed by hand
  /// Closed form of slender beams between node centres. Real nodes make the cell stiffer and stronger, so such a law
  /// alone carries no verdict; docs/method/scaling_law.md.
  bool node_to_node = false;
};

/// Power law y = C ρ̄^m times a base property: Young's modulus for stiffness, the stated stress for strength.
struct PowerLaw {
  LawOrigin origin;
  double coefficient = 0;                               ///< C [-], > 0
  double exponent = 0;                                  ///< m [-], >= 0; a ratio's may be below 0
  StressBasis stress_basis = StressBasis::proof_stress; ///< not used by stiffness laws
};

/// The three definitions of densification in use; they differ by up to a third and are never mixed.
enum class DensificationDefinition {
  locking_strain,    ///< where an ideal locking solid would lock, classically 1 - 1.4 ρ̄
  efficiency_strain, ///< strain of greatest energy-absorption efficiency
  plateau_end        ///< ISO 13314: stress reaches 1.3 times the plateau stress
};

/// Densification strain ε = intercept - slope ρ̄, in one stated definition.
struct DensificationLaw {
  LawOrigin origin;
  DensificationDefinition definition = DensificationDefinition::efficiency_strain;
  double intercept = 0; ///< [-], in (0, 1]
  double slope = 0;     ///< [-], >= 0
};

/// A value with a flag for use outside the law's fitted range.
struct Flagged {
  double value = 0;
  bool inside_fitted_range = true;
};

/// C ρ̄^m [-].
/// @param relative_density  ρ̄ in the law's own density basis [-], in (0, 1).
/// @throws OutOfDomain when ρ̄ is not in (0, 1).
Flagged evaluate(const PowerLaw& law, double relative_density);

/// Densification strain [-], in (0, 1).
/// @throws OutOfDomain when ρ̄ is not in (0, 1) or the strain leaves (0, 1).
Flagged evaluate(const DensificationLaw& law, double relative_density);

/// Base-material stress that a law of this basis is multiplied by [Pa]; absent when the material lacks it.
std::optional<double> basis_stress(const BaseMaterial& material, StressBasis basis);

std::string_view name_of(DensityBasis basis);
std::string_view name_of(StressBasis basis);
std::string_view name_of(DensificationDefinition definition);

} // namespace crushwright
