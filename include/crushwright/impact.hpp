#pragma once
#include "crushwright/crush_curve.hpp"
#include "crushwright/pulse_metric.hpp"

#include <string>
#include <vector>

namespace crushwright {

/// A body on the line of impact.
struct Body {
  std::string id;
  double mass = 0;   ///< [kg], > 0 unless held
  bool held = false; ///< fixed to the ground: infinite mass
};

/// m1 m2 / (m1 + m2); the other mass when one is held [kg]. @throws OutOfDomain when both are held.
double effective_mass(const Body& first, const Body& second);

/// ½ μ v² [J].
double available_energy(const Body& first, const Body& second, double closing_speed);

/// Speeds after a central impact with coefficient of restitution e, for bodies with these speeds before [m/s].
struct SpeedsAfter {
  double first;
  double second;
};
SpeedsAfter speeds_after(const Body& first, const Body& second, double first_speed, double second_speed,
                         double restitution);

/// One structure's part in an impact.
struct Column {
  std::string structure;
  const CrushCurve* curve = nullptr; ///< not owned; must outlive the call only
  double share = 1;                  ///< of the available energy, in (0, 1]
};

/// Crush motion between two events: μ_i δ'' = -(force + stiffness (δ - crush)), integrated in closed form.
struct MotionPiece {
  double start;                                              ///< time [s]
  double duration;                                           ///< [s]
  double crush;                                              ///< δ at start [m]
  double speed;                                              ///< δ' at start [m/s]
  double force;                                              ///< at start [N]
  double stiffness;                                          ///< slope of force against crush [N/m]
  double crush_after(double time, double moving_mass) const; ///< time since the piece's start
  double speed_after(double time, double moving_mass) const;
};

/// What one structure did.
struct ColumnMotion {
  std::string structure;
  double share = 1;
  double moving_mass = 0;     ///< share of the effective mass [kg]
  double input_energy = 0;    ///< [J]
  double peak_crush = 0;      ///< [m]
  double peak_force = 0;      ///< [N]
  double stop_force = 0;      ///< at the greatest crush [N]
  double stop_time = 0;       ///< [s]
  double residual_crush = 0;  ///< when the force has gone [m]
  double separation_time = 0; ///< [s]
  double rebound_speed = 0;   ///< [m/s]
  double absorbed = 0;        ///< stays in the structure after unloading [J]
  double returned = 0;        ///< given back in unloading [J]
  bool bottomed = false;      ///< crush went past the bottoming crush
  std::vector<MotionPiece> pieces;
};

/// Something that happened, in time order.
struct ImpactEvent {
  double time;      ///< [s]
  std::string what; ///< contact, first collapse, bottoming, greatest crush, separation
  std::string structure;
};

struct EnergyLedger {
  double input = 0;    ///< ½ μ v² [J]
  double absorbed = 0; ///< plastic work in the structures [J]
  double returned = 0; ///< kinetic energy of the rebound [J]
  double residual = 0; ///< input - absorbed - returned [J]; a check on the integration
};

/// One impact integrated.
struct ImpactMotion {
  Body striker;
  Body struck;
  double closing_speed = 0;  ///< [m/s]
  double effective_mass = 0; ///< [kg]
  std::vector<ColumnMotion> columns;
  double peak_total_force = 0; ///< between the bodies [N]; exact for equal columns, at piece ends otherwise
  EnergyLedger ledger;
};

/// Integrates two bodies that close on each other with structures between them; closed form between the points of the
/// crush curves, located events at each. Each structure stops its own share of the effective mass;
/// docs/method/impact.md.
///
/// @param columns  shares sum to 1.  @throws OutOfDomain for masses, speed or shares outside their domain.
ImpactMotion integrate_impact(const Body& striker, const Body& struck, double closing_speed,
                              const std::vector<Column>& columns);

std::vector<ImpactEvent> events(const ImpactMotion& motion, const std::vector<Column>& columns);

/// Histories sampled from the stored pieces; every vector has shape = (number of samples).
/// Speeds are in the frame in which the struck body is at rest before, or the striker if that one is held.
struct ImpactHistory {
  double step = 0;                               ///< [s]
  std::vector<double> time;                      ///< [s]
  std::vector<double> force;                     ///< total between the bodies [N]
  std::vector<std::vector<double>> column_crush; ///< per structure [m]
  std::vector<std::vector<double>> column_force; ///< per structure [N]
  std::vector<double> striker_speed;             ///< [m/s], positive in the striker's direction
  std::vector<double> struck_speed;              ///< [m/s]
  std::vector<double> striker_acceleration;      ///< magnitude of the deceleration [m/s^2]
  std::vector<double> struck_acceleration;       ///< magnitude [m/s^2]
};
/// @param step  [s]; @throws OutOfDomain when it is not above 0.
ImpactHistory sample(const ImpactMotion& motion, double step);

/// Force as a signal, from contact to the last separation [N]: of one column, or the total without one.
/// @throws OutOfDomain when the step is not above 0.
Signal force_signal(const ImpactMotion& motion, double step, const ColumnMotion* column = nullptr);

/// First time at which a column's crush reaches a value [s]; the stop time when it never does.
double time_at_crush(const ColumnMotion& column, double crush);

/// Impulse between the bodies from contact to a time [N s].
double impulse_until(const ImpactMotion& motion, double time);

/// Magnitude of a body's acceleration as a signal, from contact to separation [m/s^2]; zero for a held body.
/// @throws OutOfDomain when the step is not above 0.
Signal acceleration_signal(const ImpactMotion& motion, const Body& body, double step);

} // namespace crushwright
