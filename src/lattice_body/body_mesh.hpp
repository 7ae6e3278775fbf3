#pragma once
#include "crushwright/lattice_body.hpp"
#include "crushwright/surface.hpp"
#include "crushwright/unit_cell.hpp"
#include "surface/field_mesh.hpp"

#include <array>
#include <cstddef>
#include <functional>
#include <vector>

namespace crushwright {

/// A box in the structure's own frame [m].
struct BodyBox {
  std::array<double, 3> low{};
  std::array<double, 3> high{};
};

/// A lattice cut to a body's shape, as it is to be printed: everything in the structure's own frame, in metres.
struct LatticeSolid {
  UnitCell cell; ///< strut, sheet, skeletal, plate or honeycomb
  LatticePlacement placement;
  SizeAt size; ///< strut, wall or neck [m]; asked from several threads
  BodyBox box; ///< holds the outer surface, or cuts the lattice itself where there is none
  /// Signed distance to the closed outer surface, negative inside [m] (SurfaceProbe::signed_distance); asked from
  /// several threads. Empty: the lattice fills the box and is cut flat by it.
  FieldAt outer;
  double inset = 0; ///< the lattice is cut by the outer surface moved inwards by so much, the skin's thickness [m]
  double first_station = 0; ///< the lattice is cut flat at this station [m], where an end plate begins
  double last_station = 0;  ///< and at this one; both 0: the surface alone ends it
  bool flat_ends = false;   ///< the box cuts lattice and skin at its ends along x; the surface goes on beyond them
  bool with_skin = false;   ///< the skin, between the outer surface and the inset one, belongs to the same solid
};

/// What comes out of a mesh of a lattice, in metres.
struct BodyPart {
  TriangleMesh mesh;   ///< closed, facing outward; empty where the part holds no metal
  double volume = 0;   ///< [m³]
  double surface = 0;  ///< area of the metal's surface, flat cuts by the box left out [m²]
  double cut_area = 0; ///< area of those cuts [m²]
  double spacing = 0;  ///< largest spacing of the grid along an axis [m]
};

struct BodyMeshOptions {
  double spacing = 0;                      ///< of the grid, at most [m]; > 0
  double block_edge = 0;                   ///< [m]; 0: the body as a whole
  std::size_t most_triangles = 20'000'000; ///< of one mesh: of a block, or of the whole
};

/// The coarsest spacing at which no wall, strut, neck or skin of the body can be lost [m]: a wall or skin over √3, a
/// strut or neck over 3. The size is looked at on 11 × 11 × 11 places of the box.
double coarsest_spacing(const LatticeSolid& solid);

/// A spacing that holds the volume to about 1 % [m]: a quarter of a wall, an eighth of a strut or neck, but never
/// more than coarsest_spacing.
double advised_spacing(const LatticeSolid& solid);

/// About how many triangles the whole body would have at a spacing [-], from the metal's area; to about a third.
double expected_triangles(const LatticeSolid& solid, double spacing);

/// The body, or its blocks, each closed by itself; blocks share their cuts to the last bit and together hold the
/// whole body. In order of z, y, x, x fastest. Only one block is held at a time.
/// @param visitor  receives each part that holds metal, with the place of its block (x, y, z)
/// @return         sums over all parts, without a mesh
/// @throws OutOfDomain when the spacing is coarser than coarsest_spacing, with that spacing; when a mesh would exceed
///         `most_triangles`, with the spacing or the block that would fit; as lattice_field.
BodyPart mesh_body(const LatticeSolid& solid, const BodyMeshOptions& options,
                   const std::function<void(const std::array<int, 3>& block, const BodyPart& part)>& visitor);

/// The same as one mesh; options.block_edge is not looked at.
BodyPart mesh_body(const LatticeSolid& solid, const BodyMeshOptions& options);

/// One cell of the catalogue, the box that repeats, with a corner at the origin, cut flat by its box.
/// @param size_ratio  τ, inside the cell's range
/// @param cell_edge   [m], > 0
/// @throws OutOfDomain as mesh_body.
BodyPart mesh_cell(const UnitCell& cell, double size_ratio, double cell_edge, const BodyMeshOptions& options);

/// The lattice that mesh_cell meshes.
LatticeSolid one_cell(const UnitCell& cell, double size_ratio, double cell_edge);

} // namespace crushwright
