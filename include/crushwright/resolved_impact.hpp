#pragma once
#include "crushwright/crush_curve.hpp"
#include "crushwright/impact.hpp"
#include "crushwright/pulse_metric.hpp"

#include <string>
#include <vector>

namespace crushwright {

/// One structure as a chain of layers with their own mass between two rigid bodies. Layer 0 is at the struck end.
struct Chain {
  std::string structure;
  const std::vector<Layer>* layers = nullptr; ///< not owned
  std::vector<double> layer_masses;           ///< [kg], one per layer, >= 0
  double tip_mass = 0;                        ///< at the struck end, for instance an end plate [kg], >= 0
  double force_factor = 1;                    ///< on every layer's force [-], > 0
  double crush_factor = 1;                    ///< on every layer's shortening [-], > 0
  double share = 1;                           ///< of both bodies' mass, in (0, 1]
  double stagger = 0;                         ///< how far the bodies close before the tip is touched [m], >= 0
};

/// What one chain did.
struct ResolvedChain {
  std::string structure;
  double peak_crush = 0;                 ///< of the chain [m]
  double struck_end_peak_force = 0;      ///< between striker and struck end [N]
  double attachment_peak_force = 0;      ///< [N]
  double quasi_static_crush = 0;         ///< greatest crush that the quasi-static curve gives for the same bodies [m]
  double quasi_static_peak_force = 0;    ///< [N]
  double inertia_energy = 0;             ///< lost where striker and tip join at once, at each touch [J]
  Signal struck_end_force;               ///< [N], each sample a mean over one step; without the impulse of the touch
  Signal attachment_force;               ///< [N]
  Signal quasi_static_force;             ///< of the quasi-static curve between the same bodies [N]
  std::vector<double> crush;             ///< of the chain, at the signals' samples [m]
  std::vector<double> final_shortenings; ///< per layer when all has come to rest or parted [m]
  std::vector<double> first_collapse;    ///< per layer, time at which its collapse began [s]; negative: it did not
  bool front_from_struck_end = false;    ///< layers used by half stand at the struck end and got there in order
};

/// The impact with the structures' own inertia.
struct ResolvedImpact {
  double step = 0;          ///< of the integration [s]
  double closing_speed = 0; ///< [m/s]
  EnergyLedger ledger;      ///< relative to the common motion; `elsewhere` is lost in contact, `released` vibrates
  double momentum_residual = 0; ///< of the whole, over the striker's at the start [-]
  double greatest_difference =
      0; ///< of the attachment force's class 60 signal to the quasi-static one's, over its peak [-]
  bool quasi_static_is_enough = false; ///< crush and class 60 attachment force agree within 5 %
  std::vector<ResolvedChain> chains;
};

/// Integrates striker, chains and struck body: layers are elastic-plastic links with the layer's polyline and elastic
/// unloading, masses at the layer boundaries, contact at the struck end that pushes only. Explicit, second order,
/// step from the stiffest link; docs/method/resolved_impact.md.
///
/// The struck body's mass, or its share, includes its structures' masses. Shares are all 1 (chains in parallel) or
/// sum to 1 (each alone).
///
/// @param steps_per_period  of the fastest link's vibration, >= 20.
/// @throws OutOfDomain for masses, speed, shares or factors outside their domain.
ResolvedImpact resolved_impact(const Body& striker, const Body& struck, double closing_speed,
                               const std::vector<Chain>& chains, double steps_per_period = 40);

/// Stress behind a crushing front that runs from the struck end, σ + ρ v² / ε [Pa]: what a rigid striker at constant
/// speed feels from a long body of one plateau stress.
/// @param plateau_stress  [Pa], >= 0.  @param density  of the cellular body [kg/m^3], > 0.  @param speed  [m/s], >=
/// 0.
/// @param locking_strain  [-], in (0, 1).
double shock_stress(double plateau_stress, double density, double speed, double locking_strain);

/// Speed above which the struck end crushes first, √(0.1 σ ε / ρ) [m/s]: the shock term is then a tenth of the
/// plateau.
double shock_onset_speed(double plateau_stress, double density, double locking_strain);

} // namespace crushwright
