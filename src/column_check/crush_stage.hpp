#pragma once
#include "column_check/section_use.hpp"
#include "crushwright/column_check.hpp"

#include <array>
#include <cstddef>
#include <vector>

namespace crushwright {

/// What of a column doesn't change while it is crushed.
struct StandingColumn {
  const BeamColumn* column = nullptr;
  std::vector<PlasticSection> strengths; ///< as the column's sections
  std::vector<double> heights;           ///< of the layers [m]
};

/// @throws OutOfDomain when the sections are not the layers' and the root's, or one has no strength.
StandingColumn standing_column(const BeamColumn& column, const std::vector<Layer>& layers);

/// A column at one force: what is crushed, what stands, and how far each section is from the struck face.
struct CrushStage {
  double crush = 0;                     ///< [m]
  double force = 0;                     ///< axial, of the side [N]
  std::size_t first = 0;                ///< first section that stands: all towards the root of it do too
  double debris = 0;                    ///< length of all before it, as it is now [m]
  std::vector<double> levers;           ///< from the struck face to each section, as it is now [m]
  std::array<double, 2> buckling{0, 0}; ///< by Bending [N]
  std::array<double, 2> tilting{0, 0};  ///< if the force leaves the section at the front [N]; infinity: no debris
  bool stands = true;                   ///< a layer is left that has not collapsed
};

/// @param layer_force  through the layers as they are modelled, without the side's factor [N].
/// @param factor       of the side [-].
CrushStage crush_stage(const StandingColumn& standing, const std::vector<Layer>& layers, double layer_force,
                       double factor);

/// Where the force acts and where it points to; sizes only, because either side is as likely.
struct ForceLine {
  double slope = 0;                         ///< tangent of the angle, sideways
  std::array<double, 2> eccentricity{0, 0}; ///< (y, z) beside the tip's centroid, with sign [m]
  double factor = 1;                        ///< of the side, on forces and strengths of layers [-]
};

/// Worst section of what stands; all zero when nothing does.
SectionUse worst_section(const StandingColumn& standing, const CrushStage& stage, const ForceLine& line);

/// Least force that makes it unstable [N].
struct CriticalForces {
  double buckling = 0;
  double tilting = 0;
};
CriticalForces critical_forces(const StandingColumn& standing, const CrushStage& stage, const ForceLine& line);

/// Of the most loaded bolt.
double bolt_use(const StandingColumn& standing, const CrushStage& stage, const ForceLine& line,
                const BoltPattern& bolts);

/// Stages from the first layer about to collapse up to a force of the layers, rising.
std::vector<CrushStage> crush_stages(const StandingColumn& standing, const std::vector<Layer>& layers,
                                     const ColumnLoading& loading);

/// @throws OutOfDomain when the angle is outside [0, π/2) or the factor is not positive.
ForceLine force_line(const ColumnLoading& loading);

/// Force through the layers, as they are modelled, at the greatest crush [N].
double greatest_layer_force(const std::vector<Layer>& layers, const ColumnLoading& loading);

/// Force at which the first layer begins to collapse [N], as modelled.
double first_collapse(const std::vector<Layer>& layers);

} // namespace crushwright
