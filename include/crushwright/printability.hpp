#pragma once
#include "crushwright/envelope.hpp"
#include "crushwright/lattice_body.hpp"
#include "crushwright/quantity.hpp"
#include "crushwright/unit_cell.hpp"

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace crushwright {

/// The way a part grows on the machine: a unit vector in the structure's frame (x station, y left, z up).
using BuildDirection = std::array<double, 3>;

/// "-x" for an axis, "(0.71, 0, -0.71)" for any other direction.
std::string direction_text(const BuildDirection& direction);

/// What the machine can do. What is absent is not judged.
struct PrintMachine {
  std::optional<std::array<double, 3>> build_volume; ///< two sides of the platform, then the height [m]
  Quantity self_supporting_angle;                    ///< least angle to the platform that needs no support [rad]
  std::optional<Quantity> smallest_feature;          ///< strut, wall, skin or plate [m]
  std::optional<Quantity> longest_span;              ///< that bridges without support [m]
  std::optional<Quantity> smallest_opening;          ///< through which powder leaves [m]
};

/// What a build takes and costs. Cost is computed where currency and at least one price are stated.
struct PrintRates {
  Quantity layer_thickness;               ///< [m]
  Quantity recoat_time;                   ///< each layer [s]
  Quantity volume_rate;                   ///< melted [m^3/s]
  std::optional<Quantity> contour_rate;   ///< of outer surface traced [m^2/s]; absent: counts as melted volume alone
  std::string currency;                   ///< the user's own word; empty: no cost
  std::optional<Quantity> cost_per_hour;  ///< of the machine [currency/h]
  std::optional<Quantity> cost_per_kg;    ///< of the powder [currency/kg]
  std::optional<Quantity> powder_loss;    ///< powder used up beside the part, over the part's own mass [-]; absent: 0
  std::optional<Quantity> cost_per_build; ///< setting up, plate, heat treatment [currency]
  int parts_per_build = 1;                ///< parts that share layers and fixed cost
};

/// How pieces of a split part are bolted together.
struct PrintJoint {
  Quantity flange_thickness; ///< of the plate on each side, over the whole section [m]
  int bolts = 0;             ///< per joint
  Quantity bolt_mass;        ///< each, with nut and washers [kg]
  Quantity bolt_capacity;    ///< each, as the user states it [N]
};

/// The block `printing` of a case.
struct PrintingInput {
  BuildDirection build_direction{-1, 0, 0};
  PrintMachine machine;
  std::optional<PrintRates> rates;
  std::optional<PrintJoint> joint;
  bool plates_printed = true;          ///< end plates grow with the part and close it
  std::optional<Quantity> escape_hole; ///< diameter of the holes through skin or plates that let powder out [m]
};

/// What printability looks at: one structure as it is drawn. Nothing is owned.
struct PrintSubject {
  const Envelope* envelope = nullptr;
  const UnitCell* cell = nullptr; ///< null without a printed lattice; a foam is not printed
  std::array<std::array<double, 3>, 3> axes{
      {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}}; ///< the cell's, in the structure's frame
  double cell_edge = 0;                   ///< [m]
  double smallest_size = 0;               ///< strut or wall, smallest over the length [m]
  double largest_size = 0;                ///< [m]
  double skin_thickness = 0;
  double tip_plate = 0; ///< thickness, 0 without one [m]
  double root_plate = 0;
  double volume = 0;  ///< of metal melted [m^3]
  double mass = 0;    ///< of metal melted [kg]
  double surface = 0; ///< of metal, traced by the contour [m^2]
  double density = 0; ///< of the metal, for flanges [kg/m^3]
};

/// How much of a lattice hangs over: struts by length, walls by area.
struct LatticeSupport {
  double whole = 0;                   ///< strut length [m] or wall area [m^2]; of a cell in cell edges
  double unsupported = 0;             ///< the part of it below the self-supporting angle
  double longest_span = 0;            ///< horizontal run between carried places [m] or [cell edges]
  std::size_t nodes = 0;              ///< of struts; 0 for walls
  std::size_t nodes_without_base = 0; ///< that nothing reaches from below at a self-supporting angle
  double share() const { return whole > 0 ? unsupported / whole : 0; }
};

/// Downward faces of a closed surface that are flatter than the self-supporting angle.
struct Overhang {
  double whole = 0;       ///< area of the surface [m^2]
  double outside = 0;     ///< overhanging area of its outer face, what lies on the platform left out [m^2]
  double inside = 0;      ///< the same of its inner face, the roof of the cavity [m^2]
  double on_platform = 0; ///< area that lies on the platform [m^2]
};

/// The way out for powder.
struct PowderEscape {
  bool closed = false;   ///< powder stays in the part
  double opening = 0;    ///< diameter of the largest ball that finds a way out of every void [m]; 0 when closed
  bool at_least = false; ///< the true opening is larger than can be measured here
  std::string reason;    ///< what closes it or sets the opening, in words
};

/// One piece of the part on the platform.
struct BuildPiece {
  double from = 0; ///< stations [m]
  double to = 0;
  double height = 0;                     ///< along the build direction [m]
  std::array<double, 2> footprint{0, 0}; ///< sides of the rectangle on the platform that holds it [m]
  double turned = 0;                     ///< about the build direction, so that it fits [rad]
};

/// A bolted joint where the part is split.
struct SplitJoint {
  double station = 0;      ///< [m]
  double section_area = 0; ///< [m^2]
  double mass = 0;         ///< flanges and bolts [kg]
  double capacity = 0;     ///< bolts together [N]
  double crush_force = 0;  ///< of the section, nominal, to set beside the capacity [N]; 0 when not known
};

/// Printability of one structure in one build direction.
struct PrintFigures {
  BuildDirection direction{-1, 0, 0};
  LatticeSupport lattice;    ///< of one cell, in cell edges
  std::string share_of;      ///< "strut length", "wall area", "surface area"; empty without a printed lattice
  double longest_span = 0;   ///< [m]
  Overhang overhang;         ///< of skin and printed plates
  double thinnest = 0;       ///< [m]
  std::string thinnest_name; ///< "strut diameter", "skin", ...
  PowderEscape escape;
  bool fit_judged = false;         ///< a build volume is stated
  std::vector<BuildPiece> pieces;  ///< one when it fits whole; empty when no split along the axis fits
  std::vector<SplitJoint> joints;  ///< between the pieces; empty without joint data
  bool stands = true;              ///< on a base of its own; else supports have to hold it
  double build_height = 0;         ///< of the tallest piece; of the whole when no split fits [m]
  double volume = 0;               ///< of metal melted [m^3]
  double mass = 0;                 ///< of metal melted [kg]
  std::optional<double> time;      ///< of the structure's pieces together [s]
  std::optional<double> cost;      ///< [currency]
  std::vector<std::string> faults; ///< what the machine's stated limits are not kept by, one sentence each
};

/// Level A: from the cell and the envelope alone, docs/method/printability.md. Time and cost where rates are stated.
PrintFigures print_figures(const PrintSubject& subject, const PrintingInput& printing);

/// One build direction among others.
struct DirectionTrouble {
  double pieces = 1;      ///< on the platform; infinite when no split fits
  double unsupported = 0; ///< share of lattice and skin below the self-supporting angle, mean of both [-]
  bool stands = true;     ///< on a base of its own
  double effort = 0;      ///< build time [s], or build height [m] where no rates are stated
};

struct BestDirection {
  BuildDirection direction{-1, 0, 0};
  DirectionTrouble trouble;
  std::size_t tried = 0;
};

/// The direction with least trouble: fewest pieces, then the smallest unsupported share to half a per cent, then one
/// in which it stands on its own base, then the least effort to half a per cent; ties go to the simplest direction
/// (axes before diagonals before any other).
BestDirection best_direction(const PrintSubject& subject, const PrintingInput& printing);

/// Level B: from the struts themselves. A node is carried where a strut reaches it from below at a self-supporting
/// angle, or where it touches the platform or is stated in `held`.
/// @param held  one flag a node: it grows out of a skin or a plate; empty: none does.
/// @param platform  height of the platform along the direction [m]; absent: the lowest point of the struts.
LatticeSupport support_of(const StrutBody& body, const BuildDirection& direction, double self_supporting_angle,
                          const std::vector<char>& held = {}, std::optional<double> platform = std::nullopt);

/// Level B: faces of a closed surface, lengths in metres. Both faces count: `outside` for a body, `inside` for the
/// roof of what it encloses. The platform is the lowest point.
Overhang overhang_of(const TriangleMesh& surface, const BuildDirection& direction, double self_supporting_angle);

/// A real body: its struts and the outer surface that they were cut to; either may be left out (null).
struct PrintedBody {
  const StrutBody* struts = nullptr;
  const TriangleMesh* surface = nullptr; ///< outer face, closed [m]
  std::vector<char> held;                ///< nodes that grow out of skin or plates; empty: none
  double volume = 0;                     ///< of metal melted [m^3]; 0 when not known: no time
  double mass = 0;                       ///< of metal melted [kg]
  double metal_surface = 0;              ///< traced by the contour [m^2]
};

struct BodyPrintFigures {
  BuildDirection direction{-1, 0, 0};
  LatticeSupport lattice; ///< in metres
  Overhang overhang;
  double thinnest_strut = 0; ///< diameter [m]; 0 without struts
  double build_height = 0;   ///< [m]
  bool fit_judged = false;
  bool fits = false;
  BuildPiece place; ///< footprint and turn
  std::optional<double> time;
  std::optional<double> cost;
  std::vector<std::string> faults;
};

/// @throws OutOfDomain when the body has neither a strut nor a triangle.
BodyPrintFigures print_figures(const PrintedBody& body, const PrintingInput& printing);

/// The direction with least trouble for a real body, as above; a body that does not fit counts as two pieces.
BestDirection best_direction(const PrintedBody& body, const PrintingInput& printing);

} // namespace crushwright
