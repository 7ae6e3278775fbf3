#pragma once
#include "crushwright/crush_curve.hpp"
#include "crushwright/pulse_metric.hpp"

#include <string>
#include <string_view>
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

/// What may stand in series with a structure between the two bodies.
enum class ElementKind {
  face_block,  ///< crushable block on the face that meets the structures
  attachment,  ///< what carries one structure, for instance a rail
  rest_of_body ///< what lies behind all attachments
};

/// As reports write it: "face block", "attachment", "rest of the body".
std::string_view name_of(ElementKind kind);

/// Something without mass that takes the same force as the structure, or the structures, it stands in series with.
struct SeriesElement {
  std::string id;
  ElementKind kind = ElementKind::attachment;
  const CrushCurve* curve = nullptr; ///< must never fall; not owned
};

/// One structure with what is in series with it alone.
struct Line {
  std::string structure;
  const CrushCurve* curve = nullptr;    ///< may have a first peak; not owned
  std::vector<SeriesElement> with = {}; ///< in series with this structure alone
  double stagger = 0;                   ///< how far the bodies close before this line is touched [m], >= 0
  double lateral = 0;                   ///< y of its force, positive left [m]
  double vertical = 0;                  ///< z of its force [m]
};

/// Structures that see one and the same motion of the two bodies. An impact has one group when the bodies stay
/// parallel, or one per structure when the case states the share of each; docs/method/impact.md.
struct Group {
  double share = 1;                       ///< of the effective mass, in (0, 1]
  std::vector<Line> lines;                ///< in parallel; at least one
  std::vector<SeriesElement> common = {}; ///< in series with all the lines together
};

/// Motion between two events, δ the closing of the bodies since first contact: m δ'' = -(force + stiffness (δ -
/// closing)), integrated in closed form.
struct MotionPiece {
  double start;                                                ///< time [s]
  double duration;                                             ///< [s]
  double closing;                                              ///< δ at start [m]
  double speed;                                                ///< δ' at start [m/s]
  double force;                                                ///< of the group at start [N]
  double stiffness;                                            ///< slope of the group's force against δ [N/m]
  double closing_after(double time, double moving_mass) const; ///< time since the piece's start
  double speed_after(double time, double moving_mass) const;
};

/// The one motion of a group.
struct GroupMotion {
  double share = 1;
  double moving_mass = 0;     ///< share of the effective mass [kg]
  double peak_closing = 0;    ///< [m]
  double stop_time = 0;       ///< of standstill [s]
  double stop_force = 0;      ///< of the group at standstill [N]
  double separation_time = 0; ///< [s]
  double rebound_speed = 0;   ///< [m/s]
  std::vector<MotionPiece> pieces;
};

/// A structure or an element during one piece of its group's motion: both linear in the closing δ.
struct CrushPiece {
  double crush; ///< at the piece's start [m]
  double rate;  ///< d crush / d δ [-]
  double force; ///< at the piece's start [N]
  double slope; ///< d force / d δ [N/m]
};

/// What one structure did.
struct ColumnMotion {
  std::string structure;
  std::size_t group = 0;      ///< index into ImpactMotion::groups
  double share = 1;           ///< of the available energy: the group's, times the part of the group's energy it took
  double lateral = 0;         ///< y of its force [m]
  double vertical = 0;        ///< z of its force [m]
  double input_energy = 0;    ///< that it had to take [J]: at its greatest crush
  double touch_time = 0;      ///< [s]
  double peak_crush = 0;      ///< [m]
  double peak_force = 0;      ///< [N]
  double stop_force = 0;      ///< at the greatest crush [N]
  double stop_time = 0;       ///< of the greatest crush [s]
  double residual_crush = 0;  ///< when the force has gone [m]
  double separation_time = 0; ///< its force has gone [s]
  double absorbed = 0;        ///< stays in the structure after unloading [J]
  double returned = 0;        ///< given back in unloading [J]
  bool bottomed = false;      ///< crush went past the bottoming crush
  std::vector<CrushPiece> pieces; ///< as its group's
};

/// What one element in series did.
struct ElementMotion {
  std::string id;
  ElementKind kind = ElementKind::attachment;
  std::string structure; ///< that it stands with; empty when common to the group
  std::size_t group = 0;
  double peak_crush = 0;        ///< [m]
  double peak_force = 0;        ///< [N]
  double lasting_crush = 0;     ///< when the force has gone [m]
  double first_crush_time = -1; ///< of the first crush that stays [s]; negative: it stayed elastic
  double absorbed = 0;          ///< [J]
  double returned = 0;          ///< [J]
  bool locked = false;          ///< crush went past the curve's bottoming crush
  std::vector<CrushPiece> pieces;
};

/// Something that happened, in time order.
struct ImpactEvent {
  double time; ///< [s]
  std::string
      what; ///< contact, first collapse, bottoming, greatest crush, separation, first crush of an element, ...
  std::string structure; ///< or element
};

struct EnergyLedger {
  double input = 0;     ///< ½ μ v² [J]
  double absorbed = 0;  ///< stays in the structures [J]
  double elsewhere = 0; ///< stays in face blocks, attachments and the rest of the body [J]
  double released = 0;  ///< lost where a falling force let an element in series spring back at once [J]
  double returned = 0;  ///< kinetic energy of the rebound [J]
  double residual = 0;  ///< input less all of these [J]; a check on the integration
};

/// One impact integrated.
struct ImpactMotion {
  Body striker;
  Body struck;
  double closing_speed = 0;  ///< [m/s]
  double effective_mass = 0; ///< [kg]
  std::vector<GroupMotion> groups;
  std::vector<ColumnMotion> columns;   ///< in the order of groups and lines
  std::vector<ElementMotion> elements; ///< those of the lines in that order, then the common ones of each group
  double peak_total_force = 0;         ///< between the bodies [N]; exact for equal columns, at piece ends otherwise
  EnergyLedger ledger;
};

/// Integrates two bodies that close on each other with structures, and what is in series with them, between; closed
/// form between the points of the curves, located events at each; docs/method/impact.md.
///
/// @param groups  shares sum to 1.  @throws OutOfDomain for masses, speed, shares, staggers or curves outside their
/// domain.
ImpactMotion integrate_impact(const Body& striker, const Body& struck, double closing_speed,
                              const std::vector<Group>& groups);

/// @param groups  those that were integrated.
std::vector<ImpactEvent> events(const ImpactMotion& motion, const std::vector<Group>& groups);

/// Histories sampled from the stored pieces; every vector has shape = (number of samples).
/// Speeds are in the frame in which the struck body is at rest before, or the striker if that one is held.
struct ImpactHistory {
  double step = 0;                                ///< [s]
  std::vector<double> time;                       ///< [s]
  std::vector<double> force;                      ///< total between the bodies [N]
  std::vector<std::vector<double>> column_crush;  ///< per structure [m]
  std::vector<std::vector<double>> column_force;  ///< per structure [N]
  std::vector<std::vector<double>> element_crush; ///< per element [m]
  std::vector<std::vector<double>> element_force; ///< per element [N]
  std::vector<double> striker_speed;              ///< [m/s], positive in the striker's direction
  std::vector<double> struck_speed;               ///< [m/s]
  std::vector<double> striker_acceleration;       ///< magnitude of the deceleration [m/s^2]
  std::vector<double> struck_acceleration;        ///< magnitude [m/s^2]
};
/// @param step  [s]; @throws OutOfDomain when it is not above 0.
ImpactHistory sample(const ImpactMotion& motion, double step);

/// Force as a signal, from contact to the last separation [N]: of one column, or the total without one.
/// @throws OutOfDomain when the step is not above 0.
Signal force_signal(const ImpactMotion& motion, double step, const ColumnMotion* column = nullptr);

/// First time at which a column's crush reaches a value [s]; its stop time when it never does.
double time_at_crush(const ImpactMotion& motion, const ColumnMotion& column, double crush);

/// Impulse between the bodies from contact to a time [N s].
double impulse_until(const ImpactMotion& motion, double time);

/// Change of a body's speed over the whole impact [m/s]; 0 for a held body.
double speed_change(const ImpactMotion& motion, const Body& body);

/// Turning of a body by forces beside its centre of mass, from the motion as if it did not turn.
struct YawLoad {
  double peak_moment = 0;     ///< greatest magnitude about the centre of mass [N m]
  double impulse = 0;         ///< moment over the whole impact, signed, positive turns to the left [N m s]
  double arm = 0;             ///< of the resultant impulse, y [m]
  double rate = 0;            ///< yaw rate that a free body would have after it [rad/s]; 0 without a radius
  double energy = 0;          ///< in that turning [J]
  double share_of_energy = 0; ///< of the available energy [-]
};
/// @param centre  y of the centre of mass [m].  @param radius  of gyration in yaw [m]; 0 when unknown.
YawLoad yaw_load(const ImpactMotion& motion, const Body& body, double centre, double radius);

/// Magnitude of a body's acceleration as a signal, from contact to separation [m/s^2]; zero for a held body.
/// @throws OutOfDomain when the step is not above 0.
Signal acceleration_signal(const ImpactMotion& motion, const Body& body, double step);

} // namespace crushwright
