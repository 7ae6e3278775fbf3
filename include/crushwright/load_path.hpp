#pragma once
#include "crushwright/envelope.hpp"
#include "crushwright/impact.hpp"
#include "crushwright/quantity.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace crushwright {

/// How the front of the face lies.
enum class FaceShape {
  flat, ///< a rectangle of width and height
  pole, ///< an upright cylinder; its height is not bounded
  wall  ///< flat and not bounded at all
};

/// Over which area of a block the force of a structure is spread.
enum class Spread {
  imprint, ///< the part of the structure that is inside the block: it punches a hole of its own shape
  plate    ///< the whole block, behind a stiff plate: all structures push it together
};

/// One crushable block of a face. Blocks stand one behind the other, the first meets the structures.
struct FaceBlock {
  std::string id;
  Quantity crush_pressure; ///< [Pa], > 0
  Quantity depth;          ///< [m], > 0
  Quantity lock_up;        ///< strain at which it locks [-], in (0, 1)
  Spread spread = Spread::imprint;
  /// Own rectangle where it differs from the face's: width, height, lower edge above ground [m], > 0.
  std::optional<Quantity> width, height, lower_edge;
  std::optional<Quantity> lateral = std::nullopt; ///< y of its middle [m]; the face's where not given
};

std::string_view name_of(FaceShape shape);
std::string_view name_of(Spread spread);

/// What meets the structures: the front of the body that does not carry them.
struct FaceInput {
  FaceShape shape = FaceShape::flat;
  Quantity width;                ///< of a flat face, or the diameter of a pole [m]; 0 for a wall
  Quantity height;               ///< of a flat face [m]; 0 when not bounded
  Quantity lower_edge;           ///< above ground [m]
  Quantity lateral;              ///< y of its middle, positive left [m]; from an overlap when the case states one
  Quantity angle;                ///< about the vertical axis [rad]; positive: its left end comes first
  std::vector<FaceBlock> blocks; ///< empty: rigid
};

/// What carries one structure. It shortens elastically, then at its capacity.
struct AttachmentInput {
  Quantity capacity;                  ///< axial force at which it crushes [N], > 0
  std::optional<Quantity> stiffness;  ///< elastic [N/m]; absent: rigid up to the capacity
  std::optional<Quantity> crush_room; ///< length it can lose before it locks [m]; absent: it crushes on and on
};

/// The rest of a body behind the attachments: an elastic-plastic element.
struct RestOfBodyInput {
  Quantity stiffness;                 ///< elastic [N/m], > 0
  Quantity capacity;                  ///< force at which it crushes [N], > 0
  std::optional<Quantity> hardening;  ///< slope of the force beyond [N/m], >= 0; absent: 0
  std::optional<Quantity> crush_room; ///< [m]; absent: it crushes on and on
};

/// How the face meets one structure.
struct Contact {
  std::string structure;
  bool struck = false;
  double tip_area = 0;      ///< of the structure's struck end [m^2]
  double bearing_area = 0;  ///< of it that the face covers [m^2]
  double bearing_share = 0; ///< [-]
  double tip_lateral = 0;   ///< y of the middle of the whole tip [m]
  double tip_vertical = 0;  ///< z of it [m]
  double stagger = 0;       ///< how far the bodies close before the middle of its bearing is met, the first at 0 [m]
  double lateral = 0;       ///< y of the middle of the bearing area, of the tip where it is missed [m]
  double vertical = 0;      ///< z of it above ground [m]
  double below = 0;         ///< how far the tip reaches below the face's lower edge [m], 0 when it does not
  double above = 0;         ///< how far it reaches above the upper edge [m]
  double beside = 0;        ///< how far it reaches out at a side of the face, the farther of both [m]
  std::vector<std::string> notes; ///< what the engineer should know: partly met, may climb over or dive under, missed
};

/// A structure as the face meets it; nothing is owned.
struct StructurePlace {
  std::string id;
  const Envelope* envelope = nullptr;
  double lateral = 0;  ///< y of its axis [m]
  double vertical = 0; ///< z of its axis above ground [m]
};

/// Bearing of the face on every structure, in their order; docs/method/load_path.md.
/// @throws OutOfDomain when the face has no width or stands at more than 45 degrees.
std::vector<Contact> contacts(const FaceInput& face, const std::vector<StructurePlace>& structures);

/// Curves of what stands in series with the structures; they are owned here and the groups point at them.
struct SeriesCurves {
  /// Imprint blocks from the front, then the attachment. A block that the tip passes by is not among them: its depth
  /// is in the contact's stagger. What never locks has an infinite bottoming crush.
  std::vector<std::vector<CrushCurve>> per_structure;
  std::vector<std::vector<SeriesElement>> elements; ///< as per_structure, pointing into it
  std::vector<CrushCurve> common_curves;            ///< plate blocks, then the rest of the body
  std::vector<SeriesElement> common;                ///< pointing into common_curves
};

/// Which end of every stated interval is taken: crush pressures, capacities, stiffnesses.
enum class SeriesEnd { low, nominal, high };

/// Curves of the face's blocks, the attachments and the rest of the body for the structures of an impact.
///
/// A block under an imprint crushes with pressure times the area of the structure's section that is inside it at that
/// depth, and locks at lock_up times depth; docs/method/load_path.md. Shapes: one entry per structure. Elements are
/// called by their block's id, "attachment" and "rest_of_body".
/// @param face         null: a rigid face.
/// @param contacts     as returned for that face; ignored without one.
/// @param attachments  one per structure, null where none is stated.  @param rest  null: rigid.
/// Moving the result keeps its pointers good; copying does not.
/// @throws OutOfDomain when an attachment or the rest of the body has no room to reach its capacity.
SeriesCurves series_curves(const FaceInput* face, const std::vector<StructurePlace>& structures,
                           const std::vector<Contact>& contacts,
                           const std::vector<const AttachmentInput*>& attachments, const RestOfBodyInput* rest,
                           SeriesEnd end = SeriesEnd::nominal);

} // namespace crushwright
