#pragma once
#include "crushwright/stiffness_matrix.hpp"
#include "crushwright/unit_cell.hpp"

#include <Eigen/Core>

#include <string>
#include <vector>

namespace crushwright {

// What a cell does, computed from its own geometry. Stiffness is over the base metal's Young's modulus, stress over
// its yield stress, so that a result carries over from metal to metal. Compression positive.

/// Periodic frame of Timoshenko beams with stiff nodes; strut cells only. docs/method/frame.md.
struct FrameStiffness {
  double size_ratio = 0;               ///< strut diameter over cell edge [-]
  double relative_density = 0;         ///< true [-]
  StiffnessMatrix over_youngs_modulus; ///< with node correction
  StiffnessMatrix node_to_node;        ///< the same frame with beams from node centre to node centre
};

/// @param size_ratio      τ [-], inside the cell's range
/// @param poissons_ratio  of the metal [-], in (-1, 0.5)
/// @throws OutOfDomain for a cell that is not of struts or a size outside its range.
FrameStiffness frame_stiffness(const UnitCell& cell, double size_ratio, double poissons_ratio);

/// Elastic forces in the struts under uniaxial stress, and what they say.
struct FrameLoad {
  Eigen::Vector3d direction; ///< of crushing, unit vector
  double first_yield = 0;    ///< macroscopic stress at which the first fibre yields, over the yield stress [-]
  double first_buckling = 0; ///< macroscopic stress at which the first strut reaches its elastic buckling load, over
                             ///< Young's modulus [-]; 0 when no strut is compressed
  int first_buckling_member = -1; ///< place in the frame's members; -1 when none
};
FrameLoad frame_load(const UnitCell& cell, double size_ratio, double poissons_ratio,
                     const Eigen::Vector3d& direction);

/// Plastic collapse of a strut cell by limit analysis. docs/method/limit_analysis.md.
struct FrameCollapse {
  Eigen::Vector3d direction;
  double lower = 0; ///< safe collapse stress over the yield stress [-]
  double upper = 0; ///< unsafe one; (upper - lower) / lower < 0.01
  int cuts = 0;     ///< facets of the section curve in use at the end
  /// Stress against strain while the cell is crushed and its mechanism followed, sides free; engineering strain on
  /// the initial height, stress on the initial area over the yield stress; rigid-plastic, no hardening, struts do not
  /// touch.
  std::vector<double> path_strain;
  std::vector<double> path_stress;
  double mean_path_stress = 0; ///< over 0 to the last strain of the path [-]
};
/// @param path_end  last strain of the path [-], in [0, 0.6]; 0 leaves the path out
/// @throws OutOfDomain as frame_stiffness.
FrameCollapse frame_collapse(const UnitCell& cell, double size_ratio, const Eigen::Vector3d& direction,
                             double path_end = 0);

/// Collapse under an axial stress with an equal lateral stress on both sides, over the yield stress; one point of the
/// yield surface in axial and lateral stress.
struct YieldPoint {
  double axial = 0;
  double lateral = 0;
};
/// @param points  number of points, evenly spread in angle over the full turn, > 3
/// @return        lower bounds, shape = (points); the first lies at pure axial compression
std::vector<YieldPoint> frame_yield_surface(const UnitCell& cell, double size_ratio, const Eigen::Vector3d& direction,
                                            int points);

/// Stiffness of any cell with a solid, from voxels. docs/method/voxel.md.
struct SolidStiffness {
  double size_ratio = 0;
  double relative_density = 0;         ///< of the voxels [-]
  StiffnessMatrix over_youngs_modulus; ///< on this grid
  int grid = 0;                        ///< voxels along the cell edge
  int iterations = 0;                  ///< most of any load case
  double residual = 0;                 ///< largest relative residual reached
  double voxels_across = 0;            ///< size ratio times grid: voxels across a strut or wall
  int dropped_voxels = 0;              ///< not connected through faces to the part that carries load
};

struct SolidOptions {
  int grid = 64;           ///< voxels along the cell edge; even, >= 8
  double tolerance = 1e-6; ///< relative residual
};

/// @throws OutOfDomain for a cell without a solid (foam), a size outside its range, a grid too coarse to join
/// opposite
///         faces, or a solve that does not reach its tolerance; the message carries the values.
SolidStiffness solid_stiffness(const UnitCell& cell, double size_ratio, double poissons_ratio,
                               const SolidOptions& options);

/// Flow stress of the metal against plastic strain, both over the yield stress and yield strain or as fractions.
struct HardeningCurve {
  std::vector<double> plastic_strain; ///< rising from 0 [-]
  std::vector<double> stress; ///< over the yield stress, first 1, never falling [-]; flat beyond the last point
};

/// Uniaxial crushing of any cell with a solid, J2 plasticity, small strains, sides free.
/// docs/method/voxel_plasticity.md.
struct SolidCollapse {
  Eigen::Vector3d direction;
  double relative_density = 0; ///< of the voxels [-]
  int grid = 0;
  double elastic_modulus = 0; ///< over Young's modulus [-]
  double first_yield = 0; ///< macroscopic stress when the first point of the metal yields, over the yield stress [-]
  double collapse = 0;    ///< stress at 0.2 % plastic strain off the elastic line, over the yield stress [-]
  double greatest = 0;    ///< greatest stress reached, over the yield stress [-]
  double post_yield_slope = 0; ///< d stress / d strain over the last quarter of the path, over Young's modulus [-]
  std::vector<double> strain;  ///< macroscopic, engineering [-]
  std::vector<double> stress;  ///< over the yield stress [-]
  int iterations = 0;          ///< linear iterations, all steps together
};

/// @param yield_strain  yield stress over Young's modulus of the metal [-], in (0, 0.1)
/// @param last_strain   macroscopic strain to go to [-], in (0, 0.1]; the path goes on past it, to 0.1 at most, until
///                      the plastic strain of `collapse` is reached
/// @throws OutOfDomain for values outside these ranges, a hardening curve that falls, a path that ends before its
///         collapse, a step that does not come to balance, and as solid_stiffness; the message carries the values.
SolidCollapse solid_collapse(const UnitCell& cell, double size_ratio, double poissons_ratio, double yield_strain,
                             const HardeningCurve& hardening, const Eigen::Vector3d& direction, double last_strain,
                             const SolidOptions& options);

/// "110" as a unit vector along [1 1 0].
/// @throws OutOfDomain when it is not three digits, not all zero.
Eigen::Vector3d direction_vector(const std::string& digits);

} // namespace crushwright
