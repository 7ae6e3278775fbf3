#pragma once
#include "crushwright/cell_curve.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace crushwright {

/// One slice of a structure across its crush axis: it crushes as a whole, in series with the others.
struct Layer {
  double station = 0;          ///< of its outer face [m]
  double height = 0;           ///< along the crush axis [m]
  double section_area = 0;     ///< inside the outer outline [m^2]
  double lattice_area = 0;     ///< inside the skin [m^2]
  double relative_density = 0; ///< of the lattice, true [-]; 0 without a lattice
  double size = 0;             ///< strut or wall [m]; 0 without a lattice
  double lattice_force = 0;    ///< plateau stress times lattice area [N]
  double skin_force = 0;       ///< mean folding force of the skin [N]
  double elastic_force = 0;    ///< elastic modulus times area, lattice and skin: force per unit strain [N]
  CurveShape shape{};          ///< force ratio against engineering strain of the layer

  double efficiency_strain = 0;                                        ///< where the layer is used up [-]
  double collapse_force() const { return lattice_force + skin_force; } ///< without interaction [N]
  /// Force at which the collapse begins: at the end of the shape's rise, or at once when it has none [N].
  double start_force() const { return collapse_force() * shape.ratio[shape.ratio[0] > 0 ? 0 : 1]; }
};

/// First peak of a structure: the force it takes to start its first layer.
struct FirstPeak {
  double ratio = 1;      ///< over the collapse force of the layer that starts first, >= 1 [-]
  double fall_crush = 0; ///< crush over which the peak dies out [m]
};

/// Peak of layers that start afresh once weaker ones have folded up: behind a trigger or a step in section.
struct LaterPeak {
  double start_force = 0; ///< that begins their collapse [N]
  double ratio = 1;       ///< over that force, > 1 [-]
  double fall_crush = 0;  ///< crush over which the peak dies out, > 0 [m]
};

/// Layers that no weaker row leads into crush: in order of start force those over a gap of more than a tenth that
/// stands out among the body's gaps. Indices, weakest first; docs/method/cell_loading.md.
std::vector<std::size_t> fresh_starts(const std::vector<Layer>& layers);

/// Force against crush of one structure, exact for the layers' polylines in series.
///
/// Crush rises from 0; between points the force is linear; after the last point the last slope goes on.
/// shape = (number of points) for crush, force and energy.
struct CrushCurve {
  std::vector<double> crush;    ///< [m], strictly rising
  std::vector<double> force;    ///< [N]
  std::vector<double> energy;   ///< absorbed from 0 to this crush [J]
  double elastic_stiffness = 0; ///< of all layers in series [N/m]
  double bottoming_crush = 0;   ///< every layer has reached its efficiency strain [m]
  double bottoming_force = 0;   ///< force at that crush [N]

  double force_at(double crush_value) const;
  double energy_at(double crush_value) const;
  /// Crush at which the energy has been absorbed [m]; energy in [0, inf).
  double crush_at_energy(double energy_value) const;
  /// Last crush before the force goes above a level for good [m]; a first peak above the level is passed over.
  double crush_at_force(double level) const;
  double peak_force_up_to(double crush_value) const;
};

/// Layers in series: one force through all, displacement the sum of the layer shortenings, the weakest crush first.
/// The bottoming crush is where the last layer reaches its efficiency strain.
/// @param layers  at least one; heights > 0; collapse forces > 0.
/// @param later_peaks  put over the curve where the series reaches their start forces.
/// @throws OutOfDomain when a layer has no strength or no height, or a peak has no crush to die out over.
CrushCurve crush_curve(const std::vector<Layer>& layers, const FirstPeak& first_peak = {},
                       const std::vector<LaterPeak>& later_peaks = {});

/// The same structure with every force times `force_factor` and every shortening times `crush_factor`: exact, because
/// both scale every layer alike. Energy scales with the product.
CrushCurve scaled(const CrushCurve& curve, double force_factor, double crush_factor);

/// Shortening of each layer when the series has carried a force [m]; shape = (number of layers).
std::vector<double> layer_shortenings(const std::vector<Layer>& layers, double force);

/// Shortening of the layers whose middle lies in [from, to) beyond the start of their own collapse [m]: what stays
/// after the hit, 0 for layers whose force stayed below their collapse force.
double permanent_crush(const std::vector<Layer>& layers, double force, double from, double to);

/// A layer that would crush before its neighbour towards the struck end.
struct Inversion {
  double station = 0;              ///< of the layer that crushes early [m]
  double collapse_force = 0;       ///< of that layer [N]
  double outer_collapse_force = 0; ///< of its neighbour towards the struck end [N]
};
std::vector<Inversion> inversions(const std::vector<Layer>& layers, double tolerance = 1e-9);

/// Mean folding force of a closed wall [N] and its effective crush distance over its length [-].
///
/// Square tube law for outlines with corners, circular tube law for smooth ones; docs/method/skin.md.
struct FoldingSkin {
  double mean_force;
  double effective_strain;
};
/// @param perimeter    mid-line of the wall [m], > 0.   @param thickness  [m], > 0.
/// @param corner_count folding corners; 0 for a smooth outline.   @param flow_stress [Pa], > 0.
FoldingSkin folding_skin(double perimeter, double thickness, int corner_count, double flow_stress);

/// What wall and filler carry together beyond the sum of both, C √(σ_f σ_0) b t [N]; docs/method/skin.md.
///
/// @param c              interaction coefficient [-], >= 0; about 5.5 for square, 2.74 for circular tubes (memory).
/// @param filler_stress  plateau stress of the filler [Pa], >= 0.   @param flow_stress  of the wall [Pa], > 0.
/// @param width          mid-line width or diameter of the tube [m], > 0.   @param thickness  of the wall [m], > 0.
/// @throws OutOfDomain   when a value is outside its range; the message carries it.
double interaction_force(double c, double filler_stress, double flow_stress, double width, double thickness);

} // namespace crushwright
