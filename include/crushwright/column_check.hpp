#pragma once
#include "crushwright/crush_curve.hpp"
#include "crushwright/envelope.hpp"
#include "crushwright/quantity.hpp"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace crushwright {

/// About which axis a section bends.
enum Bending : std::size_t {
  about_vertical = 0, ///< sideways forces, deflection along y
  about_lateral = 1   ///< forces up and down, deflection along z
};

/// What a lattice or a skin is made of, as a beam needs it.
struct BeamMaterial {
  double youngs_modulus = 0;     ///< along the crush axis, homogenised for a lattice [Pa]
  double shear_modulus = 0;      ///< in planes that hold the crush axis [Pa]
  double first_yield = 0;        ///< stress along the axis at which it leaves the elastic range [Pa]
  double collapse_stress = 0;    ///< plateau of a lattice, proof stress of a skin [Pa]
  double shear_strength = 0;     ///< [Pa]
  double density = 0;            ///< of the lattice as a body, of the skin's metal [kg/m^3]
  double metal_proof_stress = 0; ///< 0.2 % proof stress of the metal it is made of [Pa]; 0: not known
};

/// One cross-section as a beam: a lattice inside a skin, either of which may be missing (area 0).
struct BeamSection {
  double station = 0;                                  ///< [m]
  std::array<double, 2> centroid{0, 0};                ///< (y, z) in the structure's frame [m]
  double lattice_area = 0;                             ///< [m^2]
  double skin_area = 0;                                ///< [m^2]
  std::array<double, 2> lattice_second_moment{0, 0};   ///< by Bending, about the centroid [m^4]
  std::array<double, 2> skin_second_moment{0, 0};      ///< [m^4]
  std::array<double, 2> lattice_plastic_modulus{0, 0}; ///< [m^3]
  std::array<double, 2> skin_plastic_modulus{0, 0};    ///< [m^3]
  std::array<double, 2> half_depth{0, 0};              ///< farthest fibre from the centroid [m]
  double skin_thickness = 0;                           ///< [m]; 0 with a skin: taken from its area, as of a box
  BeamMaterial lattice;
  BeamMaterial skin;
  double elastic_axial() const { return lattice.youngs_modulus * lattice_area + skin.youngs_modulus * skin_area; }
  double elastic_bending(Bending axis) const {
    return lattice.youngs_modulus * lattice_second_moment[axis] + skin.youngs_modulus * skin_second_moment[axis];
  }
};

/// Areas, second moments and plastic moduli of an outline and of the same outline moved inwards by the skin, about
/// the whole section's centroid; docs/method/column_check.md. Materials are left for the caller.
/// @param skin_thickness  [m], >= 0.   @throws OutOfDomain when it is negative, and as properties_of.
BeamSection beam_section(const Section& section, double skin_thickness);

/// A structure as a cantilever on its attachment.
struct BeamColumn {
  std::string structure;
  double length = 0;                 ///< [m]
  std::vector<BeamSection> sections; ///< at the layers' middles, then at the root; stations rising
  double tip_mass = 0;               ///< at the struck end, end plate and fittings [kg]
};

/// Bolts that hold a structure's root to what carries it.
struct BoltPattern {
  std::vector<std::array<double, 2>> places; ///< (y, z) from the root section's centroid [m]
  Quantity proof_load;                       ///< that one bolt may carry in tension [N]
  std::optional<Quantity> shear_load;        ///< that one bolt may carry in shear [N]
  Quantity preload;                          ///< of each [N]; 0 when not stated
};

/// Plastic section under force and bending together. Both are shares of what the section carries alone.
struct SectionUse {
  double station = 0; ///< where it is greatest [m]
  double axial = 0;   ///< N / N_p [-]
  double bending = 0; ///< M / M_p, of both axes together [-]
  double shear = 0;   ///< V / V_p [-]
  double use = 0;     ///< of the interaction curve; 1 is plastic collapse [-]
};

/// How a structure stands while it is crushed by a force at an angle.
struct ColumnUnderForce {
  double angle = 0;    ///< of the force to the crush axis, sideways [rad]
  double crush = 0;    ///< where in the stroke it is worst [m]
  double force = 0;    ///< axial there [N]
  SectionUse section;  ///< the worst section of what stands
  double bolt_use = 0; ///< of the most loaded bolt; 0 without bolts [-]
  bool bolts_stated = false;
  double buckling_force = 0; ///< of what stands, as a cantilever with shear [N]
  double tilting_force =
      0; ///< at which the crushed front turns over on the crush force's own stiffness [N]; infinity when it can't
  double stability_reserve = 0; ///< least critical force over the force, less 1 [-]
};

/// What a column check needs of one impact: the force over the crush, and its direction.
struct ColumnLoading {
  const CrushCurve* curve = nullptr; ///< of the side
  double peak_crush = 0;             ///< up to here [m]
  double force_factor = 1;           ///< of the side, on the layers' forces [-]
  double angle = 0;                  ///< of the force, sideways [rad], 0 to π/2 excluded
  double eccentricity = 0;           ///< of the force beside the tip's centroid, sideways [m]
  double vertical_eccentricity = 0;  ///< up [m]
};

/// Worst state over the stroke: at every step of it what is crushed no longer bends, and the lever shortens by the
/// crush; docs/method/column_check.md. `section` with crush and force, `bolt_use`, and the critical forces with
/// `stability_reserve` are each the worst, not all of one moment.
/// @throws OutOfDomain when the sections are not the layers' and the root's, a section has no strength, or the angle
/// or the factor is out of range.
ColumnUnderForce column_under_force(const BeamColumn& column, const std::vector<Layer>& layers,
                                    const ColumnLoading& loading, const BoltPattern* bolts);

/// Smallest angle at which the worst section reaches its plastic limit before the crush force does [rad]; π/2 when
/// none below 45 degrees does. The loading's own angle plays no part, nor do the bolts.
double critical_angle(const BeamColumn& column, const std::vector<Layer>& layers, ColumnLoading loading,
                      const BoltPattern* bolts);

/// Use of the worst section or bolt over angles and force: rows angles, columns shares of the force through the
/// layers at the peak crush, each with what stands at that force; a first peak is left out. 1 is the limit.
struct ColumnMap {
  std::vector<double> angles;           ///< [rad]
  std::vector<double> shares;           ///< of the peak force [-]
  std::vector<std::vector<double>> use; ///< shape = (angles, shares) [-]
};
ColumnMap column_map(const BeamColumn& column, const std::vector<Layer>& layers, const ColumnLoading& loading,
                     const BoltPattern* bolts);

/// Lowest bending frequency of the uncrushed cantilever, shear included, the lower of both axes [Hz].
double bending_frequency(const BeamColumn& column);

/// One load in service, that must stay elastic.
struct ServiceLoad {
  std::string id;
  std::string structure;
  std::array<Quantity, 3> force;        ///< x (positive pushes towards the attachment), y, z at `station` [N]
  Quantity station;                     ///< where the force acts, at the section's centroid [m]
  std::optional<Quantity> pressure;     ///< on one side over the whole length [Pa], positive pushes inwards
  std::string pressure_side;            ///< left, right, upper or lower
  std::array<Quantity, 3> acceleration; ///< of the body, x, y, z [m/s^2]; its masses push the other way
  Quantity carried_mass;                ///< at `station`, moved by the acceleration [kg]
  double cycles = 0;                    ///< in the life; 0: not in the spectrum
  bool alternating = false;             ///< as far to the one side as to the other; else it comes and goes
  Quantity factor;                      ///< on the load, for instance 1.5 [-]
};

/// Greatest local stress of a load without its factor; absent: there is no such part, or its stress cannot be told.
struct NominalStress {
  std::optional<double> skin;    ///< beam and panel together [Pa]
  std::optional<double> lattice; ///< in the struts or walls [Pa]
  std::optional<double> bolt;    ///< tension of the most loaded one [N]
};

/// What a service load does. Uses hold its factor; 1 is the end of the elastic range.
struct ServiceOutcome {
  std::string load;
  std::string structure;
  double skin_use = 0;    ///< greatest equivalent stress over the proof stress [-]
  double lattice_use = 0; ///< of first yield and shear strength together [-]
  double root_use = 0;    ///< of the most loaded bolt; 0 without [-]
  double panel_use = 0;   ///< of the skin between the lattice's nodes under the pressure [-]
  double use = 0;         ///< the greatest of skin with panel, lattice and bolts [-]
  double station = 0;     ///< where [m]
  double deflection = 0;  ///< of the tip, factor included [m]
  NominalStress nominal;
};

/// Linear elastic cantilever with shear; docs/method/service_loads.md.
/// @param bolts      null when none are stated.
/// @param cell_edge  of the lattice that holds the skin [m]; 0: the skin spans its whole face.
/// @throws OutOfDomain when the load acts beyond the attachment, or a section has no stiffness.
ServiceOutcome service_outcome(const BeamColumn& column, const ServiceLoad& load, const BoltPattern* bolts,
                               double cell_edge);

/// Strength against cycles of a metal with the surface it was built with: S(N) = endurance (N_e / N)^(1/slope).
struct FatigueStrength {
  std::string of;             ///< skin, lattice or root
  Quantity amplitude;         ///< fully reversed amplitude at `cycles`: stress [Pa]; of the root force of a bolt [N]
  Quantity cycles;            ///< [-]
  Quantity slope;             ///< k of the line [-], > 0
  Quantity mean_stress_limit; ///< ultimate, for the mean-stress correction, as `amplitude`; 0: not stated
  std::string surface;        ///< as built, machined, ...
};

/// Summed damage of the service loads that carry cycles; 1 is the end of the life.
struct FatigueOutcome {
  std::string structure;
  std::optional<double> skin, lattice, root; ///< damage; absent: open, or there is no such part
  std::string missing;                       ///< what is open and why, in words; empty when nothing is
};

/// Palmgren and Miner's sum over the loads of one structure; docs/method/fatigue.md. Never infinite: a load that the
/// line gives less than one cycle takes one life a cycle.
FatigueOutcome fatigue_outcome(const std::vector<ServiceOutcome>& outcomes, const std::vector<ServiceLoad>& loads,
                               const std::vector<FatigueStrength>& strengths, const std::string& structure);

/// What is left of a structure after a hit that left a shortening.
struct AfterHit {
  double crushed_share = 0;    ///< of the length, layers with lasting collapse [-]
  double length_left = 0;      ///< of layers without [m]
  double standing_at_root = 0; ///< of it, without a gap from the attachment: what still bends as a beam [m]
  double energy_left = 0;      ///< to the same usable stroke's end [J]
  double share_of_energy = 0;  ///< of the new structure's [-]
};

/// @param curve          of the side, with its factors.
/// @param peak_crush     on that curve [m].
/// @param stop_force     through the layers as they are modelled, where the crush was greatest [N]: without the
/// side's
///                       force factor, and not a first peak that was passed before.
/// @param usable_stroke  on that curve [m].
/// @throws OutOfDomain   without layers.
AfterHit after_hit(const CrushCurve& curve, const std::vector<Layer>& layers, double peak_crush, double stop_force,
                   double usable_stroke);

} // namespace crushwright
